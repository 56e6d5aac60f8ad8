namespace Runnel.Web.YourLog;

/// <summary>A number that a log cannot tell.</summary>
/// <param name="Name">Of the field.</param>
/// <param name="Words">Label.</param>
/// <param name="Unit">Written behind the field.</param>
/// <param name="Least">Least plausible value.</param>
/// <param name="Most">Greatest plausible value.</param>
/// <param name="Hint">What it is and how to find it.</param>
public sealed record Question(string Name, string Words, string Unit, double Least, double Most, string Hint)
{
    public static readonly Question Band = new("band", "Water between the sump's two switch levels", "L", 1, 20_000,
        "Length × width × the height between pump off and pump on: 1.0 × 0.5 m by 130 mm is 65 L. Leave it out only where the pump always runs.");

    public static readonly Question TopUpRate = new("topup", "The top-up gives", "L/min", 0.05, 1_000, "Time a 10 L bucket filling: 52 s is 11.5 L/min.");

    public static readonly Question BleedRate = new("bleed", "The bleed lets out", "L/min", 0.05, 1_000, "Time a bucket filling.");

    public static readonly Question OpenWater = new("openwater", "Water surface that can evaporate", "m²", 0, 10_000,
        "All tanks and the sump together, without what lids or rafts cover.");

    public static readonly Question Canopy = new("canopy", "Leaf area over the ground, seen from above", "m²", 0, 10_000, "Roughly; Runnel learns the rest.");

    public static readonly Question RainCatch = new("raincatch", "Area from which rain runs into the loop", "m²", 0, 100_000, "0 under cover.");

    public static readonly Question Altitude = new("altitude", "Height above the sea", "m", -430, 6_000, "To the nearest 50 m is enough.");

    /// <summary>Without these a log gives no litres.</summary>
    public static readonly IReadOnlyList<Question> Needed = [Band, TopUpRate, BleedRate];

    /// <summary>These narrow what weather and plants take.</summary>
    public static readonly IReadOnlyList<Question> Better = [OpenWater, Canopy, RainCatch, Altitude];

    /// <summary>The unit as a place file writes it.</summary>
    public string PlainUnit => Unit.Replace("²", "2", StringComparison.Ordinal);
}
