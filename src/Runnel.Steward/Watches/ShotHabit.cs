using NodaTime;

namespace Runnel.Steward.Watches;

/// <summary>What a litre let in does to the gauge here, as earlier shots showed.</summary>
internal sealed class ShotHabit
{
    private const int Least = 5;
    private const int Most = 40;

    /// <summary>An effect that does not stand out by so many of its standard errors cannot be missed when it is not there.</summary>
    private const double Clear = 2.5;

    /// <summary>What the whole balance says of a litre holds for a single shot to no better than this share.</summary>
    private const double BalanceOff = 0.3;
    private readonly List<(Instant Time, double PerLitre)> _shots = [];

    public void Add(Instant time, double perLitre)
    {
        _shots.Add((time, perLitre));
        if (_shots.Count > 2 * Most) _shots.RemoveRange(0, Most / 2);
    }

    /// <summary>Effect of a litre and its standard error: the median of shots before <paramref name="until"/>, weighed with what the balance
    /// as a whole says (<paramref name="balance"/>, with its relative error); null where there is too little or nothing stands out. The latest
    /// shots are left out so that a fault does not teach itself.</summary>
    public (double PerLitre, double Error)? Of(Instant until, (double PerLitre, double RelativeError)? balance)
    {
        var values = _shots.Where(s => s.Time < until).TakeLast(Most).Select(s => s.PerLitre).ToList();
        if (values.Count < Least) return null;
        double value = Robust.Median(values);

        // A median scatters 1.25 times as much as a mean.
        double error = Math.Max(1e-9, 1.25 * Robust.Spread(values) / Math.Sqrt(values.Count));
        if (balance is { PerLitre: > 0 } b)
        {
            double other = b.PerLitre * Math.Max(BalanceOff, b.RelativeError);
            double w = 1 / (error * error), v = 1 / (other * other);
            value = ((w * value) + (v * b.PerLitre)) / (w + v);
            error = 1 / Math.Sqrt(w + v);
        }

        return value <= 0 || value < Clear * error ? null : (value, error);
    }
}
