namespace Runnel.Science.Plants;

/// <summary>Sums that tie feed, plants, water and nitrogen together, by definition; the ratios are the caller's.</summary>
public static class PlantBalance
{
    /// <summary>Nitrogen over protein, g/g.</summary>
    public const double NitrogenPerProtein = 0.16;

    /// <summary>Feed that a planted area asks for, g a day.</summary>
    /// <param name="areaM2">Planted area, m².</param>
    /// <param name="feedRateRatioGPerM2Day">Feed rate ratio: leafy 40 to 50, fruiting 50 to 80, rafts 60 to 100, nutrient film 15 to 25.</param>
    /// <returns>g a day.</returns>
    /// <exception cref="ArgumentOutOfRangeException">An input is NaN or negative.</exception>
    public static double FeedGPerDay(double areaM2, double feedRateRatioGPerM2Day)
    {
        Require.NotNegative(areaM2);
        Require.NotNegative(feedRateRatioGPerM2Day);
        return areaM2 * feedRateRatioGPerM2Day;
    }

    /// <summary>Planted area that a feed keeps, m².</summary>
    /// <param name="feedGPerDay">Feed, g a day.</param>
    /// <param name="feedRateRatioGPerM2Day">Feed rate ratio, g/(m² day), above 0.</param>
    /// <returns>m².</returns>
    /// <exception cref="ArgumentOutOfRangeException">An input is NaN or out of range.</exception>
    public static double AreaM2(double feedGPerDay, double feedRateRatioGPerM2Day)
    {
        Require.NotNegative(feedGPerDay);
        Require.Positive(feedRateRatioGPerM2Day);
        return feedGPerDay / feedRateRatioGPerM2Day;
    }

    /// <summary>Plants standing for a steady harvest.</summary>
    /// <param name="plantsPerHarvest">Plants taken at each harvest.</param>
    /// <param name="growthDays">Days from planting to harvest.</param>
    /// <param name="intervalDays">Days between harvests, above 0.</param>
    /// <returns>Plants.</returns>
    /// <exception cref="ArgumentOutOfRangeException">An input is NaN or out of range.</exception>
    public static double StandingPlants(double plantsPerHarvest, double growthDays, double intervalDays)
    {
        Require.NotNegative(plantsPerHarvest);
        Require.NotNegative(growthDays);
        Require.Positive(intervalDays);
        return plantsPerHarvest * growthDays / intervalDays;
    }

    /// <summary>Water that plants and surface give off, L a day.</summary>
    /// <param name="areaM2">Area, m².</param>
    /// <param name="etMmPerDay">Evapotranspiration, mm a day.</param>
    /// <returns>L a day.</returns>
    /// <exception cref="ArgumentOutOfRangeException">An input is NaN or negative.</exception>
    public static double WaterLPerDay(double areaM2, double etMmPerDay)
    {
        Require.NotNegative(areaM2);
        Require.NotNegative(etMmPerDay);
        return areaM2 * etMmPerDay;
    }

    /// <summary>Nitrogen in the feed, g a day.</summary>
    /// <param name="feedGPerDay">Feed, g a day.</param>
    /// <param name="proteinFraction">Protein in the feed, 0 to 1.</param>
    /// <returns>g N a day.</returns>
    /// <exception cref="ArgumentOutOfRangeException">An input is NaN or out of range.</exception>
    public static double FeedNitrogenGPerDay(double feedGPerDay, double proteinFraction)
    {
        Require.NotNegative(feedGPerDay);
        Require.InRange(proteinFraction, 0, 1);
        return feedGPerDay * proteinFraction * NitrogenPerProtein;
    }
}
