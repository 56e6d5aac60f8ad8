namespace Runnel.Science.Water;

/// <summary>Share of rain that runs off a catchment.</summary>
/// <remarks>After Pacey and Cullis (1986), Rainwater Harvesting, read in a reprint of the table.</remarks>
public static class RunoffCoefficients
{
    private static readonly (string Surface, double Least, double Greatest)[] Known =
    [
        ("galvanised iron", 0.9, 1),
        ("corrugated metal", 0.7, 0.9),
        ("tiles", 0.6, 0.8), // not in the reprint: from memory
        ("concrete", 0.6, 0.8),
        ("brick pavement", 0.5, 0.6),
        ("green area", 0.05, 0.1),
    ];

    /// <summary>Surfaces listed.</summary>
    public static IEnumerable<string> Surfaces => Known.Select(k => k.Surface);

    /// <summary>Range for a surface.</summary>
    /// <param name="surface">Name as in <see cref="Surfaces"/>.</param>
    /// <returns>Least and greatest share, or null where the surface is not listed.</returns>
    public static (double Least, double Greatest)? Of(string surface)
    {
        foreach (var known in Known)
        {
            if (string.Equals(known.Surface, surface, StringComparison.OrdinalIgnoreCase)) return (known.Least, known.Greatest);
        }

        return null;
    }
}
