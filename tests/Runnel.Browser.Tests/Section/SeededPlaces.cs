using NodaTime;
using Runnel.Place;
using Runnel.Place.Findings;
using Runnel.Place.Water;
using Runnel.Web.Section;

namespace Runnel.Browser.Tests.Section;

/// <summary>Places of any make, from a seed: few vessels and many, short names and long, side by side and one after another.</summary>
internal static class SeededPlaces
{
    private static readonly string[] Words = ["tank", "upper", "east", "greenhouse", "bed", "long-row", "swirl", "old", "biofilter-by-the-wall", "a", "trough", "north-facing-raised-gravel"];

    public static (PlaceDescription Place, SectionStanding Standing) Make(int seed)
    {
        var random = new Random(seed);
        List<WaterVessel> water = [];
        List<Vessel> vessels = [];
        bool heights = random.NextDouble() < 0.85;
        int count = random.Next(1, 16), parallel = random.Next(0, 3) == 0 ? random.Next(2, 10) : 0;
        string Name(int i) => $"{Words[random.Next(Words.Length)]}-{Words[random.Next(Words.Length)]}-{i}";
        VesselKind[] kinds = [VesselKind.FishTank, VesselKind.SolidsSeparator, VesselKind.Biofilter, VesselKind.Trough, VesselKind.MediaBed, VesselKind.MechanicalFilter];
        string[] chain = [.. Enumerable.Range(0, count).Select(Name)];
        string[] side = [.. Enumerable.Range(0, parallel).Select(i => $"trough-{i}")];
        for (int i = 0; i < count; i++)
            Add(chain[i], kinds[random.Next(kinds.Length)], random.NextDouble() * 1.4, random.Next(4) == 0 ? "sump" : i + 1 < count ? chain[random.Next(i + 1, count)] : "sump");
        foreach (string id in side) Add(id, VesselKind.Trough, 0.4, "sump");
        water.Add(new("sump", VesselKind.Sump, LevelVolume.Upright(0.8), 0, 0.7, "ground", 0.3, null, null));
        vessels.Add(new("sump", VesselKind.Sump, FootprintM2: 0.8, SwitchLowM: 0.15, SwitchHighM: random.Next(2) == 0 ? 0.3 : 0.17, RimM: 0.7));
        bool rain = random.Next(2) == 0;
        if (rain) Add("roof-water", VesselKind.RainTank, 0.3, null, 2.4);
        List<Equipment> equipment = [new("lift-pump", EquipmentKind.Pump, "sump", chain[0])];
        List<PumpEnd> ends = [new(chain[0], 1.8, null), .. side.Select(s => new PumpEnd(s, 1, null))];
        if (random.Next(3) > 0) equipment.Add(new("top-up", EquipmentKind.TopUpValve, rain ? "roof-water" : "mains", "sump", RateLPerMin: 6));
        if (random.Next(2) == 0) equipment.Add(new("main-air-compressor", EquipmentKind.MainAir));
        if (random.Next(2) == 0) equipment.Add(new("spare-compressor", EquipmentKind.BackupAir));
        var place = new PlaceDescription($"Seed {seed}", 40, 10, 10, DateTimeZone.Utc, new(null, null, null), vessels, equipment, [])
        {
            Hydraulics = new(water, [new("lift-pump", "sump", [], 60, null, ends, 0.3, 0.15, false, 60)], []),
        };
        string[] parts = [.. vessels.Select(v => v.Id), .. equipment.Select(e => e.Id)];
        var standing = new SectionStanding
        {
            Water = vessels.Where(_ => random.Next(4) > 0).ToDictionary(v => v.Id, v => new WaterStanding(0.05 + (random.NextDouble() * 0.3), (LevelFrom)random.Next(2))),
            Running = equipment.Where(_ => random.Next(3) > 0).ToDictionary(e => e.Id, _ => random.Next(2) == 0),
            Words = vessels.Where(_ => random.Next(2) == 0).ToDictionary(v => v.Id, _ => (IReadOnlyList<PartLine>)[new("6.6 mg/L", true), new("26.9 °C, 4 h old")]),
            ReturnsFlow = random.Next(2) == 0,
            FlowLPerMin = random.Next(3) == 0 ? null : 4 + (random.NextDouble() * 80),
            Trouble = random.Next(2) == 0 ? null : new(Urgency.Today, [parts[random.Next(parts.Length)]], "drains slowly, 9 to 14 mm high"),
        };
        return (place, standing);

        void Add(string id, VesselKind kind, double floor, string? to, double? rimM = null)
        {
            double rim = rimM ?? 0.15 + (random.NextDouble() * 0.8);
            var outlet = to is null ? null : new GravityOutlet((OutletKind)random.Next(5), rim * 0.8, 0.05, to, null, rim * 0.85, 0.02);
            water.Add(new(id, kind, LevelVolume.Upright(0.5), heights ? floor : null, rim, "ground", null, null, outlet));
            vessels.Add(new(id, kind, FootprintM2: 0.5, RimM: rim, Outlet: outlet?.Kind));
        }
    }
}
