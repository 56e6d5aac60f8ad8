using NodaTime;
using Runnel.Place;

namespace Runnel.Steward.Watches;

/// <summary>The values of one channel over a day, made into a mark: its low end and its high end, or its middle by night.</summary>
/// <param name="nightOnly">Only what is read while the sun is well down.</param>
/// <param name="floor">Least departure worth a word.</param>
internal sealed class DailyMarks(bool nightOnly, double floor)
{
    /// <summary>Fewer readings make no mark.</summary>
    private const int LeastReadings = 60, LeastAtNight = 12;

    /// <summary>Ends of a day's readings, without its odd ones.</summary>
    private const double End = 0.05;
    private readonly List<double> _values = [];

    /// <summary>Where the channel comes down to, or its middle by night.</summary>
    public DailyMark Low { get; } = new(floor);

    /// <summary>Where it goes up to; without marks where only nights are read.</summary>
    public DailyMark High { get; } = new(floor);

    public bool NightOnly => nightOnly;

    public void Take(double value) => _values.Add(value);

    /// <summary>Ends a day.</summary>
    /// <param name="day">Days since the log began.</param>
    /// <param name="keep">False: what happened that day makes no mark.</param>
    public void EndDay(double day, bool keep)
    {
        if (keep && _values.Count >= (nightOnly ? LeastAtNight : LeastReadings))
        {
            Low.Take(day, Robust.Quantile(_values, nightOnly ? 0.5 : End));
            if (!nightOnly) High.Take(day, Robust.Quantile(_values, 1 - End));
        }

        _values.Clear();
    }

    /// <summary>The channel's own zero creeps: both ends alike, so that what is between them stays.</summary>
    public bool Creeps()
    {
        if (!Low.Creeps()) return false;
        if (nightOnly) return true;
        double low = Low.Departure, high = High.Departure;
        return Math.Sign(low) == Math.Sign(high) && Math.Abs(low - high) < 0.35 * Math.Max(Math.Abs(low), Math.Abs(high));
    }

    /// <summary>What a channel's marks are, or null where nothing about it is the same every day.</summary>
    public static DailyMarks? Of(LoopState state, Channel channel, int position) => channel.Measures switch
    {
        // A pyranometer's zero by night lies within a few W/m2 (ISO 9060:2018: zero offsets of 7 to 30 W/m2 by class).
        Quantity.SolarIrradiance => new DailyMarks(nightOnly: true, floor: 12),

        // A sump that a two-level switch empties goes up and down between the same levels. Ultrasonic and pressure sensors of that kind keep to a few mm.
        Quantity.Level when position == state.Kit.SumpLevel && state.Kit.BandL is not null => new DailyMarks(nightOnly: false, floor: 12),
        _ => null,
    };
}
