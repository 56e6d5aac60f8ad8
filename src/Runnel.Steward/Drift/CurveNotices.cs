using System.Globalization;
using NodaTime;
using NodaTime.Text;
using Runnel.Place.Findings;

namespace Runnel.Steward.Drift;

/// <summary>Words and causes for departures of the run from its curve.</summary>
internal static class CurveNotices
{
    private static readonly LocalDatePattern Day = LocalDatePattern.CreateWithInvariantCulture("d MMMM");

    public static Notice Step(LoopState state, RunCurveWatch watch, int sign, ShapeFit step, Instant since, double fillsShorter)
    {
        string when = Day.Format(since.InZone(state.Place.Zone).Date);
        string part = step.Shape switch
        {
            DepartureShape.NightStep => " by night",
            DepartureShape.DayStep => " by day",
            _ => "",
        };
        string than = sign > 0 ? "longer" : "shorter";
        return new Notice
        {
            Causes = fillsShorter > 0.03
                ? [new Cause(CauseNames.LoopChanged, 0.55), new Cause(CauseNames.CheckValveLeaking, 0.4)]
                : sign > 0
                    ? [new Cause(CauseNames.LoopChanged, 0.75), new Cause(CauseNames.PumpWeakening, 0.13), new Cause(CauseNames.CheckValveLeaking, 0.1)]
                    : [new Cause(CauseNames.LoopChanged, 0.8), new Cause(CauseNames.DrainFouling, 0.15)],
            Urgency = Urgency.Record,
            Since = since,
            FirstNoticed = state.Now,
            Evidence = string.Create(CultureInfo.InvariantCulture,
                $"From {when} on the pump runs {100 * Math.Abs(step.Size):0.0} % {than}{part} than before at the same fill (half-days scatter by {100 * watch.HalfDaySpread:0.0} %). It came at once and did not grow."),
            FirstAct = step.Shape == DepartureShape.NightStep
                ? "Was anything changed that night (a timer, an inverter's night setting)? If so it is learnt as the new habit."
                : "Was a valve turned, a switch moved, a screen cleaned or a pump changed that day? If so it is learnt as the new habit; if not, look at the pump's inlet.",
        };
    }

    public static Notice Wear(
        LoopState state, RunCurveWatch watch, double perDay, double now, double lead, double fouling, Instant since, List<CurveBin> bins)
    {
        double ramp = Math.Clamp(0.55 - (lead / 10), 0.5, 0.9) * (1 - (0.5 * fouling));
        double daysLeft = Math.Max(0, (Math.Log(2) - Math.Abs(now)) / Math.Abs(perDay));
        return new Notice
        {
            Causes =
            [
                new Cause(CauseNames.PumpWeakening, ramp),
                new Cause(CauseNames.LoopChanged, 0.8 * (1 - ramp)),
                new Cause(CauseNames.DrainFouling, 0.15 * (1 - ramp)),
            ],
            Urgency = Math.Abs(perDay) > 0.04 || daysLeft < 7 ? Urgency.Today : Urgency.Soon,
            Since = since,
            FirstNoticed = state.Now,
            TimeLeft = Duration.FromHours(Math.Floor(0.7 * daysLeft * 24)),
            Evidence = Figures(state, watch, +1, perDay, since, bins) + " The fills themselves and what a top-up does to them are as before, so it is the pump or what it lifts against.",
            FirstAct = "Switch the pump off at the wall and unplug it, then rinse its inlet strainer; look for kinks or growth in the riser.",
        };
    }

    public static Notice Fouling(
        LoopState state, RunCurveWatch watch, int sign, double perDay, double lead, double fouling, Instant since, List<CurveBin> bins)
    {
        double ramp = Math.Clamp(0.55 - (lead / 10), 0.5, 0.9) * fouling;
        return new Notice
        {
            Causes =
            [
                new Cause(CauseNames.DrainFouling, ramp),
                new Cause(CauseNames.LoopChanged, 0.6 * (1 - ramp)),
                sign > 0 ? new Cause(CauseNames.PumpWeakening, 0.3 * (1 - ramp)) : new Cause(CauseNames.TankOverflow, 0.1 * (1 - ramp)),
            ],
            Urgency = Math.Abs(perDay) > 0.02 ? Urgency.Today : Urgency.Soon,
            Since = since,
            FirstNoticed = state.Now,
            Evidence = Figures(state, watch, sign, perDay, since, bins)
                + " Drains hold back water that then seems to be missing; a top-up would not help.",
            FirstAct = "Lift out and rinse the drain screens, lowest first. Leave the top-up shut meanwhile: it would overfill the loop once the drains run free.",
        };
    }

    private static string Figures(LoopState state, RunCurveWatch watch, int sign, double perDay, Instant since, List<CurveBin> bins)
    {
        var today = bins.Where(b => b.Start >= bins[^1].Start - Duration.FromHours(22)).ToList();
        double inverseFill = today.Average(b => b.InverseFill), run = 1 / today.Average(b => b.InverseRun);
        double expected = watch.ExpectedRunS(inverseFill), pm = 1.645 * watch.HalfDaySpread;
        string when = Day.Format(since.InZone(state.Place.Zone).Date);
        return string.Create(CultureInfo.InvariantCulture,
            $"Runs take {Time(run)} where {Time(expected)} ({Time(expected * (1 - pm))} to {Time(expected * (1 + pm))}) fits a fill of {1 / inverseFill / 60:0.0} min, and {(sign > 0 ? "longer" : "shorter")} each day since {when} ({100 * Math.Abs(perDay):0.0} % a day).");
    }

    /// <summary>Short runs in seconds: tenths of a minute would hide what is told.</summary>
    private static string Time(double seconds) =>
        seconds < 600 ? string.Create(CultureInfo.InvariantCulture, $"{seconds:0} s") : string.Create(CultureInfo.InvariantCulture, $"{seconds / 60:0.0} min");
}
