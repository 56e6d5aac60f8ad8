namespace Runnel.Science.Plants;

/// <summary>Sums that tie feed, plants, water and nitrogen together, by definition; the ratios are the caller's.</summary>
/// <remarks>Definitions; exact. The ratios scatter by half: Rakocy (2007) for rafts and nutrient film, FAO Fisheries Technical
/// Paper 589 (2014) section 8.1 for leafy and fruiting crops.</remarks>
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

    /// <summary>Nitrogen that plants take up, g a day.</summary>
    /// <param name="areaM2">Planted area, m².</param>
    /// <param name="uptakeGPerM2Day">Uptake, g N/(m² day): leafy 0.3 to 1, fruiting crops more.</param>
    /// <returns>g N a day.</returns>
    /// <exception cref="ArgumentOutOfRangeException">An input is NaN or out of range.</exception>
    public static double PlantNitrogenGPerDay(double areaM2, double uptakeGPerM2Day)
    {
        Require.NotNegative(areaM2);
        Require.InRange(uptakeGPerM2Day, 0, 20);
        return areaM2 * uptakeGPerM2Day;
    }

    /// <summary>How fast nitrate rises when plants do not take all nitrogen, mg N/L a day.</summary>
    /// <param name="dissolvedGPerDay">Nitrogen that fish give to the water, g a day (<see cref="Fish.FeedWaste.TanGNPerDay"/>).</param>
    /// <param name="plantsGPerDay">Nitrogen that plants take up, g a day.</param>
    /// <param name="volumeL">Water of the loop, L.</param>
    /// <returns>mg N/L a day; below 0 the plants run it down. Nitrogen that leaves as gas is left out.</returns>
    /// <exception cref="ArgumentOutOfRangeException">An input is NaN or out of range.</exception>
    /// <remarks>Balance of nitrogen.</remarks>
    public static double NitrateRiseMgNPerLDay(double dissolvedGPerDay, double plantsGPerDay, double volumeL)
    {
        Require.NotNegative(dissolvedGPerDay);
        Require.NotNegative(plantsGPerDay);
        Require.Positive(volumeL);
        return 1000 * (dissolvedGPerDay - plantsGPerDay) / volumeL;
    }

    /// <summary>Area that standing plants take, m².</summary>
    /// <param name="plants">Plants.</param>
    /// <param name="plantsPerM2">Plants a m², above 0.</param>
    /// <returns>m².</returns>
    /// <exception cref="ArgumentOutOfRangeException">An input is NaN or out of range.</exception>
    public static double StandingAreaM2(double plants, double plantsPerM2)
    {
        Require.NotNegative(plants);
        Require.Positive(plantsPerM2);
        return plants / plantsPerM2;
    }

    /// <summary>Seeds to sow for each harvest.</summary>
    /// <param name="plantsPerHarvest">Plants taken at each harvest.</param>
    /// <param name="germination">Share of seeds that come up, above 0 to 1.</param>
    /// <param name="survival">Share of seedlings that reach harvest, above 0 to 1.</param>
    /// <returns>Seeds, rounded up.</returns>
    /// <exception cref="ArgumentOutOfRangeException">An input is NaN or out of range.</exception>
    /// <remarks>Staggered planting as in FAO 589 sections 6.7 and 8.3: sow as often as you harvest.</remarks>
    public static double SeedsPerSowing(double plantsPerHarvest, double germination, double survival = 1)
    {
        Require.NotNegative(plantsPerHarvest);
        Require.InRange(germination, 0.01, 1);
        Require.InRange(survival, 0.01, 1);
        return Math.Ceiling((plantsPerHarvest / (germination * survival)) - 1e-9);
    }

    /// <summary>Water that a loop loses by a share, L a day.</summary>
    /// <param name="volumeL">Water of the loop, L.</param>
    /// <param name="lossPerDay">Share lost a day, 0 to 1: 0.01 to 0.03 in most.</param>
    /// <returns>L a day.</returns>
    /// <exception cref="ArgumentOutOfRangeException">An input is NaN or out of range.</exception>
    public static double LossLPerDay(double volumeL, double lossPerDay)
    {
        Require.NotNegative(volumeL);
        Require.InRange(lossPerDay, 0, 1);
        return volumeL * lossPerDay;
    }
}
