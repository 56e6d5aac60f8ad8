namespace Runnel.Twin.Invented;

/// <summary>
/// How an invented place truly loses water to the air. On purpose these are not the relations that the estimator uses
/// (Penman, reference evapotranspiration with a crop factor): a Dalton mass-transfer law on the water's own temperature, and a big
/// leaf with stomata that close by night and in dry air.
/// </summary>
internal static class WaterLoss
{
    /// <summary>Open water, mm/s, by E = (0.5 + 0.54 u) 2.6 (es(Tw) - ea) mm/day and kPa (Dalton form, wind function of Penman's kind).</summary>
    public static double OpenWaterMmPerS(double waterC, double airC, double rhPercent, double windMPerS)
    {
        double deficit = Weather.VapourKPa(waterC) - (Weather.VapourKPa(airC) * rhPercent / 100);
        return Math.Max(0, 2.6 * (0.5 + (0.54 * windMPerS)) * deficit / 86400);
    }

    /// <summary>Leaves, mm/s over their ground: Penman-Monteith form with a canopy resistance of Jarvis's kind.</summary>
    public static double LeafMmPerS(double airC, double rhPercent, double sunWPerM2, double windMPerS, double stomataSPerM)
    {
        double es = Weather.VapourKPa(airC);
        double vpd = es * (1 - (rhPercent / 100));
        double slope = 4098 * es / ((airC + 237.3) * (airC + 237.3));
        double net = Math.Max(0, (0.62 * sunWPerM2) - (sunWPerM2 < 5 ? 25 : 0));
        double air = 110 / Math.Max(0.3, windMPerS);
        double light = Math.Max(0.02, sunWPerM2 / (sunWPerM2 + 120));
        double leaf = stomataSPerM / light * (1 + (0.35 * vpd));
        const double psychrometric = 0.0665;
        double le = ((slope * net) + (1.2 * 1013 * vpd / air)) / (slope + (psychrometric * (1 + (leaf / air)))); // W/m2, rho cp = 1.2 x 1013
        return Math.Max(0, le / 2.45e6);
    }
}
