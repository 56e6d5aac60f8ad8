namespace Runnel.Science.Fish;

/// <summary>What a day's feed asks of the water: oxygen used, carbon dioxide and solids made.</summary>
/// <param name="OxygenGPerDay">Oxygen used by fish and bacteria, g a day.</param>
/// <param name="CarbonDioxideGPerDay">Carbon dioxide made, g a day.</param>
/// <param name="SolidsGPerDay">Solids made, dry, g a day.</param>
public readonly record struct FeedLoad(double OxygenGPerDay, double CarbonDioxideGPerDay, double SolidsGPerDay);

/// <summary>Waste from feed by planning values.</summary>
public static class FeedWaste
{
    /// <summary>Total ammonia nitrogen, g N a day.</summary>
    /// <param name="feedGPerDay">Feed eaten, g a day.</param>
    /// <param name="proteinFraction">Protein in the feed, 0 to 1.</param>
    /// <param name="tanPerProtein">g N for each g of protein: 0.092.</param>
    /// <returns>g N a day.</returns>
    /// <exception cref="ArgumentOutOfRangeException">An input is NaN or out of range.</exception>
    /// <remarks>Timmons and Ebeling, Recirculating Aquaculture: 0.16 N in protein x 0.80 x 0.80 x 0.90 = 0.092.</remarks>
    public static double TanGNPerDay(double feedGPerDay, double proteinFraction, double tanPerProtein = 0.092)
    {
        Require.NotNegative(feedGPerDay);
        Require.InRange(proteinFraction, 0, 1);
        Require.InRange(tanPerProtein, 0, 0.16);
        return feedGPerDay * proteinFraction * tanPerProtein;
    }

    /// <summary>Ammonia by the FAO rule, g NH3 a day.</summary>
    /// <param name="feedGPerDay">Feed eaten, g a day.</param>
    /// <param name="proteinFraction">Protein in the feed, 0 to 1.</param>
    /// <returns>g NH3 a day; as nitrogen it is 6 % above <see cref="TanGNPerDay"/>.</returns>
    /// <exception cref="ArgumentOutOfRangeException">An input is NaN or out of range.</exception>
    /// <remarks>FAO Fisheries Technical Paper 589 (2014), appendix 4: x 0.16 x 0.61 x 1.2.</remarks>
    public static double FaoAmmoniaGPerDay(double feedGPerDay, double proteinFraction)
    {
        Require.NotNegative(feedGPerDay);
        Require.InRange(proteinFraction, 0, 1);
        return feedGPerDay * proteinFraction * 0.16 * 0.61 * 1.2;
    }

    /// <summary>Oxygen, carbon dioxide and solids.</summary>
    /// <param name="feedGPerDay">Feed eaten, g a day.</param>
    /// <param name="oxygenPerFeed">Of the whole system, g/g: 0.5 (0.4 to 1 in print).</param>
    /// <param name="carbonDioxidePerOxygen">g/g: 1.375.</param>
    /// <param name="solidsPerFeed">g/g: 0.25 (0.2 to 0.4).</param>
    /// <returns>Load.</returns>
    /// <exception cref="ArgumentOutOfRangeException">An input is NaN or out of range.</exception>
    /// <remarks>Timmons and Ebeling, planning values.</remarks>
    public static FeedLoad Load(double feedGPerDay, double oxygenPerFeed = 0.5, double carbonDioxidePerOxygen = 1.375, double solidsPerFeed = 0.25)
    {
        Require.NotNegative(feedGPerDay);
        Require.InRange(oxygenPerFeed, 0, 2);
        Require.InRange(carbonDioxidePerOxygen, 0, 2);
        Require.InRange(solidsPerFeed, 0, 1);
        double oxygen = feedGPerDay * oxygenPerFeed;
        return new FeedLoad(oxygen, oxygen * carbonDioxidePerOxygen, feedGPerDay * solidsPerFeed);
    }
}
