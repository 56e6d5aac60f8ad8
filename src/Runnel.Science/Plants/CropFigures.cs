using Runnel.Science.Figures;

namespace Runnel.Science.Plants;

/// <summary>Coefficients, height and roots of a field or garden crop, for a dry, windy, well watered standard climate.</summary>
/// <param name="Crop">Name.</param>
/// <param name="KcInitial">Single coefficient at the start; null where there is no such stage.</param>
/// <param name="KcMid">Single coefficient at full cover.</param>
/// <param name="KcEnd">Single coefficient at harvest.</param>
/// <param name="HeightM">Greatest height, m.</param>
/// <param name="KcbInitial">Basal coefficient at the start.</param>
/// <param name="KcbMid">Basal coefficient at full cover.</param>
/// <param name="KcbEnd">Basal coefficient at harvest.</param>
/// <param name="RootDepthM">Greatest root depth, m: the least for watered crops, the greatest for dry ones.</param>
/// <param name="DepletionShare">Share p of the available water that goes before stress, at 5 mm a day.</param>
/// <param name="Source">Where it is printed.</param>
/// <param name="Provenance">How it was come by, see <see cref="ReferenceData"/>.</param>
public sealed record CropFigures(
    string Crop, double? KcInitial, double KcMid, double KcEnd, double? HeightM, double? KcbInitial, double? KcbMid, double? KcbEnd, FigureRange? RootDepthM,
    double? DepletionShare, string Source, string Provenance)
{
    /// <summary>All crops listed (FAO-56 tables 12, 17 and 22).</summary>
    public static IReadOnlyList<CropFigures> All { get; } = ReferenceData.Read("crop-coefficients.csv", r => new CropFigures(
        r.Text("crop"), r.NumberOrNull("kc_ini"), r.Number("kc_mid"), r.Number("kc_end"), r.NumberOrNull("height_m"), r.NumberOrNull("kcb_ini"),
        r.NumberOrNull("kcb_mid"), r.NumberOrNull("kcb_end"), r.Range("root_depth_min_m", "root_depth_max_m"), r.NumberOrNull("p_fraction"), r.Source, r.Provenance));

    /// <summary>A crop.</summary>
    /// <param name="crop">Name, as in <see cref="All"/>.</param>
    /// <returns>Its figures, or null where it is not listed.</returns>
    public static CropFigures? Find(string crop) => All.FirstOrDefault(c => string.Equals(c.Crop, crop, StringComparison.OrdinalIgnoreCase));

    /// <summary>Stages with the single coefficients.</summary>
    /// <param name="lengths">Lengths of the stages.</param>
    /// <returns>Stages; null where the crop has no start coefficient.</returns>
    public CropStages? SingleStages(CropStageLengths lengths)
    {
        ArgumentNullException.ThrowIfNull(lengths);
        return KcInitial is double start ? new CropStages(lengths.InitialDays, lengths.DevelopmentDays, lengths.MidDays, lengths.LateDays, start, KcMid, KcEnd) : null;
    }

    /// <summary>Stages with the basal coefficients, for <see cref="DualCropCoefficient"/>.</summary>
    /// <param name="lengths">Lengths of the stages.</param>
    /// <returns>Stages; null where the crop has no basal coefficients.</returns>
    public CropStages? BasalStages(CropStageLengths lengths)
    {
        ArgumentNullException.ThrowIfNull(lengths);
        return (KcbInitial, KcbMid, KcbEnd) is (double start, double mid, double end)
            ? new CropStages(lengths.InitialDays, lengths.DevelopmentDays, lengths.MidDays, lengths.LateDays, start, mid, end) : null;
    }
}

/// <summary>Lengths of a crop's stages in a region. Count your own where you can: variety and warmth shift them by weeks.</summary>
/// <param name="Crop">Name.</param>
/// <param name="Region">Region and month of planting.</param>
/// <param name="InitialDays">Planting to 10 % cover, days.</param>
/// <param name="DevelopmentDays">To full cover, days.</param>
/// <param name="MidDays">At full cover, days.</param>
/// <param name="LateDays">To harvest, days.</param>
/// <param name="TotalDays">All together, days, as printed.</param>
/// <param name="Source">Where it is printed.</param>
/// <param name="Provenance">How it was come by, see <see cref="ReferenceData"/>.</param>
public sealed record CropStageLengths(
    string Crop, string Region, double InitialDays, double DevelopmentDays, double MidDays, double LateDays, double TotalDays, string Source, string Provenance)
{
    /// <summary>All that are listed (FAO-56 table 11).</summary>
    public static IReadOnlyList<CropStageLengths> All { get; } = ReferenceData.Read("crop-stages.csv", r => new CropStageLengths(
        r.Text("crop"), r.Text("region"), r.Number("ini_days"), r.Number("dev_days"), r.Number("mid_days"), r.Number("late_days"), r.Number("total_days"), r.Source, r.Provenance));

    /// <summary>Lengths of a crop, one for each region listed.</summary>
    /// <param name="crop">Name, as in <see cref="All"/>.</param>
    /// <returns>None where the crop is not listed.</returns>
    public static IEnumerable<CropStageLengths> Of(string crop) => All.Where(c => string.Equals(c.Crop, crop, StringComparison.OrdinalIgnoreCase));
}
