namespace Runnel.Science.Pipes.Networks;

/// <summary>A place where pipes meet, or water whose level is known.</summary>
/// <param name="Name">Name, unique in its network.</param>
/// <param name="FixedHeadM">Level of a reservoir, a tank or an open outlet, m; null where the head is to be found.</param>
/// <param name="DemandM3PerS">Flow drawn off whatever the head, m³/s; negative where water comes in.</param>
/// <param name="Outlet">Hole, emitter or sprinkler, or null.</param>
public sealed record NetworkNode(string Name, double? FixedHeadM = null, double DemandM3PerS = 0, NetworkOutlet? Outlet = null);

/// <summary>A free outlet: flow = coefficient x (head - height)^exponent while the head is above it, none below it.</summary>
/// <param name="HeightM">Height of the mouth, m, on the scale of the heads.</param>
/// <param name="CoefficientM3PerS">Flow at a metre of head, m³/s.</param>
/// <param name="Exponent">0.5 for a hole, sprinkler or plain dripper; near 0.1 when pressure compensating.</param>
public sealed record NetworkOutlet(double HeightM, double CoefficientM3PerS, double Exponent = 0.5);
