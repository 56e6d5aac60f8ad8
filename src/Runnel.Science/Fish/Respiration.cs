namespace Runnel.Science.Fish;

/// <summary>How a species' oxygen uptake follows weight and temperature.</summary>
/// <param name="Name">Species and stage.</param>
/// <param name="Intercept">g O2 for each g of fish and day, of a fish of 1 g.</param>
/// <param name="Slope">Exponent of weight.</param>
/// <param name="Q">Rate at which it rises with temperature.</param>
/// <param name="OptimumC">Temperature of greatest uptake, °C; 0 where it rises throughout.</param>
/// <param name="MaximumC">Temperature at which it stops, °C; 0 where it rises throughout.</param>
/// <param name="Activity">Factor for swimming.</param>
public sealed record RespirationModel(string Name, double Intercept, double Slope, double Q, double OptimumC, double MaximumC, double Activity);

/// <summary>Oxygen that fish take up.</summary>
public static class Respiration
{
    // From the parameter table of Fish Bioenergetics 4.0 (version 1.1.7); for bass the activity factor is exp(0.0196) as its equation gives it.
    private static readonly RespirationModel[] Known =
    [
        new("tilapia", 0.0274, -0.348, 2.3, 37, 41, 1),
        new("largemouth bass", 0.008352, -0.355, 0.0313, 0, 0, 1.01979333),
        new("rainbow trout adult", 0.013, -0.217, 2.2, 22, 26, 1.3),
        new("rainbow trout juvenile", 0.01166, -0.0558, 2.792, 18, 25.5, 1),
        new("bluegill adult", 0.0154, -0.2, 2.1, 36, 40, 1),
        new("bluegill juvenile", 0.0154, -0.2, 2.1, 37, 41, 1),
        new("Nile perch", 0.004056, -0.2, 2.5, 38, 43, 2),
        new("silver carp", 0.0028, -0.239, 0.076, 0, 0, 1),
        new("yellow perch adult", 0.0108, -0.2, 2.1, 28, 33, 1),
        new("brook trout", 0.0132, -0.265, 4.5, 20.2, 25, 2.89),
    ];

    /// <summary>Species listed.</summary>
    public static IReadOnlyList<RespirationModel> Models => Known;

    /// <summary>The model of a species.</summary>
    /// <param name="name">Name as in <see cref="Models"/>.</param>
    /// <returns>Model, or null where it is not listed.</returns>
    public static RespirationModel? Find(string name) => Array.Find(Known, m => string.Equals(m.Name, name, StringComparison.OrdinalIgnoreCase));

    /// <summary>Oxygen uptake of unfed fish, mg for each kg and hour. Fed fish use 1.5 to 3 times as much.</summary>
    /// <param name="model">Species.</param>
    /// <param name="weightG">Weight of one fish, g.</param>
    /// <param name="waterTempC">Water temperature, °C, 0 to 45; above the species' maximum it is 0.</param>
    /// <returns>mg O2/(kg h).</returns>
    /// <exception cref="ArgumentOutOfRangeException">An input is NaN or out of range.</exception>
    /// <remarks>Deslauriers, Chipps, Breck, Rice and Madenjian (2017), Fisheries 42:586-596: respiration equations 1 and 2 (Kitchell and others 1977).</remarks>
    public static double StandardMgPerKgH(RespirationModel model, double weightG, double waterTempC)
    {
        ArgumentNullException.ThrowIfNull(model);
        Require.Positive(weightG);
        Require.InRange(waterTempC, 0, 45);
        return model.Intercept * Math.Pow(weightG, model.Slope) * ByTemperature(model, waterTempC) * model.Activity * 1e6 / 24;
    }

    /// <summary>Uptake of one whole fish over that of another of the same kind.</summary>
    /// <param name="weightG">Weight of the one, g.</param>
    /// <param name="otherWeightG">Weight of the other, g.</param>
    /// <param name="exponent">Of weight: carp 0.894, brown trout 0.877, brown bullhead 0.925.</param>
    /// <returns>Ratio.</returns>
    /// <exception cref="ArgumentOutOfRangeException">An input is NaN or out of range.</exception>
    /// <remarks>Beamish (1964), Can. J. Zool. 42:177-188.</remarks>
    public static double WholeFishRatio(double weightG, double otherWeightG, double exponent)
    {
        Require.Positive(weightG);
        Require.Positive(otherWeightG);
        Require.InRange(exponent, 0.5, 1.1);
        return Math.Pow(weightG / otherWeightG, exponent);
    }

    /// <summary>Oxygen uptake of trout in production, mg for each kg and hour.</summary>
    /// <param name="weightG">Weight of one fish, g.</param>
    /// <param name="waterTempC">Water temperature, °C, 2 to 22.</param>
    /// <returns>mg O2/(kg h).</returns>
    /// <exception cref="ArgumentOutOfRangeException">An input is NaN or out of range.</exception>
    /// <remarks>Liao (1971), as in Timmons and Ebeling: K T^a W^b in lb O2 for 100 lb and day, °F and lb; other constants to 50 °F than above.</remarks>
    public static double TroutLiaoMgPerKgH(double weightG, double waterTempC)
    {
        Require.Positive(weightG);
        Require.InRange(waterTempC, 2, 22);
        double tempF = (waterTempC * 1.8) + 32, weightLb = weightG / Conversions.GPerPound;
        double percent = (tempF <= 50 ? 1.9e-6 * Math.Pow(tempF, 3.13) : 3.05e-4 * Math.Pow(tempF, 1.855)) * Math.Pow(weightLb, -0.138);
        return percent * 10_000 / 24;
    }

    private static double ByTemperature(RespirationModel model, double t)
    {
        if (model.MaximumC == 0) return Math.Exp(model.Q * t);
        if (t >= model.MaximumC) return 0;
        double span = model.MaximumC - model.OptimumC, log = Math.Log(model.Q), v = (model.MaximumC - t) / span;
        double z = log * span, y = log * (span + 2), root = 1 + Math.Sqrt(1 + (40 / y)), x = z * z * root * root / 400;
        return Math.Pow(v, x) * Math.Exp(x * (1 - v));
    }
}
