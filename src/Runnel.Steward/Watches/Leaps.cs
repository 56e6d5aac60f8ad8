using NodaTime;
using Runnel.Place;

namespace Runnel.Steward.Watches;

/// <summary>Leaps of one channel: how far each value stands off the median of itself and its two neighbours (a running median of three,
/// Tukey 1977), against the third greatest such leap of each earlier day.</summary>
internal sealed class Leaps(double floor, Quantity measures, DateTimeZone zone)
{
    /// <summary>What a notice tells of.</summary>
    public static readonly Duration Told = Duration.FromHours(12);
    private static readonly Duration Window = Duration.FromHours(6);
    private static readonly Duration GreatWindow = Duration.FromHours(12);
    private static readonly Duration Recent = Duration.FromDays(2);
    private static readonly Duration Memory = Duration.FromDays(14);
    private const int LeastDays = 3;
    private const double Beyond = 3;

    private readonly Queue<(Instant Time, double Size)> _leaps = new();
    private readonly List<double> _days = [];
    private readonly double[] _top = new double[3];
    private LocalDate _day;
    private double _before, _middle;
    private int _count;

    /// <summary>The third greatest leap of the wildest of the last ten days.</summary>
    public double Habit => _days.Count == 0 ? 0 : _days.Max();

    /// <summary>Greatest leap of the last hours.</summary>
    public double Largest => _leaps.Count == 0 ? 0 : _leaps.Max(l => l.Size);

    /// <summary>Leaps in the last hours that make a fault: two great ones where none was seen in days, more where single ones happen.</summary>
    public bool IsJumping(Instant now)
    {
        int n = 0, great = 0, older = 0;
        double limit = Math.Max(floor, Beyond * Habit);
        foreach (var leap in _leaps)
        {
            if (leap.Time >= now - Window) n++;
            if (leap.Time < now - Recent) older++;
            else if (leap.Time >= now - GreatWindow && leap.Size > 1.7 * limit) great++;
        }

        return n >= 4 || great >= (older == 0 && _days.Count >= 6 ? 2 : 4);
    }

    /// <summary>Leaps below this are nothing whatever the habit; null: such a channel leaps in health.</summary>
    public static double? FloorOf(Quantity measures) => measures switch
    {
        Quantity.AirTemperature => 1.5,
        Quantity.WaterTemperature => 0.8,
        Quantity.RelativeHumidity => 8,
        Quantity.WindSpeed => 8,
        Quantity.SolarIrradiance => 4,
        Quantity.AirPressure => 0.8,
        Quantity.Level => 12,
        Quantity.DissolvedOxygen => 1,
        Quantity.OxygenSaturation => 12,
        Quantity.Ph => 0.3,
        Quantity.Conductivity => 100,
        Quantity.BatteryVoltage => 1,
        _ => null,
    };

    public void Take(Instant time, double value)
    {
        if (_count >= 2)
        {
            double median = Math.Max(Math.Min(_before, _middle), Math.Min(Math.Max(_before, _middle), value));
            double size = Math.Abs(_middle - median);

            // Clouds make the sun leap by day; between two dark readings nothing does.
            if (measures == Quantity.SolarIrradiance && (Math.Abs(_before) > 3 || Math.Abs(value) > 3)) size = 0;
            var day = time.InZone(zone).Date;
            if (day != _day) CloseDay(day);
            if (size > _top[2]) Insert(size);
            if (_days.Count >= LeastDays && size > Math.Max(floor, Beyond * Habit)) _leaps.Enqueue((time, size));
        }

        while (_leaps.Count > 0 && _leaps.Peek().Time < time - Memory) _leaps.Dequeue();
        _before = _middle;
        _middle = value;
        _count++;
    }

    public int CountSince(Instant from) => _leaps.Count(l => l.Time >= from);

    public Instant FirstSince(Instant from)
    {
        foreach (var leap in _leaps)
        {
            if (leap.Time >= from) return leap.Time;
        }

        return from;
    }

    private void CloseDay(LocalDate day)
    {
        // A day that leapt beyond the habit teaches nothing; the first days have nothing to be held against.
        bool wild = _days.Count >= LeastDays && _top[2] > Math.Max(floor, Beyond * Habit);
        if (_day != default && !wild)
        {
            _days.Add(_top[2]);
            if (_days.Count > 10) _days.RemoveAt(0);
        }

        Array.Clear(_top);
        _day = day;
    }

    private void Insert(double size)
    {
        _top[2] = size;
        if (_top[2] > _top[1]) (_top[1], _top[2]) = (_top[2], _top[1]);
        if (_top[1] > _top[0]) (_top[0], _top[1]) = (_top[1], _top[0]);
    }
}
