namespace Runnel.Place.PlaceFiles;

/// <summary>What may stand in the tables of vessels and pumps that tell how the water moves.</summary>
internal static class HydraulicRules
{
    internal static readonly IReadOnlyList<KeyRule> Outlet =
    [
        new("kind", Form.Choice, Choices: KebabNames<OutletKind>.All), Length("height", 0, 100), Length("diameter", 0.001, 5), Length("width", 0.01, 100),
        new("to", Form.Text), Length("trip", 0, 100), Length("break", 0, 100), new("name", Form.Text), new("note", Form.Text),
    ];

    internal static readonly IReadOnlyList<KeyRule> Pipe =
    [
        Length("length", 0, 10_000), Length("diameter", 0.001, 5), new("roughness", Form.Quantity, "mm", 0, 50, Example: "\"0.007 mm\""), new("k", Form.Number),
        new("fittings", Form.Anything), Length("end-height", -100, 1000), Length("fall", 0, 100), new("to", Form.Text), new("name", Form.Text),
        new("note", Form.Text), new("material", Form.Text),
    ];

    private static KeyRule Length(string name, double least, double greatest) => new(name, Form.Quantity, "m", least, greatest, Example: "\"355 mm\"");
}
