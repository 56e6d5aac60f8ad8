using Runnel.Science.Air;
using Runnel.Science.Sun;

namespace Runnel.Science.Water;

/// <summary>Evaporation of a day and the net radiation that drives it.</summary>
/// <param name="EvaporationMm">Evaporation, mm a day.</param>
/// <param name="NetRadiationMJPerM2">Net radiation, MJ/m² and day.</param>
public readonly record struct EvaporationDay(double EvaporationMm, double NetRadiationMJPerM2);

/// <summary>Evaporation from open water. The heat that the water itself stores is left out: over single days a deep tank lags.</summary>
/// <remarks>McMahon, Peel, Lowe, Srikanthan and McVicar (2013), Hydrology and Earth System Sciences 17:1331-1363, unless said otherwise.</remarks>
public static class OpenWaterEvaporation
{
    /// <summary>Penman's open-water evaporation of a day.</summary>
    /// <param name="latitudeDeg">Latitude, degrees, south negative, -90 to 90.</param>
    /// <param name="altitudeM">Altitude, m, -450 to 6000.</param>
    /// <param name="dayOfYear">1 to 366.</param>
    /// <param name="maxTempC">Highest air temperature, °C.</param>
    /// <param name="minTempC">Lowest air temperature, °C.</param>
    /// <param name="actualVapourKPa">Actual vapour pressure, kPa.</param>
    /// <param name="windAt2MMPerS">Wind speed at 2 m, m/s, 0 to 50.</param>
    /// <param name="solarMJPerM2Day">Solar radiation, MJ/m² and day.</param>
    /// <param name="albedo">Share of solar radiation reflected: 0.08 for open water.</param>
    /// <param name="windA">Constant of the wind function, mm/(day kPa): 1.313 (Penman 1956); 2.626 is Penman 1948.</param>
    /// <param name="windB">Slope of the wind function, mm/(day kPa) for each m/s: 1.381.</param>
    /// <returns>Evaporation and net radiation.</returns>
    /// <exception cref="ArgumentOutOfRangeException">An input is NaN or out of range.</exception>
    /// <remarks>McMahon et al. (2013) equation 12 and supplement S4, radiation as FAO-56. About 10 % for shallow open ponds.</remarks>
    public static EvaporationDay PenmanDaily(
        double latitudeDeg, double altitudeM, int dayOfYear, double maxTempC, double minTempC, double actualVapourKPa,
        double windAt2MMPerS, double solarMJPerM2Day, double albedo = 0.08, double windA = 1.313, double windB = 1.381)
    {
        Require.InRange(windAt2MMPerS, 0, 50);
        Require.InRange(windA, 0, 10);
        Require.InRange(windB, 0, 10);
        double clearSky = SurfaceRadiation.ClearSkyMJPerM2(altitudeM, SolarDay.ExtraterrestrialMJPerM2Day(latitudeDeg, dayOfYear));
        double net = SurfaceRadiation.NetShortwaveMJPerM2(solarMJPerM2Day, albedo) - SurfaceRadiation.NetLongwaveMJPerM2Day(
            maxTempC, minTempC, actualVapourKPa, SurfaceRadiation.RelativeSolar(solarMJPerM2Day, clearSky));
        double slope = VapourPressure.SlopeKPaPerC((maxTempC + minTempC) / 2);
        double gamma = Atmosphere.PsychrometricConstantKPaPerC(Atmosphere.PressureKPa(altitudeM));
        double deficit = VapourPressure.DeficitKPa(maxTempC, minTempC, actualVapourKPa);
        double aerodynamic = (windA + (windB * windAt2MMPerS)) * deficit;
        double evaporation = ((slope * SurfaceRadiation.ToDepthMm(net)) + (gamma * aerodynamic)) / (slope + gamma);
        return new EvaporationDay(evaporation, net);
    }

    /// <summary>Constant of the wind function after Shuttleworth (1993), mm/(day kPa), for <see cref="PenmanDaily"/>.</summary>
    /// <remarks>Handbook of Hydrology, chapter 4: 6.43 (1 + 0.536 u2) MJ/(m² day kPa), over a latent heat of 2.45 MJ/kg.</remarks>
    public const double ShuttleworthWindA = 6.43 / 2.45;

    /// <summary>Slope of the wind function after Shuttleworth (1993), mm/(day kPa) for each m/s.</summary>
    public const double ShuttleworthWindB = 6.43 * 0.536 / 2.45;

    /// <summary>Priestley-Taylor evaporation of a day, mm: where wind carries little.</summary>
    /// <param name="airTempC">Mean air temperature, °C.</param>
    /// <param name="netRadiationMJPerM2Day">Net radiation, MJ/m² and day.</param>
    /// <param name="pressureKPa">Air pressure, kPa, 40 to 110.</param>
    /// <param name="alpha">Factor on equilibrium evaporation: 1.26.</param>
    /// <returns>Evaporation, mm a day.</returns>
    /// <exception cref="ArgumentOutOfRangeException">An input is NaN or out of range.</exception>
    /// <remarks>Priestley and Taylor (1972) as in McMahon et al. (2013).</remarks>
    public static double PriestleyTaylorMmPerDay(double airTempC, double netRadiationMJPerM2Day, double pressureKPa, double alpha = 1.26)
    {
        Require.InRange(alpha, 0.5, 2);
        double slope = VapourPressure.SlopeKPaPerC(airTempC);
        double gamma = Atmosphere.PsychrometricConstantKPaPerC(pressureKPa);
        return alpha * slope / (slope + gamma) * SurfaceRadiation.ToDepthMm(netRadiationMJPerM2Day);
    }

    /// <summary>Makkink's evapotranspiration of a day, mm: from temperature and solar radiation.</summary>
    /// <param name="airTempC">Mean air temperature, °C.</param>
    /// <param name="solarMJPerM2Day">Solar radiation, MJ/m² and day.</param>
    /// <param name="pressureKPa">Air pressure, kPa, 40 to 110.</param>
    /// <returns>Evapotranspiration, mm a day; -0.12 at no radiation, as printed.</returns>
    /// <exception cref="ArgumentOutOfRangeException">An input is NaN or out of range.</exception>
    /// <remarks>Makkink (1957) with 0.61 and -0.12, as in McMahon et al. (2013).</remarks>
    public static double MakkinkMmPerDay(double airTempC, double solarMJPerM2Day, double pressureKPa)
    {
        Require.InRange(solarMJPerM2Day, 0, 60);
        double slope = VapourPressure.SlopeKPaPerC(airTempC);
        double gamma = Atmosphere.PsychrometricConstantKPaPerC(pressureKPa);
        return (0.61 * slope / (slope + gamma) * SurfaceRadiation.ToDepthMm(solarMJPerM2Day)) - 0.12;
    }

    /// <summary>Turc's evapotranspiration of a day, mm: from temperature, humidity and solar radiation.</summary>
    /// <param name="airTempC">Mean air temperature, °C, -14 to 60; 0 or less gives 0.</param>
    /// <param name="meanRelHumidity">Mean relative humidity, 0 to 1; under 0.5 the result is raised.</param>
    /// <param name="solarMJPerM2Day">Solar radiation, MJ/m² and day.</param>
    /// <returns>Evapotranspiration, mm a day.</returns>
    /// <exception cref="ArgumentOutOfRangeException">An input is NaN or out of range.</exception>
    /// <remarks>Turc (1961) as in McMahon et al. (2013), supplement S9.</remarks>
    public static double TurcMmPerDay(double airTempC, double meanRelHumidity, double solarMJPerM2Day)
    {
        Require.InRange(airTempC, -14, 60);
        Require.InRange(meanRelHumidity, 0, 1);
        Require.InRange(solarMJPerM2Day, 0, 60);
        if (airTempC <= 0) return 0;
        double dryness = meanRelHumidity < 0.5 ? 1 + ((50 - (100 * meanRelHumidity)) / 70) : 1;
        return 0.013 * ((23.88 * solarMJPerM2Day) + 50) * airTempC / (airTempC + 15) * dryness;
    }

    /// <summary>Hargreaves-Samani evapotranspiration of a day with a coefficient that follows the temperature range, mm.</summary>
    /// <param name="maxTempC">Highest air temperature, °C.</param>
    /// <param name="minTempC">Lowest air temperature, °C.</param>
    /// <param name="extraterrestrialMJPerM2Day">Extraterrestrial radiation, MJ/m² and day.</param>
    /// <returns>Evapotranspiration, mm a day.</returns>
    /// <exception cref="ArgumentOutOfRangeException">An input is NaN or out of range.</exception>
    /// <remarks>Hargreaves and Samani (1985), coefficient 0.00185 dT² - 0.0433 dT + 0.4023 as in McMahon et al. (2013), supplement S9.</remarks>
    public static double HargreavesSamaniMmPerDay(double maxTempC, double minTempC, double extraterrestrialMJPerM2Day)
    {
        Require.InRange(maxTempC, -60, 80);
        Require.InRange(minTempC, -60, maxTempC);
        Require.InRange(extraterrestrialMJPerM2Day, 0, 60);
        double range = maxTempC - minTempC;
        double coefficient = (0.00185 * range * range) - (0.0433 * range) + 0.4023;
        double mean = (maxTempC + minTempC) / 2;
        return Math.Max(0, 0.0135 * coefficient * SurfaceRadiation.ToDepthMm(extraterrestrialMJPerM2Day) * Math.Sqrt(range) * (mean + 17.8));
    }

    /// <summary>Evaporation of a small tank or pool from the vapour pressures over it, kg an hour (about L an hour).</summary>
    /// <param name="areaM2">Open water surface, m².</param>
    /// <param name="waterTempC">Water temperature, °C.</param>
    /// <param name="airTempC">Air temperature, °C.</param>
    /// <param name="relHumidity">Relative humidity, 0 to 1.</param>
    /// <param name="windMPerS">Air speed over the water, m/s, 0 to 10.</param>
    /// <param name="latentHeatKJPerKg">Latent heat at the water's temperature, kJ/kg; 2430 near 28 °C.</param>
    /// <returns>Evaporation, kg an hour; below 0 where moisture settles on cold water.</returns>
    /// <exception cref="ArgumentOutOfRangeException">An input is NaN or out of range.</exception>
    /// <remarks>ASHRAE Handbook, HVAC Applications, natatoriums: A (pw - pa)(0.089 + 0.0782 V)/Y with kPa and kW, activity factor 1;
    /// the coefficients are from memory.</remarks>
    public static double SmallTankKgPerH(
        double areaM2, double waterTempC, double airTempC, double relHumidity, double windMPerS, double latentHeatKJPerKg = 2430)
    {
        Require.NotNegative(areaM2);
        Require.InRange(windMPerS, 0, 10);
        Require.InRange(latentHeatKJPerKg, 2200, 2600);
        double deficitPa = 1000 * (VapourPressure.SaturationKPa(waterTempC) - VapourPressure.FromHumidityKPa(airTempC, relHumidity));
        // The printed coefficients give kg/s for Pa and kJ/kg.
        return 3600 * areaM2 * deficitPa * (0.089 + (0.0782 * windMPerS)) / (latentHeatKJPerKg * 1000);
    }
}
