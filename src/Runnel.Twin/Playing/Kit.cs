using NodaTime;
using Runnel.Place;
using Runnel.Twin.Faults;
using Runnel.Twin.Invented;
using Runnel.Twin.Solving;

namespace Runnel.Twin.Playing;

/// <summary>The sensors and switches of a place: they read the true values each in its own interval, roughly, and some of it never arrives.</summary>
internal sealed class Kit
{
    private readonly PlaceDescription _place;
    private readonly KitQuality _quality;
    private readonly TrueValues _true;
    private readonly StandingFaults _faults;
    private readonly Func<double, Instant> _instant;
    private readonly Seeded _chance;
    private readonly int[] _switches, _sampled;
    private readonly double[] _every, _next, _last, _counted, _state;

    public Kit(PlaceDescription place, KitQuality quality, TrueValues values, StandingFaults faults, Func<double, Instant> instant, int states, int seed)
    {
        (_place, _quality, _true, _faults, _instant) = (place, quality, values, faults, instant);
        _chance = new Seeded(seed, "kit");
        _switches = [.. Enumerable.Range(0, place.Channels.Count).Where(c => values.Knows(c) && values.IsRunning(c))];
        _sampled = [.. Enumerable.Range(0, place.Channels.Count).Where(c => values.Knows(c) && (!values.IsRunning(c) || place.Channels[c].Every is not null))];
        _every = [.. place.Channels.Select(c => c.Every?.TotalSeconds ?? KitQuality.Of(c.Measures).EveryS)];
        _next = new double[_every.Length];
        _last = new double[_every.Length];
        _counted = new double[_every.Length];
        _state = new double[states];
    }

    /// <summary>Takes readings; null while nobody listens.</summary>
    public Action<Reading>? Sink { get; set; }

    /// <summary>When the next reading is due, s.</summary>
    public double NextS { get; private set; } = double.PositiveInfinity;

    /// <summary>Begins to measure.</summary>
    public void Begin(double timeS, ReadOnlySpan<double> state)
    {
        foreach (int c in _sampled)
        {
            // Every sensor has its own beat, on whole seconds.
            _next[c] = timeS + Math.Floor(_chance.Unit() * _every[c]);
            _counted[c] = Counted(c, timeS, state);
        }

        foreach (int c in _switches)
        {
            _last[c] = _true.Runs(c) ? 1 : 0;
            Give(c, timeS, _last[c]);
        }

        FindNext();
    }

    /// <summary>Takes all readings that are due within the solver's last step.</summary>
    public void Sample(OdeSolver solver)
    {
        while (NextS <= solver.Time)
        {
            double at = NextS;
            solver.At(at, _state);
            foreach (int c in _sampled)
            {
                if (_next[c] > at) continue;
                _next[c] += _every[c];
                Measure(c, at);
            }

            FindNext();
        }
    }

    /// <summary>Tells of every switch that changed.</summary>
    public void LookAtSwitches(double timeS)
    {
        foreach (int c in _switches)
        {
            double now = _true.Runs(c) ? 1 : 0;
            var condition = _faults.Channels[c];
            if (now == _last[c] || condition.IsFrozen) continue;
            _last[c] = now;
            if (!condition.IsSilent) Give(c, timeS, now);
        }
    }

    private void Measure(int c, double at)
    {
        var (channel, condition) = (_place.Channels[c], _faults.Channels[c]);
        if (condition.IsSilent || _chance.Chance(_quality.LostShare)) return;
        if (channel.Measures == Quantity.Running)
        {
            Give(c, at, _last[c]);
            return;
        }

        var (noise, step, range, _) = KitQuality.Of(channel.Measures);
        double value = channel.Measures is Quantity.Rain or Quantity.RainTotal or Quantity.Volume or Quantity.VolumeTotal ? Count(c, at) : _true.Of(c, at, _state);
        if (channel.Measures is Quantity.Power or Quantity.Current) noise += 0.004 * value;
        value += noise * _quality.NoiseFactor * condition.NoiseFactor * _chance.Normal();
        value += condition.DriftShare.At(at) * range;
        if (condition.JumpShare > 0 && _chance.Chance(condition.JumpShare)) value += (_chance.Chance(0.5) ? 1 : -1) * range * _chance.Between(0.5, 2);
        if (_quality.NoiseFactor > 0) value = Math.Round(value / step) * step;
        value = Possible(channel.Measures, Math.Round(value, 6));
        if (condition.IsFrozen) value = _last[c];
        _last[c] = value;
        Give(c, at, value);
    }

    // A counter gives whole tips or pulses, and keeps the rest for the next time.
    private double Count(int c, double at)
    {
        double now = Counted(c, at, _state);
        if (_place.Channels[c].Measures is Quantity.RainTotal or Quantity.VolumeTotal) return now;
        double since = now - _counted[c];
        _counted[c] = now;
        return since;
    }

    private double Counted(int c, double at, ReadOnlySpan<double> state)
    {
        var channel = _place.Channels[c];
        if (channel.Measures is not (Quantity.Rain or Quantity.RainTotal or Quantity.Volume or Quantity.VolumeTotal)) return 0;
        double step = channel.Scale != 1 ? Math.Abs(channel.Scale) : KitQuality.Of(channel.Measures).Step;
        return Math.Floor((_true.Of(c, at, state) / step) + 1e-9) * step;
    }

    private static double Possible(Quantity quantity, double value) => quantity switch
    {
        Quantity.RelativeHumidity => Math.Clamp(value, 0, 100),
        Quantity.AirTemperature or Quantity.WaterTemperature => value,
        _ => Math.Max(0, value),
    };

    private void FindNext()
    {
        NextS = double.PositiveInfinity;
        foreach (int c in _sampled) NextS = Math.Min(NextS, _next[c]);
    }

    private void Give(int c, double at, double value) => Sink?.Invoke(new Reading(c, _instant(at), value));
}
