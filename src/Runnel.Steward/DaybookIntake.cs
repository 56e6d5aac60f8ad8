using NodaTime;
using Runnel.Place;

namespace Runnel.Steward;

/// <summary>What people's entries mean for the water and for learning.</summary>
internal static class DaybookIntake
{
    /// <summary>Work without a written end is taken to last this long.</summary>
    private static readonly Duration WorkAtMost = Duration.FromHours(2);

    public static void Take(LoopState state, DaybookEntry entry)
    {
        switch (entry.Entry)
        {
            case "drained" or "carried-off" when entry.Litres is { } litres:
                state.Hours.At(entry.Time).DrawnL += litres;
                state.Cycles.Disturb(entry.Time);
                break;
            case "filled-by-hand" when entry.Litres is { } litres:
                state.Hours.At(entry.Time).DrawnL -= litres;
                state.Cycles.Disturb(entry.Time);
                break;
            case "work-began":
                state.WorkUntil = entry.Time + WorkAtMost;
                state.Cycles.Disturb(state.WorkUntil);
                break;
            case "work-ended":
                state.WorkUntil = entry.Time;
                state.Cycles.Disturb(entry.Time);
                break;
            case "cleaned" or "moved-valve" or "drained" or "carried-off" or "filled-by-hand":
                state.Cycles.Disturb(entry.Time);
                break;
        }
    }
}
