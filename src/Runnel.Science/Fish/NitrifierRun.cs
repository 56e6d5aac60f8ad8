namespace Runnel.Science.Fish;

/// <summary>The start of a filter, from the first ammonia to the day on which both ammonia and nitrite are gone.</summary>
/// <param name="TanPeakMgNPerL">Highest total ammonia nitrogen, mg N/L.</param>
/// <param name="TanPeakDay">Its day.</param>
/// <param name="No2PeakMgNPerL">Highest nitrite nitrogen, mg N/L.</param>
/// <param name="No2PeakDay">Its day.</param>
/// <param name="CycledDay">Day on which both are below 0.25 mg N/L after the nitrite peak; null where that is not within the days looked at.</param>
public readonly record struct FilterStart(double TanPeakMgNPerL, double TanPeakDay, double No2PeakMgNPerL, double No2PeakDay, double? CycledDay);

/// <summary>Runs the nitrifier box over days: fourth-order Runge-Kutta with steps that its fastest rate allows.</summary>
public static class NitrifierRun
{
    /// <summary>What counts as gone, mg N/L.</summary>
    public const double GoneMgNPerL = 0.25;

    private const double LongestStepDays = 0.02, FastestPerDay = 2000;

    /// <summary>State after some days.</summary>
    /// <param name="start">State at the start.</param>
    /// <param name="around">Surroundings.</param>
    /// <param name="days">Days, 0 to 400.</param>
    /// <returns>State.</returns>
    /// <exception cref="ArgumentOutOfRangeException">An input is NaN or out of range, or there is so much media that the box is empty of ammonia within minutes.</exception>
    public static NitrifierState After(NitrifierState start, NitrifierSurroundings around, double days)
    {
        Require.InRange(days, 0, 400);
        var rates = NitrifierBox.Rates.In(around);
        int steps = (int)Math.Ceiling(days / StepOf(rates));
        double step = steps == 0 ? 0 : days / steps;
        var state = start;
        for (int i = 0; i < steps; i++) state = Step(state, rates, step);
        return state;
    }

    /// <summary>The milestones of a start.</summary>
    /// <param name="start">State at the start.</param>
    /// <param name="around">Surroundings.</param>
    /// <param name="mostDays">Days to look at, 1 to 400.</param>
    /// <returns>Peaks, and the day when both are gone.</returns>
    /// <exception cref="ArgumentOutOfRangeException">An input is NaN or out of range.</exception>
    public static FilterStart Start(NitrifierState start, NitrifierSurroundings around, double mostDays = 120)
    {
        Require.InRange(mostDays, 1, 400);
        var rates = NitrifierBox.Rates.In(around);
        double step = StepOf(rates), tanPeak = start.Tan, tanDay = 0, no2Peak = start.No2, no2Day = 0;
        var state = start;
        for (int i = 1; i * step <= mostDays; i++)
        {
            state = Step(state, rates, step);
            if (state.Tan > tanPeak) (tanPeak, tanDay) = (state.Tan, i * step);
            if (state.No2 > no2Peak) (no2Peak, no2Day) = (state.No2, i * step);
            else if (no2Peak > GoneMgNPerL && state.Tan < GoneMgNPerL && state.No2 < GoneMgNPerL) return new FilterStart(tanPeak, tanDay, no2Peak, no2Day, i * step);
        }

        return new FilterStart(tanPeak, tanDay, no2Peak, no2Day, null);
    }

    private static double StepOf(in NitrifierBox.Rates rates)
    {
        Require.InRange(rates.FastestPerDay, 0, FastestPerDay, "around");
        return Math.Min(LongestStepDays, 0.5 / rates.FastestPerDay);
    }

    private static NitrifierState Step(NitrifierState s, in NitrifierBox.Rates rates, double h)
    {
        var k1 = NitrifierBox.ChangePerDay(s, rates);
        var k2 = NitrifierBox.ChangePerDay(Plus(s, k1, h / 2), rates);
        var k3 = NitrifierBox.ChangePerDay(Plus(s, k2, h / 2), rates);
        var k4 = NitrifierBox.ChangePerDay(Plus(s, k3, h), rates);
        return new NitrifierState(
            s.Tan + (h / 6 * (k1.Tan + (2 * (k2.Tan + k3.Tan)) + k4.Tan)), s.No2 + (h / 6 * (k1.No2 + (2 * (k2.No2 + k3.No2)) + k4.No2)), s.No3 + (h / 6 * (k1.No3 + (2 * (k2.No3 + k3.No3)) + k4.No3)),
            s.AmmoniaOxidisers + (h / 6 * (k1.AmmoniaOxidisers + (2 * (k2.AmmoniaOxidisers + k3.AmmoniaOxidisers)) + k4.AmmoniaOxidisers)),
            s.NitriteOxidisers + (h / 6 * (k1.NitriteOxidisers + (2 * (k2.NitriteOxidisers + k3.NitriteOxidisers)) + k4.NitriteOxidisers)));
    }

    private static NitrifierState Plus(NitrifierState s, NitrifierState k, double h) => new(
        s.Tan + (h * k.Tan), s.No2 + (h * k.No2), s.No3 + (h * k.No3), s.AmmoniaOxidisers + (h * k.AmmoniaOxidisers), s.NitriteOxidisers + (h * k.NitriteOxidisers));
}
