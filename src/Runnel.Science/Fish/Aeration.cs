using Runnel.Science.Water;

namespace Runnel.Science.Fish;

/// <summary>Oxygen from air: transfer in the field, pressure and power, the water's surface.</summary>
public static class Aeration
{
    private const double AirKgPerM3 = 1.2041, OxygenInAir = 0.2314, SurfacePa = 101_325;

    /// <summary>Transfer coefficient at a temperature, 1/h.</summary>
    /// <param name="kla20PerH">Coefficient at 20 °C, 1/h.</param>
    /// <param name="waterTempC">Water temperature, °C, 0 to 40.</param>
    /// <param name="theta">Factor a degree: 1.024.</param>
    /// <returns>1/h.</returns>
    /// <exception cref="ArgumentOutOfRangeException">An input is NaN or out of range.</exception>
    /// <remarks>ASCE 2-06.</remarks>
    public static double TransferPerH(double kla20PerH, double waterTempC, double theta = 1.024)
    {
        Require.NotNegative(kla20PerH);
        Require.InRange(waterTempC, 0, 40);
        Require.InRange(theta, 1, 1.1);
        return kla20PerH * Math.Pow(theta, waterTempC - 20);
    }

    /// <summary>Oxygen an aerator gives in the field, g/h.</summary>
    /// <param name="standardGPerH">Rated transfer in clean water at 20 °C and no oxygen, g/h.</param>
    /// <param name="waterTempC">Water temperature, °C.</param>
    /// <param name="doMgPerL">Oxygen kept, mg/L.</param>
    /// <param name="altitudeM">Altitude, m.</param>
    /// <param name="alpha">Transfer in this water over clean water: 0.8 to 0.95 in fish tanks.</param>
    /// <param name="beta">Saturation in this water over clean water: 0.95 to 0.98.</param>
    /// <param name="theta">Factor a degree: 1.024.</param>
    /// <returns>g/h; below 0 where the water is above saturation.</returns>
    /// <exception cref="ArgumentOutOfRangeException">An input is NaN or out of range.</exception>
    /// <remarks>ASCE 2-06 field correction.</remarks>
    public static double FieldGPerH(
        double standardGPerH, double waterTempC, double doMgPerL, double altitudeM = 0, double alpha = 0.9, double beta = 0.98, double theta = 1.024)
    {
        Require.InRange(doMgPerL, 0, 60);
        Require.InRange(alpha, 0.1, 1.2);
        Require.InRange(beta, 0.5, 1.1);
        double saturation = OxygenSaturation.AtAltitudeMgPerL(waterTempC, altitudeM);
        return TransferPerH(standardGPerH, waterTempC, theta) * alpha * ((beta * saturation) - doMgPerL) / OxygenSaturation.MgPerL(20);
    }

    /// <summary>Oxygen that an air flow hands over, g/h.</summary>
    /// <param name="airLPerMin">Air, L/min at 20 °C.</param>
    /// <param name="efficiency">Share of its oxygen that dissolves, 0 to 1: 0.02 to 0.07 for each metre of depth.</param>
    /// <returns>g/h.</returns>
    /// <exception cref="ArgumentOutOfRangeException">An input is NaN or out of range.</exception>
    /// <remarks>Air of 1.2041 kg/m³ with 23.14 % oxygen by mass: 1 L/min carries 16.7 g/h.</remarks>
    public static double OxygenFromAirGPerH(double airLPerMin, double efficiency)
    {
        Require.NotNegative(airLPerMin);
        Require.InRange(efficiency, 0, 1);
        return airLPerMin * 60 * AirKgPerM3 * OxygenInAir * efficiency;
    }

    /// <summary>Gauge pressure at a diffuser from depth alone, kPa; stone and pipe add to it.</summary>
    /// <param name="depthM">Depth, m.</param>
    /// <param name="waterKgPerM3">Density of the water, kg/m³.</param>
    /// <returns>kPa.</returns>
    /// <exception cref="ArgumentOutOfRangeException">An input is NaN or out of range.</exception>
    /// <remarks>Hydrostatics; pipe, valve and a dirty stone come on top: half as much again is common practice.</remarks>
    public static double DiffuserKPa(double depthM, double waterKgPerM3 = 997)
    {
        Require.InRange(depthM, 0, 50);
        Require.InRange(waterKgPerM3, 950, 1100);
        return waterKgPerM3 * 9.80665 * depthM / 1000;
    }

    /// <summary>Least power to press air to a depth, W; pumps of this size use three to ten times as much.</summary>
    /// <param name="airLPerMin">Air, L/min.</param>
    /// <param name="depthM">Depth, m.</param>
    /// <returns>W.</returns>
    /// <exception cref="ArgumentOutOfRangeException">An input is NaN or out of range.</exception>
    /// <remarks>Adiabatic compression, k = 1.4.</remarks>
    public static double CompressionW(double airLPerMin, double depthM)
    {
        Require.NotNegative(airLPerMin);
        double ratio = 1 + (1000 * DiffuserKPa(depthM) / SurfacePa), k = 1.4;
        return airLPerMin / 60_000 * SurfacePa * k / (k - 1) * (Math.Pow(ratio, (k - 1) / k) - 1);
    }

    /// <summary>Power that rising air can give, W.</summary>
    /// <param name="airLPerMin">Air, L/min at the surface.</param>
    /// <param name="submergenceM">Depth at which it is let in, m.</param>
    /// <returns>W.</returns>
    /// <exception cref="ArgumentOutOfRangeException">An input is NaN or out of range.</exception>
    /// <remarks>Isothermal expansion.</remarks>
    public static double RisingAirW(double airLPerMin, double submergenceM)
    {
        Require.NotNegative(airLPerMin);
        return SurfacePa * airLPerMin / 60_000 * double.LogP1(1000 * DiffuserKPa(submergenceM) / SurfacePa);
    }

    /// <summary>Most water that an air-lift could raise, L/min; real ones reach a fifth to a half.</summary>
    /// <param name="airLPerMin">Air, L/min at the surface.</param>
    /// <param name="submergenceM">Depth at which it is let in, m.</param>
    /// <param name="liftM">Lift above the surface, m, above 0.</param>
    /// <param name="waterKgPerM3">Density of the water, kg/m³.</param>
    /// <returns>L/min.</returns>
    /// <exception cref="ArgumentOutOfRangeException">An input is NaN or out of range.</exception>
    /// <remarks>Energy balance: what the rising air gives up against the weight of water lifted. Real air lifts reach a third to a half of it (common practice).</remarks>
    public static double AirLiftBoundLPerMin(double airLPerMin, double submergenceM, double liftM, double waterKgPerM3 = 997)
    {
        Require.Positive(liftM);
        Require.InRange(waterKgPerM3, 950, 1100);
        return RisingAirW(airLPerMin, submergenceM) / (waterKgPerM3 * 9.80665 * liftM) * 60_000;
    }

    /// <summary>Exchange velocity of a still surface by wind, cm/h, at a Schmidt number of 600.</summary>
    /// <param name="windAt10MMPerS">Wind at 10 m, m/s, 0 to 30.</param>
    /// <returns>cm/h.</returns>
    /// <exception cref="ArgumentOutOfRangeException">The wind is NaN or out of range.</exception>
    /// <remarks>Cole and Caraco (1998), Limnol. Oceanogr. 43:647-656.</remarks>
    public static double SurfaceK600CmPerH(double windAt10MMPerS)
    {
        Require.InRange(windAt10MMPerS, 0, 30);
        return 2.07 + (0.215 * Math.Pow(windAt10MMPerS, 1.7));
    }

    /// <summary>Schmidt number of oxygen in fresh water.</summary>
    /// <param name="waterTempC">Water temperature, °C, 0 to 30 (the range of the fit; to 35 with care).</param>
    /// <returns>Schmidt number.</returns>
    /// <exception cref="ArgumentOutOfRangeException">The temperature is NaN or out of range.</exception>
    /// <remarks>Wanninkhof (1992), J. Geophys. Res. 97:7373-7382.</remarks>
    public static double SchmidtNumber(double waterTempC)
    {
        Require.InRange(waterTempC, 0, 35);
        return 1800.6 + (waterTempC * (-120.10 + (waterTempC * (3.7818 - (0.047608 * waterTempC)))));
    }

    /// <summary>Exchange velocity at a temperature, cm/h; over the depth in cm it is a transfer coefficient in 1/h.</summary>
    /// <param name="k600CmPerH">Exchange velocity at a Schmidt number of 600, cm/h.</param>
    /// <param name="waterTempC">Water temperature, °C.</param>
    /// <returns>cm/h.</returns>
    /// <exception cref="ArgumentOutOfRangeException">An input is NaN or out of range.</exception>
    /// <remarks>Wanninkhof (1992), J. Geophys. Res. 97:7373-7382: exchange with the Schmidt number to -1/2.</remarks>
    public static double SurfaceExchangeCmPerH(double k600CmPerH, double waterTempC)
    {
        Require.NotNegative(k600CmPerH);
        return k600CmPerH / Math.Sqrt(SchmidtNumber(waterTempC) / 600);
    }
}
