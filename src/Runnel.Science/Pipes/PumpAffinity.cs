namespace Runnel.Science.Pipes;

/// <summary>What a pump does at another speed.</summary>
/// <param name="FlowLPerMin">Flow, L/min.</param>
/// <param name="HeadM">Head, m.</param>
/// <param name="PowerW">Shaft power, W.</param>
public readonly record struct PumpAffinity(double FlowLPerMin, double HeadM, double PowerW)
{
    /// <summary>The like point at another speed.</summary>
    /// <param name="speedRatio">Speed now over speed before, above 0 to 2.</param>
    /// <returns>Flow with the speed, head with its square, power with its cube.</returns>
    /// <exception cref="ArgumentOutOfRangeException">The ratio is NaN or out of range.</exception>
    /// <remarks>Affinity laws, as in Crane TP-410. The point on your pipes differs where there is a lift: see <see cref="PumpCurve.DutyPoint"/>. The
    /// efficiency is taken as unchanged, which holds within a few percent down to 0.7 of the speed.</remarks>
    public PumpAffinity AtSpeed(double speedRatio)
    {
        Require.InRange(speedRatio, 1e-3, 2);
        return new PumpAffinity(FlowLPerMin * speedRatio, HeadM * speedRatio * speedRatio, PowerW * speedRatio * speedRatio * speedRatio);
    }
}
