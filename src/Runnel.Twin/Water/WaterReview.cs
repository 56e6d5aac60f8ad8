using Runnel.Place;
using Runnel.Place.Water;

namespace Runnel.Twin.Water;

/// <summary>Whether something holds.</summary>
public enum ReviewVerdict
{
    /// <summary>With room to spare.</summary>
    Ok,

    /// <summary>It holds, with little to spare.</summary>
    Tight,

    /// <summary>It does not hold.</summary>
    Fails,

    /// <summary>The file does not tell enough.</summary>
    Unknown,
}

/// <summary>One look at the design of a place.</summary>
/// <param name="Of">Vessel or equipment.</param>
/// <param name="Rule">What must hold, in plain words.</param>
/// <param name="Value">What was reckoned; null: unknown.</param>
/// <param name="Limit">What it is held against; null: none.</param>
/// <param name="Unit">Of both.</param>
/// <param name="Margin">How far it is from the limit on the good side; below 0 on the bad one.</param>
/// <param name="Source">Where rule and limit come from.</param>
/// <param name="Verdict">Whether it holds.</param>
/// <param name="Told">The finding in a sentence.</param>
public sealed record ReviewLine(
    string Of, string Rule, double? Value, double? Limit, string Unit, double? Margin, string Source, ReviewVerdict Verdict, string Told);

/// <summary>Looks at a place as an engineer would, as far as its water goes.</summary>
public static class WaterReview
{
    /// <summary>Litres a day and square metre on the worst day: FAO Irrigation and Drainage Paper 56, table 2, hot and dry; from memory.</summary>
    private const double WorstMmPerDay = 9;

    private const double MostStartsPerH = 15;
    private const string Twin = "reckoned by the twin";

    /// <summary>All that can be said.</summary>
    /// <param name="place">A place that tells how its water moves.</param>
    /// <returns>Lines in the order of the file.</returns>
    /// <exception cref="ArgumentException">The place does not tell how its water moves.</exception>
    public static IReadOnlyList<ReviewLine> Of(PlaceDescription place)
    {
        ArgumentNullException.ThrowIfNull(place);
        var water = place.Hydraulics ?? throw new ArgumentException("the place does not tell how its water moves", nameof(place));
        var quiet = new ForecastOptions { EvaporationMmPerDay = 0, EveryS = 600 };
        var day = WaterForecaster.Run(place, quiet);
        List<ReviewLine> lines = [.. new SpillPaths(water).Lines()];
        foreach (var pump in day.Pumps) lines.AddRange(OfPump(water.Pumps.First(p => p.Id == pump.Id), pump));
        lines.AddRange(DrainBack(place, water, quiet));
        lines.AddRange(water.Pumps.SelectMany(p => BackSiphon(water, p)));
        lines.AddRange(Turnover(water, day));
        lines.Add(TopUp(place, water));
        return lines;
    }

    private static IEnumerable<ReviewLine> OfPump(WaterPump pump, PumpForecast day)
    {
        if (pump.Curve.Count > 0)
        {
            double most = new PumpLaw(pump, 0, 2).ShutOffHeadM, flow = day.FlowLPerMin;
            bool lifts = flow > 0.5;
            yield return new(
                pump.Id, "the pump meets its pipe well below its greatest head", flow, null, "L/min", null, $"{Twin}: curve against lift and pipe",
                lifts ? ReviewVerdict.Ok : ReviewVerdict.Fails,
                lifts ? $"{pump.Id} delivers {flow:0.0} L/min against lift and pipe; without flow it holds {most:0.0} m."
                    : $"{pump.Id} delivers nothing: it lifts {most:0.0} m at most, or its vessel runs dry before its pipe is full.");
        }

        if (pump.OnM is null) yield break;
        double starts = day.MostStartsPerH;
        yield return new(
            pump.Id, "few starts an hour, so that the motor can cool", starts, MostStartsPerH, "/h", MostStartsPerH - starts,
            "common practice for small submersible motors; the maker's figure counts", Judge(MostStartsPerH - starts, 3),
            starts > 0 ? $"{pump.Id} starts up to {starts:0} times an hour." : $"{pump.Id} did not start anew within a day: it runs on, or stands.");
    }

    // The power fails at the worst time: when most water is on its way, or right at the start of a run.
    private static IEnumerable<ReviewLine> DrainBack(PlaceDescription place, Hydraulics water, ForecastOptions quiet)
    {
        var atAStop = WaterForecaster.Run(place, quiet with { PumpsDieAtS = 6 * 3600, DieAtAStop = true });
        var atOnce = WaterForecaster.Run(place, quiet with { PumpsDieAtS = 6 * 3600 });
        foreach (string id in water.Pumps.Select(p => p.From).Distinct())
        {
            int i = water.IndexOf(id);
            double level = Math.Max(atAStop.Vessels[i].EndM, atOnce.Vessels[i].EndM), spilled = Math.Max(atAStop.Vessels[i].SpilledL, atOnce.Vessels[i].SpilledL);
            const string rule = "what comes down when the pump stops finds room";
            if (water.Vessels[i].RimM is not { } rim)
            {
                yield return new(id, rule, level * 1000, null, "mm", null, Twin, ReviewVerdict.Unknown, $"{id} rises to {level * 1000:0} mm when the pump stops; its rim is not told.");
                continue;
            }

            double margin = (rim - level) * 1000;
            yield return new(
                id, rule, level * 1000, rim * 1000, "mm", margin, $"{Twin}: pumps without power", spilled > 0.1 ? ReviewVerdict.Fails : Judge(margin, 50),
                spilled > 0.1 ? $"{id} spills {spilled:0} L when the pump stops." : $"{id} rises to {level * 1000:0} mm when the pump stops, {margin:0} mm below its rim.");
        }
    }

    private static IEnumerable<ReviewLine> BackSiphon(Hydraulics water, WaterPump pump)
    {
        foreach (var end in pump.Ends)
        {
            if (water.Vessels.FirstOrDefault(v => v.Id == end.To) is not { FloorM: { } floor, Outlet: { } outlet } vessel || end.EndM is not { } endM) continue;
            double deep = Math.Min(outlet.HeightM, floor + outlet.HeightM - endM);
            if (deep <= 0) continue;
            double litres = (vessel.Shape.VolumeM3(outlet.HeightM) - vessel.Shape.VolumeM3(outlet.HeightM - deep)) * 1000;
            yield return new(
                pump.Id, "no tank runs back through its pump", litres, 0, "L", -litres, "common practice: end the pipe above the water, or fit a check valve",
                pump.HasCheckValve ? ReviewVerdict.Tight : ReviewVerdict.Fails,
                pump.HasCheckValve ? $"only its check valve keeps {litres:0} L of {vessel.Id} from running back through {pump.Id}."
                    : $"{litres:0} L of {vessel.Id} run back through {pump.Id} whenever it stops: its pipe ends {deep * 1000:0} mm under water and no check valve is told.");
        }
    }

    private static IEnumerable<ReviewLine> Turnover(Hydraulics water, WaterForecast day)
    {
        for (int i = 0; i < water.Vessels.Count; i++)
        {
            if (water.Vessels[i] is not { Kind: VesselKind.FishTank, Outlet: { } outlet } tank) continue;
            double litres = tank.Shape.VolumeM3(outlet.HeightM) * 1000, perHour = day.Vessels[i].MeanOutL * 60 / litres;
            yield return new(
                tank.Id, "the fish tank's water is changed once an hour, once in two hours at least", perHour, 1, "/h", perHour - 1, "common practice",
                perHour >= 1 ? ReviewVerdict.Ok : perHour >= 0.5 ? ReviewVerdict.Tight : ReviewVerdict.Fails,
                $"{tank.Id} turns over {perHour:0.0} times an hour ({day.Vessels[i].MeanOutL:0} L/min through {litres:0} L).");
        }
    }

    private static ReviewLine TopUp(PlaceDescription place, Hydraulics water)
    {
        const string rule = "top-up can replace what the worst day takes", source = "FAO Irrigation and Drainage Paper 56, table 2 (9 mm a day, hot and dry), from memory";
        double area = LoopBuilder.OpenM2(place.Loop, water) + (place.Loop.CanopyM2 ?? 0);
        double needed = area * WorstMmPerDay;
        double? has = water.Valves.Count == 0 ? null
            : water.Valves.Sum(MostLPerDay);
        if (has is not { } litres) return new("top-up", rule, null, needed, "L/d", null, source, ReviewVerdict.Unknown, $"the worst day takes {needed:0} L; no top-up by timer, level or fills is told.");
        return new(
            "top-up", rule, litres, needed, "L/d", litres - needed, source, Judge(litres - needed, 0.2 * needed),
            $"top-up gives {litres:0} L a day at most; the worst day takes {needed:0} L.");
    }

    // By a timer so often; by the fills again whenever one has gone on for so long; by a level all day. What drains by level gives nothing.
    private static double MostLPerDay(WaterValve valve) =>
        valve.EveryS > 0 ? valve.RateLPerMin * valve.RunS / 60 * 86_400 / valve.EveryS
        : valve.AfterFillS > 0 ? valve.RateLPerMin * 1440 * valve.RunS / (valve.RunS + valve.AfterFillS)
        : valve.ShutsM > valve.OpensM ? valve.RateLPerMin * 1440 : 0;

    internal static ReviewVerdict Judge(double margin, double comfortable) =>
        margin < 0 ? ReviewVerdict.Fails : margin < comfortable ? ReviewVerdict.Tight : ReviewVerdict.Ok;
}
