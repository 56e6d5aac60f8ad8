namespace Runnel.Science.Pipes.Networks;

/// <summary>What a line of emitters gives.</summary>
/// <param name="Stop">Whether it was solved.</param>
/// <param name="EmittersLPerMin">Flow of each emitter from the inlet on, L/min.</param>
/// <param name="LastHeadM">Head at the last emitter, m.</param>
public sealed record EmitterLineFlow(NetworkStop Stop, IReadOnlyList<double> EmittersLPerMin, double LastHeadM)
{
    /// <summary>Flow of all, L/min.</summary>
    public double TotalLPerMin => EmittersLPerMin.Sum();
}

/// <summary>A line of one bore with equal drippers or sprinklers at equal distances.</summary>
/// <remarks>Solved as a <see cref="PipeNetwork"/> with outlets; flow of an emitter is its coefficient x head^exponent. Losses where the emitters sit in
/// the wall are left out: barbs add 5 to 20 % (common practice).</remarks>
public static class EmitterLine
{
    /// <summary>Flow and head along the line.</summary>
    /// <param name="inletHeadM">Head at the inlet, m over the first emitter's height.</param>
    /// <param name="count">Emitters, 1 to 500.</param>
    /// <param name="spacingM">Distance from inlet to the first and between them, m.</param>
    /// <param name="diameterM">Inside diameter, m.</param>
    /// <param name="roughnessMm">Roughness, mm.</param>
    /// <param name="coefficientLPerMin">Flow of an emitter at 1 m of head, L/min.</param>
    /// <param name="exponent">Power of the head: 0.5 for holes and sprinklers, near 0 for compensating drippers (0.05 at least).</param>
    /// <param name="fallM">How much lower the last emitter is than the inlet, m; negative uphill.</param>
    /// <param name="viscosityM2PerS">Kinematic viscosity, m²/s.</param>
    /// <exception cref="ArgumentException">A value is NaN or out of range.</exception>
    public static EmitterLineFlow Solve(
        double inletHeadM, int count, double spacingM, double diameterM, double roughnessMm, double coefficientLPerMin, double exponent = 0.5, double fallM = 0,
        double viscosityM2PerS = 1.004e-6)
    {
        Require.InRange(count, 1, 500);
        Require.Positive(spacingM);
        Require.InRange(fallM, -1000, 1000);
        Require.InRange(exponent, 0.05, 2);
        List<NetworkNode> nodes = [new("0", inletHeadM)];
        List<NetworkLink> links = [];
        for (int i = 1; i <= count; i++)
        {
            nodes.Add(new NetworkNode($"{i}", Outlet: new NetworkOutlet(-fallM * i / count, coefficientLPerMin / 60_000, exponent)));
            links.Add(new NetworkPipe($"{i}", $"{i - 1}", $"{i}", spacingM, diameterM, roughnessMm));
        }

        var network = new PipeNetwork(nodes, links, viscosityM2PerS);
        var solution = network.Solve();
        return new EmitterLineFlow(
            solution.Stop, [.. Enumerable.Range(1, count).Select(i => 60_000 * network.OutletFlowM3PerS(network.Node($"{i}")))], network.HeadM(network.Node($"{count}")) + fallM);
    }
}
