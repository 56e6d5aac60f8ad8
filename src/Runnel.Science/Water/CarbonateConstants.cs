namespace Runnel.Science.Water;

/// <summary>Equilibrium constants of carbonate and water, as negative logarithms, at infinite dilution.</summary>
/// <param name="PK1">Of CO2 + H2O = H+ + HCO3-.</param>
/// <param name="PK2">Of HCO3- = H+ + CO3--.</param>
/// <param name="PKw">Of water.</param>
/// <param name="PKh">Of CO2 in water over CO2 in air, mol/(kg atm).</param>
/// <param name="PKCalcite">Of the solubility of calcite.</param>
/// <remarks>Plummer and Busenberg (1982), Geochim. Cosmochim. Acta 46:1011-1040; water as in the PHREEQC database (USGS). 0 to 50 °C.</remarks>
public readonly record struct CarbonateConstants(double PK1, double PK2, double PKw, double PKh, double PKCalcite)
{
    /// <summary>Constants at a temperature.</summary>
    /// <param name="waterTempC">Water temperature, °C, 0 to 50.</param>
    /// <returns>Constants.</returns>
    /// <exception cref="ArgumentOutOfRangeException">The temperature is NaN or out of range.</exception>
    public static CarbonateConstants At(double waterTempC)
    {
        Require.InRange(waterTempC, 0, 50);
        double t = waterTempC + 273.15, inverse = 1 / t, log = Math.Log10(t);
        return new CarbonateConstants(
            356.3094 + (0.06091964 * t) - (21_834.37 * inverse) - (126.8339 * log) + (1_684_915 * inverse * inverse),
            107.8871 + (0.03252849 * t) - (5151.79 * inverse) - (38.92561 * log) + (563_713.9 * inverse * inverse),
            283.9710 + (0.05069842 * t) - (13_323.00 * inverse) - (102.24447 * log) + (1_119_669 * inverse * inverse),
            -108.3865 - (0.01985076 * t) + (6919.53 * inverse) + (40.45154 * log) - (669_365 * inverse * inverse),
            171.9065 + (0.077993 * t) - (2839.319 * inverse) - (71.595 * log));
    }
}
