namespace Runnel.Twin.Invented;

/// <summary>The water of one invented loop, stepped at a fixed small step. Litres, metres, seconds.</summary>
/// <remarks>
/// Each vessel takes one linearly implicit Euler step: the outflow law is linearised about the present head, so small vessels
/// behind wide weirs stay stable, and what leaves is what came in less what stayed: the balance closes to rounding.
/// Outflow laws are tabulated once per vessel, half a millimetre apart.
/// </remarks>
internal sealed class Plant
{
    private const double GridM = 0.0005;
    private readonly int _count;
    private readonly int _sump;
    private readonly double[] _litresPerM, _level, _sill, _rim, _arriving;
    private readonly double[][] _law, _pipe;
    private readonly int[] _pipeAt, _toA, _toB;
    private readonly double[] _shareA;
    private readonly bool[] _siphon, _siphonRuns;
    private readonly double[] _trip, _breakAt;
    private readonly double _shutOffM, _liftM, _ratedLPerS, _sumpRefM, _headSpan, _inletM;

    public Plant(LoopSpec loop, int stepS)
    {
        StepS = stepS;
        Loop = loop;
        var v = loop.Vessels;
        _count = v.Length;
        _sump = loop.Sump;
        _litresPerM = [.. v.Select(x => x.AreaM2 * 1000)];
        _sill = [.. v.Select(x => x.SillM)];
        _rim = [.. v.Select(x => x.RimM)];
        _level = [.. v.Select(x => x.Siphon ? x.BreakM : x.SillM + 0.01)];
        _level[_sump] = loop.Kind == LoopKind.AlwaysOn ? loop.TargetLevelM : loop.SwitchLowM + 0.02;
        _arriving = new double[_count];
        _toA = [.. v.Select(x => x.ToA)];
        _toB = [.. v.Select(x => x.ToB)];
        _shareA = [.. v.Select(x => x.ToB < 0 ? 1 : x.ShareA)];
        _siphon = [.. v.Select(x => x.Siphon)];
        _siphonRuns = new bool[_count];
        _trip = [.. v.Select(x => x.TripM)];
        _breakAt = [.. v.Select(x => x.BreakM)];
        _law = [.. v.Select(Tabulate)];
        _pipe = [.. v.Select(x => new double[Math.Max(1, x.DelayS / stepS)])];
        _pipeAt = new int[_count];
        PumpShare = [.. v.Select(x => x.PumpShare)];
        External = new double[_count];
        Foul = [.. v.Select(_ => 1.0)];
        _ratedLPerS = loop.PumpFlowLPerS;
        _liftM = loop.LiftM;
        _shutOffM = loop.LiftM * loop.HeadRatio;
        _headSpan = _shutOffM - _liftM;
        _sumpRefM = loop.Kind == LoopKind.AlwaysOn ? loop.TargetLevelM : (loop.SwitchLowM + loop.SwitchHighM) / 2;
        _inletM = loop.InletM;
        RiserMissingL = 0;
        Clock = 0;
        SwitchesAt(loop.SwitchLowM, loop.SwitchHighM);
    }

    public LoopSpec Loop { get; }
    public int StepS { get; }

    /// <summary>Seconds since the start.</summary>
    public long Clock { get; private set; }

    /// <summary>Net gain of each vessel from weather, leaves, leaks and splash, L/s.</summary>
    public double[] External { get; }

    /// <summary>Capacity of each outlet as a factor.</summary>
    public double[] Foul { get; }
    public double[] PumpShare { get; }
    public double PumpFactor { get; set; } = 1;
    public double Speed { get; set; } = 1;

    /// <summary>Set while the pump moves no water whatever the switch says.</summary>
    public bool NoFlow { get; set; }

    /// <summary>Level switch welded: it never lets go.</summary>
    public bool Welded { get; set; }

    /// <summary>The pump is not on a level switch: <see cref="SwitchOn"/> is set from outside.</summary>
    public bool Manual { get; set; }
    public bool SwitchOn { get; set; }
    public bool SiphonStuck { get; set; }

    /// <summary>Riser water that runs back at a stop, as a fraction.</summary>
    public double RunsBack { get; set; }
    public double TopUpRate { get; set; }
    public double BleedRate { get; set; }
    public int DrawFrom { get; set; } = -1;
    public double DrawRate { get; set; }

    public double ToppedUpL { get; private set; }
    public double BledL { get; private set; }
    public double DrawnL { get; private set; }
    public double SpilledL { get; private set; }

    /// <summary>Water that was to leave a vessel that had none.</summary>
    public double NotThereL { get; private set; }
    /// <summary>Vessel above the sump that spilled first, or -1, and when.</summary>
    public int FirstSpill { get; private set; } = -1;
    public long FirstSpillAt { get; private set; }
    public double RiserMissingL { get; private set; }
    private double _lowM, _highM;

    /// <summary>Called with the time at each change of the level switch; returns the next levels at which it lets go and starts.</summary>
    public Func<long, bool, (double Low, double High)>? OnEdge { get; set; }

    public double Level(int vessel) => _level[vessel];
    public double SumpLevel => _level[_sump];
    public double PumpedL { get; private set; }

    public void SwitchesAt(double low, double high) => (_lowM, _highM) = (low, high);

    public void AddToSump(double litres) => _level[_sump] += litres / _litresPerM[_sump];

    public void TurnSplit(double factor)
    {
        // The first branch's share changes; the others keep their proportions.
        int first = Array.FindIndex(PumpShare, s => s > 0);
        double was = PumpShare[first], now = Math.Clamp(was * factor, 0.05, 0.95);
        if (was >= 0.999)
        {
            // One branch only: what the valve sheds goes back to the sump's neighbour, the last vessel before it.
            PumpShare[first] = 1 - Math.Abs(1 - now);
            PumpShare[_sump - 1] += 1 - PumpShare[first];
            return;
        }

        for (int i = 0; i < _count; i++) PumpShare[i] = i == first ? now : PumpShare[i] * (1 - now) / (1 - was);
    }

    /// <summary>All water in the loop, L.</summary>
    public double TotalL()
    {
        double sum = Loop.RiserL - RiserMissingL;
        for (int i = 0; i < _count; i++)
        {
            sum += _level[i] * _litresPerM[i];
            foreach (double flow in _pipe[i]) sum += flow * StepS;
        }

        return sum;
    }

    private double[] Tabulate(VesselSpec v)
    {
        double baseM = v.Siphon ? v.BreakM : v.SillM;
        int n = (int)((v.RimM - baseM + 0.05) / GridM) + 3;
        if (v.SillM > 5) return new double[3];
        var law = new double[n];
        for (int i = 1; i < n; i++) law[i] = v.FlowAt(i * GridM);
        return law;
    }

    public void RunUntil(long end)
    {
        double dt = StepS;
        var arriving = _arriving;
        var level = _level;
        while (Clock < end)
        {
            double pumped = Pump(dt);
            for (int i = 0; i < _count; i++)
            {
                // What this vessel's own pipe held long enough arrives below; then its new outflow enters the pipe.
                double inflow = arriving[i] + External[i] + (PumpShare[i] * pumped);
                arriving[i] = 0;
                if (i == DrawFrom)
                {
                    double take = Math.Min(DrawRate, Math.Max(0, (level[i] - 0.03) * _litresPerM[i] / dt));
                    inflow -= take;
                    DrawnL += take * dt;
                }

                if (i == _sump)
                {
                    SumpStep(inflow, dt);
                    continue;
                }

                double k = _litresPerM[i];
                double outflow = 0;
                double h = level[i] - _sill[i];
                if (_siphon[i]) Siphon(i, h, inflow, dt, ref outflow);
                else if (h <= 0)
                {
                    level[i] += inflow * dt / k;
                }
                else
                {
                    var law = _law[i];
                    double x = h * (1 / GridM);
                    int at = (int)x;
                    if (at > law.Length - 2) at = law.Length - 2;
                    double slope = (law[at + 1] - law[at]) * Foul[i];
                    double q = (law[at] * Foul[i]) + (slope * (x - at));
                    slope *= 1 / GridM;
                    double rise = dt * (inflow - q) / (k + (dt * slope));
                    if (rise < -h) rise = -h;
                    outflow = inflow - (k * rise / dt);
                    if (outflow < 0)
                    {
                        outflow = 0;
                        rise = inflow * dt / k;
                    }

                    level[i] += rise;
                }

                if (level[i] > _rim[i])
                {
                    SpilledL += (level[i] - _rim[i]) * k;
                    level[i] = _rim[i];
                    if (FirstSpill < 0) (FirstSpill, FirstSpillAt) = (i, Clock);
                }
                else if (level[i] < 0)
                {
                    NotThereL -= level[i] * k;
                    level[i] = 0;
                }

                var pipe = _pipe[i];
                int slot = _pipeAt[i];
                double arrives = pipe[slot];
                pipe[slot] = outflow;
                _pipeAt[i] = slot + 1 == pipe.Length ? 0 : slot + 1;
                double a = arrives * _shareA[i];
                arriving[_toA[i]] += a;
                if (_toB[i] >= 0) arriving[_toB[i]] += arrives - a;
            }

            Clock += StepS;
            Switch();
        }
    }

    private void Siphon(int i, double h, double inflow, double dt, ref double outflow)
    {
        double k = _litresPerM[i];
        if (!_siphonRuns[i])
        {
            double next = _level[i] + (inflow * dt / k);
            if (SiphonStuck && next > _trip[i])
            {
                // The bell does not prime: water dribbles over its standpipe as fast as it comes.
                outflow = (next - _trip[i]) * k / dt;
                next = _trip[i];
            }
            else if (next >= _trip[i])
            {
                _siphonRuns[i] = true;
            }

            _level[i] = next;
            return;
        }

        var law = _law[i];
        double x = Math.Max(0, h) / GridM;
        int at = Math.Min((int)x, law.Length - 2);
        double q = (law[at] + ((law[at + 1] - law[at]) * (x - at))) * Foul[i];
        // Near the break the weir part of the law closes the flow; the bell takes air a little above it.
        double left = (Math.Max(0, h) * k / dt) + inflow;
        outflow = Math.Max(0, Math.Min(q, left));
        _level[i] += (inflow - outflow) * dt / k;
        if (_level[i] <= _breakAt[i] + 0.004) _siphonRuns[i] = false;
    }

    private double Pump(double dt)
    {
        if (!SwitchOn || NoFlow)
        {
            if (RunsBack > 0 && RiserMissingL < RunsBack * Loop.RiserL)
            {
                double back = Math.Min(0.25 * dt, (RunsBack * Loop.RiserL) - RiserMissingL);
                RiserMissingL += back;
                _level[_sump] += back / _litresPerM[_sump];
            }

            return 0;
        }

        double lift = _liftM + _sumpRefM - _level[_sump];
        double head = (_shutOffM * Speed * Speed) - lift;
        if (head <= 0) return 0;
        double flow = _ratedLPerS * PumpFactor * Math.Sqrt(head / _headSpan);
        double most = Math.Max(0, (_level[_sump] - _inletM) * _litresPerM[_sump] / dt);
        if (flow > most) flow = most;
        _level[_sump] -= flow * dt / _litresPerM[_sump];
        if (RiserMissingL > 0)
        {
            double fill = Math.Min(RiserMissingL, flow * dt);
            RiserMissingL -= fill;
            flow -= fill / dt;
        }

        PumpedL += flow * dt;
        return flow;
    }

    private void SumpStep(double inflow, double dt)
    {
        double k = _litresPerM[_sump];
        double net = inflow + TopUpRate;
        ToppedUpL += TopUpRate * dt;
        if (BleedRate > 0)
        {
            double bleed = Math.Min(BleedRate, Math.Max(0, (_level[_sump] - 0.05) * k / dt));
            net -= bleed;
            BledL += bleed * dt;
        }

        double next = _level[_sump] + (net * dt / k);
        if (next > _rim[_sump])
        {
            SpilledL += (next - _rim[_sump]) * k;
            next = _rim[_sump];
        }
        else if (next < 0)
        {
            NotThereL -= next * k;
            next = 0;
        }

        _level[_sump] = next;
    }

    private void Switch()
    {
        if (Manual) return;
        double z = _level[_sump];
        bool now = SwitchOn ? Welded || z > _lowM : z >= _highM;
        if (now == SwitchOn) return;
        SwitchOn = now;
        if (OnEdge is { } edge) (_lowM, _highM) = edge(Clock, now);
    }
}
