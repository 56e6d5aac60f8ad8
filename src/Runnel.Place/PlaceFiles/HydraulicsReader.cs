using Runnel.Place.Water;
using Runnel.Science.Units;

namespace Runnel.Place.PlaceFiles;

/// <summary>Reads how the water moves: outlets, drains, pumps and valves. What stands in a file for later commands only is no error elsewhere.</summary>
internal sealed class HydraulicsReader(PlaceDraft draft, ProblemList problems)
{
    private readonly PipeReader pipes = new(problems);
    private readonly HashSet<string> vesselIds = [.. draft.Vessels.Select(v => v.Vessel.Id)];

    internal static Hydraulics? Read(PlaceDraft draft, ProblemList problems) => new HydraulicsReader(draft, problems).Read();

    private Hydraulics? Read()
    {
        List<WaterPump> pumps = [];
        List<WaterValve> valves = [];
        HashSet<string> named = [];
        foreach (var (equipment, section) in draft.Equipment)
        {
            if (equipment.Kind == EquipmentKind.Pump && ReadPump(equipment, section) is { } pump)
            {
                pumps.Add(pump);
                named.Add(pump.From);
                named.UnionWith(pump.Ends.Select(e => e.To));
            }

            if (equipment.Kind is EquipmentKind.FloatValve or EquipmentKind.TopUpValve or EquipmentKind.BleedValve && ReadValve(equipment, section) is { } valve)
            {
                valves.Add(valve);
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

        return problems.Any ? null : new(vessels, pumps, valves);
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
        CheckTarget(section, "spills-to", spillsTo, vessel.Id);
        return new(
            vessel.Id, vessel.Kind, shape, Length(section, "floor-height") ?? Length(section, "floor"), vessel.RimM ?? section.Number("height"), spillsTo,
            section.Number("water-height") ?? section.Number("water-depth"), Quantity(section, "open-water", "m2"), outlet);
    }

    private LevelVolume? ReadShape(Vessel vessel, SectionValues section)
    {
        double share = Bare(section, "void-fraction") ?? Bare(section, "porosity") ?? 1;
        if (section.Entry("level-volume") is not { } entry) return vessel.FootprintM2 is { } area ? LevelVolume.Upright(area * share) : null;
        List<double> levels = [], volumes = [];
        foreach (var item in (entry.Value as TomlArray)?.Items ?? [])
        {
            if (item is not TomlArray { Items: [var level, var volume] }) continue;
            if (QuantityReader.Read(section, entry with { Value = level }, Unit.Of("m"), "\"300 mm\"", problems) is not { } m) return null;
            if (QuantityReader.Read(section, entry with { Value = volume }, Unit.Of("m3"), "\"120 L\"", problems) is not { } m3) return null;
            levels.Add(m);
            volumes.Add(m3 * share);
        }

        try
        {
            return new LevelVolume(levels, volumes);
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
        var own = entry.Value is TomlTable table ? pipes.Section(table, $"{section.Path}.outlet", HydraulicRules.Outlet) : null;
        var drainEntry = section.Entry("drain");
        var drain = drainEntry?.Value is TomlTable pipe ? pipes.Section(pipe, $"{section.Path}.drain", HydraulicRules.Pipe) : null;
        string? to = own?.Text("to") ?? drain?.Text("to") ?? TextOf(section, "drains-to", "flows-to", "to");
        var kind = vessel.Outlet ?? OutletKind.Pipe;
        double? height = own?.Number("height") ?? Length(section, "outlet-height") ?? section.Number("sill") ?? section.Number("standpipe-height")
            ?? section.Number("standpipe") ?? (kind == OutletKind.Siphon ? Length(section, "siphon-height") : null);
        double? diameter = kind == OutletKind.Weir ? own?.Number("width") ?? own?.Number("diameter") : own?.Number("diameter") ?? Length(section, "outlet-diameter");
        diameter ??= drain?.Number("diameter");
        // A bare kind, as in outlet = "standpipe", was always enough for reading logs.
        if (to is null && height is null && diameter is null) return null;
        bool whole = true;
        Need(to is not null, "to", "where its water goes", "to = \"sump\"");
        Need(height is not null, "height", "at which height", "height = \"750 mm\"");
        Need(diameter is not null, kind == OutletKind.Weir ? "width" : "diameter", "how wide it is", kind == OutletKind.Weir ? "width = \"300 mm\"" : "diameter = \"50 mm\"");
        if (!whole) return null;
        CheckTarget(section, "outlet", to!, vessel.Id);
        double trip = own?.Number("trip") ?? Length(section, "trip") ?? height!.Value + 0.01, breaks = own?.Number("break") ?? 0.02;
        if (kind == OutletKind.Siphon && !(breaks < height && trip >= height))
        {
            SectionReader.Reject(
                section, entry, "break below height, and trip at it or above", "Correct the three heights; all count from the vessel's floor", problems);
            return null;
        }

        double floor = Length(section, "floor-height") ?? Length(section, "floor") ?? double.NaN;
        var read = drain is null ? null : pipes.Pipe(drain, EndOf(drain, to!, floor + height!.Value));
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
        double? end = pipe.Number("end-height") is { } above ? FloorOf(to) + above : null;
        end ??= startM - pipe.Number("fall");
        return end is { } known && double.IsFinite(known) ? known : null;
    }

    private WaterPump? ReadPump(Equipment pump, SectionValues section)
    {
        // Pumps that only tell where they stand were always enough for reading logs.
        bool tells = section.Entry("curve") is not null || pump.RateLPerMin is not null;
        if (pump.From is not { } from || !vesselIds.Contains(from) || (pump.To is null && section.Entry("split") is null)) return null;
        if (!tells)
        {
            problems.AddMissing(
                section.At, $"{section.Path}.curve", "curve", $"{section.Title} does not tell how much it pumps",
                "Add curve = [[\"0 L/min\", \"4.5 m\"], [\"50 L/min\", \"3 m\"], [\"80 L/min\", \"1.5 m\"]], or rate = \"... L/min\"");
            return null;
        }

        var curve = ReadCurve(section);
        var main = section.Entry("pipe")?.Value is TomlTable table ? pipes.Section(table, $"{section.Path}.pipe", HydraulicRules.Pipe) : null;
        double? lift = section.Number("lift") is { } up ? FloorOf(from) + up : null;
        List<PumpEnd> ends = [];
        foreach (var branch in (section.Entry("split")?.Value as TomlArray)?.Items.OfType<TomlTable>() ?? [])
        {
            var read = pipes.Section(branch, $"{section.Path}.split", HydraulicRules.Pipe);
            string? to = read.Text("to");
            if (to is null)
            {
                problems.AddMissing(read.At, $"{read.Path}.to", "to", $"a branch of {section.Title} does not tell where it goes", "Add to = \"...\"");
                continue;
            }

            CheckTarget(section, "split", to, from);
            double? end = read.Number("end-height") is { } above ? FloorOf(to) + above : lift;
            ends.Add(new(to, end, pipes.Pipe(read, end)));
        }

        if (ends.Count == 0 && pump.To is { } only)
        {
            ends.Add(new(only, (main?.Number("end-height") is { } above ? FloorOf(only) + above : null) ?? lift, null));
        }

        if (curve.Count > 0 && ends.Any(e => e.EndM is null || !double.IsFinite(e.EndM.Value)))
        {
            problems.AddMissing(
                section.At, $"{section.Path}.lift", "\"1.8 m\"", $"{section.Title} does not tell how high it lifts",
                "Add lift = \"1.8 m\", from its vessel's floor to the pipe's end; or end-height in its pipe and floor-height of both vessels");
        }

        var vessel = draft.Vessels.First(v => v.Vessel.Id == from);
        double? on = section.Number("switch-high") ?? vessel.Vessel.SwitchHighM, off = section.Number("switch-low") ?? vessel.Vessel.SwitchLowM;
        if (on is null && vessel.Vessel is { BandL: { } band, FootprintM2: { } area })
        {
            // Only the band is told: it is laid a hand's breadth above the floor.
            (off, on) = (0.1, 0.1 + (band / 1000 / area));
        }

        bool check = section.Entry("check-valve")?.Value is TomlScalar { Value: true or "yes" or "fitted" };
        return new(
            pump.Id, from, curve, pump.RateLPerMin ?? 0, main is null ? null : pipes.Pipe(main, null), ends, off is null ? null : on, on is null ? null : off, check,
            pump.RatedPowerW);
    }

    private List<PumpPoint> ReadCurve(SectionValues section)
    {
        if (section.Entry("curve") is not { } entry) return [];
        List<PumpPoint> points = [];
        foreach (var item in (entry.Value as TomlArray)?.Items ?? [])
        {
            if (item is not TomlArray { Items: [var flow, var head] }) continue;
            if (QuantityReader.Read(section, entry with { Value = flow }, Unit.Of("L/min"), "\"50 L/min\"", problems) is not { } lPerMin) return [];
            if (QuantityReader.Read(section, entry with { Value = head }, Unit.Of("m"), "\"3 m\"", problems) is not { } m) return [];
            points.Add(new(lPerMin, m));
        }

        bool good = points is [{ FlowLPerMin: > 0, HeadM: > 0 }]
            || (points is [{ FlowLPerMin: 0 } a, { FlowLPerMin: > 0 } b, { HeadM: >= 0 } c] && a.HeadM > b.HeadM && b.HeadM > c.HeadM && b.FlowLPerMin < c.FlowLPerMin);
        if (good) return points;
        SectionReader.Reject(
            section, entry, "one point of flow and head, or three: head without flow, and two more with falling head",
            "Write curve = [[\"0 L/min\", \"4.5 m\"], [\"50 L/min\", \"3 m\"], [\"80 L/min\", \"1.5 m\"]]", problems);
        return [];
    }

    private WaterValve? ReadValve(Equipment valve, SectionValues section)
    {
        if (valve.RateLPerMin is not { } rate) return null;
        bool drains = valve.Kind == EquipmentKind.BleedValve;
        string? of = valve.Of ?? (drains ? valve.From : valve.To);
        double? shuts = valve.ShutsAtM ?? section.Number("switch-high"), opens = section.Number("opens-at") ?? section.Number("switch-low");
        if (of is null || !vesselIds.Contains(of)) return null;
        string from = valve.From ?? "mains", to = valve.To ?? (drains ? "waste" : of);
        if (section.Entry("every") is not null && section.Entry("run") is not null)
        {
            double? every = Quantity(section, "every", "s"), run = Quantity(section, "run", "s");
            if (every is null || run is null) return null;
            if (run > 0 && run < every) return new(valve.Id, of, from, to, rate, 0, 0) { EveryS = every.Value, RunS = run.Value };
            SectionReader.Reject(section, section.Entry("run")!, "a time above 0 and shorter than every", "Correct one of the two", problems);
            return null;
        }

        if (drains && opens is null) return null;
        if (shuts is null) return null;
        // A float valve throttles within a few centimetres; here it opens and shuts.
        opens ??= Math.Max(0, shuts.Value - 0.02);
        return new(valve.Id, of, from, to, rate, opens.Value, shuts.Value);
    }

    private void CheckTarget(SectionValues section, string key, string to, string self)
    {
        if ((vesselIds.Contains(to) && to != self) || CrossChecks.Outside.Contains(to)) return;
        var entry = section.Entry(key) ?? section.Entry("id")!;
        string? nearest = NearestName.To(to, [.. vesselIds, .. CrossChecks.Outside]);
        problems.Add(
            entry.At, $"{section.Path}.{key}", to, "the id of another vessel, or a word for the world outside",
            $"{key} of {section.Title} leads to {PlaceProblem.Quoted(to)}, which is no other vessel of this file",
            nearest is null ? "Declare it, or correct the name" : $"Write \"{nearest}\", or declare it", nearest);
    }

    private double? FloorOf(string vessel)
    {
        var section = draft.Vessels.FirstOrDefault(v => v.Vessel.Id == vessel).Section;
        return section is null ? null : Length(section, "floor-height") ?? Length(section, "floor");
    }

    private double? Length(SectionValues section, string key) => Quantity(section, key, "m");

    private double? Quantity(SectionValues section, string key, string unit) =>
        section.Entry(key) is { } entry ? QuantityReader.Read(section, entry, Unit.Of(unit), unit == "m" ? "\"355 mm\"" : unit == "s" ? "\"5 min\"" : "\"2.5 m2\"", problems) : null;

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
