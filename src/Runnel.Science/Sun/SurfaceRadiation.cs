namespace Runnel.Science.Sun;

/// <summary>Radiation at the ground and its balance, after FAO-56 (MJ/m² over the period named).</summary>
/// <remarks>Allen, Pereira, Raes and Smith (1998), FAO Irrigation and Drainage Paper 56, chapter 3.</remarks>
public static class SurfaceRadiation
{
    /// <summary>Latent heat of vaporisation as FAO-56 has it, MJ/kg (water near 20 °C).</summary>
    public const double LatentHeatMJPerKg = 2.45;

    // Stefan-Boltzmann constant as printed with FAO-56 equation 39, MJ/(K4 m2 day).
    private const double BoltzmannMJPerK4M2Day = 4.903e-9;

    /// <summary>Solar radiation of a day from the hours of bright sunshine (Angstrom), MJ/m².</summary>
    /// <param name="sunshineH">Hours of bright sunshine, 0 to 24; more than <paramref name="daylightH"/> counts as all of it.</param>
    /// <param name="daylightH">Longest possible sunshine, h, 0 to 24.</param>
    /// <param name="extraterrestrialMJPerM2Day">Extraterrestrial radiation, MJ/m² and day.</param>
    /// <param name="overcastShare">Share that comes through on an overcast day: 0.25 unless calibrated.</param>
    /// <param name="sunShare">Share added by full sun: 0.5 unless calibrated.</param>
    /// <returns>Solar radiation, MJ/m² and day.</returns>
    /// <exception cref="ArgumentOutOfRangeException">An input is NaN or out of range.</exception>
    /// <remarks>FAO-56 equation 35.</remarks>
    public static double FromSunshineMJPerM2Day(
        double sunshineH, double daylightH, double extraterrestrialMJPerM2Day, double overcastShare = 0.25, double sunShare = 0.5)
    {
        Require.InRange(sunshineH, 0, 24);
        Require.InRange(daylightH, 0, 24);
        Require.InRange(extraterrestrialMJPerM2Day, 0, 60);
        Require.InRange(overcastShare, 0, 1);
        Require.InRange(sunShare, 0, 1);
        double relative = daylightH > 0 ? Math.Min(1, sunshineH / daylightH) : 0;
        return (overcastShare + (sunShare * relative)) * extraterrestrialMJPerM2Day;
    }

    /// <summary>Solar radiation of a day from the range of its temperature (Hargreaves), MJ/m².</summary>
    /// <param name="maxTempC">Highest air temperature, °C.</param>
    /// <param name="minTempC">Lowest air temperature, °C.</param>
    /// <param name="extraterrestrialMJPerM2Day">Extraterrestrial radiation, MJ/m² and day.</param>
    /// <param name="coefficient">Per root of °C: 0.16 inland, 0.19 at the coast.</param>
    /// <returns>Solar radiation, MJ/m² and day.</returns>
    /// <exception cref="ArgumentOutOfRangeException">An input is NaN or out of range.</exception>
    /// <remarks>FAO-56 equation 50. An estimate for days without a sensor, off by a fifth or more on single days.</remarks>
    public static double FromTemperatureRangeMJPerM2Day(
        double maxTempC, double minTempC, double extraterrestrialMJPerM2Day, double coefficient = 0.16)
    {
        Require.InRange(maxTempC, -60, 80);
        Require.InRange(minTempC, -60, maxTempC);
        Require.InRange(extraterrestrialMJPerM2Day, 0, 60);
        Require.InRange(coefficient, 0.1, 0.25);
        return coefficient * Math.Sqrt(maxTempC - minTempC) * extraterrestrialMJPerM2Day;
    }

    /// <summary>Solar radiation under a clear sky, MJ/m² over the period of the input.</summary>
    /// <param name="altitudeM">Altitude, m, -450 to 6000.</param>
    /// <param name="extraterrestrialMJPerM2">Extraterrestrial radiation, MJ/m² of an hour or a day.</param>
    /// <returns>Clear-sky radiation over the same period.</returns>
    /// <exception cref="ArgumentOutOfRangeException">An input is NaN or out of range.</exception>
    /// <remarks>FAO-56 equation 37, for places without calibrated Angstrom values.</remarks>
    public static double ClearSkyMJPerM2(double altitudeM, double extraterrestrialMJPerM2)
    {
        Require.InRange(altitudeM, -450, 6000);
        Require.InRange(extraterrestrialMJPerM2, 0, 60);
        return (0.75 + (2e-5 * altitudeM)) * extraterrestrialMJPerM2;
    }

    /// <summary>Net shortwave radiation, MJ/m² over the period of the input.</summary>
    /// <param name="solarMJPerM2">Solar radiation, MJ/m².</param>
    /// <param name="albedo">Share reflected: 0.23 for the grass reference, 0.08 for open water.</param>
    /// <returns>Net shortwave radiation over the same period.</returns>
    /// <exception cref="ArgumentOutOfRangeException">An input is NaN or out of range.</exception>
    /// <remarks>FAO-56 equation 38.</remarks>
    public static double NetShortwaveMJPerM2(double solarMJPerM2, double albedo = 0.23)
    {
        Require.InRange(solarMJPerM2, 0, 60);
        Require.InRange(albedo, 0, 1);
        return (1 - albedo) * solarMJPerM2;
    }

    /// <summary>Net outgoing longwave radiation of a day, MJ/m².</summary>
    /// <param name="maxTempC">Highest air temperature, °C.</param>
    /// <param name="minTempC">Lowest air temperature, °C.</param>
    /// <param name="actualVapourKPa">Actual vapour pressure, kPa, 0 to 10.</param>
    /// <param name="relativeSolar">Solar over clear-sky radiation, 0 or more; counts as 1 beyond 1.</param>
    /// <returns>Net longwave radiation, MJ/m² and day, upward.</returns>
    /// <exception cref="ArgumentOutOfRangeException">An input is NaN or out of range.</exception>
    /// <remarks>FAO-56 equation 39. The cloud factor is kept from going below 0, which the printed form does under ratios of 0.26.</remarks>
    public static double NetLongwaveMJPerM2Day(double maxTempC, double minTempC, double actualVapourKPa, double relativeSolar)
    {
        Require.InRange(maxTempC, -60, 80);
        Require.InRange(minTempC, -60, maxTempC);
        double emitted = BoltzmannMJPerK4M2Day * (FourthPower(maxTempC + 273.16) + FourthPower(minTempC + 273.16)) / 2;
        return emitted * NetEmissivity(actualVapourKPa, relativeSolar);
    }

    /// <summary>Net outgoing longwave radiation of an hour, MJ/m².</summary>
    /// <param name="airTempC">Mean air temperature of the hour, °C.</param>
    /// <param name="actualVapourKPa">Actual vapour pressure, kPa, 0 to 10.</param>
    /// <param name="relativeSolar">Solar over clear-sky radiation, 0 or more; at night that of two or three hours before sunset.</param>
    /// <returns>Net longwave radiation, MJ/m² and hour, upward.</returns>
    /// <exception cref="ArgumentOutOfRangeException">An input is NaN or out of range.</exception>
    /// <remarks>FAO-56 equation 39 with the constant of an hour, printed as 2.043e-10 MJ/(K4 m2 h).</remarks>
    public static double NetLongwaveMJPerM2Hour(double airTempC, double actualVapourKPa, double relativeSolar)
    {
        Require.InRange(airTempC, -60, 80);
        return 2.043e-10 * FourthPower(airTempC + 273.16) * NetEmissivity(actualVapourKPa, relativeSolar);
    }

    /// <summary>Solar over clear-sky radiation, 0 to 1, or the value given for hours and days without sun.</summary>
    /// <param name="solarMJPerM2">Solar radiation, MJ/m².</param>
    /// <param name="clearSkyMJPerM2">Clear-sky radiation over the same period, MJ/m².</param>
    /// <param name="whenDark">Ratio to take when there is no sun to compare, 0 to 1: FAO-56 has 0.4 to 0.6 in humid and 0.7 to 0.8 in arid places.</param>
    /// <returns>Ratio, 0 to 1.</returns>
    /// <exception cref="ArgumentOutOfRangeException">An input is NaN or out of range.</exception>
    public static double RelativeSolar(double solarMJPerM2, double clearSkyMJPerM2, double whenDark = 0.5)
    {
        Require.InRange(solarMJPerM2, 0, 60);
        Require.InRange(clearSkyMJPerM2, 0, 60);
        Require.InRange(whenDark, 0, 1);
        return clearSkyMJPerM2 > 0 ? Math.Min(1, solarMJPerM2 / clearSkyMJPerM2) : whenDark;
    }

    /// <summary>Depth of water whose evaporation takes that energy, mm.</summary>
    /// <param name="energyMJPerM2">Energy, MJ/m², of either sign.</param>
    /// <param name="latentHeatMJPerKg">Latent heat, MJ/kg, 2.2 to 2.6. FAO-56 rounds its inverse to 0.408.</param>
    /// <returns>Depth, mm over the same period.</returns>
    /// <exception cref="ArgumentOutOfRangeException">An input is NaN or out of range.</exception>
    /// <remarks>FAO-56 equation 20.</remarks>
    public static double ToDepthMm(double energyMJPerM2, double latentHeatMJPerKg = LatentHeatMJPerKg)
    {
        Require.Finite(energyMJPerM2);
        Require.InRange(latentHeatMJPerKg, 2.2, 2.6);
        return energyMJPerM2 / latentHeatMJPerKg;
    }

    private static double NetEmissivity(double actualVapourKPa, double relativeSolar)
    {
        Require.InRange(actualVapourKPa, 0, 10);
        Require.NotNegative(relativeSolar);
        double cloud = Math.Max(0, (1.35 * Math.Min(1, relativeSolar)) - 0.35);
        return (0.34 - (0.14 * Math.Sqrt(actualVapourKPa))) * cloud;
    }

    private static double FourthPower(double kelvin)
    {
        double square = kelvin * kelvin;
        return square * square;
    }
}
