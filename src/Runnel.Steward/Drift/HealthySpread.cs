using Runnel.Science.Statistics;

namespace Runnel.Steward.Drift;

/// <summary>Spread of a statistic in a loop's healthy past.</summary>
internal static class HealthySpread
{
    /// <summary>Standard deviation from absolute deviations, least first: the median tells the middle, a high quantile the tails that bad
    /// weather and odd days make; the wider of the two holds.</summary>
    /// <param name="off">Absolute deviations in rising order, one or more.</param>
    /// <param name="share">Share of the tail's quantile.</param>
    /// <param name="normalQuantile">Deviation, in standard deviations, within which a normal law keeps that share.</param>
    public static double Of(List<double> off, double share, double normalQuantile) =>
        Math.Max(Robust.MadToSd * off[off.Count / 2], off[(int)(share * (off.Count - 1))] / normalQuantile);
}
