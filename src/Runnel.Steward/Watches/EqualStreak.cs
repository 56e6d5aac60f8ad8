using NodaTime;
using Runnel.Place;

namespace Runnel.Steward.Watches;

/// <summary>How long one channel has kept exactly one value, against how long it ever did.</summary>
/// <remarks>Some values are places of rest: no sun at night, no wind, air full of moisture, a pump at standby. They are the least and the
/// greatest value seen, and are judged apart, against much longer streaks.</remarks>
internal sealed class EqualStreak(Quantity measures, DateTimeZone zone)
{
    private static readonly Duration LeastFrozen = Duration.FromMinutes(150);
    private static readonly Duration LeastFrozenAtRest = Duration.FromHours(30);
    private static readonly Duration LeastCalm = Duration.FromHours(20);
    private static readonly Duration Schooling = Duration.FromDays(3);
    private const int LeastCount = 8;

    /// <summary>A sensor's zero creeps by less than this in two nights, W/m2.</summary>
    private const double NearDark = 20;

    /// <summary>Below this a cup anemometer stands or sticks (common practice).</summary>
    private const double CalmMPerS = 0.6;

    private Instant _first;
    private Instant _last;
    private double _least = double.MaxValue;
    private double _greatest = double.MinValue;
    private readonly List<(double Value, Duration Length)> _long = [];
    private Duration _longestAtRest;
    private readonly HourlyHabit? _daylight = measures == Quantity.SolarIrradiance ? new HourlyHabit(zone) : null;
    private Duration _inDaylight;

    public Instant Start { get; private set; }
    public int Count { get; private set; }
    public double Value { get; private set; }
    public Duration Length => _last - Start;
    public double LongestS => (AtRest ? _longestAtRest : LongestNear(Value)).TotalSeconds;

    public bool IsFrozen
    {
        get
        {
            if (Count < LeastCount || Start - _first < Schooling) return false;

            // A meter at standby tells of a thing that is off, not of a frozen meter.
            if (measures is Quantity.Power or Quantity.Current && AtRest) return false;

            // A light air keeps an anemometer at one rounded value for hours.
            bool light = measures == Quantity.WindSpeed && Value < 1;
            if (!AtRest) return Length >= Duration.Max(light ? LeastCalm : LeastFrozen, LongestNear(Value) * (light ? 4 : 2.2));
            return Length >= Duration.Max(LeastFrozenAtRest, _longestAtRest * 2.5)
                || (_daylight is not null && _inDaylight >= LeastFrozen);
        }
    }

    private bool AtRest => Value <= _least || Value >= _greatest || (measures == Quantity.WindSpeed && Value < CalmMPerS)
        || (measures == Quantity.RelativeHumidity && Value >= 97) || (measures == Quantity.SolarIrradiance && (Value < 3 || DarkHabit))
        || (measures is Quantity.Power or Quantity.Current && Value < 0.2 * _greatest);

    /// <summary>A value near the last nights' that hardly reached into daylight: whatever the sensor's zero is, it rests there by night.</summary>
    private bool DarkHabit => _daylight is { } d && _inDaylight < LeastFrozen && Value < d.Darkest + NearDark;

    /// <summary>The longest streak among values like this one: what stands still before dawn says little of noon.</summary>
    private Duration LongestNear(double value)
    {
        var longest = Duration.Zero;
        double near = 0.12 * Math.Max(0, _greatest - _least);
        foreach (var streak in _long)
        {
            if (Math.Abs(streak.Value - value) <= near) longest = Duration.Max(longest, streak.Length);
        }

        return longest;
    }

    private void Learn()
    {
        if (AtRest)
        {
            _longestAtRest = Duration.Max(_longestAtRest, Length);
        }
        else if (Length > Duration.FromMinutes(25))
        {
            _long.Add((Value, Length));
            if (_long.Count > 300) _long.RemoveRange(0, 50);
        }
    }

    /// <summary>Takes one value; after a hole of the log a streak begins anew.</summary>
    public void Take(Instant time, double value, Instant observedSince)
    {
        bool afterHole = _last < observedSince;
        if (Count == 0 && _first == default) _first = time;
        if (Count > 0 && value == Value && !afterHole)
        {
            if (_daylight?.IsUsuallyUp(time) == true) _inDaylight += time - _last;
            Count++;
            _last = time;
            _daylight?.Take(time, value, learn: _inDaylight < LeastFrozen);
            return;
        }

        if (Count > 0 && !IsFrozen) Learn();

        // A wild spike must not make every other value an inner one; the extremes grow only by values that come twice.
        if (Count > 1 || _least > _greatest)
        {
            double seen = Count > 1 ? Value : value;
            _least = Math.Min(_least, seen);
            _greatest = Math.Max(_greatest, seen);
        }

        _inDaylight = Duration.Zero;
        Start = time;
        _last = time;
        Value = value;
        Count = 1;
        _daylight?.Take(time, value, learn: true);
    }
}

/// <summary>For each hour of the day, the lowest of the day's peaks so far: what the sun shows at that hour on the darkest day.</summary>
internal sealed class HourlyHabit(DateTimeZone zone)
{
    private const int LeastDays = 4;
    private const double Up = 12;
    private readonly double[] _lowestPeak = [.. Enumerable.Repeat(double.MaxValue, 24)];
    private readonly double[] _peak = new double[24];
    private double _lowest = double.MaxValue;
    private LocalDate _day;
    private int _days;

    /// <summary>Lowest value of yesterday.</summary>
    public double Darkest { get; private set; } = double.NaN;

    public bool IsUsuallyUp(Instant time) => _days >= LeastDays && _lowestPeak[time.InZone(zone).Hour] > Up;

    /// <summary>Highest value that this hour ever showed stays below that of dusk.</summary>
    public void Take(Instant time, double value, bool learn)
    {
        var local = time.InZone(zone);
        if (local.Date != _day)
        {
            if (_day != default && learn)
            {
                for (int h = 0; h < 24; h++)
                {
                    // Days grow shorter: an old lowest peak fades upwards only with new days, so the lowest of all is kept.
                    if (_peak[h] >= 0) _lowestPeak[h] = Math.Min(_lowestPeak[h], _peak[h]);
                }

                _days++;
            }

            Darkest = _lowest;
            _lowest = value;
            Array.Fill(_peak, -1);
            _day = local.Date;
        }

        _lowest = Math.Min(_lowest, value);
        _peak[local.Hour] = Math.Max(_peak[local.Hour], value);
    }
}
