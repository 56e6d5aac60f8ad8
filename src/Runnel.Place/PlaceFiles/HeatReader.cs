using Runnel.Place.Water;
using Runnel.Science.Units;

namespace Runnel.Place.PlaceFiles;

/// <summary>Reads what keeps heat in or out, and heaters.</summary>
internal static class HeatReader
{
    internal static ThermalVessel Vessel(SectionValues section, ProblemList problems)
    {
        if (section.Entry("cover") is null && section.Entry("shade") is null && section.Entry("wall") is null) return ThermalVessel.NotTold;
        double? wall = null;
        if (section.Entry("wall") is { Value: TomlScalar { Value: string text } } entry)
        {
            var measure = Measure.Read(text);
            var unit = Unit.Of("W/m2/K");
            if (measure.Fault == MeasureFault.None && measure.Unit!.Dimension == unit.Dimension && measure.Unit.To(unit, measure.Value) is >= 0 and <= 100 and var known) wall = known;
            else SectionReader.Reject(section, entry, "heat through walls, 0 to 100 W/m2/K", "Write it as in \"6 W/m2/K\"", problems);
        }

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
