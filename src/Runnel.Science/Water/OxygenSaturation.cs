using Runnel.Science.Air;

namespace Runnel.Science.Water;

/// <summary>Oxygen that water holds when it is in balance with air.</summary>
/// <remarks>Benson and Krause (1984), Limnol. Oceanogr. 29:620-632, as printed in APHA Standard Methods 4500-O. Within 0.022 % of the
/// TEOS-10 fit; tables on older data run up to 0.13 mg/L high.</remarks>
public static class OxygenSaturation
{
    /// <summary>Saturation at a pressure and salinity, mg/L.</summary>
    /// <param name="waterTempC">Water temperature, °C, 0 to 40.</param>
    /// <param name="pressureKPa">Air pressure, moist, kPa, 50 to 115.</param>
    /// <param name="salinityGPerKg">Salinity, g/kg, 0 to 40.</param>
    /// <returns>Saturation, mg/L.</returns>
    /// <exception cref="ArgumentOutOfRangeException">An input is NaN or out of range.</exception>
    public static double MgPerL(double waterTempC, double pressureKPa = 101.325, double salinityGPerKg = 0)
    {
        Require.InRange(waterTempC, 0, 40);
        Require.InRange(pressureKPa, 50, 115);
        Require.InRange(salinityGPerKg, 0, 40);
        double x = 1 / (waterTempC + 273.15);
        double atSeaLevel = Math.Exp(-139.34411 + (x * (1.575701e5 + (x * (-6.642308e7 + (x * (1.243800e10 - (8.621949e11 * x)))))))
            - (salinityGPerKg * (0.017674 + (x * (-10.754 + (2140.7 * x))))));
        double atm = pressureKPa / 101.325;
        double vapourAtm = Math.Exp(11.8571 - (3840.70 * x) - (216_961 * x * x));
        double theta = 0.000975 + (waterTempC * (-1.426e-5 + (6.436e-8 * waterTempC)));
        return atSeaLevel * atm * (1 - (vapourAtm / atm)) * (1 - (theta * atm)) / ((1 - vapourAtm) * (1 - theta));
    }

    /// <summary>Saturation at an altitude, mg/L.</summary>
    /// <param name="waterTempC">Water temperature, °C, 0 to 40.</param>
    /// <param name="altitudeM">Altitude, m, -450 to 5000.</param>
    /// <param name="salinityGPerKg">Salinity, g/kg, 0 to 40.</param>
    /// <returns>Saturation, mg/L, at the pressure of the standard atmosphere.</returns>
    /// <exception cref="ArgumentOutOfRangeException">An input is NaN or out of range.</exception>
    public static double AtAltitudeMgPerL(double waterTempC, double altitudeM, double salinityGPerKg = 0)
    {
        Require.InRange(altitudeM, -450, 5000);
        return MgPerL(waterTempC, StandardAtmosphere.PressurePa(altitudeM) / 1000, salinityGPerKg);
    }
}
