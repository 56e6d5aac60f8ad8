using Runnel.Place.Water;
using Runnel.Science.Units;

namespace Runnel.Place.PlaceFiles;

/// <summary>Reads how the water moves: outlets, drains, pumps and valves. What stands in a file for later commands only is no error elsewhere.</summary>
internal sealed class HydraulicsReader(PlaceDraft draft, ProblemList problems)
{
    private readonly PipeReader _pipes = new(problems);
    private readonly WaterGround _ground = new(draft, problems);

    internal static Hydraulics? Read(PlaceDraft draft, ProblemList problems) => new HydraulicsReader(draft, problems).Read();

    private Hydraulics? Read()
    {
        var pumpReader = new PumpReader(draft, _ground, _pipes, problems);
        List<WaterPump> pumps = [];
        List<WaterValve> valves = [];
        HashSet<string> named = [];
        foreach (var (equipment, section) in draft.Equipment)
        {
            if (equipment.Kind == EquipmentKind.Pump && pumpReader.Read(equipment, section) is { } pump)
            {
                pumps.Add(pump);
                named.Add(pump.From);
                named.UnionWith(pump.Ends.Select(e => e.To));
            }

            if (equipment.Kind is EquipmentKind.FloatValve or EquipmentKind.TopUpValve or EquipmentKind.BleedValve && ReadValve(equipment, section) is { } valve)
            {
                valves.Add(valve with { RateAtM = _ground.Length(section, "rate-at") ?? 0 });
                named.UnionWith([valve.Of, valve.From, valve.To]);
            }
        }

        // An id given twice is reported elsewhere; the first one counts.
        Dictionary<string, GravityOutlet?> outlets = new(StringComparer.Ordinal);
        foreach (var (vessel, section) in draft.Vessels)
        {
            if (!outlets.ContainsKey(vessel.Id)) outlets.Add(vessel.Id, ReadOutlet(vessel, section));
        }

        foreach (var (vessel, section) in draft.Vessels)
        {
            if (outlets[vessel.Id] is { } outlet) named.UnionWith([vessel.Id, outlet.To]);
            if (TextOf(section, "spills-to", "spill") is { } spill && outlets[vessel.Id] is not null) named.Add(spill);
        }

        List<WaterVessel> vessels = [];
        foreach (var (vessel, section) in draft.Vessels)
        {
            if (named.Contains(vessel.Id) && ReadVessel(vessel, section, outlets[vessel.Id]) is { } read) vessels.Add(read);
        }

        if (pumps.Count == 0 && outlets.Values.All(o => o is null))
        {
            problems.AddMissing(
                new(1, 1), "vessel", "outlet", "nothing in this file tells how the water moves",
                "Give the pump from, to and curve, and each vessel footprint, rim and an outlet with height, diameter and to");
        }

        List<WaterHeater> heaters = [];
        foreach (var (equipment, section) in draft.Equipment)
        {
            if (HeatReader.Heater(equipment, section, problems) is { } heater) heaters.Add(heater);
        }

        return problems.Any ? null : new(vessels, pumps, valves) { Heaters = heaters };
    }

    private WaterVessel? ReadVessel(Vessel vessel, SectionValues section, GravityOutlet? outlet)
    {
        if (ReadShape(vessel, section) is not { } shape)
        {
            if (!section.Written.Contains("level-volume"))
            {
                problems.AddMissing(
                    section.At, $"{section.Path}.footprint", "\"0.42 m2\"", $"the shape of {section.Title} is not told",
                    "Add footprint = \"... m2\", or length and width, or diameter, or level-volume = [[\"0 mm\", \"0 L\"], [\"300 mm\", \"120 L\"], ...]");
            }

            return null;
        }

        string spillsTo = TextOf(section, "spills-to", "spill") ?? "ground";
        _ground.CheckTarget(section, "spills-to", spillsTo, vessel.Id);
        return new(
            vessel.Id, vessel.Kind, shape, _ground.Floor(section), vessel.RimM ?? section.Number("height"), spillsTo,
            section.Number("water-height") ?? section.Number("water-depth"), _ground.Quantity(section, "open-water", "m2"), outlet)
        {
            Thermal = HeatReader.Vessel(section, problems),
        };
    }

    private LevelVolume? ReadShape(Vessel vessel, SectionValues section)
    {
        double share = Bare(section, "void-fraction") ?? Bare(section, "porosity") ?? 1;
        if (section.Entry("level-volume") is not { } entry) return vessel.FootprintM2 is { } area ? LevelVolume.Upright(area * share) : null;
        if (QuantityReader.Pairs(section, entry, ("m", "\"300 mm\""), ("m3", "\"120 L\""), problems) is not { } pairs) return null;
        try
        {
            return new LevelVolume([.. pairs.Select(p => p.First)], [.. pairs.Select(p => p.Second * share)]);
        }
        catch (ArgumentException)
        {
            SectionReader.Reject(
                section, entry, "a list of pairs of level and volume that both rise, from [\"0 mm\", \"0 L\"] on",
                "Write level-volume = [[\"0 mm\", \"0 L\"], [\"300 mm\", \"120 L\"], [\"500 mm\", \"230 L\"]]", problems);
            return null;
        }
    }

    private GravityOutlet? ReadOutlet(Vessel vessel, SectionValues section)
    {
        if (section.Entry("outlet") is not { } entry) return null;
        var own = entry.Value is TomlTable table ? _pipes.Section(table, $"{section.Path}.outlet", HydraulicRules.Outlet) : null;
        var drainEntry = section.Entry("drain");
        var drain = drainEntry?.Value is TomlTable pipe ? _pipes.Section(pipe, $"{section.Path}.drain", HydraulicRules.Pipe) : null;
        string? to = own?.Text("to") ?? drain?.Text("to") ?? TextOf(section, "drains-to", "flows-to", "to");
        var kind = vessel.Outlet ?? OutletKind.Pipe;
        double? height = own?.Number("height") ?? _ground.Length(section, "outlet-height") ?? section.Number("sill") ?? section.Number("standpipe-height")
            ?? section.Number("standpipe") ?? (kind == OutletKind.Siphon ? _ground.Length(section, "siphon-height") : null);
        double? diameter = kind == OutletKind.Weir ? own?.Number("width") ?? own?.Number("diameter") : own?.Number("diameter") ?? _ground.Length(section, "outlet-diameter");
        diameter ??= drain?.Number("diameter");
        // A bare kind, as in outlet = "standpipe", was always enough for reading logs.
        if (to is null && height is null && diameter is null) return null;
        bool whole = true;
        Need(to is not null, "to", "where its water goes", "to = \"sump\"");
        Need(height is not null, "height", "at which height", "height = \"750 mm\"");
        Need(diameter is not null, kind == OutletKind.Weir ? "width" : "diameter", "how wide it is", kind == OutletKind.Weir ? "width = \"300 mm\"" : "diameter = \"50 mm\"");
        if (!whole) return null;
        _ground.CheckTarget(section, "outlet", to!, vessel.Id);
        double trip = own?.Number("trip") ?? _ground.Length(section, "trip") ?? height!.Value + 0.01, breaks = own?.Number("break") ?? 0.02;
        if (kind == OutletKind.Siphon && !(breaks < height && trip >= height))
        {
            SectionReader.Reject(
                section, entry, "break below height, and trip at it or above", "Correct the three heights; all count from the vessel's floor", problems);
            return null;
        }

        double floor = _ground.Floor(section) ?? double.NaN;
        var read = drain is null ? null : _pipes.Pipe(drain, EndOf(drain, to!, floor + height!.Value));
        if (read is { EndM: null })
        {
            problems.AddMissing(
                drain!.At, $"{drain.Path}.fall", "\"400 mm\"", $"{drain.Title} does not tell how far it falls",
                "Add fall = \"400 mm\", from the outlet's height down to the pipe's end; or end-height above the floor of the vessel it ends in, and floor-height of both");
        }

        return new(kind, height!.Value, diameter!.Value, to!, read, trip, breaks);

        void Need(bool told, string key, string what, string example)
        {
            if (told) return;
            whole = false;
            problems.AddMissing(
                entry.Value.At, $"{section.Path}.outlet.{key}", example, $"the outlet of {section.Title} does not tell {what}",
                $"Write it as in outlet = {{ kind = \"{KebabNames<OutletKind>.Of(kind)}\", {example}, ... }}");
        }
    }

    private double? EndOf(SectionValues pipe, string to, double startM)
    {
        double? end = _ground.EndOf(pipe, to) ?? startM - pipe.Number("fall");
        return end is { } known && double.IsFinite(known) ? known : null;
    }

    private WaterValve? ReadValve(Equipment valve, SectionValues section)
    {
        if (valve.RateLPerMin is not { } rate) return null;
        bool drains = valve.Kind == EquipmentKind.BleedValve;
        string? of = valve.Of ?? (drains ? valve.From : valve.To);
        double? shuts = valve.ShutsAtM ?? section.Number("switch-high"), opens = section.Number("opens-at") ?? section.Number("switch-low");
        if (of is null || !_ground.Has(of)) return null;
        string from = valve.From ?? "mains", to = valve.To ?? (drains ? "waste" : of);
        if (section.Entry("every") is not null && section.Entry("run") is not null)
        {
            double? every = _ground.Quantity(section, "every", "s"), run = _ground.Quantity(section, "run", "s");
            if (every is null || run is null) return null;
            if (run > 0 && run < every) return new(valve.Id, of, from, to, rate, 0, 0) { EveryS = every.Value, RunS = run.Value };
            SectionReader.Reject(section, section.Entry("run")!, "a time above 0 and shorter than every", "Correct one of the two", problems);
            return null;
        }

        if (section.Entry("after-fill") is { } rule) return ByFills(new(valve.Id, of, from, to, rate, 0, 0), rule, section);
        if (drains && opens is null) return null;
        if (shuts is null) return null;
        // A float valve throttles within a few centimetres; here it opens and shuts.
        opens ??= Math.Max(0, shuts.Value - 0.02);
        return new(valve.Id, of, from, to, rate, opens.Value, shuts.Value);
    }

    private WaterValve? ByFills(WaterValve valve, TomlEntry rule, SectionValues section)
    {
        double? after = _ground.Quantity(section, "after-fill", "s"), run = _ground.Quantity(section, "run", "s");
        if (after is > 0 && run is > 0) return valve with { AfterFillS = after.Value, RunS = run.Value };
        SectionReader.Reject(
            section, rule, "a time above 0, beside run", "Write after-fill = \"9 min\" and run = \"4 min\": it opens for 4 min when the sump fills for longer than 9 min", problems);
        return null;
    }

    private static double? Bare(SectionValues section, string key) =>
        (section.Entry(key)?.Value as TomlScalar)?.Value is double value and > 0 and <= 1 ? value : null;

    private static string? TextOf(SectionValues section, params ReadOnlySpan<string> keys)
    {
        foreach (string key in keys)
        {
            if ((section.Entry(key)?.Value as TomlScalar)?.Value is string { Length: > 0 } text) return text;
        }

        return null;
    }
}
