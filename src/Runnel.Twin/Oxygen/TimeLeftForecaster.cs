using Runnel.Place;
using Runnel.Place.Fish;
using Runnel.Twin.Solving;
using Runnel.Twin.Water;

namespace Runnel.Twin.Oxygen;

/// <summary>Reckons how long fish have when air, flow or both fail: many likely loops, each until its oxygen has fallen.</summary>
public static class TimeLeftForecaster
{
    /// <summary>Longer than this nobody stays away from a dead pump.</summary>
    private const double HorizonH = 48;

    /// <summary>Share of the likely loops that last longer than what is told as the least.</summary>
    private const double Cautious = 0.02;

    /// <summary>Reckons all outages at both hours.</summary>
    /// <param name="place">A place whose file tells its fish.</param>
    /// <param name="options">What it starts from.</param>
    /// <returns>Time left by tank.</returns>
    /// <exception cref="ArgumentException">The place has no fish.</exception>
    public static TimeLeft Run(PlaceDescription place, TimeLeftOptions options)
    {
        ArgumentNullException.ThrowIfNull(place);
        ArgumentNullException.ThrowIfNull(options);
        if (place.Fish is not { } fish) throw new ArgumentException("the place file names no fish", nameof(place));
        var tanks = StockedTank.Of(fish);
        var flows = Flows(place, fish);
        double restL = RestL(place, fish), altitudeM = double.IsNaN(place.AltitudeM) ? 0 : place.AltitudeM;
        var draw = new OxygenDraw(fish, tanks, altitudeM, flows, restL, options);
        var levels = tanks.Select(t => t.Need).Select(n => (n.StressMgPerL, n.DangerMgPerL)).ToList();
        bool backup = fish.Air.Any(a => a.IsBackup);
        var cases = (from outage in Enum.GetValues<Outage>()
                     from hour in Enum.GetValues<OutageHour>()
                     from with in (bool[])(backup && outage != Outage.PumpStops ? [false, true] : [false])
                     select (outage, hour, with)).ToList();
        double[][,] passed = [.. cases.Select(_ => new double[options.Members, 2 * fish.Tanks.Count])];
        double[,] starts = new double[fish.Tanks.Count, options.Members];
        Parallel.For(0, options.Members, number =>
        {
            foreach (var hour in Enum.GetValues<OutageHour>())
            {
                var member = draw.Draw(number, hour);
                for (int i = 0; i < fish.Tanks.Count && hour == OutageHour.Usual; i++) starts[i, number] = member.StartMgPerL[i];
                for (int c = 0; c < cases.Count; c++)
                {
                    if (cases[c].hour != hour) continue;
                    var times = Passages(member, levels, cases[c].outage, cases[c].with);
                    for (int e = 0; e < times.Length; e++) passed[c][number, e] = times[e];
                }
            }
        });
        return new TimeLeft(options.WaterTempC, options.Members, [.. tanks.Select(Tank)], BackupBattery.Of(fish));

        TankTimeLeft Tank(StockedTank tank, int i)
        {
            double[] start = Sorted(options.Members, m => starts[i, m]);
            return new TankTimeLeft(
                tank.Tank.Vessel, [.. tank.Groups.Select(g => g.Group)], tank.Need, tank.Tank.VolumeL,
                tank.Groups.Any(g => StockedTank.Uptake(g, g.Group.MeanWeightG, options.WaterTempC).StandsIn), start[start.Length / 10], start[start.Length / 2], options.MeasuredMgPerL.ContainsKey(tank.Tank.Vessel), tank.MainGPerH > 0,
                [.. cases.Select((c, k) => new OutageTimes(c.outage, c.hour, c.with, Level(passed[k], 2 * i), Level(passed[k], (2 * i) + 1)))]);
        }
    }

    /// <summary>When each tank passes each of its levels, h.</summary>
    internal static double[] Passages(OxygenMember member, IReadOnlyList<(double StressMgPerL, double DangerMgPerL)> levels, Outage outage, bool withBackup)
    {
        double[] start = [.. member.StartMgPerL, member.RestStartMgPerL];
        var loop = new OxygenLoop(member, levels)
        {
            Flows = outage == Outage.AirStops,
            MainAir = outage == Outage.PumpStops,
            BackupAir = withBackup,
        };
        loop.Begin(start);
        var solver = new OdeSolver(loop, new SolverOptions { RelativeTolerance = 1e-5, AbsoluteTolerance = 1e-5 });
        solver.Start(0, start);

        // With the pump's circuit dead too, backup air lives on its battery.
        double batteryH = withBackup && outage == Outage.BothStop ? member.BackupH : double.PositiveInfinity;
        if (batteryH < HorizonH)
        {
            var until = solver.AdvanceTo(batteryH);
            if (until.Stop == StopReason.Reached)
            {
                loop.BackupAir = false;
                solver.Change(solver.State.ToArray());
            }
        }

        solver.AdvanceTo(HorizonH);
        return loop.PassedH.ToArray();
    }

    /// <summary>Rounded down as people read it: five minutes up to two hours, a quarter of an hour up to twelve, hours beyond.</summary>
    internal static double Down(double hours) =>
        double.IsInfinity(hours) ? hours : hours < 2 ? Math.Floor(hours * 12) / 12 : hours < 12 ? Math.Floor(hours * 4) / 4 : Math.Floor(hours);

    private static TimeToLevel Level(double[,] passed, int column)
    {
        int n = passed.GetLength(0);
        double[] times = Sorted(n, i => passed[i, column]);
        return new TimeToLevel(Down(times[(int)(Cautious * n)]), times[n / 10], times[n / 2], times[n * 9 / 10]);
    }

    private static double[] Sorted(int n, Func<int, double> value)
    {
        double[] sorted = [.. Enumerable.Range(0, n).Select(value)];
        Array.Sort(sorted);
        return sorted;
    }

    /// <summary>Mean flow through each tank, L/min; none where the file does not tell how the water moves.</summary>
    private static double[] Flows(PlaceDescription place, FishKeeping fish)
    {
        double[] flows = new double[fish.Tanks.Count];
        if (place.Hydraulics is not { Pumps.Count: > 0 }) return flows;
        var forecast = WaterForecaster.Run(place, new ForecastOptions { Days = 0.25 });
        for (int i = 0; i < flows.Length; i++) flows[i] = forecast.Vessels.FirstOrDefault(v => v.Id == fish.Tanks[i].Vessel)?.MeanOutL ?? 0;
        return flows;
    }

    /// <summary>Water that is not with the fish, L.</summary>
    private static double RestL(PlaceDescription place, FishKeeping fish)
    {
        if (place.Hydraulics is not { } water) return 0;
        double litres = 0;
        foreach (var vessel in water.Vessels.Where(v => v.Kind != VesselKind.RainTank && fish.Tanks.All(t => t.Vessel != v.Id)))
        {
            litres += 1000 * vessel.Shape.VolumeM3(vessel.StartM ?? vessel.Outlet?.HeightM ?? 0);
        }

        return litres;
    }
}
