namespace Runnel.Science.Power;

/// <summary>Temperature of solar cells, °C.</summary>
public static class CellTemperature
{
    /// <summary>From the nominal operating cell temperature.</summary>
    /// <param name="irradianceWPerM2">Irradiance on the panel, W/m².</param>
    /// <param name="ambientC">Ambient, °C.</param>
    /// <param name="nominalC">NOCT, °C: 42 to 48.</param>
    /// <returns>°C.</returns>
    /// <exception cref="ArgumentOutOfRangeException">An input is NaN or out of range.</exception>
    /// <remarks>Ross (1980).</remarks>
    public static double FromNominalC(double irradianceWPerM2, double ambientC, double nominalC = 45)
    {
        Check(irradianceWPerM2, ambientC, 0);
        Require.InRange(nominalC, 20, 80);
        return ambientC + (irradianceWPerM2 * (nominalC - 20) / 800);
    }

    /// <summary>From the nominal operating cell temperature, wind and efficiency.</summary>
    /// <param name="irradianceWPerM2">Irradiance on the panel, W/m².</param>
    /// <param name="ambientC">Ambient, °C.</param>
    /// <param name="windMPerS">Wind at 10 m, m/s (0.51 of it reaches a low array).</param>
    /// <param name="nominalC">NOCT, °C.</param>
    /// <param name="efficiency">Of the panel, 0 to 0.4.</param>
    /// <returns>°C.</returns>
    /// <exception cref="ArgumentOutOfRangeException">An input is NaN or out of range.</exception>
    /// <remarks>Gilman and others (2018), SAM Photovoltaic Model Technical Reference, NOCT model; transmittance-absorptance 0.9.</remarks>
    public static double FromNominalAndWindC(double irradianceWPerM2, double ambientC, double windMPerS, double nominalC, double efficiency)
    {
        Check(irradianceWPerM2, ambientC, windMPerS);
        Require.InRange(nominalC, 20, 80);
        Require.InRange(efficiency, 0, 0.4);
        return ambientC + (irradianceWPerM2 / 800 * (nominalC - 20) * (1 - (efficiency / 0.9)) * 9.5 / (5.7 + (3.8 * 0.51 * windMPerS)));
    }

    /// <summary>From two heat loss constants.</summary>
    /// <param name="irradianceWPerM2">Irradiance on the panel, W/m².</param>
    /// <param name="ambientC">Ambient, °C.</param>
    /// <param name="windMPerS">Wind at the panel, m/s.</param>
    /// <param name="u0">25 W/(m² K).</param>
    /// <param name="u1">6.84 W/(m² K) for each m/s.</param>
    /// <returns>°C.</returns>
    /// <exception cref="ArgumentOutOfRangeException">An input is NaN or out of range.</exception>
    /// <remarks>Faiman (2008), Progress in Photovoltaics 16:307-315.</remarks>
    public static double FaimanC(double irradianceWPerM2, double ambientC, double windMPerS, double u0 = 25, double u1 = 6.84)
    {
        Check(irradianceWPerM2, ambientC, windMPerS);
        Require.Positive(u0);
        Require.NotNegative(u1);
        return ambientC + (irradianceWPerM2 / (u0 + (u1 * windMPerS)));
    }

    /// <summary>From the mounting.</summary>
    /// <param name="irradianceWPerM2">Irradiance on the panel, W/m².</param>
    /// <param name="ambientC">Ambient, °C.</param>
    /// <param name="windMPerS">Wind at 10 m, m/s.</param>
    /// <param name="a">Constant: open rack glass/polymer -3.56.</param>
    /// <param name="b">Constant: -0.075 s/m.</param>
    /// <param name="deltaC">Cell above the back at 1000 W/m², °C: 3.</param>
    /// <returns>°C.</returns>
    /// <exception cref="ArgumentOutOfRangeException">An input is NaN or out of range.</exception>
    /// <remarks>King, Boyson and Kratochvil (2004), Sandia SAND2004-3535.</remarks>
    public static double SandiaC(double irradianceWPerM2, double ambientC, double windMPerS, double a = -3.56, double b = -0.075, double deltaC = 3)
    {
        Check(irradianceWPerM2, ambientC, windMPerS);
        Require.InRange(a, -10, 0);
        Require.InRange(b, -1, 0);
        Require.InRange(deltaC, 0, 20);
        return (irradianceWPerM2 * Math.Exp(a + (b * windMPerS))) + ambientC + (irradianceWPerM2 / 1000 * deltaC);
    }

    private static void Check(double irradianceWPerM2, double ambientC, double windMPerS)
    {
        Require.InRange(irradianceWPerM2, 0, 2000);
        Require.InRange(ambientC, -60, 60);
        Require.InRange(windMPerS, 0, 60);
    }
}
