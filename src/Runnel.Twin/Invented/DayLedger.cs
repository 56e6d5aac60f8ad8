using NodaTime;

namespace Runnel.Twin.Invented;

/// <summary>Adds up the true litres by civil day.</summary>
internal sealed class DayLedger
{
    private readonly int[] _dayOf;
    private readonly LocalDate _first;
    private readonly double[][] _sums;
    private double _evaporation, _plants, _rain, _splash, _leak;
    private double _topped, _bled, _drawn, _spilled, _missing, _total;
    private int _day;

    private enum Column { TopUp, StrayTopUp, Bleed, StrayBleed, Rain, Evaporation, Plants, Drawn, Unlogged, Leak, Splash, Spilled, Stored, Canopy }

    public DayLedger(int blocks, Instant start, DateTimeZone zone)
    {
        _first = start.InZone(zone).Date;
        _dayOf = new int[blocks];
        for (int i = 0; i < blocks; i++)
            _dayOf[i] = Period.DaysBetween(_first, start.Plus(Duration.FromSeconds((i + 0.5) * Weather.StepS)).InZone(zone).Date);
        _sums = new double[_dayOf[^1] + 1][];
        for (int i = 0; i < _sums.Length; i++) _sums[i] = new double[14];
    }

    private double this[Column c]
    {
        get => _sums[_day][(int)c];
        set => _sums[_day][(int)c] = value;
    }

    public void Begin(double totalL, Plant plant)
    {
        _total = totalL;
        (_topped, _bled, _drawn, _spilled, _missing) = (plant.ToppedUpL, plant.BledL, plant.DrawnL, plant.SpilledL, plant.NotThereL);
    }

    /// <summary>Rates that hold for this block, L/s.</summary>
    public void Rates(double evaporation, double plants, double rain, double splash, double leak) =>
        (_evaporation, _plants, _rain, _splash, _leak) = (evaporation, plants, rain, splash, leak);

    /// <summary>Books what valves passed so far, under the orders that held (told before an order changes).</summary>
    public void Settle(Plant plant, bool topUpOrdered, bool bleedOrdered)
    {
        this[topUpOrdered ? Column.TopUp : Column.StrayTopUp] += plant.ToppedUpL - _topped;
        this[bleedOrdered ? Column.Bleed : Column.StrayBleed] += plant.BledL - _bled;
        (_topped, _bled) = (plant.ToppedUpL, plant.BledL);
    }

    /// <summary>Books what people took so far.</summary>
    public void Drawn(Plant plant, bool logged)
    {
        this[logged ? Column.Drawn : Column.Unlogged] += plant.DrawnL - _drawn;
        _drawn = plant.DrawnL;
    }

    public void Close(int block, Plant plant, double canopy, bool topUpOrdered, bool bleedOrdered, bool drawLogged)
    {
        Settle(plant, topUpOrdered, bleedOrdered);
        Drawn(plant, drawLogged);
        const double s = Weather.StepS;
        this[Column.Evaporation] += _evaporation * s;
        this[Column.Plants] += _plants * s;
        this[Column.Rain] += _rain * s;
        this[Column.Splash] += _splash * s;
        // A vessel that is dry cannot leak: what was to leave and was not there is taken back.
        this[Column.Leak] += (_leak * s) - (plant.NotThereL - _missing);
        this[Column.Spilled] += plant.SpilledL - _spilled;
        double total = plant.TotalL();
        this[Column.Stored] += total - _total;
        this[Column.Canopy] = canopy;
        (_spilled, _missing, _total) = (plant.SpilledL, plant.NotThereL, total);
        if (block + 1 < _dayOf.Length) _day = _dayOf[block + 1];
    }

    public IReadOnlyList<TrueDay> Days() =>
    [
        .. _sums.Select((d, i) => new TrueDay(_first.PlusDays(i), d[0], d[1], d[2], d[3], d[4], d[5], d[6], d[7], d[8], d[9], d[10], d[11], d[12], d[13])),
    ];
}
