using Runnel.Place.Fish;
using Runnel.Place.Water;

namespace Runnel.Place.PlaceFiles;

/// <summary>Reads fish groups, their tanks and their air.</summary>
internal sealed class FishReader(PlaceDraft draft, Hydraulics? hydraulics, ProblemList problems)
{
    private static readonly SectionRule Group = new("fish-group", Repeats: true,
    [
        new("id", Form.Identifier, Example: "\"trout\""), new("name", Form.Text), new("note", Form.Text), new("species", Form.Text), new("in", Form.Text),
        new("count", Form.Number), new("weight", Form.Quantity, "g", 0.1, 20_000, Example: "\"180 g\""), new("born", Form.Anything),
        new("stocked", Form.Anything), new("feed", Form.Anything), new("feed-protein", Form.Anything), new("fed-at", Form.Anything),
    ]);

    private static readonly KeyRule
        AirFlow = new("air-flow", Form.Quantity, "L/min", 0, 10_000, AboveZero: true, Example: "\"40 L/min\""),
        Depth = new("depth", Form.Quantity, "m", 0, 10, AboveZero: true, Example: "\"600 mm\""),
        Transfer = new("oxygen-transfer", Form.Quantity, "g/h", 0, 100_000, AboveZero: true, Example: "\"30 g/h\""),
        Energy = new("energy", Form.Quantity, "W.h", 0, 1e7, AboveZero: true, Example: "\"240 Wh\""),
        Depths = new("water-depth", Form.Quantity, "m", 0, 20, AboveZero: true, Example: "\"700 mm\"");

    /// <summary>The fish of a place, or null where the file names none.</summary>
    internal static FishKeeping? Read(PlaceDraft draft, Hydraulics? hydraulics, ProblemList problems) =>
        new FishReader(draft, hydraulics, problems).Read();

    private FishKeeping? Read()
    {
        List<FishGroup> groups = [];
        int ordinal = 0;
        foreach (var table in draft.Sections.Open.GetValueOrDefault(Group.Name) ?? [])
        {
            var section = SectionReader.Read(table, Group, ++ordinal, problems);
            if (ReadGroup(section) is { } group) groups.Add(group);
        }

        if (ordinal == 0) return null;
        List<FishTank> tanks = [];
        foreach (string id in groups.Select(g => g.In).Distinct())
        {
            if (ReadTank(draft.Vessels.First(v => v.Vessel.Id == id)) is { } tank) tanks.Add(tank);
        }

        var air = draft.Equipment.Where(e => e.Equipment.Kind is EquipmentKind.MainAir or EquipmentKind.BackupAir)
            .Select(e => ReadAir(e.Equipment, e.Section, [.. groups.Select(g => g.In).Distinct()])).ToList();
        return new FishKeeping(groups, tanks, air);
    }

    private FishGroup? ReadGroup(SectionValues section)
    {
        foreach (var (key, example) in (ReadOnlySpan<(string, string)>)[("species", "\"rainbow trout\""), ("in", "\"fish-tank\""), ("count", "25"), ("weight", "\"180 g\"")])
        {
            if (section.Written.Contains(key)) continue;
            problems.AddMissing(section.At, $"{section.Path}.{key}", example, $"{section.Title} does not tell its {key}", $"Add {key} = {example}");
            return null;
        }

        if (section.Text("species") is not { } species || section.Text("in") is not { } tank || section.Number("count") is not { } count
            || section.Number("weight") is not { } weightG) return null;
        if (draft.Vessels.All(v => v.Vessel.Id != tank))
        {
            string? nearest = NearestName.To(tank, draft.Vessels.Select(v => v.Vessel.Id));
            SectionReader.Reject(
                section, section.Entry("in")!, "the id of a vessel", nearest is null ? "Name the [[vessel]] they live in" : $"Write \"{nearest}\"", problems, nearest);
            return null;
        }

        if (count is < 0 or > 1e6 || count != Math.Floor(count))
        {
            SectionReader.Reject(section, section.Entry("count")!, "a whole number of fish", "Count them, or write your best guess", problems);
            return null;
        }

        return new FishGroup(section.Text("id") ?? $"{species} in {tank}", species, tank, (int)count, weightG);
    }

    private FishTank? ReadTank((Vessel Vessel, SectionValues Section) draftVessel)
    {
        var (vessel, section) = draftVessel;
        double? depthM = Number(section, Depths);
        if (hydraulics?.Vessels.FirstOrDefault(v => v.Id == vessel.Id) is { } told)
        {
            double? levelM = told.Outlet?.HeightM ?? told.StartM ?? depthM;
            if (levelM is { } at && told.Shape.VolumeM3(at) > 0)
            {
                return new FishTank(vessel.Id, section.Number("volume") ?? told.Shape.VolumeM3(at) * 1000, told.OpenM2 ?? told.Shape.AreaM2(at));
            }
        }

        double? volumeL = section.Number("volume") ?? vessel.FootprintM2 * depthM * 1000;
        if (volumeL is not { } litres)
        {
            problems.AddMissing(
                section.At, $"{section.Path}.volume", "\"900 L\"", $"{section.Title} does not tell how much water the fish have",
                "Add volume = \"900 L\", or footprint and water-depth");
            return null;
        }

        // A tank as deep as half its width, where nothing is told of its shape.
        return new FishTank(vessel.Id, litres, vessel.FootprintM2 ?? Math.Pow(2 * litres / 1000, 2.0 / 3));
    }

    private AirSource ReadAir(Equipment air, SectionValues section, IReadOnlyList<string> tanks)
    {
        List<string> serves = [];
        foreach (string key in (string[])["in", "serves", "to", "of"])
        {
            if (section.Entry(key) is not { } entry) continue;
            var values = entry.Value is TomlArray array ? array.Items : [entry.Value];
            serves.AddRange(values.Select(v => (v as TomlScalar)?.Value).OfType<string>().Where(tanks.Contains));
        }

        return new AirSource(
            air.Id, air.Kind == EquipmentKind.BackupAir, serves.Count > 0 ? serves : tanks, Number(section, AirFlow), Number(section, Depth),
            Number(section, Transfer), air.RatedPowerW, Number(section, Energy));
    }

    private double? Number(SectionValues section, KeyRule key)
    {
        if (section.Number(key.Name) is { } read) return read;
        return section.Entry(key.Name) is { } entry ? QuantityReader.Read(section, entry, key, problems) as double? : null;
    }
}
