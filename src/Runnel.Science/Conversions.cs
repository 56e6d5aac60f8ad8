namespace Runnel.Science;

/// <summary>Factors of conversion, all in one place; the table of units is built on them. Inside the code each quantity has one unit; these serve the edges.</summary>
/// <remarks>Exact by definition unless said otherwise.</remarks>
public static class Conversions
{
    /// <summary>L in a US gallon.</summary>
    public const double LPerUsGallon = 3.785411784;

    /// <summary>L in an imperial gallon.</summary>
    public const double LPerImperialGallon = 4.54609;

    /// <summary>L in an acre-foot.</summary>
    public const double LPerAcreFoot = 1_233_481.83754752;

    /// <summary>m in a foot.</summary>
    public const double MPerFoot = 0.3048;

    /// <summary>mm in an inch.</summary>
    public const double MmPerInch = 25.4;

    /// <summary>m² in a square foot.</summary>
    public const double M2PerSquareFoot = 0.09290304;

    /// <summary>g in a pound.</summary>
    public const double GPerPound = 453.59237;

    /// <summary>kPa in a millimetre of mercury.</summary>
    public const double KPaPerMmHg = 0.133322387415;

    /// <summary>kPa in a metre of water (conventional).</summary>
    public const double KPaPerMWater = 9.80665;

    /// <summary>W in a horsepower (550 ft lbf/s).</summary>
    public const double WPerHorsepower = 745.69987158227022;

    /// <summary>mg/L as CaCO3 in a meq/L: half the formula mass 100.0869.</summary>
    public const double MgCaCO3PerMeq = 50.04345;

    /// <summary>mg/L as CaCO3 in a German degree, of carbonate hardness (dKH) or total (dGH): 10 mg/L CaO.</summary>
    public const double MgCaCO3PerGermanDegree = 10 * 100.0869 / 56.0774;

    /// <summary>mg/L as CaCO3 in a French degree.</summary>
    public const double MgCaCO3PerFrenchDegree = 10;

    /// <summary>mg/L as CaCO3 in a Clark (English) degree: a grain an imperial gallon.</summary>
    public const double MgCaCO3PerClarkDegree = 64.79891 / LPerImperialGallon;

    /// <summary>mg/L as CaCO3 of hardness from a mg/L of calcium.</summary>
    public const double MgCaCO3PerMgCa = 100.0869 / 40.078;

    /// <summary>mg/L as CaCO3 of hardness from a mg/L of magnesium.</summary>
    public const double MgCaCO3PerMgMg = 100.0869 / 24.305;

    /// <summary>mg/L as CaCO3 of alkalinity from a mg/L of bicarbonate.</summary>
    public const double MgCaCO3PerMgHCO3 = MgCaCO3PerMeq / 61.0168;

    /// <summary>°C from °F.</summary>
    /// <param name="tempF">Temperature, °F.</param>
    /// <returns>°C.</returns>
    /// <exception cref="ArgumentOutOfRangeException">The temperature is NaN or infinite.</exception>
    public static double CFromF(double tempF)
    {
        Require.Finite(tempF);
        return (tempF - 32) / 1.8;
    }
}
