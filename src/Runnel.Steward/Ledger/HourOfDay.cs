namespace Runnel.Steward.Ledger;

/// <summary>A weather figure by the hour of the day: what was read, or, where nothing was, what that hour had on the days before.</summary>
/// <param name="usual">What stands in where that hour was never read.</param>
internal sealed class HourOfDay(double usual)
{
    /// <summary>Weight of the latest day: some five days are remembered.</summary>
    private const double Latest = 0.3;
    private readonly double[] _days = [.. Enumerable.Repeat(double.NaN, 24)];

    /// <summary>The figure of an hour.</summary>
    /// <param name="hour">Hour of the day, 0 to 23.</param>
    /// <param name="now">What was read, or null.</param>
    /// <param name="least">Least plausible figure.</param>
    /// <param name="greatest">Greatest plausible figure.</param>
    public double At(int hour, double? now, double least, double greatest)
    {
        if (now is not { } value || !double.IsFinite(value)) return double.IsNaN(_days[hour]) ? usual : _days[hour];
        value = Math.Clamp(value, least, greatest);
        _days[hour] = double.IsNaN(_days[hour]) ? value : _days[hour] + (Latest * (value - _days[hour]));
        return value;
    }
}
