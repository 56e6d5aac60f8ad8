namespace Runnel.Steward.Store;

/// <summary>One way in which the store's reading may move: how much it wanders by itself, and how long water takes to show in it. A Kalman
/// filter over the reading's level and three unknowns: its change for a litre, what weather takes beyond its plain relations, and a steady
/// loss. All are linear, so that every reading teaches all of them at once.</summary>
/// <remarks>Harvey (1989), Forecasting, Structural Time Series Models and the Kalman Filter: local level with regression, the scatter of one
/// reading concentrated out of the likelihood.</remarks>
/// <param name="wander">Standard deviation of the level's own steps, in scatters of one reading, over the root of an hour.</param>
/// <param name="lagH">Time in which water that came shows in the reading, h; 0: at once.</param>
internal sealed class StoreHypothesis(double wander, double lagH)
{
    private const int N = 4, Schooling = 24;

    /// <summary>Farther off than so many of its standard deviations, a reading counts for less.</summary>
    private const double Clip = 3;
    private readonly double[] _x = new double[N];
    private readonly double[] _p = new double[N * N];
    private readonly double[] _pending = new double[3];
    private int _taken;
    private double _squares, _logVariances;
    private int _count;

    /// <summary>Logarithm of the likelihood, less what all hypotheses share.</summary>
    public double LogLikelihood => -0.5 * ((_count * Math.Log(Math.Max(_squares, 1e-12) / Math.Max(1, _count))) + _logVariances);

    /// <summary>Forgets where the level stands, not what was learnt.</summary>
    public void LoseLevel()
    {
        for (int i = 1; i < N; i++) _p[i] = _p[i * N] = 0;
        _p[0] = 1e8;
    }

    /// <summary>Takes a reading and what happened since the one before: litres known to have come, litres the weather called for, and hours.</summary>
    public void Take(double reading, double knownL, double weatherL, double hours)
    {
        if (_taken == 0)
        {
            _x[0] = reading;
            for (int i = 0; i < N; i++) _p[i * (N + 1)] = i == 0 ? 1e8 : 1e4;
        }
        else
        {
            Move(Shown(0, knownL - weatherL, hours), -Shown(1, weatherL, hours), -Shown(2, hours, hours), hours);
        }

        _taken++;
        Learn(reading);
    }

    /// <summary>Change of the reading for a litre, with its standard error; what is likely of weather and steady loss is weighed in.</summary>
    /// <param name="likelyPerLitre">Its likely size, by which weather and steady loss are weighed.</param>
    /// <param name="weatherSpread">Standard deviation of the weather's call about its plain relations, as a share.</param>
    /// <param name="steadySpreadLPerH">Standard deviation of steady losses, L/h.</param>
    /// <returns>Null while too little was read; the change may be below nought where the readings scatter.</returns>
    public (double PerLitre, double Error)? Solve(double likelyPerLitre, double weatherSpread, double steadySpreadLPerH)
    {
        if (_count < 3 * Schooling) return null;
        double scatter2 = _squares / _count;
        double[] x = [.. _x], p = [.. _p];
        Expect(x, p, 2, Math.Pow(weatherSpread * likelyPerLitre, 2) / scatter2);
        Expect(x, p, 3, Math.Pow(steadySpreadLPerH * likelyPerLitre, 2) / scatter2);
        return (x[1], Math.Sqrt(p[N + 1] * scatter2));
    }

    /// <summary>Of what came, how much shows by now: a first-order lag.</summary>
    private double Shown(int what, double came, double hours)
    {
        if (lagH <= 0 || hours <= 0) return came;
        double kept = Math.Exp(-hours / lagH), before = _pending[what];
        _pending[what] = (before * kept) + (came * lagH / hours * (1 - kept));
        return came + before - _pending[what];
    }

    private void Move(double known, double weather, double steady, double hours)
    {
        Span<double> f = [known, weather, steady];
        for (int i = 0; i < 3; i++) _x[0] += f[i] * _x[i + 1];

        // P := F P F', where F differs from the identity in its first row only.
        for (int j = 0; j < N; j++)
        {
            double sum = _p[j];
            for (int i = 0; i < 3; i++) sum += f[i] * _p[((i + 1) * N) + j];
            _p[j] = sum;
        }

        for (int j = 0; j < N; j++)
        {
            double sum = _p[j * N];
            for (int i = 0; i < 3; i++) sum += f[i] * _p[(j * N) + i + 1];
            _p[j * N] = sum;
        }

        _p[0] += wander * wander * hours;
    }

    private void Learn(double reading)
    {
        double off = reading - _x[0], s = _p[0] + 1;
        bool counts = _taken > Schooling && _p[0] < 1e6;
        if (counts && _count > Schooling)
        {
            double z2 = off * off / (s * _squares / _count);
            if (z2 > Clip * Clip) s *= z2 / (Clip * Clip);
        }

        Update(_x, _p, 0, off, s);
        if (!counts) return;
        _squares += off * off / s;
        _logVariances += Math.Log(s);
        _count++;
    }

    /// <summary>Weighs in what is likely: one of the unknowns is nought, give or take.</summary>
    private static void Expect(double[] x, double[] p, int at, double variance) => Update(x, p, at, -x[at], p[at * (N + 1)] + variance);

    /// <summary>A measurement of one state: how far it was off what was foretold, and the variance of that.</summary>
    private static void Update(double[] x, double[] p, int at, double off, double variance)
    {
        Span<double> gain = stackalloc double[N];
        for (int i = 0; i < N; i++) gain[i] = p[(i * N) + at] / variance;
        for (int i = 0; i < N; i++) x[i] += gain[i] * off;
        for (int i = 0; i < N; i++)
        {
            for (int j = i; j < N; j++) p[(i * N) + j] = p[(j * N) + i] = p[(i * N) + j] - (gain[i] * gain[j] * variance);
        }
    }
}
