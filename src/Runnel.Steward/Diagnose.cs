using NodaTime;
using Runnel.Place;
using Runnel.Place.Findings;
using Runnel.Steward.Notices;

namespace Runnel.Steward;

/// <summary>Reads a whole log through the reading core, in time order, and reports what was understood.</summary>
public static class Diagnose
{
    /// <summary>The findings of <paramref name="log"/> up to <paramref name="until"/> (null: its last reading).</summary>
    /// <exception cref="NotYetReadableException">The place file or the log lacks what the reading core cannot do without.</exception>
    public static Diagnosis Log(PlaceDescription place, ReadingLog log, IReadOnlyList<DaybookEntry> daybook, Instant? until = null)
    {
        CheckReadable(place, log);
        var watches = AllWatches.For(place);
        var reader = new LoopReader(place, watches);
        Feed(reader, log, daybook, until ?? Instant.MaxValue);
        return Report.Of(reader, watches, log);
    }

    /// <summary>Refuses a place whose channels show neither the pump nor the sump.</summary>
    internal static Kit CheckReadable(PlaceDescription place)
    {
        var kit = Kit.Of(place);
        if (kit.HasPump || kit.SumpLevel >= 0) return kit;
        throw new NotYetReadableException(
            "no channel shows the pump or the sump's level. Add a [[channel]] with measures = \"running\" (or \"power\") of the pump");
    }

    private static void CheckReadable(PlaceDescription place, ReadingLog log)
    {
        var kit = CheckReadable(place);

        if (log.Readings.Count == 0) throw new NotYetReadableException("the log holds no readings of the channels in the place file");
        bool any = log.Readings.Any(r => r.Channel == kit.PumpRunning || r.Channel == kit.PumpPower || r.Channel == kit.SumpLevel);
        if (!any)
        {
            var id = place.Channels[kit.HasPump ? Math.Max(kit.PumpRunning, kit.PumpPower) : kit.SumpLevel].Id;
            throw new NotYetReadableException($"the log has no row of the pump's channel \"{id}\". Name the channel as the log does");
        }
    }

    /// <summary>A step back is known from where the second set of times begins; a step ahead, or to a lost year, from the last sound row.</summary>
    private static Instant Noticed(ClockStep step) =>
        step.Before - step.After is var back && back > Duration.Zero && back < Duration.FromDays(5) ? step.After : step.Before;

    /// <summary>Merges readings, daybook and clock steps by time; at equal times readings come first.</summary>
    private static void Feed(LoopReader reader, ReadingLog log, IReadOnlyList<DaybookEntry> daybook, Instant until)
    {
        var entries = daybook.OrderBy(e => e.Time).ToList();
        var steps = log.ClockSteps.OrderBy(Noticed).ToList();
        int nextEntry = 0, nextStep = 0;
        foreach (var reading in log.Readings)
        {
            if (reading.Time > until) break;
            for (; nextStep < steps.Count && Noticed(steps[nextStep]) < reading.Time; nextStep++) reader.Take(steps[nextStep]);
            for (; nextEntry < entries.Count && entries[nextEntry].Time < reading.Time; nextEntry++) reader.Take(entries[nextEntry]);
            reader.Take(reading);
        }

        for (; nextStep < steps.Count && Noticed(steps[nextStep]) <= until; nextStep++) reader.Take(steps[nextStep]);
    }
}

/// <summary>A log cannot be diagnosed; the message names what is missing and the remedy.</summary>
public sealed class NotYetReadableException(string message) : Exception(message);
