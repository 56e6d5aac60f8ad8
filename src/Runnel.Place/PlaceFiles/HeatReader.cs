using Runnel.Place.Water;
using Runnel.Science.Units;

namespace Runnel.Place.PlaceFiles;

/// <summary>Reads what keeps heat in or out, and heaters.</summary>
internal static class HeatReader
{
    private static readonly KeyRule Wall = new("wall", Form.Quantity, "W/m2/K", 0, 100, Example: "\"6 W/m2/K\"");

    internal static ThermalVessel Vessel(SectionValues section, ProblemList problems)
    {
        if (section.Entry("cover") is null && section.Entry("shade") is null && section.Entry("wall") is null) return ThermalVessel.NotTold;
        double? wall = section.Entry("wall") is { Value: TomlScalar { Value: string } } entry ? QuantityReader.Read(section, entry, Wall, problems) as double? : null;
        return new(Share("cover"), Share("shade"), wall);

        // As "30 %" or 0.3. Any other form was kept for later commands: it stays so, and tells nothing.
        double? Share(string key)
        {
            if (section.Entry(key) is not { } share) return null;
            double? value = (share.Value as TomlScalar)?.Value switch
            {
                double bare => bare,
                string written when Measure.Read(written) is { Fault: MeasureFault.None } measure && measure.Unit!.Dimension == default => measure.Unit.To(Unit.Of("1"), measure.Value),
                _ => null,
            };
            if (value is not { } known || (known >= 0 && known <= 1)) return value;
            SectionReader.Reject(section, share, "a share from 0 to 1, or in %", $"Write it as in {key} = 0.3 or {key} = \"30 %\"", problems);
            return null;
        }
    }

    internal static WaterHeater? Heater(Equipment heater, SectionValues section, ProblemList problems)
    {
        if (heater.Kind != EquipmentKind.Heater || heater.Of is null || heater.RatedPowerW is not { } power || section.Entry("setpoint") is not { } entry) return null;
        return QuantityReader.Read(section, entry, Unit.Of("degC"), "\"24 degC\"", problems) is { } to ? new(heater.Id, heater.Of, power, to) : null;
    }
}
