namespace Runnel.Science.Water;

/// <summary>A base that raises alkalinity.</summary>
/// <param name="Formula">Chemical formula.</param>
/// <param name="Equivalents">Equivalents of alkalinity a mole.</param>
/// <param name="Carbon">Moles of inorganic carbon a mole.</param>
/// <param name="DissolvesSlowly">Whether it dissolves slowly, and only while the water is undersaturated.</param>
public sealed record AlkalineBase(string Formula, int Equivalents, int Carbon, bool DissolvesSlowly)
{
    /// <summary>Alkalinity from one gram, mg as CaCO3, pure and fully dissolved. Technical grades hold 85 to 98 %.</summary>
    public double AlkalinityMgCaCO3PerG => 1000 * Equivalents * Conversions.MgCaCO3PerMeq / ChemicalFormula.MolarMass(Formula);
}

/// <summary>How much base raises alkalinity. Hydroxides and oxides burn and raise pH sharply: gloves, goggles, dissolve first, small steps.</summary>
public static class AlkalinityDose
{
    private static readonly AlkalineBase[] Known =
    [
        new("NaHCO3", 1, 1, false), new("KHCO3", 1, 1, false), new("Na2CO3", 2, 1, false), new("K2CO3", 2, 1, false),
        new("NaOH", 1, 0, false), new("KOH", 1, 0, false), new("Ca(OH)2", 2, 0, false), new("CaO", 2, 0, false),
        new("Mg(OH)2", 2, 0, true), new("MgO", 2, 0, true), new("CaCO3", 2, 1, true), new("MgCO3", 2, 1, true), new("CaMg(CO3)2", 4, 2, true),
    ];

    /// <summary>Bases listed.</summary>
    public static IReadOnlyList<AlkalineBase> Bases => Known;

    /// <summary>The base of that name.</summary>
    /// <param name="name">Formula, with or without brackets; <c>dolomite</c> and <c>limestone</c> are known too.</param>
    /// <returns>Base, or null where it is not listed.</returns>
    public static AlkalineBase? Find(string name)
    {
        ArgumentNullException.ThrowIfNull(name);
        string bare = Bare(name) switch { "dolomite" => "CaMgCO32", "limestone" => "CaCO3", var other => other };
        return Array.Find(Known, b => string.Equals(Bare(b.Formula), bare, StringComparison.OrdinalIgnoreCase));
    }

    /// <summary>Grams that raise the alkalinity of a volume.</summary>
    /// <param name="alkalineBase">The base.</param>
    /// <param name="volumeL">Volume, L.</param>
    /// <param name="raiseMgCaCO3PerL">Rise wanted, mg/L as CaCO3.</param>
    /// <param name="purity">Share of the product that is the base, above 0 to 1.</param>
    /// <returns>Grams.</returns>
    /// <exception cref="ArgumentOutOfRangeException">An input is NaN or out of range.</exception>
    /// <remarks>Stoichiometry.</remarks>
    public static double DoseG(AlkalineBase alkalineBase, double volumeL, double raiseMgCaCO3PerL, double purity = 1)
    {
        ArgumentNullException.ThrowIfNull(alkalineBase);
        Require.NotNegative(volumeL);
        Require.NotNegative(raiseMgCaCO3PerL);
        Require.InRange(purity, 0.01, 1);
        return volumeL * raiseMgCaCO3PerL / (alkalineBase.AlkalinityMgCaCO3PerG * purity);
    }

    private static string Bare(string name) => name.Replace("(", "", StringComparison.Ordinal).Replace(")", "", StringComparison.Ordinal);
}
