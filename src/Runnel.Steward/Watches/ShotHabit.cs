using NodaTime;

namespace Runnel.Steward.Watches;

/// <summary>What a litre let in does to the gauge here, as earlier shots showed.</summary>
internal sealed class ShotHabit
{
    private const int Least = 5;
    private const int Most = 40;

    /// <summary>An effect that does not stand out by so many of its standard errors cannot be missed when it is not there.</summary>
    private const double Clear = 3;
    private readonly List<(Instant Time, double PerLitre)> _shots = [];

    public void Add(Instant time, double perLitre)
    {
        _shots.Add((time, perLitre));
        if (_shots.Count > 2 * Most) _shots.RemoveRange(0, Most / 2);
    }

    /// <summary>Median effect of a litre and its standard error from shots before <paramref name="until"/>; null where there are too few or
    /// none stands out. The latest are left out so that a fault does not teach itself.</summary>
    public (double PerLitre, double Error)? Of(Instant until)
    {
        var values = _shots.Where(s => s.Time < until).TakeLast(Most).Select(s => s.PerLitre).ToList();
        if (values.Count < Least) return null;
        double median = Robust.Median(values);

        // A median scatters 1.25 times as much as a mean.
        double error = 1.25 * Robust.Spread(values) / Math.Sqrt(values.Count);
        return median <= 0 || median < Clear * error ? null : (median, error);
    }
}
