using Runnel.Science.Air;
using Runnel.Science.Sun;

namespace Runnel.Science.Water;

/// <summary>Evaporation from open water over one hour.</summary>
public static class OpenWaterHour
{
    /// <summary>Penman's combination equation over one hour, mm. Heat that the water stores from day to night is not followed, so an hour
    /// may be off where a day is not.</summary>
    /// <param name="latitudeDeg">Degrees north, -90 to 90.</param>
    /// <param name="altitudeM">Height above sea level, m, -450 to 6000.</param>
    /// <param name="dayOfYear">1 to 366.</param>
    /// <param name="midHourAngleRad">Solar hour angle at the middle of the hour, rad, 0 at noon.</param>
    /// <param name="airTempC">Mean air temperature of the hour, °C, -60 to 80.</param>
    /// <param name="relHumidity">Mean relative humidity, 0 to 1.</param>
    /// <param name="windAt2MMPerS">Mean wind 2 m above the ground, m/s, 0 to 50.</param>
    /// <param name="solarMJPerM2Hour">Solar radiation of the hour, MJ/m2, 0 to 60.</param>
    /// <param name="nightRelativeSolar">Cloudiness at night as solar over clear-sky radiation, 0 to 1.</param>
    /// <param name="albedo">Share of sunlight thrown back by the water, 0 to 1.</param>
    /// <param name="windA">Wind function constant, mm a day per kPa.</param>
    /// <param name="windB">Wind function constant, mm a day per kPa for each m/s.</param>
    /// <returns>mm in the hour, never below 0 (dew is left out).</returns>
    /// <exception cref="ArgumentOutOfRangeException">An input is NaN or out of range.</exception>
    /// <remarks>Penman (1948) with the wind function of 1956, constants as in McMahon et al. (2013), Hydrol. Earth Syst. Sci. 17:1331-1363;
    /// net long-wave radiation by the hour as in FAO-56 (Allen et al. 1998), equation 39 with hourly constant.</remarks>
    public static double PenmanMm(
        double latitudeDeg, double altitudeM, int dayOfYear, double midHourAngleRad, double airTempC, double relHumidity,
        double windAt2MMPerS, double solarMJPerM2Hour, double nightRelativeSolar = 0.5, double albedo = 0.08, double windA = 1.313,
        double windB = 1.381)
    {
        Require.InRange(windAt2MMPerS, 0, 50);
        Require.InRange(windA, 0, 10);
        Require.InRange(windB, 0, 10);
        double clearSky = SurfaceRadiation.ClearSkyMJPerM2(
            altitudeM, SolarHour.ExtraterrestrialMJPerM2(latitudeDeg, dayOfYear, midHourAngleRad));
        double actual = VapourPressure.FromHumidityKPa(airTempC, relHumidity);
        double relativeSolar = SurfaceRadiation.RelativeSolar(solarMJPerM2Hour, clearSky, nightRelativeSolar);
        double net = SurfaceRadiation.NetShortwaveMJPerM2(solarMJPerM2Hour, albedo)
            - SurfaceRadiation.NetLongwaveMJPerM2Hour(airTempC, actual, relativeSolar);
        double slope = VapourPressure.SlopeKPaPerC(airTempC);
        double gamma = Atmosphere.PsychrometricConstantKPaPerC(Atmosphere.PressureKPa(altitudeM));
        double aerodynamic = (windA + (windB * windAt2MMPerS)) / 24 * (VapourPressure.SaturationKPa(airTempC) - actual);
        return Math.Max(0, ((slope * SurfaceRadiation.ToDepthMm(net)) + (gamma * aerodynamic)) / (slope + gamma));
    }
}
