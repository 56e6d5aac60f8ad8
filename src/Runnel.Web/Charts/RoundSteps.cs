namespace Runnel.Web.Charts;

/// <summary>Round values for an axis: steps of 1, 2 or 5 times a power of ten.</summary>
/// <param name="Low">Where the axis begins, a whole number of steps.</param>
/// <param name="High">Where it ends.</param>
/// <param name="Step">From one value to the next.</param>
/// <param name="Decimals">Decimals needed to tell the values apart.</param>
public sealed record RoundSteps(double Low, double High, double Step, int Decimals)
{
    /// <summary>The values, lowest first.</summary>
    public IEnumerable<double> Values()
    {
        int count = (int)Math.Round((High - Low) / Step);
        for (int i = 0; i <= count; i++) yield return Low + (i * Step);
    }

    /// <summary>The values that lie inside a range which is itself not round.</summary>
    public IEnumerable<double> Within(double low, double high) => Values().Where(v => v >= low && v <= high);

    /// <summary>Three to six round values that cover low to high.</summary>
    public static RoundSteps Covering(double low, double high)
    {
        if (!double.IsFinite(low) || !double.IsFinite(high)) (low, high) = (0, 1);
        if (high < low) (low, high) = (high, low);
        if (high - low < 1e-9) (low, high) = (low - 0.5, high + 0.5);

        double rough = (high - low) / 4;
        double power = Math.Pow(10, Math.Floor(Math.Log10(rough)));
        foreach (double multiple in (double[])[1, 2, 5, 10, 20])
        {
            double step = multiple * power;
            // The small allowance keeps a value that is on a step from asking for one step more.
            double first = Math.Floor((low / step) + 1e-9) * step, last = Math.Ceiling((high / step) - 1e-9) * step;
            if ((last - first) / step <= 5.001) return new(first, last, step, Math.Max(0, -(int)Math.Floor(Math.Log10(step) + 1e-9)));
        }

        throw new InvalidOperationException($"no round steps for {low} to {high}");
    }
}
