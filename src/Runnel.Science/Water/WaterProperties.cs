namespace Runnel.Science.Water;

/// <summary>Density, viscosity and vapour pressure of pure water at air pressure.</summary>
public static class WaterProperties
{
    /// <summary>Density, kg/m³.</summary>
    /// <param name="waterTempC">Temperature, °C, 0 to 100.</param>
    /// <returns>Density, kg/m³.</returns>
    /// <exception cref="ArgumentOutOfRangeException">The temperature is NaN or out of range.</exception>
    /// <remarks>Kell (1975), J. Chem. Eng. Data 20:97-105; coefficients from memory, checked at 0, 4, 20 and 100 °C.</remarks>
    public static double DensityKgPerM3(double waterTempC)
    {
        Require.InRange(waterTempC, 0, 100);
        double t = waterTempC;
        return (999.83952 + (t * (16.945176 + (t * (-7.9870401e-3 + (t * (-46.170461e-6 + (t * (105.56302e-9 - (280.54253e-12 * t)))))))))) / (1 + (16.879850e-3 * t));
    }

    /// <summary>Dynamic viscosity, Pa s.</summary>
    /// <param name="waterTempC">Temperature, °C, 0 to 100.</param>
    /// <returns>Viscosity, Pa s.</returns>
    /// <exception cref="ArgumentOutOfRangeException">The temperature is NaN or out of range.</exception>
    /// <remarks>Kestin, Sokolov and Wakeham (1978), J. Phys. Chem. Ref. Data 7:941-948: 1.002e-3 at 20 °C; coefficients from memory.</remarks>
    public static double ViscosityPaS(double waterTempC)
    {
        Require.InRange(waterTempC, 0, 100);
        double d = 20 - waterTempC;
        return 1.002e-3 * Math.Pow(10, d / (waterTempC + 96) * (1.2364 + (d * (-1.37e-3 + (d * 5.7e-6)))));
    }

    /// <summary>Kinematic viscosity, m²/s.</summary>
    /// <param name="waterTempC">Temperature, °C, 0 to 100.</param>
    /// <returns>Viscosity, m²/s.</returns>
    /// <exception cref="ArgumentOutOfRangeException">The temperature is NaN or out of range.</exception>
    /// <remarks>Viscosity over density, within 1 %.</remarks>
    public static double KinematicViscosityM2PerS(double waterTempC) => ViscosityPaS(waterTempC) / DensityKgPerM3(waterTempC);

    /// <summary>Vapour pressure, kPa: where the absolute pressure falls to it, water boils and a pump cavitates.</summary>
    /// <param name="waterTempC">Temperature, °C, 0 to 100.</param>
    /// <returns>Pressure, kPa.</returns>
    /// <exception cref="ArgumentOutOfRangeException">The temperature is NaN or out of range.</exception>
    /// <remarks>As <see cref="Air.SaturationPressure"/> over liquid water (Hyland and Wexler 1983), within 0.03 %.</remarks>
    public static double VapourPressureKPa(double waterTempC)
    {
        Require.InRange(waterTempC, 0, 100);
        return Air.SaturationPressure.OfTemperaturePa(waterTempC) / 1000;
    }
}
