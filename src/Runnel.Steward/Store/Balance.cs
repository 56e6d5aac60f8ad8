using NodaTime;
using Runnel.Science.Statistics;
using Runnel.Steward.Ledger;

namespace Runnel.Steward.Store;

/// <summary>The loop's water by the hour: what the store's reading says against what is known to have gone in and out.</summary>
internal sealed class Balance
{
    private readonly LoopState _state;
    private readonly WeatherUse _weather;
    private readonly double _rainCatchM2;
    private readonly List<double> _factors = [];
    private readonly List<double> _steadies = [];
    private readonly List<double> _differences = [];
    private readonly Dictionary<int, double> _assumed = [];
    private readonly Queue<HalfDay> _waiting = new();
    private readonly PulseCalibration _pulses = new();
    private readonly GaugeFilter? _filter;
    private int _nextReading;
    private Instant _lastReading;
    private int _closed;

    public Balance(LoopState state)
    {
        _state = state;
        _weather = new WeatherUse(state.Place, state.Kit);
        _rainCatchM2 = state.Place.Loop.RainCatchM2 ?? 0;
        bool byLevel = state.Kit.BandL is null && state.Kit.SumpLevel >= 0;
        if (state.Kit.BandL is { } band) _filter = new GaugeFilter(band);
        Gauge = new Gauge(byLevel ? state.Kit.Sump?.FootprintM2 : null);
    }

    /// <summary>Readings farther apart say nothing of what happened between them.</summary>
    private static readonly Duration LongestStep = Duration.FromHours(12);

    /// <summary>Water that takes longer than this to come down through a loop is not above its sills but behind something (common practice:
    /// loops turn over within one to a few hours).</summary>
    private const double LongestReturnS = 12 * 3600;

    private sealed record HalfDay(Instant Start, Instant End);

    public Gauge Gauge { get; }
    public UseFactor Use { get; } = new();

    /// <summary>What each known pulse did to the store's reading, oldest first.</summary>
    public IReadOnlyList<PulseResponse> Responses => _pulses.Responses;

    /// <summary>Hours closed so far.</summary>
    public int HourCount => _closed;

    /// <summary>Scatter of one reading of the store about its neighbours (standard deviation, in units of g).</summary>
    public double ReadingSpread { get; private set; } = 0.05;

    /// <summary>The sun is up at the middle of that hour.</summary>
    public bool IsDay(int hour) => IsDay(Start(hour) + Duration.FromMinutes(30));

    /// <summary>The sun is up then.</summary>
    public bool IsDay(Instant time) => _weather.IsDay(time);

    public Instant Start(int hour) => _state.Hours.Hours[hour].Start;

    /// <summary>Closes the hours that ended by now, and learns from what is old enough.</summary>
    public void CloseHours()
    {
        _state.Hours.At(_state.Now);
        int ended = _state.Hours.IndexOf(_state.Now);
        for (; _closed < ended; _closed++)
        {
            _weather.Close(_state.Hours.Hours[_closed]);
            _factors.Add(Use.Factor);
            _steadies.Add(Use.SteadyLPerH);
            var end = Start(_closed) + Duration.FromHours(1);
            int localHour = end.InZone(_state.Place.Zone).Hour;
            if (localHour is 6 or 18) _waiting.Enqueue(new HalfDay(end - Duration.FromHours(12), end));
            if (localHour != 0) continue;
            LearnSpread();
            LearnByBalance();
            if (_state.Kit.BandL is { } band && _state.Store.UsualFillS is > 0 and var fillS) Gauge.GreatestLitresPerUnit = band / fillS * LongestReturnS;
        }

        _pulses.Look(_state, _state.Store, Gauge, _state.Now, LossBetween);
        LearnUse();
    }

    /// <summary>Litres known to have gone into the loop less those known to have left it, weather not counted.</summary>
    public double KnownL(int hour)
    {
        var h = _state.Hours.Hours[hour];
        return h.TopUpL - h.BleedL - h.DrawnL + (h.RainMm * _rainCatchM2);
    }

    /// <summary>Litres the weather calls for in an hour, with the factor learnt by then.</summary>
    public double UseL(int hour) => (_factors[hour] * WeatherL(hour)) + _steadies[hour];

    /// <summary>Litres the weather calls for in an hour by the plain relations.</summary>
    public double WeatherL(int hour) => _state.Hours.Hours[hour].EvaporationL + _state.Hours.Hours[hour].PlantUseL;

    /// <summary>Litres asked about: they stay unexplained in the ledger, but are left out when later loss is looked for.</summary>
    public void Assume(int hour, double litres) => _assumed[hour] = _assumed.GetValueOrDefault(hour) + litres;

    /// <summary>Factor and steady loss learnt by an hour.</summary>
    public double FactorAt(int hour) => _factors[hour];
    public double SteadyAt(int hour) => _steadies[hour];

    /// <summary>Litres of rain into the loop in an hour.</summary>
    public double RainL(int hour) => _state.Hours.Hours[hour].RainMm * _rainCatchM2;

    /// <summary>Cumulated unexplained litres over the hours from <paramref name="first"/> to <paramref name="last"/> (falls where water is
    /// lost), at the middle of each hour; NaN where the store was not read. Beside it the count of readings.</summary>
    public (double[] Litres, int[] Count) Unexplained(int first, int last)
    {
        int n = last - first + 1;
        var litres = new double[n];
        var counts = new int[n];
        double expected = 0, k = Gauge.LitresPerUnit;
        for (int i = 0; i < n; i++)
        {
            int hour = first + i;
            double known = KnownL(hour), change = known - UseL(hour) + _assumed.GetValueOrDefault(hour);
            var (g, count, knownShare) = ReadHour(hour);
            counts[i] = count;
            litres[i] = count == 0 ? double.NaN : (k * g) - expected - ((change - known) / 2) - (knownShare * known);
            expected += change;
        }

        return (litres, counts);
    }

    /// <summary>The store's reading of one hour, its count, and the share of the hour's known water that had come when it was taken. Where a
    /// valve ran within the hour, the readings before it and those after it are not mixed: the larger group counts.</summary>
    private (double G, int Count, double KnownShare) ReadHour(int hour)
    {
        var start = Start(hour);
        var end = start + Duration.FromHours(1);
        var h = _state.Hours.Hours[hour];
        if (h.TopUpL + h.BleedL <= 0)
        {
            var (g, n) = _state.Store.Between(start, end);
            return (g, n, 0.5);
        }

        var first = end;
        var last = start;
        for (int i = _state.Pulses.Count - 1; i >= 0 && _state.Pulses[i].Start > start - Duration.FromHours(12); i--)
        {
            var pulse = _state.Pulses[i];
            if (pulse.Start >= end || pulse.Start + pulse.Length <= start) continue;
            first = Instant.Min(first, Instant.Max(start, pulse.Start));
            last = Instant.Max(last, Instant.Min(end, pulse.Start + pulse.Length));
        }

        var before = _state.Store.Between(start, first);
        var after = _state.Store.Between(last, end);
        return after.Count >= before.Count ? (after.Centre, after.Count, 1) : (before.Centre, before.Count, 0);
    }

    /// <summary>Litres that left the loop between two times besides known water: weather, less rain, and what went missing at the rate of
    /// the half day before, so that a leak is not laid at a pulse's door.</summary>
    private double LossBetween(Instant from, Instant to)
    {
        double litres = WeatherLitres(from, to) - RainLitres(from, to);
        int last = _state.Hours.IndexOf(from) - 1, first = last - 11;
        if (first < 0 || !Gauge.Known) return litres;
        var (unexplained, counts) = Unexplained(first, last);
        double rate = -HourSeries.Slope(unexplained, counts, 0, unexplained.Length);
        return double.IsNaN(rate) ? litres : litres + (rate * (to - from).TotalHours);
    }

    private double WeatherLitres(Instant from, Instant to) => Sum(from, to, UseL);

    private double RainLitres(Instant from, Instant to) => Sum(from, to, RainL);

    private double Sum(Instant from, Instant to, Func<int, double> perHour)
    {
        double sum = 0;
        int first = Math.Max(0, _state.Hours.IndexOf(from)), last = Math.Min(_closed - 1, _state.Hours.IndexOf(to));
        for (int hour = first; hour <= last; hour++)
        {
            var start = Instant.Max(from, Start(hour));
            var end = Instant.Min(to, Start(hour) + Duration.FromHours(1));
            if (end > start) sum += perHour(hour) * (end - start).TotalHours;
        }

        return sum;
    }

    private void LearnSpread()
    {
        var values = _state.Store.Values;
        int from = Math.Max(1, values.Count - 400);
        _differences.Clear();
        for (int i = from; i < values.Count; i++) _differences.Add(Math.Abs(values[i] - values[i - 1]));
        if (_differences.Count < 20) return;
        _differences.Sort();
        ReadingSpread = Math.Max(1e-4, _differences[_differences.Count / 2] * Robust.MadToSd / Math.Sqrt(2));
    }

    private void LearnUse()
    {
        if (_waiting.Count == 0) return;
        var lag = Duration.FromHours(_state.Now - _state.Began < Duration.FromDays(8) ? 12 : 54);
        while (_waiting.TryPeek(out var half) && half.End + lag <= _state.Now)
        {
            if (!Gauge.Known) return;
            _waiting.Dequeue();
            Learn(half);
        }
    }

    private void Learn(HalfDay half)
    {
        if (_state.LearningHeld(half.Start, half.End)) return;
        // Two fills to either side at least, some of which known water may have spoilt.
        double cycleS = _state.Kit.BandL is null ? 0 : _state.Cycles.TypicalS;
        var side = Duration.FromSeconds(Math.Clamp(3.5 * cycleS, 90 * 60, 4 * 3600));
        var (g0, n0) = _state.Store.Between(half.Start - side, half.Start + side);
        var (g1, n1) = _state.Store.Between(half.End - side, half.End + side);
        if (n0 < 3 || n1 < 3) return;
        double known = Sum(half.Start, half.End, KnownL);
        double rain = Sum(half.Start, half.End, RainL);
        double weather = Sum(half.Start, half.End, WeatherL);
        double k = Gauge.LitresPerUnit;
        double used = known - (k * (g1 - g0));
        double variance = (k * k * ReadingSpread * ReadingSpread * 1.6 * ((1.0 / n0) + (1.0 / n1)))
            + (0.09 * rain * rain) + Math.Pow(Gauge.RelativeSpread * k * (g1 - g0), 2) + 0.25;
        Use.Take(used, weather, (half.End - half.Start).TotalHours, variance);
    }

    /// <summary>Feeds the filter with the readings that are old enough, and offers what it found to the gauge.</summary>
    private void LearnByBalance()
    {
        // What was passed over is taken when it is needed.
        if (_filter is null || Gauge.PulsesTellWell) return;
        var lag = Duration.FromHours(_state.Now - _state.Began < Duration.FromDays(10) ? 4 : 96);
        var times = _state.Store.Times;
        for (; _nextReading < times.Count && times[_nextReading] + lag <= Start(_closed - 1); _nextReading++)
        {
            var from = _lastReading;
            var to = _lastReading = times[_nextReading];
            if (_nextReading == 0)
            {
                _filter.Take(_state.Store.Values[0], 0, 0, 0);
                continue;
            }

            if (to - from > LongestStep || _state.LearningHeld(from, to)) _filter.LoseLevel();
            double known = PulsedBetween(from, to) + Sum(from, to, h => RainL(h) - _state.Hours.Hours[h].DrawnL);
            _filter.Take(_state.Store.Values[_nextReading], known, Sum(from, to, WeatherL), (to - from).TotalHours);
        }

        if (_filter.Solve() is var (value, spread)) Gauge.Offer(value, spread);
    }

    /// <summary>Litres through logged valves between two times, each pulse taken at its middle.</summary>
    private double PulsedBetween(Instant from, Instant to)
    {
        double litres = 0;
        for (int i = _state.Pulses.Count - 1; i >= 0; i--)
        {
            var pulse = _state.Pulses[i];
            var middle = pulse.Start + (pulse.Length / 2);
            if (middle < from - Duration.FromDays(1)) break;
            if (middle >= from && middle < to) litres += pulse.Litres;
        }

        return litres;
    }
}
