using Runnel.Science.Statistics;

namespace Runnel.Steward.Watches;

/// <summary>A value that ought to be the same every day, such as the sun at night: kept day by day, and whether it creeps away.</summary>
/// <param name="floor">A departure smaller than this is never told.</param>
internal sealed class DailyMark(double floor)
{
    /// <summary>Days of which the present is made, of which its slope is made, and that make the habit.</summary>
    private const int Lately = 3, Ramp = 10, LeastHabit = 5, MostHabit = 30;

    /// <summary>Spreads of the habit, and the share of the departure that must have come as a slope.</summary>
    private const double Beyond = 6, AsRamp = 0.4;
    private readonly List<(double Day, double Value)> _marks = [];

    /// <summary>Value of the habit: the middle of the days before the last ten.</summary>
    public double Habit => Robust.Median(Values(Ramp, MostHabit));

    /// <summary>How far the last days stand from the habit.</summary>
    public double Departure => Robust.Median(Values(0, Lately)) - Habit;

    /// <summary>Slope of the last days, a day.</summary>
    public double SlopePerDay
    {
        get
        {
            var lately = _marks[^Math.Min(Ramp, _marks.Count)..];
            double[] days = [.. lately.Select(m => m.Day)], values = [.. lately.Select(m => m.Value)];
            return TheilSen.Fit(days, values).Slope;
        }
    }

    public void Take(double day, double value)
    {
        _marks.Add((day, value));
        if (_marks.Count > Ramp + MostHabit) _marks.RemoveAt(0);
    }

    /// <summary>It creeps: far from its habit on each of the last days, by a slope and not at once.</summary>
    public bool Creeps()
    {
        if (_marks.Count < Ramp + LeastHabit) return false;
        var habit = Values(Ramp, MostHabit);
        double middle = Robust.Median(habit), least = Math.Max(floor, Beyond * Robust.Spread(habit)), departure = Departure;
        bool all = Values(0, Lately).All(v => Math.Sign(departure) * (v - middle) > 0.7 * least);
        return all && Math.Abs(departure) > least && Math.Sign(departure) * SlopePerDay * Ramp > AsRamp * Math.Abs(departure);
    }

    /// <summary>It stands where it used to.</summary>
    public bool IsBack() => Math.Abs(Departure) < 0.5 * floor;

    private List<double> Values(int skip, int most) =>
        [.. _marks.Take(Math.Max(0, _marks.Count - skip)).TakeLast(most).Select(m => m.Value)];
}
