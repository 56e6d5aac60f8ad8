using NodaTime;
using Runnel.Exchange.Intake;
using Runnel.Live.View;
using Runnel.Place;
using Runnel.Records;

namespace Runnel.Live.Tests.Running;

/// <summary>The running place says of a log what <c>diagnose</c> says of it, however its readings came in.</summary>
public sealed class SameAsDiagnoseTests
{
    private static readonly PlayedLog Log = new("drain-fouling-8", seed: 1, days: 26);
    private static readonly List<string> Diagnosed = Log.Diagnosed();

    private static CancellationToken Cancel => PlayedLog.Cancel;

    [Fact]
    public async Task A_log_that_comes_in_as_it_is_written_gives_the_same_notices()
    {
        using var records = new TemporaryRecords();
        await using var store = await records.OpenAsync();
        var clock = new SetClock(Log.Begins);
        await using var live = await LivePlace.StartAsync(Log.Place, store, clock, PlayedLog.Quick, Cancel);
        await Log.PlayAsync(live, clock, Log.Begins, Log.Ends);
        var view = await AtTheEndAsync(live, clock);
        Assert.NotEmpty(Diagnosed);
        Assert.Equal(Diagnosed, PlayedLog.Words(view.Findings!.Notices));
        Assert.Equal(0, view.Intake.Late);
        Assert.Equal(Log.Readings.Count, view.Intake.Taken);
        Assert.Empty(view.Troubles);
    }

    [Fact]
    public async Task Readings_in_any_order_give_the_same_notices_once_all_are_there()
    {
        using var records = new TemporaryRecords();
        await using var store = await records.OpenAsync();
        var clock = new SetClock(Log.Ends + Duration.FromHours(12));
        await using var live = await LivePlace.StartAsync(Log.Place, store, clock, PlayedLog.Quick, Cancel);
        foreach (var entry in Log.Daybook) await live.WriteAsync(entry, null, Cancel);
        var random = new Random(11);
        foreach (var batch in Log.Readings.Chunk(700).OrderBy(_ => random.Next()))
        {
            random.Shuffle(batch);
            await live.TakeAsync(new Received(batch, []), Cancel);
        }

        var view = await PlayedLog.SettledAsync(live, v => v.Findings?.To == Log.Ends && v.Findings.ReadingCount == Log.Readings.Count);
        Assert.Equal(Diagnosed, PlayedLog.Words(view.Findings!.Notices));
        Assert.True(view.Intake.Late > 0);
    }

    [Fact]
    public async Task Readings_handed_in_again_change_nothing()
    {
        using var records = new TemporaryRecords();
        await using var store = await records.OpenAsync();
        var clock = new SetClock(Log.Ends + Duration.FromHours(12));
        await using var live = await LivePlace.StartAsync(Log.Place, store, clock, PlayedLog.Quick, Cancel);
        await live.TakeAsync(new Received(Log.Readings, []), Cancel);
        var first = await PlayedLog.SettledAsync(live, v => v.Findings?.ReadingCount == Log.Readings.Count);
        await live.TakeAsync(new Received(Log.Readings, []), Cancel);
        await live.TakeAsync(new Received([], [new Refusal("nothing", "x")]), Cancel);
        await live.WriteAsync(new DaybookEntry(clock.Now, "note", null, null, "Ada", "all well"), null, Cancel);
        var again = await PlayedLog.SettledAsync(live, v => v.Intake.Refused.Count == 1);
        Assert.Equal(Log.Readings.Count, again.Intake.Known);
        Assert.Equal(first.Intake.Late, again.Intake.Late);
        Assert.Equal(Log.Readings.Count, again.Findings!.ReadingCount);
    }

    [Fact]
    public async Task A_restart_gives_the_same_notices_as_none()
    {
        using var records = new TemporaryRecords();
        var clock = new SetClock(Log.Begins);
        var at = Log.Begins;
        foreach (int days in (int[])[9, 19, 40])
        {
            var to = Instant.Min(Log.Begins + Duration.FromDays(days) + Duration.FromMinutes(17), Log.Ends);
            await using var store = await records.OpenAsync();
            await using var live = await LivePlace.StartAsync(Log.Place, store, clock, PlayedLog.Quick, Cancel);
            await Log.PlayAsync(live, clock, at, to);
            at = to;
            if (to < Log.Ends) continue;
            var view = await AtTheEndAsync(live, clock);
            Assert.Equal(Diagnosed, PlayedLog.Words(view.Findings!.Notices));
        }
    }

    [Fact]
    public async Task A_corrected_entry_counts_as_if_it_had_always_read_so_and_keeps_its_history()
    {
        using var records = new TemporaryRecords();
        await using var store = await records.OpenAsync();
        var clock = new SetClock(Log.Ends + Duration.FromHours(12));
        await using var live = await LivePlace.StartAsync(Log.Place, store, clock, PlayedLog.Quick, Cancel);
        await live.TakeAsync(new Received(Log.Readings, []), Cancel);
        var wrong = new DaybookEntry(Log.Begins + Duration.FromDays(12), "drained", null, 900, "Ada", null);
        long number = (await live.WriteAsync(wrong, null, Cancel))!.Value;
        double drawn = (await PlayedLog.SettledAsync(live, v => Drawn(v) > 0)).Findings!.Ledger.Sum(d => d.Drawn.L);
        Assert.Equal(900, drawn, 1.0);

        Assert.True(await live.CorrectAsync(number, wrong with { Litres = 9 }, "Ben", Cancel));
        var view = await PlayedLog.SettledAsync(live, v => Drawn(v) is > 0 and < 100);
        Assert.Equal(9, Drawn(view), 1.0);
        var row = Assert.Single(await live.DaybookAsync(Cancel));
        Assert.Equal((9, 900, "Ben"), (row.Entry.Litres, row.Before[0].Entry.Litres, row.Before[0].ChangedBy));

        // The file it once came from is read in again: the correction stays.
        Assert.Equal(0, await store.Daybook.AddAsync([wrong], Cancel));
        Assert.True(await live.StrikeAsync(number, "Ben", Cancel));
        await PlayedLog.SettledAsync(live, v => Drawn(v) == 0);
        Assert.Empty(await store.Daybook.ReadAllAsync(Cancel));
        Assert.Single(await live.DaybookAsync(Cancel));
        Assert.False(await live.StrikeAsync(number, "Ben", Cancel));
    }

    private static double Drawn(LiveView view) => view.Findings?.Ledger.Sum(d => d.Drawn.L) ?? 0;

    private static async Task<LiveView> AtTheEndAsync(LivePlace live, SetClock clock)
    {
        clock.Now = Log.Ends + PlayedLog.Quick.Settling();
        return await PlayedLog.SettledAsync(live, v => v.Findings?.To == Log.Ends);
    }
}
