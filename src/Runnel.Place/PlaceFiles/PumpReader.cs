using Runnel.Place.Water;

namespace Runnel.Place.PlaceFiles;

/// <summary>Reads a pump: its curve or rate, its pipe and branches, the levels that switch it.</summary>
internal sealed class PumpReader(PlaceDraft draft, WaterGround ground, PipeReader pipes, ProblemList problems)
{
    internal WaterPump? Read(Equipment pump, SectionValues section)
    {
        // Pumps that only tell where they stand were always enough for reading logs.
        bool tells = section.Entry("curve") is not null || pump.RateLPerMin is not null;
        if (pump.From is not { } from || !ground.Has(from) || (pump.To is null && section.Entry("split") is null)) return null;
        if (!tells)
        {
            problems.AddMissing(
                section.At, $"{section.Path}.curve", "curve", $"{section.Title} does not tell how much it pumps",
                "Add curve = [[\"0 L/min\", \"4.5 m\"], [\"50 L/min\", \"3 m\"], [\"80 L/min\", \"1.5 m\"]], or rate = \"... L/min\"");
            return null;
        }

        var curve = ReadCurve(section);
        var main = section.Entry("pipe")?.Value is TomlTable table ? pipes.Section(table, $"{section.Path}.pipe", HydraulicRules.Pipe) : null;
        double? lift = section.Number("lift") is { } up ? ground.FloorOf(from) + up : null;
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

            ground.CheckTarget(section, "split", to, from);
            double? end = ground.EndOf(read, to) ?? lift;
            ends.Add(new(to, end, pipes.Pipe(read, end)));
        }

        if (ends.Count == 0 && pump.To is { } only)
        {
            ends.Add(new(only, (main is null ? null : ground.EndOf(main, only)) ?? lift, null));
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
        if (QuantityReader.Pairs(section, entry, ("L/min", "\"50 L/min\""), ("m", "\"3 m\""), problems) is not { } pairs) return [];
        List<PumpPoint> points = [.. pairs.Select(p => new PumpPoint(p.First, p.Second))];
        bool good = points is [{ FlowLPerMin: > 0, HeadM: > 0 }]
            || (points is [{ FlowLPerMin: 0 } a, { FlowLPerMin: > 0 } b, { HeadM: >= 0 } c] && a.HeadM > b.HeadM && b.HeadM > c.HeadM && b.FlowLPerMin < c.FlowLPerMin);
        if (good) return points;
        SectionReader.Reject(
            section, entry, "one point of flow and head, or three: head without flow, and two more with falling head",
            "Write curve = [[\"0 L/min\", \"4.5 m\"], [\"50 L/min\", \"3 m\"], [\"80 L/min\", \"1.5 m\"]]", problems);
        return [];
    }
}
