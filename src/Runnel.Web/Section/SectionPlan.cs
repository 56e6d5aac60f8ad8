using Runnel.Place;
using Runnel.Place.Water;

namespace Runnel.Web.Section;

/// <summary>A vessel as drawn. Heights above the lowest floor, m.</summary>
internal sealed record PlanVessel(string Id, string Name, VesselKind Kind, double FloorM, double RimM, double TrueRimM, double Weight)
{
    public double? OutletM { get; init; }

    public OutletKind? Outlet { get; init; }

    public double? SwitchLowM { get; init; }

    public double? SwitchHighM { get; init; }

    /// <summary>Taller than the drawing: drawn with a break, water by share.</summary>
    public bool IsBroken => TrueRimM > RimM;

    public bool IsTall => Kind is VesselKind.RainTank;
}

/// <summary>What moves water from one vessel to others.</summary>
internal enum RunKind { Gravity, Pump, TopUp }

/// <summary>A pipe run: from a vessel (or from outside, where null) to vessels, in the order they are drawn.</summary>
internal sealed record PlanRun(RunKind Kind, string? EquipmentId, int From, IReadOnlyList<int> To);

/// <summary>Air to tanks.</summary>
internal sealed record PlanAir(string Id, string Name, bool IsBackup, IReadOnlyList<int> To);

/// <summary>What is to be drawn of a place, in order from where the pump delivers to where it takes.</summary>
internal sealed record SectionPlan(IReadOnlyList<PlanVessel> Vessels, IReadOnlyList<PlanRun> Runs, IReadOnlyList<PlanAir> Air, bool IsToHeight)
{
    private const double TallestOverLoop = 1.25, LeastHeightM = 0.08;

    public double TopM => Vessels.Count == 0 ? 1 : Vessels.Max(v => v.RimM);

    public static SectionPlan Of(PlaceDescription place)
    {
        List<string> ids = [.. place.Vessels.Select(v => v.Id).Distinct()];
        Dictionary<string, WaterVessel> water = [];
        foreach (WaterVessel v in place.Hydraulics?.Vessels ?? []) water.TryAdd(v.Id, v);
        bool toHeight = ids.Count > 0 && ids.All(id => HasHeights(place, water, id));
        // A vessel that stands apart from the loop and tells no heights must not cost the others theirs.
        if (!toHeight && ids.Count(id => HasHeights(place, water, id)) >= 3)
        {
            ids = [.. ids.Where(id => HasHeights(place, water, id))];
            toHeight = true;
        }

        var flow = new FlowOrder(place, ids);
        List<string> ordered = flow.Ordered;
        List<PlanVessel> vessels = toHeight
            ? [.. ordered.Select(id => AtHeight(place, water[id]))]
            : [.. ordered.Select((id, i) => InARow(place, id, i, ordered.Count))];
        if (toHeight)
        {
            double lowest = vessels.Min(v => v.FloorM);
            double loopTop = vessels.Where(v => !v.IsTall).Select(v => v.RimM).DefaultIfEmpty(1).Max() - lowest;
            vessels = [.. vessels.Select(v => v with
            {
                FloorM = v.FloorM - lowest,
                RimM = v.IsTall ? Math.Min(v.RimM - lowest, Math.Max(loopTop * TallestOverLoop, v.FloorM - lowest + (0.5 * loopTop))) : v.RimM - lowest,
                TrueRimM = v.RimM - lowest,
                OutletM = v.OutletM - lowest,
            })];
        }

        var narrow = vessels.GroupBy(v => v.Kind).Where(g => g.Count() > 3 && g.Key is VesselKind.Trough or VesselKind.MediaBed).Select(g => g.Key).ToHashSet();
        vessels = [.. vessels.Select(v => narrow.Contains(v.Kind) ? v with { Weight = 0.5 } : v)];
        return new(vessels, flow.Runs(ordered), AirOf(place, vessels), toHeight);
    }

    /// <summary>"upper-trough" as people say it.</summary>
    internal static string NameOf(string id) => id.Replace('-', ' ');

    private static bool HasHeights(PlaceDescription place, Dictionary<string, WaterVessel> water, string id) =>
        water.TryGetValue(id, out WaterVessel? v) && (v.FloorM is not null || v.Kind == VesselKind.Sump && place.Vessels.Count(x => x.Kind == VesselKind.Sump) == 1);

    private static PlanVessel AtHeight(PlaceDescription place, WaterVessel v)
    {
        Vessel told = place.FindVessel(v.Id)!;
        double floor = v.FloorM ?? 0;
        double rim = v.RimM ?? Math.Max(v.Shape.Levels is { Count: > 2 } levels ? levels[^1] : 0, 1.3 * Math.Max(v.Outlet?.HeightM ?? 0, Math.Max(v.StartM ?? 0, told.SwitchHighM ?? 0.3)));
        rim = Math.Max(rim, LeastHeightM);
        return new(v.Id, NameOf(v.Id), v.Kind, floor, floor + rim, floor + rim, WeightOf(v.Kind))
        {
            OutletM = v.Outlet is { } o ? floor + Math.Min(o.HeightM, rim) : null,
            Outlet = v.Outlet?.Kind ?? told.Outlet,
            SwitchLowM = told.SwitchLowM < rim ? told.SwitchLowM : null,
            SwitchHighM = told.SwitchHighM < rim ? told.SwitchHighM : null,
        };
    }

    /// <summary>Heights that only order the vessels by the way the water takes; the drawing says so.</summary>
    private static PlanVessel InARow(PlaceDescription place, string id, int i, int count)
    {
        Vessel told = place.FindVessel(id)!;
        bool sump = told.Kind == VesselKind.Sump, rain = told.Kind == VesselKind.RainTank;
        double floor = sump ? 0 : rain ? 0.3 : 0.35 + (0.5 * (count - i) / count), height = sump || rain ? 0.6 : 0.5;
        return new(id, NameOf(id), told.Kind, floor, floor + height, floor + height, WeightOf(told.Kind))
        {
            OutletM = sump || rain ? null : floor + (0.8 * height),
            Outlet = sump || rain ? null : told.Outlet ?? OutletKind.Pipe,
        };
    }

    private static double WeightOf(VesselKind kind) => kind switch
    {
        VesselKind.FishTank => 1.35,
        VesselKind.Sump => 1.5,
        VesselKind.RainTank => 1.2,
        VesselKind.Trough => 1.1,
        _ => 0.9,
    };

    private static List<PlanAir> AirOf(PlaceDescription place, List<PlanVessel> vessels) =>
        [.. place.Equipment.Where(e => e.Kind is EquipmentKind.MainAir or EquipmentKind.BackupAir).Select(e =>
        {
            int named = vessels.FindIndex(v => v.Id == (e.Of ?? e.To));
            int[] to = named >= 0 ? [named] : [.. vessels.Select((v, i) => (v, i)).Where(p => p.v.Kind == VesselKind.FishTank).Select(p => p.i)];
            return new PlanAir(e.Id, NameOf(e.Id), e.Kind == EquipmentKind.BackupAir, to);
        }).Where(a => a.To.Count > 0).OrderBy(a => a.IsBackup).Take(2)];
}
