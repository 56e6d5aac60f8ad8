namespace Runnel.Twin.Solving;

/// <summary>Looks for events within a step, and finds the first of them to the last digit of the time.</summary>
internal sealed class EventWatch
{
    // A step that begins with a change may come back to the same zero at once (a ball at its bounce): look close behind its beginning too.
    private static readonly double[] CloseLooks = [1e-6, 1e-4, 1e-2];

    private readonly OdeSystem _system;
    private readonly EventDirection[] _directions;
    private readonly double[] _looks, _freshLooks;
    private readonly double[] _atStart, _before, _now, _earlier, _probe, _state;
    private readonly int[] _side, _fired;
    private bool _isFresh;

    public EventWatch(OdeSystem system, SolverOptions options)
    {
        _system = system;
        int count = system.EventCount;
        _directions = [.. Enumerable.Range(0, count).Select(system.DirectionOf)];
        _looks = [.. Enumerable.Range(1, options.EventLooks + 1).Select(i => (double)i / (options.EventLooks + 1))];
        _freshLooks = [.. CloseLooks, .. _looks];
        _atStart = new double[count];
        _before = new double[count];
        _now = new double[count];
        _earlier = new double[count];
        _probe = new double[count];
        _state = new double[system.Count - system.Sums];
        _side = new int[count];
        _fired = new int[count];
    }

    /// <summary>Numbers of the events found last.</summary>
    public ReadOnlySpan<int> Fired => _fired.AsSpan(0, FiredCount);

    public int FiredCount { get; private set; }

    /// <summary>Takes the values at a start, or after a change. An event at zero takes the side to which it goes at a start; after a change it is still to happen.</summary>
    public void Begin(double time, ReadOnlySpan<double> at, bool isStart, ref SolverStatistics work)
    {
        Values(time, at, _atStart, ref work);
        for (int i = 0; i < _side.Length; i++)
        {
            int sign = Math.Sign(_atStart[i]);
            if (sign != 0 || isStart) _side[i] = sign;
        }

        foreach (int i in Fired) _side[i] = 0;
        FiredCount = 0;
        _isFresh = true;
    }

    /// <summary>Takes the values at the end of a step without events, or after events that changed nothing.</summary>
    public void GoOn(double time, ReadOnlySpan<double> at, ref SolverStatistics work)
    {
        Values(time, at, _atStart, ref work);
        for (int i = 0; i < _side.Length; i++)
        {
            int sign = Math.Sign(_atStart[i]);
            if (sign != 0 && Fired.IndexOf(i) < 0) _side[i] = sign;
        }

        FiredCount = 0;
        _isFresh = false;
    }

    /// <summary>The step in which events were found is undone: they have not happened.</summary>
    public void TakeBack()
    {
        foreach (int i in Fired) _side[i] = -_side[i];
        FiredCount = 0;
    }

    /// <summary>The share of the step at which the first events have just happened; above 1 where none did.</summary>
    public double FindFirst(Stepper stepper, ref SolverStatistics work)
    {
        FiredCount = 0;
        double[] shares = _isFresh ? _freshLooks : _looks;
        double tolerance = Tolerance(stepper), shareBefore = 0, shareEarlier = double.NaN;
        _atStart.CopyTo(_before, 0);
        foreach (double share in shares)
        {
            ValuesWithin(stepper, share, _now, ref work);
            double first = double.PositiveInfinity;
            int firstEvent = -1;
            for (int i = 0; i < _side.Length; i++)
            {
                if (double.IsNaN(_now[i])) continue;
                int sign = Math.Sign(_now[i]);
                if (sign == 0) continue;
                if (_side[i] == 0) _side[i] = sign;
                else if (sign != _side[i])
                {
                    if (Counts(i, _side[i])) Sooner(i, Root(stepper, i, shareBefore, share, _before[i], _now[i], tolerance, ref work));
                    else _side[i] = sign; // the wrong way
                }
                else if (!double.IsNaN(shareEarlier) && Dips(i))
                {
                    Sooner(i, Dip(stepper, i, shareEarlier, shareBefore, share, tolerance, ref work));
                }
            }

            if (first <= 1) return Gather(stepper, first, firstEvent, tolerance, ref work);
            _before.CopyTo(_earlier, 0);
            _now.CopyTo(_before, 0);
            shareEarlier = shareBefore;
            shareBefore = share;

            void Sooner(int i, double at)
            {
                if (at < first) (first, firstEvent) = (at, i);
            }
        }

        return 2;
    }

    /// <summary>Where the first of the events found passes zero on the step as it is now, near its end.</summary>
    public double Again(Stepper stepper, ref SolverStatistics work)
    {
        const double step = 1e-4;
        int i = _fired[0];
        ValuesWithin(stepper, 1, _probe, ref work);
        double at = _probe[i];
        ValuesWithin(stepper, 1 - step, _probe, ref work);
        double slope = (at - _probe[i]) / step;
        return slope == 0 || !double.IsFinite(slope) ? 1 : Math.Clamp(1 - (at / slope), 0.9, 1.1);
    }

    /// <summary>Moves on by next to nothing until every event found has passed zero, and gives the state there.</summary>
    public double BehindAll(Stepper stepper, double share, Span<double> at, ref SolverStatistics work)
    {
        double move = Tolerance(stepper);
        for (int tries = 0; tries < 12; tries++, move *= 2)
        {
            ValuesWithin(stepper, share, _probe, ref work);
            bool all = true;
            foreach (int i in Fired) all &= Math.Sign(_probe[i]) != -_side[i];
            if (all) break;
            share += move;
        }

        stepper.Within(share, at);
        return share;
    }

    // After the search, sides of the events found are where they went. Where a value passes zero so slowly that rounding hides it, it is looked for
    // farther on; what hides still was seen behind its zero, and must not be lost.
    private double Gather(Stepper stepper, double first, int firstEvent, double tolerance, ref SolverStatistics work)
    {
        ValuesWithin(stepper, first, _now, ref work);
        double reach = 4 * tolerance;
        do
        {
            ValuesWithin(stepper, Math.Min(1, first + reach), _probe, ref work);
            for (int i = 0; i < _side.Length; i++)
            {
                int sign = Math.Sign(_now[i]) is var s && s != 0 ? s : Math.Sign(_probe[i]);
                bool passed = _side[i] != 0 && (sign == -_side[i] || Math.Sign(_probe[i]) == -_side[i]) && Counts(i, _side[i]);
                if (!passed) continue;
                _side[i] = -_side[i];
                _fired[FiredCount++] = i;
            }

            reach *= 8;
        }
        while (FiredCount == 0 && reach < 1e-6);
        if (FiredCount > 0) return first;
        _side[firstEvent] = -_side[firstEvent];
        _fired[FiredCount++] = firstEvent;
        return first;
    }

    private bool Counts(int i, int from) =>
        _directions[i] == EventDirection.Either || (_directions[i] == EventDirection.Rising ? from < 0 : from > 0);

    // Three looks on one side, the middle one nearest to zero, and a parabola through them that comes close.
    private bool Dips(int i)
    {
        double a = Math.Abs(_earlier[i]), b = Math.Abs(_before[i]), c = Math.Abs(_now[i]);
        return b < a && b <= c && Math.Sign(_earlier[i]) == _side[i] && Math.Sign(_before[i]) == _side[i] && b < 0.5 * Math.Max(a, c);
    }

    // The lowest place between three looks, by golden section; where it lies beyond zero, the way down is an event.
    private double Dip(Stepper stepper, int i, double from, double middle, double to, double tolerance, ref SolverStatistics work)
    {
        const double golden = 0.3819660112501051;
        double x = middle, value = _before[i] * _side[i];
        for (int tries = 0; tries < 60 && to - from > 1e-9; tries++)
        {
            double other = x - from > to - x ? x - (golden * (x - from)) : x + (golden * (to - x));
            ValuesWithin(stepper, other, _probe, ref work);
            double there = _probe[i] * _side[i];
            if (there < 0)
            {
                // The reverse way is met in the next look from behind the zero.
                if (Counts(i, _side[i])) return Root(stepper, i, from, other, value, _probe[i], tolerance, ref work);
                double back = Root(stepper, i, other, to, _probe[i], _now[i], tolerance, ref work);
                _side[i] = -_side[i];
                return Counts(i, _side[i]) ? back : double.PositiveInfinity;
            }

            if (there < value)
            {
                if (other < x) to = x;
                else from = x;
                (x, value) = (other, there);
            }
            else if (other < x)
            {
                from = other;
            }
            else
            {
                to = other;
            }
        }

        return double.PositiveInfinity;
    }

    // Interpolate, truncate, project: Oliveira and Takahashi (2021), ACM Trans. Math. Softw. 47(1). Gives the far end of the bracket.
    private double Root(Stepper stepper, int i, double low, double high, double valueLow, double valueHigh, double tolerance, ref SolverStatistics work)
    {
        int far = Math.Sign(valueHigh);
        if (far == 0) return high;
        double yLow = valueLow * far, yHigh = valueHigh * far;
        if (yLow >= 0) yLow = -double.Epsilon; // it began at zero and was told to be on the other side
        double most = Math.Ceiling(Math.Log2(Math.Max(2, (high - low) / tolerance))), truncate = 0.2 / (high - low);
        for (int j = 0; high - low > tolerance && j < 120; j++)
        {
            double half = (low + high) / 2, radius = Math.Max(0, (tolerance / 2 * Math.Pow(2, most + 1 - j)) - ((high - low) / 2));
            double cut = truncate * (high - low) * (high - low), falsi = ((yHigh * low) - (yLow * high)) / (yHigh - yLow), sign = Math.Sign(half - falsi);
            double x = cut <= Math.Abs(half - falsi) ? falsi + (sign * Math.Max(cut, tolerance / 2)) : half;
            if (Math.Abs(x - half) > radius) x = half - (sign * radius);
            if (!(x > low && x < high)) x = half;
            if (x <= low || x >= high) break;
            ValuesWithin(stepper, x, _probe, ref work);
            double y = _probe[i] * far;
            if (y > 0) (high, yHigh) = (x, y);
            else if (y < 0) (low, yLow) = (x, y);
            else return x;
        }

        return high;
    }

    private static double Tolerance(Stepper stepper) => Math.Max(2e-15, 4 * 2.22e-16 * Math.Abs(stepper.From + stepper.Taken) / stepper.Taken);

    private void ValuesWithin(Stepper stepper, double share, double[] into, ref SolverStatistics work)
    {
        stepper.Within(share, _state);
        Values(stepper.From + (share * stepper.Taken), _state, into, ref work);
    }

    private void Values(double time, ReadOnlySpan<double> at, double[] into, ref SolverStatistics work)
    {
        _system.EventValues(time, at[.._state.Length], into);
        work.EventCalls++;
    }
}
