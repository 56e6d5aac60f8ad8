namespace Runnel.Science.Pipes.Networks;

/// <summary>What joins two nodes. Flow counts as positive from the first to the second.</summary>
/// <param name="Name">Name, unique in its network.</param>
/// <param name="From">Name of the first node.</param>
/// <param name="To">Name of the second node.</param>
public abstract record NetworkLink(string Name, string From, string To);

/// <summary>A full round pipe with its fittings.</summary>
/// <param name="Name">Name.</param>
/// <param name="From">First node.</param>
/// <param name="To">Second node.</param>
/// <param name="LengthM">Length, m.</param>
/// <param name="DiameterM">Bore, m.</param>
/// <param name="RoughnessMm">Roughness, mm; not used with a Hazen-Williams coefficient.</param>
/// <param name="MinorK">Sum of the fittings' K, see <see cref="MinorLoss"/>; a clog raises it.</param>
/// <param name="CheckValve">Whether a check valve lets water pass from the first to the second node only.</param>
public sealed record NetworkPipe(
    string Name, string From, string To, double LengthM, double DiameterM, double RoughnessMm, double MinorK = 0, bool CheckValve = false)
    : NetworkLink(Name, From, To)
{
    /// <summary>Coefficient of Hazen and Williams in place of Darcy and Weisbach, or null.</summary>
    public double? HazenWilliamsC { get; init; }
}

/// <summary>A pump that lifts from the first node to the second; nothing runs back through it.</summary>
/// <param name="Name">Name.</param>
/// <param name="From">Node it takes from.</param>
/// <param name="To">Node it delivers to.</param>
/// <param name="Curve">Head against flow in L/min, at speed 1.</param>
/// <param name="Speed">Relative speed, 0 (stopped and shut) to 2.</param>
/// <remarks>A pump that lets water back when it stands: put a pipe beside it and open that pipe while it stands.</remarks>
public sealed record NetworkPump(string Name, string From, string To, PumpCurve Curve, double Speed = 1) : NetworkLink(Name, From, To);
