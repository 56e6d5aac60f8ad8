namespace Runnel.Science.Water;

/// <summary>Units in which hardness and alkalinity are sold, printed and titrated.</summary>
public enum HardnessUnit
{
    /// <summary>mg/L as CaCO3 (ppm of test kits; also one tenth of a French degree).</summary>
    MgCaCO3PerL,

    /// <summary>German degree: dKH of alkalinity, dGH of hardness; 10 mg/L CaO.</summary>
    GermanDegree,

    /// <summary>French degree: 10 mg/L as CaCO3.</summary>
    FrenchDegree,

    /// <summary>Clark (English) degree: a grain of CaCO3 an imperial gallon.</summary>
    ClarkDegree,

    /// <summary>Grain of CaCO3 a US gallon.</summary>
    GrainPerUsGallon,

    /// <summary>Milliequivalent a litre.</summary>
    MeqPerL,

    /// <summary>mg/L of bicarbonate (alkalinity).</summary>
    MgHCO3PerL,

    /// <summary>mg/L of calcium (calcium hardness).</summary>
    MgCaPerL,

    /// <summary>mg/L of magnesium (magnesium hardness).</summary>
    MgMgPerL,
}

/// <summary>Hardness split by what carries it.</summary>
/// <param name="TotalMgCaCO3PerL">Calcium and magnesium, mg/L as CaCO3.</param>
/// <param name="CarbonateMgCaCO3PerL">Part matched by alkalinity: it can fall out as scale.</param>
/// <param name="PermanentMgCaCO3PerL">Part beyond the alkalinity.</param>
public readonly record struct HardnessParts(double TotalMgCaCO3PerL, double CarbonateMgCaCO3PerL, double PermanentMgCaCO3PerL);

/// <summary>Hardness and alkalinity: units and parts. Hardness (GH) is calcium and magnesium; alkalinity (KH) is what takes up acid. Mixing them up is a common mistake.</summary>
public static class Hardness
{
    /// <summary>mg/L as CaCO3 in one of a unit.</summary>
    /// <param name="unit">Unit.</param>
    /// <returns>mg/L as CaCO3.</returns>
    /// <exception cref="ArgumentOutOfRangeException">There is no such unit.</exception>
    /// <remarks>Definitions with IUPAC atomic weights.</remarks>
    public static double MgCaCO3PerLOf(HardnessUnit unit) => unit switch
    {
        HardnessUnit.MgCaCO3PerL => 1,
        HardnessUnit.GermanDegree => Conversions.MgCaCO3PerGermanDegree,
        HardnessUnit.FrenchDegree => Conversions.MgCaCO3PerFrenchDegree,
        HardnessUnit.ClarkDegree => Conversions.MgCaCO3PerClarkDegree,
        HardnessUnit.GrainPerUsGallon => 64.79891 / Conversions.LPerUsGallon,
        HardnessUnit.MeqPerL => Conversions.MgCaCO3PerMeq,
        HardnessUnit.MgHCO3PerL => Conversions.MgCaCO3PerMgHCO3,
        HardnessUnit.MgCaPerL => Conversions.MgCaCO3PerMgCa,
        HardnessUnit.MgMgPerL => Conversions.MgCaCO3PerMgMg,
        _ => throw new ArgumentOutOfRangeException(nameof(unit), unit, "no such unit of hardness"),
    };

    /// <summary>A value in another unit.</summary>
    /// <param name="value">Value, 0 or more.</param>
    /// <param name="from">Its unit.</param>
    /// <param name="to">Unit wanted.</param>
    /// <returns>Value in that unit.</returns>
    /// <exception cref="ArgumentOutOfRangeException">The value is NaN or negative, or there is no such unit.</exception>
    /// <remarks>Definitions, see <see cref="MgCaCO3PerLOf"/>; exact.</remarks>
    public static double Convert(double value, HardnessUnit from, HardnessUnit to)
    {
        Require.NotNegative(value);
        return value * MgCaCO3PerLOf(from) / MgCaCO3PerLOf(to);
    }

    /// <summary>Hardness of a water from its calcium, magnesium and alkalinity.</summary>
    /// <param name="calciumMgPerL">Calcium, mg/L Ca.</param>
    /// <param name="magnesiumMgPerL">Magnesium, mg/L Mg.</param>
    /// <param name="alkalinityMgCaCO3PerL">Alkalinity, mg/L as CaCO3.</param>
    /// <returns>Parts.</returns>
    /// <exception cref="ArgumentOutOfRangeException">An input is NaN or negative.</exception>
    /// <remarks>APHA Standard Methods 2340 B: 2.497 Ca + 4.118 Mg; carbonate hardness is the smaller of hardness and alkalinity.</remarks>
    public static HardnessParts Parts(double calciumMgPerL, double magnesiumMgPerL, double alkalinityMgCaCO3PerL)
    {
        Require.NotNegative(calciumMgPerL);
        Require.NotNegative(magnesiumMgPerL);
        Require.NotNegative(alkalinityMgCaCO3PerL);
        double total = (calciumMgPerL * Conversions.MgCaCO3PerMgCa) + (magnesiumMgPerL * Conversions.MgCaCO3PerMgMg), carbonate = Math.Min(total, alkalinityMgCaCO3PerL);
        return new HardnessParts(total, carbonate, total - carbonate);
    }
}
