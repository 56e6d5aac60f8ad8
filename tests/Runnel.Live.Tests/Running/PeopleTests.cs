using NodaTime;
using Runnel.Exchange.Intake;
using Runnel.Live.View;
using Runnel.Place;

namespace Runnel.Live.Tests.Running;

/// <summary>What people tell the running place, and what it tells them back.</summary>
public sealed class PeopleTests
{
    private static readonly PlayedLog Log = new("drain-fouling-8", seed: 1, days: 22);

    private static CancellationToken Cancel => PlayedLog.Cancel;

    [Fact]
    public async Task Work_ends_at_the_time_told_and_then_asks_until_it_is_answered()
    {
        using var records = new TemporaryRecords();
        await using var store = await records.OpenAsync();
        var clock = new SetClock(Log.Begins);
        await using var live = await LivePlace.StartAsync(Log.Place, store, clock, PlayedLog.Quick, Cancel);
        var began = clock.Now;
        await live.BeginWorkAsync(began + Duration.FromMinutes(40), "Ada", "cleaning the screens", Cancel);
        var working = (await PlayedLog.SettledAsync(live, v => v.Working is not null)).Working!;
        Assert.Equal((began, began + Duration.FromMinutes(40), "Ada"), (working.Since, working.Until, working.By));

        clock.Now = began + Duration.FromMinutes(41);
        var after = await PlayedLog.SettledAsync(live, v => v.Closing is not null);
        Assert.Null(after.Working);
        Assert.Equal(began + Duration.FromMinutes(40), after.Closing!.Ended);
        Assert.Contains(await live.DaybookAsync(Cancel), r => r.Entry.Entry == "work-ended" && r.Entry.Time == after.Closing.Ended);
        await live.AnswerAsync(after.Closing.Key, "as-before", "Ada", null, Cancel);
        await PlayedLog.SettledAsync(live, v => v.Closing is null);
    }

    [Fact]
    public async Task Work_that_ended_while_runnel_was_down_has_ended_when_it_comes_back()
    {
        using var records = new TemporaryRecords();
        var clock = new SetClock(Log.Begins);
        await using (var store = await records.OpenAsync())
        await using (var live = await LivePlace.StartAsync(Log.Place, store, clock, PlayedLog.Quick, Cancel))
        {
            await live.BeginWorkAsync(clock.Now + Duration.FromMinutes(30), "Ada", null, Cancel);
        }

        clock.Now += Duration.FromHours(3);
        await using var again = await records.OpenAsync();
        await using var back = await LivePlace.StartAsync(Log.Place, again, clock, PlayedLog.Quick, Cancel);
        Assert.Null(back.View.Working);
        Assert.Equal(Log.Begins + Duration.FromMinutes(30), back.View.Closing!.Ended);
    }

    [Fact]
    public async Task What_was_said_about_a_notice_stays_over_a_restart()
    {
        using var records = new TemporaryRecords();
        var clock = new SetClock(Log.Ends + Duration.FromHours(12));
        string key;
        await using (var store = await records.OpenAsync())
        await using (var live = await LivePlace.StartAsync(Log.Place, store, clock, PlayedLog.Quick, Cancel))
        {
            await live.TakeAsync(new Received(Log.Readings, []), Cancel);
            key = (await PlayedLog.SettledAsync(live, v => v.Notices.Count > 0 && v.Findings?.To == Log.Ends)).Notices[0].Key;
            await live.AcknowledgeAsync(key, "Ben", Cancel);
            await live.AnswerAsync(key, "nothing", "Ben", "I had the lid off", Cancel);
            var told = (await PlayedLog.SettledAsync(live, v => v.Notices[0].Answer is not null)).Notices[0];
            Assert.Equal(("nothing", "I had the lid off"), (told.Answer!.Was, told.Answer.Note));
            Assert.False(told.Stands);
        }

        await using var again = await records.OpenAsync();
        await using var back = await LivePlace.StartAsync(Log.Place, again, clock, PlayedLog.Quick, Cancel);
        var view = await PlayedLog.SettledAsync(back, v => v.Notices.Count > 0);
        Assert.Equal(("Ben", "nothing"), (view.Notices.Single(n => n.Key == key).Acknowledged!.By, view.Notices.Single(n => n.Key == key).Answer!.Was));
    }

    [Fact]
    public async Task Readings_that_cannot_be_are_counted_and_the_rest_is_taken()
    {
        using var records = new TemporaryRecords();
        await using var store = await records.OpenAsync();
        var clock = new SetClock(Log.Begins);
        await using var live = await LivePlace.StartAsync(Log.Place, store, clock, PlayedLog.Quick with { Settling = () => Duration.Zero }, Cancel);
        await live.TakeAsync(
            new Received(
                [
                    new(0, Log.Begins, 1), new(0, Log.Begins + Duration.FromSeconds(1), double.NaN), new(0, Log.Begins + Duration.FromDays(2), 1),
                    new(0, Log.Begins - Duration.FromDays(19_000), 0), new(0, Log.Begins + Duration.FromSeconds(2), 0),
                ],
                []),
            Cancel);
        clock.Now += Duration.FromSeconds(3);
        var view = await PlayedLog.SettledAsync(live, v => v.Channels[0].Value == 0 && v.Channels[0].Time == Log.Begins + Duration.FromSeconds(2));
        Assert.Equal(2, view.Intake.Taken);
        Assert.Equal(3, view.Intake.Refused.Sum(r => r.Count));
        Assert.Contains(view.Intake.Refused, r => r.Reason.Contains("ahead of the clock", StringComparison.Ordinal));
        Assert.Empty(view.Troubles);
        Assert.Equal(ChannelHealth.NotHeard, view.Channels[1].Health);
    }
}
