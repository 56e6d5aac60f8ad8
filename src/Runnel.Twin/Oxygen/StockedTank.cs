using Runnel.Place.Fish;
using Runnel.Science.Fish;

namespace Runnel.Twin.Oxygen;

/// <summary>A tank with its fish and its air, looked up once for all likely loops.</summary>
/// <param name="Tank">Its water.</param>
/// <param name="Groups">Its fish, each with what it needs.</param>
/// <param name="MainGPerH">Standard transfer of its share of main air, g/h; 0: not told.</param>
/// <param name="BackupGPerH">The same of backup air.</param>
internal sealed record StockedTank(FishTank Tank, IReadOnlyList<(FishGroup Group, OxygenNeed Need)> Groups, double MainGPerH, double BackupGPerH)
{
    /// <summary>A stone of aquarium kind takes 3 to 5 % of the oxygen for each metre of depth; 0.5 m where its depth is not told (common practice).</summary>
    private const double TakenPerM = 0.035, UsualDepthM = 0.5;

    /// <summary>What the neediest of its fish need: stress of the one, danger of the other, each with its source.</summary>
    public OxygenNeed Need
    {
        get
        {
            var dies = Groups.Select(g => g.Need).MaxBy(n => n.DangerMgPerL)!;
            return Groups.Select(g => g.Need).MaxBy(n => n.StressMgPerL)! with { DangerMgPerL = dies.DangerMgPerL, Danger = dies.Danger };
        }
    }

    public static IReadOnlyList<StockedTank> Of(FishKeeping fish) =>
    [
        .. fish.Tanks.Select(t => new StockedTank(
            t, [.. fish.Groups.Where(g => g.In == t.Vessel).Select(g => (g, OxygenNeed.Of(g.Species)))], GPerH(fish, t, backup: false), GPerH(fish, t, backup: true))),
    ];

    /// <summary>Resting uptake of one of its groups, with fish of that weight.</summary>
    public static RestingUptake Uptake((FishGroup Group, OxygenNeed Need) fish, double weightG, double waterTempC) =>
        RestingUptake.Of(fish.Group.Species, fish.Need.ColdWater, weightG, waterTempC);

    private static double GPerH(FishKeeping fish, FishTank tank, bool backup) =>
        fish.Air.Where(a => a.IsBackup == backup && a.Serves.Contains(tank.Vessel)).Sum(a =>
            (a.StandardGPerH ?? (a.AirLPerMin is { } flow ? Aeration.OxygenFromAirGPerH(flow, TakenPerM * (a.DepthM ?? UsualDepthM)) : 0)) / a.Serves.Count);
}
