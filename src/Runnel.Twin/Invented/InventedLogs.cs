using NodaTime;
using Runnel.Place;
using Runnel.Place.Findings;

namespace Runnel.Twin.Invented;

/// <summary>Makes invented logs: the same kind, story, seed and days give the same log.</summary>
public static class InventedLogs
{
    /// <summary>A log of a place drawn by <paramref name="seed"/> that lives through <paramref name="story"/>.</summary>
    public static InventedLog Make(LoopKind kind, Story story, int seed, int days)
    {
        ArgumentNullException.ThrowIfNull(story);
        ArgumentOutOfRangeException.ThrowIfLessThan(days, 2);
        if (!story.Fits(kind)) throw new ArgumentException($"the story {story.Name} does not fit a place of kind {kind}", nameof(story));
        var loop = LoopDrawing.Draw(kind, seed);
        var habit = HabitDrawing.Keeper(loop, seed);
        var happenings = story.Draw(new Seeded(seed, $"story {story.Name}"), days);
        if (happenings.Any(h => h.Kind == HappeningKind.BleedStuckOpen)) habit = habit.WithBleed();
        var logging = HabitDrawing.Logger(loop, happenings, seed);
        return Make(loop, habit, logging, happenings, story.Name, seed, days);
    }

    internal static InventedLog Make(
        LoopSpec loop, KeeperSpec habit, LoggerSpec logging, IReadOnlyList<Happening> happenings, string storyName, int seed, int days)
    {
        var (place, toml) = PlaceOnPaper.Write(loop, habit, logging, seed);
        var simulation = new Simulation(loop, habit, logging, place.Channels, happenings, seed, days);
        simulation.Run();
        // What waits for an order that never came did not happen.
        bool Showed(Happening h) => h.Kind is not (HappeningKind.TopUpStuckOpen or HappeningKind.TopUpWithoutEffect or HappeningKind.BleedStuckOpen)
            || simulation.Effective.ContainsKey(h.Kind);
        var events = happenings.Where(Showed).Select(h => TruthTelling.Tell(h, simulation.Start, simulation.Effective)).ToList();
        if (simulation.SpillAt() is { } spilled) events.Add(TruthTelling.Overflow(spilled));
        var truth = new Truth([.. events.OrderBy(e => e.Onset)], simulation.Ledger.Days(), loop.TargetFillS, simulation.TopUps, simulation.NotNeeded);
        var rows = simulation.Book.Sorted();
        var daybook = simulation.Daybook.OrderBy(d => d.Time).ToList();
        return new InventedLog(loop.Kind, storyName, seed, toml, place, AsRead(rows), rows, daybook, truth);
    }

    /// <summary>Sorts rows into time order as a reader would; rows with a wrong clock are set aside or shown as clock steps.</summary>
    private static ReadingLog AsRead(List<Reading> rows)
    {
        var steps = new List<ClockStep>();
        long skipped = 0, firstSkipped = 0;
        var kept = new List<Reading>(rows.Count);
        Instant earliest = Instant.FromUtc(2000, 1, 1, 0, 0);
        for (int i = 0; i < rows.Count; i++)
        {
            if (i > 0)
            {
                var gap = rows[i].Time - rows[i - 1].Time;
                if (gap < -Duration.FromHours(2) || gap > Duration.FromHours(100)) steps.Add(new ClockStep(i + 2, rows[i - 1].Time, rows[i].Time));
            }

            if (rows[i].Time < earliest)
            {
                if (skipped++ == 0) firstSkipped = i + 2;
                continue;
            }

            kept.Add(rows[i]);
        }

        var ordered = InOrder(kept) ? kept : [.. kept.Select((r, i) => (r, i)).OrderBy(x => x.r.Time).ThenBy(x => x.i).Select(x => x.r)];
        IReadOnlyList<SkippedRows> reasons = skipped == 0 ? [] : [new SkippedRows("time before any log of this kind", skipped, firstSkipped)];
        return new ReadingLog(ordered, reasons, steps, []);
    }

    private static bool InOrder(List<Reading> rows)
    {
        for (int i = 1; i < rows.Count; i++)
        {
            if (rows[i].Time < rows[i - 1].Time) return false;
        }

        return true;
    }
}
