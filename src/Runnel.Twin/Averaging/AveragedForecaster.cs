using Runnel.Place;
using Runnel.Place.Water;
using Runnel.Twin.Heat;
using Runnel.Twin.Solving;
using Runnel.Twin.Water;

namespace Runnel.Twin.Averaging;

/// <summary>Reckons weeks to years: flows and levels are means over pump cycles, which follow from the water that each part of the loop holds.</summary>
/// <remarks>
/// What moves within minutes repeats itself for a given store; the store itself moves within days, by weather, plants, top-up and spills. The means come from runs of
/// the detailed laws (<see cref="CycleMeans"/>), so nothing is put in twice. Heat and balance are reckoned as for the detailed forecast, on the same states.
/// </remarks>
internal sealed class AveragedForecaster
{
    private const double LPerM3 = 1000, FineS = 300;

    private readonly Hydraulics _water;
    private readonly ForecastOptions _options;
    private readonly WaterLoop _loop;
    private readonly IReadOnlyList<LoopPart> _parts;
    private readonly CycleMeans?[] _means;
    private readonly CycleMean[] _now;
    private readonly int[] _partOf;
    private readonly double[] _state, _storeM3, _ranS, _startsSoFar, _ranSoFar, _through, _mostPerS, _cycledS, _ranInCyclesS;
    private readonly LoopHeat? _heat;
    private readonly VesselRecord[] _vessels;
    private readonly TempRecord[] _temps = [];
    private readonly AveragedValves _valves;

    private AveragedForecaster(PlaceDescription place, ForecastOptions options, IReadOnlyList<LoopPart> parts)
    {
        (_water, _options, _parts) = (place.Hydraulics!, options, parts);
        int vessels = _water.Vessels.Count, pumps = _water.Pumps.Count;
        var builder = LoopBuilder.For(place, options);
        _loop = builder.Build();
        double[] start = builder.Start(_loop);
        _means = new CycleMeans?[parts.Count];
        _now = [.. parts.Select(_ => new CycleMean(_loop.Count, vessels, pumps))];
        _partOf = new int[vessels];
        _state = [.. start];
        _storeM3 = new double[parts.Count];
        (_ranS, _startsSoFar, _ranSoFar, _through) = (new double[pumps], new double[pumps], new double[pumps], new double[vessels]);
        (_mostPerS, _cycledS, _ranInCyclesS) = (new double[pumps], new double[pumps], new double[pumps]);
        for (int c = 0; c < parts.Count; c++)
        {
            foreach (int i in parts[c].Vessels) _partOf[i] = c;
            if (!parts[c].Moves)
            {
                _storeM3[c] = start[parts[c].Vessels[0]];
                continue;
            }

            var loop = _loop.Again();
            _means[c] = new CycleMeans(loop, parts[c], builder.Start(loop), vessels, pumps);
            _storeM3[c] = _means[c]!.StoreM3(start);
        }

        // The first state is that of a loop that runs: its water is the same.
        for (int c = 0; c < parts.Count; c++) SetLevels(c);
        _valves = new AveragedValves(_water, _loop, _now, _partOf);
        _vessels = [.. _water.Vessels.Select((_, i) => new VesselRecord(_loop.LevelM(i, _state)))];
        if (options.Weather is null) return;
        _heat = new(place, _loop, _state, options);
        _temps = [.. _water.Vessels.Select((_, i) => new TempRecord(_heat.TempsC[i]))];
    }

    /// <summary>Runs a forecast on averaged flows.</summary>
    /// <returns>What will happen; null where flows cannot be averaged, and why not.</returns>
    public static (WaterForecast? Forecast, string? WhyNot) TryRun(PlaceDescription place, ForecastOptions options)
    {
        var (parts, whyNot) = LoopParts.Of(place.Hydraulics!);
        if (whyNot is not null) return (null, whyNot);
        var run = new AveragedForecaster(place, options, parts);
        var forecast = run.Run();
        return Array.Exists(run._means, m => m?.Failed is not null) ? (null, "the detailed laws do not repeat themselves") : (forecast, null);
    }

    private WaterForecast Run()
    {
        double end = _options.Days * 86_400, time = 0;
        double[] start = [.. _state], before = [.. _state];
        List<WaterSample> samples = [Sample(before, 0, 0)];
        for (int k = 1; time < end; k++)
        {
            double next = Math.Min(end, k * _options.EveryS), length = next - time;
            _heat?.SetWeather(time, length);
            Array.Clear(_ranS);
            double fine = _valves.Any ? Math.Min(FineS, length) : length;
            for (double at = time; at < next - 1e-9; at += fine) Step(at, Math.Min(fine, next - at));
            _heat?.Follow(time, length, before, _state, _ranS);
            for (int i = 0; i < _temps.Length; i++) _temps[i].See(_heat!.TempsC[i]);
            samples.Add(Sample(before, next, length));
            _state.CopyTo(before, 0);
            time = next;
        }

        return Report(start, samples, time);
    }

    private void Step(double time, double length)
    {
        double[] before = [.. _state.AsSpan(0, _loop.FirstSpilled)];
        Span<double> came = stackalloc double[_water.Vessels.Count];
        came.Clear();
        _valves.Step(time, length, _state, came);
        for (int i = 0; i < came.Length; i++)
        {
            var now = _loop.Condition.Vessels[i];
            double lost = Math.Min(now.LossM3PerS * length, Math.Max(0, _state[i] + came[i])), rained = now.RainM3PerS * length;
            _state[_loop.Lost] += lost;
            _state[_loop.FirstLost + i] += lost;
            _state[_loop.Rained] += rained;
            came[i] += rained - lost;
        }

        // A part that spills may give to another.
        for (int c = 0; c < _parts.Count; c++)
        {
            foreach (int i in _parts[c].Vessels) _storeM3[c] += came[i];
        }

        for (int c = 0; c < _parts.Count; c++) Spill(c, came, time);
        for (int c = 0; c < _parts.Count; c++)
        {
            SetLevels(c);
            if (_parts[c].Moves) Pass(c, before, came, time, length);
        }
    }

    private void Spill(int c, Span<double> came, double time)
    {
        var part = _parts[c];
        int vessel = part.Vessels[^1];
        double most = double.PositiveInfinity;
        if (_means[c] is { } means)
        {
            means.At(_storeM3[c], _now[c]);
            most = means.MostM3;
            if (_now[c].Spills >= 0) vessel = _now[c].Spills;
        }
        else if (_water.Vessels[vessel].RimM is { } rim)
        {
            most = _water.Vessels[vessel].Shape.VolumeM3(rim);
        }

        double over = _storeM3[c] - most;
        if (over <= 1e-9)
        {
            foreach (int i in part.Vessels)
            {
                int leadsTo = _water.IndexOf(_water.Vessels[i].SpillsTo);
                if (leadsTo < 0 || _partOf[leadsTo] != c) _vessels[i].Close(time);
            }

            return;
        }

        _vessels[vessel].Over(time);
        int to = _water.IndexOf(_water.Vessels[vessel].SpillsTo);
        _storeM3[c] -= over;
        _state[_loop.FirstSpilled + vessel] += over;
        came[vessel] -= over;
        if (to < 0)
        {
            _state[_loop.SpilledAway] += over;
            return;
        }

        came[to] += over;
        _storeM3[_partOf[to]] += over;
    }

    private void SetLevels(int c)
    {
        var (part, now) = (_parts[c], _now[c]);
        if (_means[c] is { } means) means.At(_storeM3[c], now);
        else now.Mean[part.Vessels[0]] = _storeM3[c];
        foreach (int i in part.Vessels)
        {
            _state[i] = now.Mean[i];
            if (part.Moves) continue;
            now.LowM[i] = now.HighM[i] = _loop.LevelM(i, _state);
        }

        foreach (int p in part.Pumps) _state[_loop.FirstLine + p] = now.Mean[_loop.FirstLine + p];
    }

    // What flowed in the step: the means, and on top of them what each vessel passed on because it now holds less or more, or because the sky gave or took.
    private void Pass(int c, double[] before, Span<double> came, double time, double length)
    {
        var (part, now) = (_parts[c], _now[c]);
        foreach (int i in part.Vessels) _through[i] = came[i] - (_state[i] - before[i]);
        foreach (int p in part.Pumps)
        {
            _ranS[p] += now.RunShare[p] * length;
            _ranSoFar[p] += now.RunShare[p] * length;
            _startsSoFar[p] += now.StartsPerS[p] * length;
            _mostPerS[p] = Math.Max(_mostPerS[p], now.StartsPerS[p]);
            if (now.StartsPerS[p] > 0) (_cycledS[p], _ranInCyclesS[p]) = (_cycledS[p] + length, _ranInCyclesS[p] + (now.RunShare[p] * length));
            int from = _water.IndexOf(_water.Pumps[p].From), line = _loop.FirstLine + p;
            double all = 0;
            for (int end = 0; end < _water.Pumps[p].Ends.Count; end++)
            {
                int sum = _loop.FirstEnd(p) + end, to = _water.IndexOf(_water.Pumps[p].Ends[end].To);
                double moved = now.Mean[sum] * length;
                _state[sum] += moved;
                all += moved;
                _through[to] += moved;
            }

            _state[_loop.FirstPumped + p] += all;
            _through[from] -= all + _state[line] - before[line];
        }

        foreach (int i in part.Vessels)
        {
            // Spills that go on all the time to another vessel of the same part.
            int spillsTo = _water.IndexOf(_water.Vessels[i].SpillsTo);
            if (spillsTo < 0 || _partOf[spillsTo] != c) continue;
            double over = now.Mean[_loop.FirstSpilled + i] * length;
            if (over > 1e-9) _vessels[i].Over(time);
            else if (_vessels[i].FirstSpillS is not null) _vessels[i].Close(time);
            _state[_loop.FirstSpilled + i] += over;
            _through[i] -= over;
            _through[spillsTo] += over;
        }

        foreach (int i in part.Vessels)
        {
            if (_water.Vessels[i].Outlet is not { } outlet) continue;
            _state[_loop.FirstThrough + i] += _through[i];
            _through[_water.IndexOf(outlet.To)] += _through[i];
        }
    }

    private WaterSample Sample(double[] before, double time, double length)
    {
        double perMin = length > 0 ? LPerM3 * 60 / length : 0;
        double[] levels = new double[_vessels.Length], outs = new double[_vessels.Length], pumped = new double[_ranS.Length];
        for (int i = 0; i < levels.Length; i++)
        {
            levels[i] = _loop.LevelM(i, _state);
            outs[i] = (_state[_loop.FirstThrough + i] - before[_loop.FirstThrough + i]) * perMin;
            var now = _now[_partOf[i]];
            _vessels[i].See(now.LowM[i], time);
            _vessels[i].See(now.HighM[i], time);
        }

        for (int p = 0; p < pumped.Length; p++) pumped[p] = (_state[_loop.FirstPumped + p] - before[_loop.FirstPumped + p]) * perMin;
        return new(time, levels, outs, pumped) { TempC = _heat is null ? [] : [.. _heat.TempsC[..levels.Length]] };
    }

    private WaterForecast Report(double[] start, List<WaterSample> samples, double time)
    {
        double stored = 0, all = 0;
        for (int i = 0; i < _loop.FirstSpilled; i++) (stored, all) = (stored + _state[i] - start[i], all + _state[i]);
        foreach (var vessel in _vessels) vessel.Close(time);
        var vessels = _water.Vessels.Select((vessel, i) => new VesselForecast(
            vessel.Id, vessel.RimM, _vessels[i].StartM, _loop.LevelM(i, _state), _vessels[i].LowM, _vessels[i].HighM, _vessels[i].HighAtS,
            _state[_loop.FirstThrough + i] * LPerM3 * 60 / time, _state[i] * LPerM3, _state[_loop.FirstSpilled + i] * LPerM3, vessel.SpillsTo, _vessels[i].FirstSpillS, _vessels[i].SpillS)
        {
            Temperatures = _heat is null ? null : _temps[i].Told(),
        });
        var pumps = _water.Pumps.Select((pump, p) =>
        {
            double delivered = _state[_loop.FirstPumped + p] * LPerM3, ran = _ranSoFar[p], starts = _startsSoFar[p];
            return new PumpForecast(
                pump.Id, (long)Math.Round(starts), (int)Math.Ceiling(_mostPerS[p] * 3600), ran, delivered, ran > 0 ? delivered / ran * 60 : 0,
                starts >= 2 ? (_cycledS[p] - _ranInCyclesS[p]) / starts : null, starts >= 1 ? _ranInCyclesS[p] / starts : null);
        });
        var valves = _water.Valves.Select((valve, v) => new ValveForecast(valve.Id, (long)Math.Round(_valves.Openings(v)), _state[_loop.FirstLet + v] * LPerM3));
        double balance = _loop.InvariantM3(_state) - _loop.InvariantM3(start);
        var totals = new WaterTotals(
            _state[_loop.Came] * LPerM3, _state[_loop.Rained] * LPerM3, _state[_loop.Lost] * LPerM3, _state[_loop.SpilledAway] * LPerM3, _state[_loop.Left] * LPerM3,
            stored * LPerM3, balance * LPerM3, all * LPerM3);
        return new(StopReason.Reached, time, [.. vessels], [.. pumps], [.. valves], totals, samples, default) { Heat = _heat?.Totals, IsAveraged = true };
    }
}
