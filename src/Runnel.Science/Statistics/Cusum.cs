namespace Runnel.Science.Statistics;

/// <summary>Settings of a two-sided tabular CUSUM, in the units of the data.</summary>
/// <param name="Target">Value expected in health.</param>
/// <param name="Slack">Allowance k: half the shift that should be found soonest; 0.5 standard deviations is usual.</param>
/// <param name="Limit">Decision interval h. 5 standard deviations is tuned for a known mean and spread; with a baseline learnt from
/// 40 to 80 values take 8 to 10 (see <see cref="RunLength"/>).</param>
public readonly record struct CusumDesign(double Target, double Slack, double Limit);

/// <summary>Sums of a two-sided tabular CUSUM and how long each has been above 0.</summary>
/// <param name="High">Upper sum.</param>
/// <param name="Low">Lower sum.</param>
/// <param name="HighRun">Values since the upper sum was last 0.</param>
/// <param name="LowRun">Values since the lower sum was last 0.</param>
public readonly record struct CusumState(double High, double Low, int HighRun, int LowRun);

/// <summary>Tabular CUSUM: finds small lasting shifts of a mean in either direction.</summary>
/// <remarks>Page (1954), Biometrika 41:100-115; Montgomery (2009), Introduction to Statistical Quality Control, 6th ed., section 9.1;
/// NIST/SEMATECH e-Handbook 6.3.2.3. Head start after Lucas and Crosier (1982), Technometrics 24:199-205.</remarks>
public static class Cusum
{
    /// <summary>State before the first value.</summary>
    /// <param name="headStart">Start of both sums, 0 or half the limit (finds a fault that is there from the start sooner).</param>
    /// <returns>State.</returns>
    /// <exception cref="ArgumentOutOfRangeException">The head start is NaN or negative.</exception>
    public static CusumState Start(double headStart = 0)
    {
        Require.NotNegative(headStart);
        return new CusumState(headStart, headStart, 0, 0);
    }

    /// <summary>State after one more value. Nothing is reset at a signal.</summary>
    /// <param name="state">State before it.</param>
    /// <param name="value">The value.</param>
    /// <param name="design">Settings.</param>
    /// <returns>State after it. The shift began about <see cref="CusumState.HighRun"/> (or LowRun) values ago.</returns>
    /// <exception cref="ArgumentOutOfRangeException">The value is NaN or infinite.</exception>
    public static CusumState Next(CusumState state, double value, CusumDesign design)
    {
        Require.Finite(value);
        double high = Math.Max(0, state.High + (value - design.Target - design.Slack));
        double low = Math.Max(0, state.Low + (design.Target - design.Slack - value));
        return new CusumState(high, low, high > 0 ? state.HighRun + 1 : 0, low > 0 ? state.LowRun + 1 : 0);
    }

    /// <summary>Whether the upper sum has passed the limit.</summary>
    /// <param name="state">State.</param>
    /// <param name="design">Settings.</param>
    /// <returns>True for a shift upward.</returns>
    public static bool SignalsHigh(CusumState state, CusumDesign design) => state.High > design.Limit;

    /// <summary>Whether the lower sum has passed the limit.</summary>
    /// <param name="state">State.</param>
    /// <param name="design">Settings.</param>
    /// <returns>True for a shift downward.</returns>
    public static bool SignalsLow(CusumState state, CusumDesign design) => state.Low > design.Limit;
}
