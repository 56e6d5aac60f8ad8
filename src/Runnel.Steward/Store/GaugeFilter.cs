namespace Runnel.Steward.Store;

/// <summary>Learns the gauge from the balance as a whole: the store's reading is followed under several hypotheses of how it wanders and lags,
/// and each counts by how well it foretells the next reading. For loops whose pulses are too small against the scatter to be read one by one.</summary>
/// <remarks>Where known water and weather keep each other's balance day after day, no reading tells much; then what is likely for a loop with
/// such a sump stands, with a wide spread.</remarks>
/// <param name="bandL">Water between the sump's switch levels, L.</param>
internal sealed class GaugeFilter(double bandL)
{
    /// <summary>Weather relations and this loop's canopy, before anything is learnt (common practice): as a share, and L/h that splash or seep.</summary>
    private const double WeatherSpread = 0.4, SteadySpreadLPerH = 0.4;

    /// <summary>Loops hold a few of their sump's bands for one unit of the reading; from a half to twice as many are common (common practice).</summary>
    private const double LikelyBands = 5, LikelySpread = 0.9;

    /// <summary>Errors of the filter count double: what disturbs the readings lasts for hours, and warmth by day moves them too.</summary>
    private const double Caution = 2;

    /// <summary>No lag of first order is quite that of a loop.</summary>
    private const double LeastSpread = 0.1;
    private const int Steps = 81;
    private static readonly double[] Wanders = [0.03, 0.1, 0.3];
    private static readonly double[] LagsH = [0, 1, 2, 3.5, 5.5, 8];
    private readonly StoreHypothesis[] _hypotheses = [.. from w in Wanders from l in LagsH select new StoreHypothesis(w, l)];

    public void LoseLevel()
    {
        foreach (var h in _hypotheses) h.LoseLevel();
    }

    /// <inheritdoc cref="StoreHypothesis.Take"/>
    public void Take(double reading, double knownL, double weatherL, double hours)
    {
        foreach (var h in _hypotheses) h.Take(reading, knownL, weatherL, hours);
    }

    /// <summary>Litres for one unit of the reading and their relative standard error, or null while too little was read.</summary>
    public (double LitresPerUnit, double RelativeSpread)? Solve()
    {
        double likely = 1 / (LikelyBands * bandL), best = _hypotheses.Max(h => h.LogLikelihood);
        var told = new List<(double Weight, double PerLitre, double Error)>();
        foreach (var h in _hypotheses)
        {
            double weight = Math.Exp(h.LogLikelihood - best);
            if (weight > 1e-4 && h.Solve(likely, WeatherSpread, SteadySpreadLPerH) is var (perLitre, error)) told.Add((weight, perLitre, Caution * error));
        }

        if (told.Count == 0) return null;

        // On a grid of logarithms, three spreads to each side: the likely law is even there.
        double weights = 0, mean = 0, square = 0;
        for (int i = 0; i < Steps; i++)
        {
            double z = (6.0 * i / (Steps - 1)) - 3, log = z * LikelySpread, perLitre = likely * Math.Exp(log), density = 0;
            foreach (var (weight, middle, error) in told) density += weight / error * Math.Exp(-0.5 * Math.Pow((perLitre - middle) / error, 2));
            density *= Math.Exp(-0.5 * z * z);
            weights += density;
            mean += density * log;
            square += density * log * log;
        }

        if (!(weights > 0)) return null;
        mean /= weights;
        return (1 / (likely * Math.Exp(mean)), Math.Sqrt(Math.Max(LeastSpread * LeastSpread, (square / weights) - (mean * mean))));
    }
}
