using NodaTime;
using Runnel.Live.View;
using Runnel.Place;
using Runnel.Place.Findings;
using Runnel.Place.Water;
using Runnel.Web.Section;
using Runnel.Web.Words;

namespace Runnel.Web.Now;

/// <summary>What the drawing shows of a view: levels read or reckoned, what runs, figures, the part in trouble.</summary>
internal static class SectionOfView
{
    /// <summary>Water over a crest while it runs, m: common practice for household flows.</summary>
    private const double OverCrestM = 0.01;

    /// <summary>Gravity goes on returning water for a while after the pump stopped.</summary>
    private static readonly Duration Returns = Duration.FromMinutes(40);

    public static SectionStanding Of(LiveView view, Notice? top)
    {
        PlaceDescription place = view.Place;
        var running = place.Equipment.DistinctBy(e => e.Id).Select(e => (e.Id, Runs: Runs(view, e))).Where(e => e.Runs is not null).ToDictionary(e => e.Id, e => e.Runs!.Value);
        string? pump = place.Equipment.FirstOrDefault(e => e.Kind == EquipmentKind.Pump)?.Id;
        bool? pumpRuns = pump is not null && running.TryGetValue(pump, out bool on) ? on : null;
        // While the pump itself is in doubt nobody knows what flows; the estimate is of better days.
        bool pumpInDoubt = top?.Cause is CauseNames.PumpStopped or CauseNames.PumpDry or CauseNames.PumpStuckOn;
        return new SectionStanding
        {
            Water = place.Vessels.DistinctBy(v => v.Id).Select(v => (v.Id, Water: WaterOf(view, v, pump, pumpRuns))).Where(v => v.Water is not null).ToDictionary(v => v.Id, v => v.Water!),
            Running = running,
            Words = WordsOf(view, pump, pumpRuns == true && !pumpInDoubt),
            ReturnsFlow = pumpRuns is null || pumpInDoubt ? null : pumpRuns.Value || LastChange(view, pump) is { } stopped && view.At - stopped < Returns,
            FlowLPerMin = EstimateOf(view, "pump-flow")?.Value,
            Trouble = top is null ? null : TroubleParts.Of(place, top),
        };
    }

    internal static Estimate? EstimateOf(LiveView view, string name) => view.Findings?.Estimates.Where(e => e.Name == name).MaxBy(e => e.Time);

    private static ChannelStanding? Reading(LiveView view, string of, Quantity quantity) =>
        view.Channels.FirstOrDefault(c => c.Channel.Of == of && c.Channel.Measures == quantity && c.Value is not null);

    private static bool? Runs(LiveView view, Equipment equipment)
    {
        // The motor's own word counts before the switch's.
        if (Reading(view, equipment.Id, Quantity.Power) is { } power) return power.Value > (power.Channel.RunningAbove ?? 0.2 * (equipment.RatedPowerW ?? 25));
        if (Reading(view, equipment.Id, Quantity.Current) is { } current) return current.Value > (current.Channel.RunningAbove ?? 0.05);
        if (Reading(view, equipment.Id, Quantity.Running) is { } switched) return switched.Value > 0.5;
        // An air pump that works holds pressure; a kilopascal is ten centimetres of water.
        return Reading(view, equipment.Id, Quantity.Pressure) is { } pressure ? pressure.Value > 1 : null;
    }

    private static Instant? LastChange(LiveView view, string? pump) =>
        pump is null ? null : view.Findings?.Evidence.Cycles is { Count: > 0 } cycles ? cycles[^1].Start + Duration.FromSeconds(cycles[^1].FillS + cycles[^1].RunS)
            : Reading(view, pump, Quantity.Running)?.Time;

    private static WaterStanding? WaterOf(LiveView view, Vessel vessel, string? pump, bool? pumpRuns)
    {
        if (Reading(view, vessel.Id, Quantity.Level) is { Value: { } mm } read) return new(Math.Max(0, mm / 1000), LevelFrom.Read, read.Health != ChannelHealth.Fresh);
        if (vessel.Kind == VesselKind.Sump) return SumpByCycle(view, vessel, pump, pumpRuns);
        // While water comes, it stands where it leaves.
        WaterVessel? told = view.Place.Hydraulics?.Vessels.FirstOrDefault(v => v.Id == vessel.Id);
        return told?.Outlet is { } outlet && outlet.Kind != OutletKind.Siphon && pumpRuns is not null ? new(outlet.HeightM + OverCrestM, LevelFrom.Reckoned) : null;
    }

    /// <summary>Between two switch levels the time since the pump's last change tells where the water is.</summary>
    private static WaterStanding? SumpByCycle(LiveView view, Vessel sump, string? pump, bool? pumpRuns)
    {
        if (sump is not { SwitchLowM: { } low, SwitchHighM: { } high } || pump is null || pumpRuns is null) return null;
        if (Reading(view, pump, Quantity.Running)?.Time is not { } changed || view.Findings?.Cycles is not { MedianFillS: { } fill, MedianRunS: { } run }) return null;
        double share = (view.At - changed).TotalSeconds / (pumpRuns.Value ? run : fill);
        if (share is < 0 or > 1.3) return null;
        // In twelve steps: the drawing need not be made anew every second.
        share = Math.Round(Math.Min(share, 1) * 12) / 12;
        return new(pumpRuns.Value ? high - (share * (high - low)) : low + (share * (high - low)), LevelFrom.Reckoned);
    }

    private static Dictionary<string, IReadOnlyList<PartLine>> WordsOf(LiveView view, string? pump, bool pumpFlows)
    {
        Dictionary<string, IReadOnlyList<PartLine>> words = [];
        foreach (Vessel vessel in view.Place.Vessels.DistinctBy(v => v.Id))
        {
            List<PartLine> lines = [];
            foreach (Quantity quantity in new[] { Quantity.DissolvedOxygen, Quantity.WaterTemperature, Quantity.Ph })
            {
                if (Reading(view, vessel.Id, quantity) is { Health: ChannelHealth.Fresh, Value: { } value } read)
                    lines.Add(new(quantity == Quantity.Ph ? $"pH {Figures.Number(value, 1)}" : $"{Figures.Number(value, 1)} {Figures.UnitInWords(read.Unit)}", IsFigure: lines.Count == 0));
            }

            if (vessel.Kind == VesselKind.RainTank && Reading(view, vessel.Id, Quantity.Level) is { Value: { } mm } && view.Place.Hydraulics?.Vessels.FirstOrDefault(v => v.Id == vessel.Id) is { } tank)
                lines.Add(new($"{Figures.Rounded(tank.Shape.VolumeM3(mm / 1000) * 1000, tank.Shape.VolumeM3(mm / 1000) * 1000)} L", true));
            if (vessel.Kind == VesselKind.Sump && EstimateOf(view, "litres-short") is { } missing && view.At - missing.Time < Duration.FromHours(6))
            {
                string litres = Figures.Number(Math.Abs(missing.Value));
                lines.Insert(0, new(litres == "0" ? "full" : missing.Value > 0 ? $"{litres} L short" : $"{litres} L over", true));
            }

            if (lines.Count > 0) words[vessel.Id] = lines;
        }

        if (pump is not null && EstimateOf(view, "pump-flow") is { } flow && pumpFlows) words[pump] = [new($"{Figures.Number(flow.Value)} L/min", true)];
        return words;
    }
}
