namespace Runnel.Place.PlaceFiles;

/// <summary>What may be written for a key.</summary>
internal enum Form
{
    /// <summary>Any text.</summary>
    Text,

    /// <summary>A kebab-case identifier of its own.</summary>
    Identifier,

    /// <summary>The identifier of something declared in the file, or a word for the world outside.</summary>
    Reference,

    /// <summary>One of a few names.</summary>
    Choice,

    /// <summary>A string of number and unit.</summary>
    Quantity,

    /// <summary>A bare number.</summary>
    Number,

    /// <summary>Degrees with N or S.</summary>
    Latitude,

    /// <summary>Degrees with E or W.</summary>
    Longitude,

    /// <summary>A name of the tz database.</summary>
    TimeZone,

    /// <summary>A string of twelve numbers, one a month, and a unit.</summary>
    Months,

    /// <summary>Kept as TOML: read elsewhere, or by a later command.</summary>
    Anything,
}

/// <summary>One key and what may stand behind it.</summary>
/// <param name="Name">As written in the file.</param>
/// <param name="Form">What it takes.</param>
/// <param name="Unit">Quantity: the unit it is carried to.</param>
/// <param name="Least">Least value in that unit.</param>
/// <param name="Greatest">Greatest value in that unit.</param>
/// <param name="AboveZero">Zero itself will not do.</param>
/// <param name="Example">What it looks like, for the remedy.</param>
/// <param name="Choices">Choice: the names.</param>
internal sealed record KeyRule(
    string Name, Form Form, string Unit = "", double Least = double.NegativeInfinity, double Greatest = double.PositiveInfinity,
    bool AboveZero = false, string Example = "", IReadOnlyList<string>? Choices = null);

/// <summary>One section and its keys.</summary>
/// <param name="Name">As written between the brackets.</param>
/// <param name="Repeats">Written <c>[[name]]</c>, once for each thing.</param>
/// <param name="Keys">What is known in it; empty where the contents are kept as TOML.</param>
internal sealed record SectionRule(string Name, bool Repeats, IReadOnlyList<KeyRule> Keys)
{
    /// <summary>Whether its contents are left for later commands.</summary>
    internal bool IsOpen => Keys.Count == 0;

    internal KeyRule? Find(string key) => Keys.FirstOrDefault(k => k.Name == key);
}

/// <summary>Every section and key of a place file.</summary>
internal static class SectionRules
{
    private static readonly KeyRule Name = new("name", Form.Text);
    private static readonly KeyRule Note = new("note", Form.Text);
    private static readonly KeyRule Id = new("id", Form.Identifier, Example: "\"sump\"");

    internal static readonly SectionRule Place = new("place", Repeats: false,
    [
        Name, Note,
        new("latitude", Form.Latitude, Example: "\"34.2 S\""),
        new("longitude", Form.Longitude, Example: "\"150.6 E\""),
        new("altitude", Form.Quantity, "m", -500, 6000, Example: "\"80 m\""),
        new("time-zone", Form.TimeZone, Example: "\"Australia/Sydney\""),
        Any("currency"), Any("water-price"), Any("energy-price"), Any("horizon"), Any("country"),
    ]);

    internal static readonly SectionRule Loop = new("loop", Repeats: false,
    [
        Name, Note,
        Area("open-water"), Area("canopy"), Area("rain-catch"),
        Volume("volume"), Any("runoff-coefficient"), Any("salinity"), Any("alkalinity"), Any("chlorinated"),
        Any("dechlorination"), Any("least-litres"), Any("cover"), Any("shade"),
    ]);

    internal static readonly SectionRule Vessel = new("vessel", Repeats: true,
    [
        Id, new("kind", Form.Choice, Choices: KebabNames<VesselKind>.All), Name, Note,
        new("band", Form.Quantity, "L", 0, 100_000, AboveZero: true, Example: "\"65 L\""),
        new("footprint", Form.Quantity, "m2", 0, 100_000, AboveZero: true, Example: "\"0.42 m2\""),
        Height("switch-low"), Height("switch-high"), Height("rim"), Height("sill"), Height("standpipe"), Height("standpipe-height"),
        Height("length"), Height("width"), Height("height"), Height("depth"), Height("diameter"),
        Height("water-depth"), Height("water-height"), Height("freeboard"),
        Any("outlet"), Any("outlet-height"), Any("outlet-diameter"), Any("drain"), Any("level-volume"), Any("floor"), Any("floor-height"),
        Volume("volume"), Any("water"), Any("below"), Any("above"), Any("spills-to"), Any("spill"), Any("drains-to"), Any("flows-to"),
        Any("to"), Any("from"), Any("cover"), Any("covered"), Any("shade"), Any("shaded"), Any("wall"), Any("walls"), Any("insulation"),
        Any("open-water"), Any("canopy"), Any("rain-catch"), Any("media"), Any("media-area"), Any("void-fraction"), Any("porosity"),
        Any("screen"), Any("shape"), Any("material"), Any("colour"), Any("indoors"), Any("fish"), Any("beds"), Any("count"), Any("trip"),
        Any("siphon"), Any("siphon-height"), Any("loop"), Any("limits"), Any("species"), Any("surface"),
    ]);

    internal static readonly SectionRule Equipment = new("equipment", Repeats: true,
    [
        Id, new("kind", Form.Choice, Choices: KebabNames<EquipmentKind>.All), Name, Note,
        new("from", Form.Reference), new("to", Form.Reference), new("of", Form.Reference),
        new("rate", Form.Quantity, "L/min", 0, 100_000, AboveZero: true, Example: "\"11.5 L/min\""),
        Power("power"), Power("rated-power"),
        Height("shuts-at"), Height("opens-at"), Height("switch-low"), Height("switch-high"), Height("lift"),
        Any("switched-by"), Any("switch"), Any("seen"), Any("falls-back-to"), Any("supply"), Any("circuit"), Any("curve"), Any("head"),
        Any("flow"), Any("pipe"), Any("split"), Any("check-valve"), Any("via"), Any("in"), Any("on"), Any("serves"), Any("count"),
        Any("least-off"), Any("least-on"), Any("greatest-on"), Any("off-time"), Any("on-time"), Any("timer"), Any("every"), Any("run"), Any("after-fill"), Any("rate-at"),
        Any("mode"), Any("may"), Any("capacity"), Any("energy"), Any("voltage"), Any("current"), Any("area"), Any("tilt"), Any("facing"),
        Any("azimuth"), Any("efficiency"), Any("setpoint"), Any("thermostat"), Any("volume"), Any("dose"), Any("greatest-dose"),
        Any("greatest-per-day"), Any("dechlorination"), Any("oxygen-transfer"), Any("air-flow"), Any("depth"), Any("diffuser"),
        Any("make"), Any("model"), Any("bought"), Any("installed"), Any("channel"), Any("command"), Any("limits"), Any("zone"),
    ]);

    internal static readonly SectionRule Channel = new("channel", Repeats: true,
    [
        Id, new("measures", Form.Choice, Choices: [.. Quantities.Names]), Name, Note,
        new("of", Form.Reference),
        new("unit", Form.Text), new("scale", Form.Number), new("offset", Form.Number),
        new("every", Form.Quantity, "s", 0, 31_622_400, AboveZero: true, Example: "\"10 s\""),
        Any("least"), Any("greatest"), Any("running-above"),
        new("seen", Form.Choice, Choices: KebabNames<SeenAs>.All),
        new("height", Form.Quantity, "m", 0, 200, Example: "\"2 m\""),
        new("column", Form.Text),
        new("source", Form.Text), new("topic", Form.Text), new("pointer", Form.Text), new("time-pointer", Form.Text), Any("path"), Any("url"), Any("device"), Any("pin"), Any("depth"),
        Any("accuracy"), Any("resolution"), Any("calibrated"), Any("make"), Any("model"), Any("kind"),
    ]);

    internal static readonly SectionRule Climate = new("climate", Repeats: false,
    [
        Name, Note, new("source", Form.Text),
        Months("high", "degC", -60, 60, "\"23 22 21 18 15 12 12 13 15 17 19 21 degC\""),
        Months("low", "degC", -60, 60, "\"12 12 10 7 5 2 2 3 5 7 9 11 degC\""),
        Months("spread", "K", 0.1, 15, "\"3 3 3 3 3 3 3 3 3 3 3 3 K\""),
        Months("humidity", "%", 1, 100, "\"68 71 73 76 80 83 83 80 74 70 67 67 %\""),
        Months("dew-point", "degC", -60, 40, "\"12 12 11 9 7 4 4 5 6 7 9 11 degC\""),
        Months("wind", "m/s", 0, 30, "\"3.4 3.1 2.9 2.6 2.4 2.5 2.4 2.7 3.1 3.5 3.6 3.5 m/s\""),
        new("wind-height", Form.Quantity, "m", 0.5, 100, Example: "\"10 m\""),
        Months("rain", "mm", 0, 3000, "\"45 41 47 52 66 70 72 66 61 63 52 52 mm\""),
        Months("rain-days", "d", 0, 31, "\"5 5 5 6 8 9 9 9 8 8 7 6 d\""),
        new("rain-day-from", Form.Quantity, "mm", 0, 10, AboveZero: true, Example: "\"1 mm\""),
        Months("sunshine", "h", 0, 24, "\"8.4 8.0 7.2 6.3 5.4 4.9 5.0 5.7 6.4 7.2 7.9 8.1 h\""),
        Months("solar", "MJ/m2/d", 0, 60.48, "\"23 20 16 11 8 6 6 9 13 18 21 24 MJ/m2/d\""),
    ]);

    internal static readonly SectionRule Broker = new("broker", Repeats: false,
    [
        Note, new("port", Form.Number), new("open-to", Form.Choice, Choices: ["this-machine", "home-network"]),
    ]);

    internal static readonly SectionRule Client = new("client", Repeats: true,
    [
        Id, Note, new("password-file", Form.Text), Any("may-write"), Any("may-read"),
    ]);

    internal static readonly SectionRule Source = new("source", Repeats: true,
    [
        Id, Note, new("kind", Form.Choice, Choices: KebabNames<SourceKind>.All), new("address", Form.Text),
        new("every", Form.Quantity, "s", 1, 86_400, Example: "\"60 s\""), new("user", Form.Text), new("password-file", Form.Text),
    ]);

    /// <summary>Sections that are read in full.</summary>
    internal static readonly IReadOnlyList<SectionRule> Read = [Place, Climate, Loop, Vessel, Equipment, Channel, Broker, Client, Source];

    /// <summary>Every section, in the order of the guide.</summary>
    internal static readonly IReadOnlyList<SectionRule> All =
    [
        .. Read,
        Open("flow", true), Open("fish-group", true), Open("planting", true), Open("zone", true), Open("supply", true),
        Open("dryer", false), Open("limits", false), Open("rules", false), Open("rule", true),
    ];

    internal static SectionRule? Find(string name) => All.FirstOrDefault(s => s.Name == name);

    private static KeyRule Any(string name) => new(name, Form.Anything);

    private static KeyRule Months(string name, string unit, double least, double greatest, string example) => new(name, Form.Months, unit, least, greatest, Example: example);

    private static KeyRule Height(string name) => new(name, Form.Quantity, "m", 0, 1000, Example: "\"355 mm\"");

    private static KeyRule Area(string name) => new(name, Form.Quantity, "m2", 0, 1_000_000, Example: "\"2.5 m2\"");

    private static KeyRule Volume(string name) => new(name, Form.Quantity, "L", 0, 1e9, Example: "\"1800 L\"");

    private static KeyRule Power(string name) => new(name, Form.Quantity, "W", 0, 1e7, Example: "\"35 W\"");

    private static SectionRule Open(string name, bool repeats) => new(name, repeats, []);
}
