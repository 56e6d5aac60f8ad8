using NodaTime;
using Runnel.Exchange.Intake;
using Runnel.Live.View;
using Runnel.Place;
using Runnel.Place.Findings;
using Runnel.Steward;
using Runnel.Twin.Invented;

namespace Runnel.Live.Tests.Running;

/// <summary>An invented log in the order in which the running place reads it, and what <c>diagnose</c> says of it.</summary>
internal sealed class PlayedLog
{
    public PlayedLog(string story, int seed, int days)
    {
        var made = InventedLogs.Make(LoopKind.SwitchLog, Stories.Find(story)!, seed, days);
        Place = made.Place;
        // Of several values at one time the store keeps the last; so do we.
        Readings = [.. made.Log.Readings.GroupBy(r => (r.Time, r.Channel)).Select(g => g.Last()).OrderBy(r => r.Time).ThenBy(r => r.Channel)];
        Daybook = [.. made.Daybook.Where(e => e.Time > Readings[0].Time && e.Time < Readings[^1].Time).OrderBy(e => e.Time)];
    }

    public static CancellationToken Cancel => TestContext.Current.CancellationToken;

    public PlaceDescription Place { get; }

    public IReadOnlyList<Reading> Readings { get; }

    public IReadOnlyList<DaybookEntry> Daybook { get; }

    public Instant Begins => Readings[0].Time - Duration.FromHours(1);

    public Instant Ends => Readings[^1].Time;

    public List<string> Diagnosed(IReadOnlyList<DaybookEntry>? daybook = null) =>
        Words(Diagnose.Log(Place, new ReadingLog(Readings, [], [], []), daybook ?? Daybook).Notices);

    public static List<string> Words(IReadOnlyList<Notice> notices) =>
        [.. notices.Select(n => $"{n.FirstNoticed} {n.Since} {n.Urgency} {string.Join(",", n.Causes)} {n.Evidence} {n.FirstAct} {n.Cleared}")];

    /// <summary>Plays a stretch: hour by hour, the clock moving along.</summary>
    public async Task PlayAsync(LivePlace live, SetClock clock, Instant from, Instant to)
    {
        int next = Readings.Count(r => r.Time <= from), entry = Daybook.Count(e => e.Time <= from);
        for (var until = from + Duration.FromHours(6); ; until += Duration.FromHours(6))
        {
            var stop = Instant.Min(until, to);
            var batch = new List<Reading>();
            for (; next < Readings.Count && Readings[next].Time <= stop; next++) batch.Add(Readings[next]);
            clock.Now = stop;
            await live.TakeAsync(new Received(batch, []), Cancel);
            for (; entry < Daybook.Count && Daybook[entry].Time <= stop; entry++) await live.WriteAsync(Daybook[entry], null, Cancel);
            if (stop >= to) return;
        }
    }

    /// <summary>The view once everything handed in has been read and shown.</summary>
    public static async Task<LiveView> SettledAsync(LivePlace live, Func<LiveView, bool> ready)
    {
        using var late = CancellationTokenSource.CreateLinkedTokenSource(Cancel);
        late.CancelAfter(TimeSpan.FromSeconds(30));
        await foreach (var view in live.ChangesAsync(late.Token))
        {
            if (!view.ReadingAgain && ready(view)) return view;
        }

        throw new InvalidOperationException("the views ended");
    }

    public static readonly LiveOptions Quick = new()
    {
        Settling = () => Duration.FromHours(12),
        BetweenViews = TimeSpan.FromMilliseconds(100),
        BetweenReadings = TimeSpan.FromMilliseconds(200),
        MostAhead = Duration.FromHours(7),
    };
}
