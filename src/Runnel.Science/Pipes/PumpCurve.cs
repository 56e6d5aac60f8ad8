using Runnel.Science.Statistics;

namespace Runnel.Science.Pipes;

/// <summary>Head of a pump against its flow: shut-off head less r Q^n. Units are the caller's (L/min and m here).</summary>
/// <param name="ShutOffHeadM">Head without flow, m.</param>
/// <param name="Coefficient">r.</param>
/// <param name="Exponent">n, above 0.</param>
public readonly record struct PumpCurve(double ShutOffHeadM, double Coefficient, double Exponent)
{
    /// <summary>Flow without lift, L/min.</summary>
    public double MostFlowLPerMin => Math.Pow(ShutOffHeadM / Coefficient, 1 / Exponent);

    /// <summary>Curve through the shut-off head and two points.</summary>
    /// <param name="shutOffHeadM">Head without flow, m.</param>
    /// <param name="flow1LPerMin">Flow of the first point, L/min.</param>
    /// <param name="head1M">Its head, m, below the shut-off head.</param>
    /// <param name="flow2LPerMin">Flow of the second point, L/min, above the first.</param>
    /// <param name="head2M">Its head, m, below the first.</param>
    /// <returns>Curve.</returns>
    /// <exception cref="ArgumentOutOfRangeException">An input is NaN or out of order.</exception>
    /// <remarks>EPANET 2.2 User Manual, three-point pump curve.</remarks>
    public static PumpCurve ThroughPoints(double shutOffHeadM, double flow1LPerMin, double head1M, double flow2LPerMin, double head2M)
    {
        Require.Positive(shutOffHeadM);
        Require.Positive(flow1LPerMin);
        Require.InRange(flow2LPerMin, Math.BitIncrement(flow1LPerMin), double.MaxValue);
        Require.InRange(head1M, 0, Math.BitDecrement(shutOffHeadM));
        Require.InRange(head2M, 0, Math.BitDecrement(head1M));
        double exponent = Math.Log((shutOffHeadM - head2M) / (shutOffHeadM - head1M)) / Math.Log(flow2LPerMin / flow1LPerMin);
        return new PumpCurve(shutOffHeadM, (shutOffHeadM - head1M) / Math.Pow(flow1LPerMin, exponent), exponent);
    }

    /// <summary>Curve from one design point only.</summary>
    /// <param name="designFlowLPerMin">Design flow, L/min.</param>
    /// <param name="designHeadM">Design head, m.</param>
    /// <returns>Curve with four thirds of the head at no flow and twice the flow at no head.</returns>
    /// <exception cref="ArgumentOutOfRangeException">An input is NaN or not above 0.</exception>
    /// <remarks>EPANET 2.2 User Manual, single-point pump curve.</remarks>
    public static PumpCurve FromDesignPoint(double designFlowLPerMin, double designHeadM)
    {
        Require.Positive(designFlowLPerMin);
        Require.Positive(designHeadM);
        return new PumpCurve(designHeadM * 4 / 3, designHeadM / 3 / (designFlowLPerMin * designFlowLPerMin), 2);
    }

    /// <summary>Curve that lies closest to measured points.</summary>
    /// <param name="flowsLPerMin">Flows, L/min, 0 or more: three or more, one of them above 0.</param>
    /// <param name="headsM">Head at each, m; same length as the flows.</param>
    /// <returns>Curve and the standard deviation of the heads about it, m; null where the points do not fall with the flow or no curve of this form fits them.</returns>
    /// <exception cref="ArgumentException">Points are missing, not finite or of unequal number.</exception>
    /// <remarks>Least squares of the heads (<see cref="NonlinearLeastSquares"/>), with the flow counted in the greatest of them.</remarks>
    public static (PumpCurve Curve, double ResidualSdM)? Fitted(ReadOnlySpan<double> flowsLPerMin, ReadOnlySpan<double> headsM)
    {
        Require.Series(flowsLPerMin, 3);
        Require.Series(headsM, 3);
        Require.SameLength(headsM, flowsLPerMin.Length);
        double most = 0, highest = double.NegativeInfinity, lowest = double.PositiveInfinity;
        var shares = new double[flowsLPerMin.Length];
        foreach (double flow in flowsLPerMin)
        {
            Require.NotNegative(flow, nameof(flowsLPerMin));
            most = Math.Max(most, flow);
        }

        foreach (double head in headsM) (highest, lowest) = (Math.Max(highest, head), Math.Min(lowest, head));
        if (!(most > 0) || !(highest > lowest)) return null;
        for (int i = 0; i < shares.Length; i++) shares[i] = flowsLPerMin[i] / most;
        var fit = NonlinearLeastSquares.Fit((x, p) => p[0] - (p[1] * (x > 0 ? Math.Pow(x, p[2]) : 0)), shares, headsM, [highest * 1.05, highest - lowest, 2]);
        double shutOff = fit.Parameters[0], fall = fit.Parameters[1], exponent = fit.Parameters[2];
        if (fit.Stop != FitStop.Converged || !(shutOff > 0 && fall > 0) || exponent is not (>= 0.2 and <= 10)) return null;
        return (new PumpCurve(shutOff, fall / Math.Pow(most, exponent), exponent), shares.Length > 3 ? fit.ResidualSd : 0);
    }

    /// <summary>Head at a flow, m.</summary>
    /// <param name="flowLPerMin">Flow, L/min, 0 or more.</param>
    /// <returns>Head, m; below 0 past the flow without lift.</returns>
    /// <exception cref="ArgumentOutOfRangeException">The flow is NaN or negative.</exception>
    /// <remarks>The curve as fitted; makers allow themselves 5 to 10 %.</remarks>
    public double HeadM(double flowLPerMin)
    {
        Require.NotNegative(flowLPerMin);
        return ShutOffHeadM - (Coefficient * Math.Pow(flowLPerMin, Exponent));
    }

    /// <summary>Where the curve meets a system of static lift and pipe.</summary>
    /// <param name="systemHeadM">Head that the system asks for at a flow in L/min; it must not fall as the flow rises.</param>
    /// <returns>Flow (L/min) and head (m); no flow where the lift is more than the shut-off head.</returns>
    /// <remarks>Bisection: the curve falls and the system rises, so there is one crossing at most.</remarks>
    public (double FlowLPerMin, double HeadM) DutyPoint(Func<double, double> systemHeadM)
    {
        ArgumentNullException.ThrowIfNull(systemHeadM);
        if (systemHeadM(0) >= ShutOffHeadM) return (0, ShutOffHeadM);
        double low = 0, high = MostFlowLPerMin;
        for (int i = 0; i < 200 && high - low > 1e-13 * high; i++)
        {
            double middle = (low + high) / 2;
            if (HeadM(middle) > systemHeadM(middle)) low = middle;
            else high = middle;
        }

        double flow = (low + high) / 2;
        return (flow, HeadM(flow));
    }

    /// <summary>Curve at another speed.</summary>
    /// <param name="speedRatio">Speed now over speed of this curve, above 0 to 2.</param>
    /// <returns>Curve.</returns>
    /// <exception cref="ArgumentOutOfRangeException">The ratio is NaN or out of range.</exception>
    /// <remarks>Affinity laws: flow with the speed, head with its square, power with its cube.</remarks>
    public PumpCurve AtSpeed(double speedRatio)
    {
        Require.InRange(speedRatio, 1e-3, 2);
        return new PumpCurve(ShutOffHeadM * speedRatio * speedRatio, Coefficient * Math.Pow(speedRatio, 2 - Exponent), Exponent);
    }
}
