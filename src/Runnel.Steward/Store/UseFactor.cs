namespace Runnel.Steward.Store;

/// <summary>How much of the weather's call the loop really uses, and what it loses steadily besides (splash, a slow drip). Learnt from
/// half-days of the balance, days late, so that a fault does not teach itself; follows canopy growth slowly.</summary>
/// <remarks>A Kalman filter over two slowly walking states: use = factor x weather + steady.</remarks>
internal sealed class UseFactor
{
    private double _factor = 1, _steady;
    private double _pff = 0.25, _pfs, _pss = 0.04;

    public double Factor => _factor;
    public double FactorSpread => Math.Sqrt(_pff);

    /// <summary>Litres an hour, day and night.</summary>
    public double SteadyLPerH => _steady;
    public int Count { get; private set; }

    /// <summary>Takes one stretch: litres it used, litres the weather called for, its hours, and the variance of the litres used.</summary>
    public void Take(double usedL, double weatherL, double hours, double variance)
    {
        // Walks by half-days: canopy and shade change by a few per cent a day at most.
        _pff += 0.0002;
        _pss += 0.0002;
        double expected = (_factor * weatherL) + (_steady * hours);

        // The weather's own call is good to about a fifth of an hour's value.
        double noise = variance + (0.04 * weatherL * weatherL * _factor * _factor);
        double innovation = usedL - expected;
        double s = (weatherL * weatherL * _pff) + (2 * weatherL * hours * _pfs) + (hours * hours * _pss) + noise;

        // A half-day far off is an event, not a habit.
        if (Count > 8 && innovation * innovation > 12 * s) innovation *= Math.Sqrt(12 * s) / Math.Abs(innovation) * 0.3;
        double kf = ((weatherL * _pff) + (hours * _pfs)) / s, ks = ((weatherL * _pfs) + (hours * _pss)) / s;
        _factor = Math.Clamp(_factor + (kf * innovation), 0.05, 6);
        _steady = Math.Clamp(_steady + (ks * innovation), -0.5, 3);
        double ff = _pff, fs = _pfs, ss = _pss;
        _pff = ff - (kf * ((weatherL * ff) + (hours * fs)));
        _pfs = fs - (kf * ((weatherL * fs) + (hours * ss)));
        _pss = ss - (ks * ((weatherL * fs) + (hours * ss)));
        Count++;
    }
}
