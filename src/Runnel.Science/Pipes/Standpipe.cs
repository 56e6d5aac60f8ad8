namespace Runnel.Science.Pipes;

/// <summary>Flow into an open standpipe.</summary>
/// <param name="WeirLPerMin">Flow with the rim as a weir, L/min.</param>
/// <param name="OrificeLPerMin">Flow with the bore drowned, L/min.</param>
public readonly record struct StandpipeFlow(double WeirLPerMin, double OrificeLPerMin)
{
    /// <summary>Flow that comes about: the smaller of both, L/min.</summary>
    public double LPerMin => Math.Min(WeirLPerMin, OrificeLPerMin);
}

/// <summary>An open standpipe that keeps a level: its rim works as a weir at low head, its bore as an orifice once drowned.</summary>
/// <remarks>Circular-crest drop inlet with weir and orifice control; the weir coefficient 1.84 is that of a sharp crest, smaller for a thick rim.</remarks>
public static class Standpipe
{
    /// <summary>Flow at a head.</summary>
    /// <param name="diameterM">Bore, m.</param>
    /// <param name="headM">Head over the rim, m, 0 or more.</param>
    /// <param name="weirCoefficient">1.84 (SI), 1 to 2.5.</param>
    /// <param name="orificeCoefficient">0.6, 0.3 to 1.</param>
    /// <param name="gravityMPerS2">Gravity, m/s².</param>
    /// <returns>Flow under both controls.</returns>
    /// <exception cref="ArgumentOutOfRangeException">An input is NaN or out of range.</exception>
    public static StandpipeFlow AtHead(
        double diameterM, double headM, double weirCoefficient = 1.84, double orificeCoefficient = 0.6, double gravityMPerS2 = PipeFlow.GravityMPerS2)
    {
        Require.Positive(diameterM);
        Require.NotNegative(headM);
        Require.InRange(weirCoefficient, 1, 2.5);
        double weir = weirCoefficient * Math.PI * diameterM * Math.Pow(headM, 1.5);
        return new StandpipeFlow(60_000 * weir, 60_000 * Orifice.FlowM3PerS(diameterM, headM, orificeCoefficient, gravityMPerS2));
    }

    /// <summary>Head at which the control changes, m.</summary>
    /// <param name="diameterM">Bore, m.</param>
    /// <param name="weirCoefficient">1.84 (SI).</param>
    /// <param name="orificeCoefficient">0.6.</param>
    /// <param name="gravityMPerS2">Gravity, m/s².</param>
    /// <returns>Head, m: about a third of the bore.</returns>
    /// <exception cref="ArgumentOutOfRangeException">An input is NaN or out of range.</exception>
    public static double CrossoverHeadM(
        double diameterM, double weirCoefficient = 1.84, double orificeCoefficient = 0.6, double gravityMPerS2 = PipeFlow.GravityMPerS2)
    {
        Require.Positive(diameterM);
        Require.InRange(weirCoefficient, 1, 2.5);
        Require.InRange(orificeCoefficient, 0.3, 1);
        Require.InRange(gravityMPerS2, 9.7, 9.9);
        return orificeCoefficient * diameterM * Math.Sqrt(2 * gravityMPerS2) / (4 * weirCoefficient);
    }

    /// <summary>Head over the rim that carries a flow, m.</summary>
    /// <param name="diameterM">Bore, m.</param>
    /// <param name="flowLPerMin">Flow, L/min.</param>
    /// <param name="weirCoefficient">1.84 (SI).</param>
    /// <param name="orificeCoefficient">0.6.</param>
    /// <param name="gravityMPerS2">Gravity, m/s².</param>
    /// <returns>Head, m: the greater of both controls.</returns>
    /// <exception cref="ArgumentOutOfRangeException">An input is NaN or out of range.</exception>
    public static double HeadM(
        double diameterM, double flowLPerMin, double weirCoefficient = 1.84, double orificeCoefficient = 0.6, double gravityMPerS2 = PipeFlow.GravityMPerS2)
    {
        Require.Positive(diameterM);
        Require.NotNegative(flowLPerMin);
        Require.InRange(weirCoefficient, 1, 2.5);
        Require.InRange(orificeCoefficient, 0.3, 1);
        Require.InRange(gravityMPerS2, 9.7, 9.9);
        double flow = flowLPerMin / 60_000;
        double weir = Math.Pow(flow / (weirCoefficient * Math.PI * diameterM), 2.0 / 3);
        double velocity = flow / (orificeCoefficient * Math.PI * diameterM * diameterM / 4);
        return Math.Max(weir, velocity * velocity / (2 * gravityMPerS2));
    }
}
