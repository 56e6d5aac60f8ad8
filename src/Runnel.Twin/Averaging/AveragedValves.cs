using Runnel.Place.Water;
using Runnel.Twin.Water;

namespace Runnel.Twin.Averaging;

/// <summary>Valves of a loop whose flows are averaged: timers to the second; levels by what the cycle's lowest and highest reach; rules by fills by its mean fill.</summary>
internal sealed class AveragedValves
{
    private readonly Hydraulics _water;
    private readonly WaterLoop _loop;
    private readonly CycleMean[] _now;
    private readonly int[] _partOf, _from, _to, _of, _fillOf;
    private readonly bool[] _open;
    private readonly double[] _openings;

    public AveragedValves(Hydraulics water, WaterLoop loop, CycleMean[] now, int[] partOf)
    {
        (_water, _loop, _now, _partOf) = (water, loop, now, partOf);
        _from = [.. water.Valves.Select(v => water.IndexOf(v.From))];
        _to = [.. water.Valves.Select(v => water.IndexOf(v.To))];
        _of = [.. water.Valves.Select(v => water.IndexOf(v.Of))];
        _fillOf = [.. water.Valves.Select(v => v.AfterFillS > 0 ? water.Pumps.ToList().FindIndex(p => p.From == v.Of && p.OnM is not null) : -1)];
        (_open, _openings) = (new bool[water.Valves.Count], new double[water.Valves.Count]);
    }

    /// <summary>Whether any acts by other than a timer, so that short steps are needed.</summary>
    public bool Any => _water.Valves.Any(v => v.EveryS == 0);

    public double Openings(int valve) => _openings[valve];

    /// <summary>Lets through what passes in a step, and adds it to what came to each vessel.</summary>
    public void Step(double time, double length, double[] state, Span<double> came)
    {
        for (int v = 0; v < _open.Length; v++)
        {
            double open = OpenS(v, time, length);
            if (open <= 0) continue;
            double flow = _water.Valves[v].RateLPerMin / 60_000 * open;
            if (_from[v] >= 0)
            {
                flow = Math.Min(flow, Math.Max(0, state[_from[v]] + came[_from[v]]));
                came[_from[v]] -= flow;
            }
            else
            {
                state[_loop.Came] += flow;
            }

            state[_loop.FirstLet + v] += flow;
            if (_to[v] >= 0) came[_to[v]] += flow;
            else state[_loop.Left] += flow;
        }
    }

    private double OpenS(int v, double time, double length)
    {
        var valve = _water.Valves[v];
        if (valve.EveryS > 0 && valve.AfterFillS == 0)
        {
            // It first opens after one whole interval.
            double open = 0;
            for (double k = Math.Max(1, Math.Floor((time - valve.RunS) / valve.EveryS)); k * valve.EveryS < time + length; k++)
            {
                double at = k * valve.EveryS;
                open += Math.Max(0, Math.Min(time + length, at + valve.RunS) - Math.Max(time, at));
                if (at >= time) _openings[v]++;
            }

            return open;
        }

        var now = _now[_partOf[_of[v]]];
        if (_fillOf[v] is >= 0 and var pump)
        {
            double starts = now.StartsPerS[pump], fill = starts > 0 ? (1 - now.RunShare[pump]) / starts : now.RunShare[pump] < 0.5 ? double.PositiveInfinity : 0;
            if (fill <= valve.AfterFillS) return 0;
            double times = length / Math.Max(valve.AfterFillS + valve.RunS, 1);
            if (starts > 0) times = Math.Min(times, starts * length * Math.Floor(fill / valve.AfterFillS));
            _openings[v] += times;
            return times * valve.RunS;
        }

        bool was = _open[v], fills = valve.ShutsM > valve.OpensM;
        double low = now.LowM[_of[v]], high = now.HighM[_of[v]];
        if (!was) _open[v] = fills ? low <= valve.OpensM : high >= valve.OpensM;
        else if (fills ? high >= valve.ShutsM : low <= valve.ShutsM) _open[v] = false;
        if (_open[v] && !was) _openings[v]++;
        return _open[v] ? length : 0;
    }
}
