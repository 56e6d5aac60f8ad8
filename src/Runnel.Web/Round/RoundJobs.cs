using NodaTime;
using Runnel.Live.View;
using Runnel.Place;
using Runnel.Place.Findings;
using Runnel.Records;
using Runnel.Web.Now;
using Runnel.Web.Section;
using Runnel.Web.Words;

namespace Runnel.Web.Round;

/// <summary>A job of today.</summary>
/// <param name="Key">Names it today.</param>
/// <param name="What">What to do.</param>
/// <param name="Why">The reason, with its figure.</param>
/// <param name="Href">Where it is done instead of being ticked; null: it is ticked.</param>
/// <param name="DoneAs">Number of the daybook entry by which it was ticked today.</param>
internal sealed record RoundJob(string Key, string What, string Why, string? Href = null, long? DoneAs = null)
{
    public string NoteOfTick => $"{What} [{Key}]";
}

/// <summary>Today's round, from what is known: notices, sensors, the daybook. Nothing is invented for the sake of a list.</summary>
internal static class RoundJobs
{
    /// <summary>Weekly in a settled loop: common practice.</summary>
    private const int TestEveryDays = 7;

    public static IReadOnlyList<RoundJob> Of(LiveView view, IReadOnlyList<DaybookRow> rows)
    {
        DateTimeZone zone = view.Place.Zone;
        LocalDate today = view.At.InZone(zone).Date;
        DaybookRow[] standing = [.. rows.Where(r => !r.Struck)];
        List<RoundJob> jobs = [];
        if (view.Closing is not null) jobs.Add(new("closing", "Look whether pump, air and valve stand as before", "Work ended and nobody has said so yet.", "/"));
        foreach (NoticeStanding n in view.Notices.Where(n => n.Stands).OrderBy(n => n.Notice.Urgency))
            jobs.Add(new("notice-" + n.Key, n.Notice.FirstAct, $"{Urgencies.Word(n.Notice.Urgency)}: {Causes.Statement(n.Notice.Cause)}, since {Times.DayAndClock(n.Notice.Since, zone)}."));
        foreach (NoticeStanding n in view.Notices.Where(n => n.Answer is null && Runnel.Web.Findings.NoticeEntry.IsQuestion(n.Notice)).TakeLast(2))
            jobs.Add(new("question-" + n.Key, n.Notice.Cause == CauseNames.LoopChanged ? "Say whether something in the loop was changed" : "Say whether water was drawn", n.Notice.Evidence, "/"));
        foreach (ChannelStanding c in view.Channels.Where(c => c.Health == ChannelHealth.Quiet).Take(3))
            jobs.Add(new("quiet-" + c.Id, $"Look at the sensor {SectionPlan.NameOf(c.Id)}", NowModel.Capital(c.Words) + "."));
        if (view.Place.Vessels.Any(v => v.Kind == VesselKind.FishTank))
        {
            AddFeed(jobs, standing, today, zone);
            AddTest(jobs, standing, today, zone);
        }

        AddSeparator(jobs, standing, view.Place, today, zone);
        // What was ticked today stays on the list, also when its reason is gone meanwhile.
        foreach (DaybookRow done in standing.Where(r => r.Entry.Entry == "done" && r.Entry.Time.InZone(zone).Date == today))
        {
            if (KeyIn(done.Entry.Note) is not { } key) continue;
            int at = jobs.FindIndex(j => j.Key == key);
            string by = done.Entry.By is null ? "" : $" by {done.Entry.By}";
            var ticked = new RoundJob(key, done.Entry.Note![..done.Entry.Note!.LastIndexOf(" [", StringComparison.Ordinal)], $"done {Times.Clock(done.Entry.Time.InZone(zone).TimeOfDay)}{by}", null, done.Number);
            if (at >= 0) jobs.RemoveAt(at);
            jobs.Add(ticked);
        }

        return jobs;
    }

    private static string? KeyIn(string? note) => note is { Length: > 3 } && note[^1] == ']' && note.LastIndexOf(" [", StringComparison.Ordinal) is var at and >= 0 ? note[(at + 2)..^1] : null;

    /// <summary>Only where feeding is written down at all: a household that does not would be nagged.</summary>
    private static void AddFeed(List<RoundJob> jobs, DaybookRow[] rows, LocalDate today, DateTimeZone zone)
    {
        if (rows.LastOrDefault(r => r.Entry.Entry == "fed") is not { } last) return;
        LocalDate day = last.Entry.Time.InZone(zone).Date;
        if (day == today || Period.DaysBetween(day, today) > 14) return;
        jobs.Add(new("feed", "Feed the fish", $"Last written down {Times.DayAndClock(last.Entry.Time, zone)}{(last.Entry.Note is { } note ? $", {note}" : "")}. See first that they swim as usual.", "/add/fed"));
    }

    private static void AddTest(List<RoundJob> jobs, DaybookRow[] rows, LocalDate today, DateTimeZone zone)
    {
        DaybookRow? last = rows.LastOrDefault(r => r.Entry.Entry == "water-test");
        int? days = last is null ? null : Period.DaysBetween(last.Entry.Time.InZone(zone).Date, today);
        if (days < TestEveryDays) return;
        jobs.Add(new("test", "Test the water: ammonia, nitrite, pH", days is { } n ? $"The last test is {n} days old; once a week is common practice in a settled loop." : "No test is written down yet; once a week is common practice in a settled loop.", "/add/water-test"));
    }

    /// <summary>By the household's own habit: the middle of the pauses between drainings.</summary>
    private static void AddSeparator(List<RoundJob> jobs, DaybookRow[] rows, PlaceDescription place, LocalDate today, DateTimeZone zone)
    {
        LocalDate[] days = [.. rows.Where(r => r.Entry.Entry == "drained" && place.FindVessel(r.Entry.Of)?.Kind == VesselKind.SolidsSeparator).Select(r => r.Entry.Time.InZone(zone).Date).Distinct()];
        if (days.Length < 4) return;
        int[] pauses = [.. days.Zip(days.Skip(1), (a, b) => Period.DaysBetween(a, b)).Order()];
        int usual = pauses[pauses.Length / 2], since = Period.DaysBetween(days[^1], today);
        if (since < usual || since > usual * 4) return;
        jobs.Add(new("separator", "Drain the separator", $"You drain it every {usual} {(usual == 1 ? "day" : "days")}; last {Times.DayAndMonth(days[^1])}.", "/add/drained"));
    }
}
