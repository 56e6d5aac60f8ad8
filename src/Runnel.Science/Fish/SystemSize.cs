using Runnel.Science.Figures;

namespace Runnel.Science.Fish;

/// <summary>What a small loop of fish and leafy plants may hold by the size of its fish tank: the most, for a keeper with experience.</summary>
/// <param name="TankL">Fish tank, L.</param>
/// <param name="FishKg">Most fish, kg.</param>
/// <param name="FeedGPerDay">Feed, g a day.</param>
/// <param name="PumpLPerH">Pump, L/h.</param>
/// <param name="FiltersL">Room of the filters, L.</param>
/// <param name="TuffL">Volcanic tuff as filter media, L.</param>
/// <param name="BioBallsL">Or plastic bio balls, L.</param>
/// <param name="PlantAreaM2">Area of leafy plants, m².</param>
/// <param name="Source">Where it is printed.</param>
/// <param name="Provenance">How it was come by, see <see cref="ReferenceData"/>.</param>
public sealed record SystemSize(
    double TankL, double FishKg, double FeedGPerDay, double PumpLPerH, FigureRange FiltersL, double TuffL, double BioBallsL, double PlantAreaM2, string Source, string Provenance)
{
    /// <summary>All sizes, smallest first.</summary>
    public static IReadOnlyList<SystemSize> All { get; } = ReferenceData.Read("system-sizes.csv", r => new SystemSize(
        r.Number("tank_l"), r.Number("fish_kg"), r.Number("feed_g_per_day"), r.Number("pump_l_per_h"), r.Range("filters_min_l", "filters_max_l") ?? throw r.Wrong("no room of filters"),
        r.Number("tuff_l"), r.Number("bio_balls_l"), r.Number("plant_area_m2"), r.Source, r.Provenance));

    /// <summary>The largest size that a tank reaches.</summary>
    /// <param name="tankL">Fish tank, L.</param>
    /// <returns>Size, or null where the tank is smaller than all listed.</returns>
    /// <exception cref="ArgumentOutOfRangeException">The volume is NaN or not above 0.</exception>
    public static SystemSize? For(double tankL)
    {
        Require.Positive(tankL);
        return All.LastOrDefault(s => s.TankL <= tankL);
    }
}
