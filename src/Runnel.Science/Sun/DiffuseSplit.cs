namespace Runnel.Science.Sun;

/// <summary>Splits radiation on a level surface into beam and diffuse.</summary>
public static class DiffuseSplit
{
    /// <summary>Diffuse share by the clearness index.</summary>
    /// <param name="clearness">Radiation over that outside the atmosphere, 0 or more.</param>
    /// <returns>Diffuse over total, 0 to 1.</returns>
    /// <exception cref="ArgumentOutOfRangeException">The index is NaN or negative.</exception>
    /// <remarks>Erbs, Klein and Duffie (1982), Solar Energy 28:293-302, for hours.</remarks>
    public static double ErbsDiffuseShare(double clearness)
    {
        Require.NotNegative(clearness);
        if (clearness <= 0.22) return 1 - (0.09 * clearness);
        return clearness > 0.8 ? 0.165
            : 0.9511 + (clearness * (-0.1604 + (clearness * (4.388 + (clearness * (-16.638 + (12.336 * clearness)))))));
    }

    /// <summary>Irradiance outside the atmosphere on a surface that faces the sun, W/m².</summary>
    /// <param name="dayOfYear">1 to 366.</param>
    /// <param name="solarConstantWPerM2">1366.1 W/m².</param>
    /// <returns>Irradiance, W/m².</returns>
    /// <exception cref="ArgumentOutOfRangeException">An input is NaN or out of range.</exception>
    /// <remarks>Spencer (1971), Search 2:172.</remarks>
    public static double ExtraterrestrialNormalWPerM2(int dayOfYear, double solarConstantWPerM2 = 1366.1)
    {
        Require.InRange(dayOfYear, 1, 366);
        Require.InRange(solarConstantWPerM2, 1300, 1400);
        double b = 2 * Math.PI * (dayOfYear - 1) / 365;
        return solarConstantWPerM2 * (1.00011 + (0.034221 * Math.Cos(b)) + (0.00128 * Math.Sin(b)) + (0.000719 * Math.Cos(2 * b)) + (0.000077 * Math.Sin(2 * b)));
    }
}
