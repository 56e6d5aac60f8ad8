using NodaTime;

namespace Runnel.Steward.Ledger;

/// <summary>One hour's weather and known water.</summary>
internal sealed class Hour(Instant start)
{
    public Instant Start { get; } = start;

    public Mean AirTempC { get; } = new();
    public Mean RelHumidityPercent { get; } = new();
    public Mean IrradianceWPerM2 { get; } = new();
    public Mean WindMPerS { get; } = new();
    public Mean WaterTempC { get; } = new();
    public double RainMm { get; set; }
    public bool RainSeen { get; set; }
    public double TopUpL { get; set; }
    public double BleedL { get; set; }

    /// <summary>Litres people took out and wrote down, less what they put in.</summary>
    public double DrawnL { get; set; }

    /// <summary>Evaporation and plant use as the weather and the plain areas call for, L; set when the hour is over.</summary>
    public double EvaporationL { get; set; }
    public double PlantUseL { get; set; }
}

/// <summary>Running mean.</summary>
internal sealed class Mean
{
    private double _sum;
    public int Count { get; private set; }
    public double? Value => Count == 0 ? null : _sum / Count;

    public void Add(double value)
    {
        _sum += value;
        Count++;
    }
}

/// <summary>The hours of the log, without holes, oldest first.</summary>
internal sealed class HourBook
{
    private readonly List<Hour> _hours = [];

    public IReadOnlyList<Hour> Hours => _hours;

    /// <summary>The hour that holds <paramref name="time"/>; made, with those before it, when it is new.</summary>
    public Hour At(Instant time)
    {
        var start = Floor(time);
        if (_hours.Count == 0) _hours.Add(new Hour(start));
        int index = IndexOf(start);
        if (index < 0) return _hours[0];
        while (_hours.Count <= index) _hours.Add(new Hour(_hours[^1].Start + Duration.FromHours(1)));
        return _hours[index];
    }

    /// <summary>Position of the hour that holds a time; may lie outside the book.</summary>
    public int IndexOf(Instant time) => (int)Math.Round((Floor(time) - _hours[0].Start).TotalHours);

    public static Instant Floor(Instant time) => Instant.FromUnixTimeSeconds(FloorTo(time.ToUnixTimeSeconds(), 3600));

    private static long FloorTo(long value, long step) => value - (((value % step) + step) % step);
}
