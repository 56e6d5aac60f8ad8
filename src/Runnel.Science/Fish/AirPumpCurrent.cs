namespace Runnel.Science.Fish;

/// <summary>What an air pump's current suggests.</summary>
public enum AirPumpCondition
{
    /// <summary>Unplugged or failed.</summary>
    Failed,

    /// <summary>Torn diaphragm or a leak in the air line.</summary>
    TornOrLeaking,

    /// <summary>As in health.</summary>
    Healthy,

    /// <summary>Stones or air line blocked.</summary>
    Blocked,
}

/// <summary>Condition of an air pump from its current over that in health.</summary>
public static class AirPumpCurrent
{
    /// <summary>Judges by the ratio of both currents.</summary>
    /// <param name="nowA">Current now, A (or power, W).</param>
    /// <param name="healthyA">Median current in health, in the same unit, above 0.</param>
    /// <param name="failedBelow">Ratio below which it counts as failed: 0.5.</param>
    /// <param name="tornBelow">Ratio below which it counts as torn or leaking: 0.85.</param>
    /// <param name="blockedAbove">Ratio above which it counts as blocked: 1.15.</param>
    /// <returns>Condition.</returns>
    /// <exception cref="ArgumentOutOfRangeException">An input is NaN or out of range.</exception>
    /// <remarks>Condition-monitoring rule; the thresholds are a proposal, not published: set them for the pump.</remarks>
    public static AirPumpCondition Judge(
        double nowA, double healthyA, double failedBelow = 0.5, double tornBelow = 0.85, double blockedAbove = 1.15)
    {
        Require.NotNegative(nowA);
        Require.Positive(healthyA);
        Require.InRange(failedBelow, 0, 1);
        Require.InRange(tornBelow, failedBelow, 1);
        Require.InRange(blockedAbove, 1, 10);
        double ratio = nowA / healthyA;
        return ratio < failedBelow ? AirPumpCondition.Failed
            : ratio < tornBelow ? AirPumpCondition.TornOrLeaking
            : ratio > blockedAbove ? AirPumpCondition.Blocked : AirPumpCondition.Healthy;
    }
}
