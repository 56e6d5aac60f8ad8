using NodaTime;
using Runnel.Place.Findings;

namespace Runnel.Tests.Place;

public sealed class NoticeSeriesTests
{
    private static readonly Instant Start = Instant.FromUtc(2026, 2, 1, 0, 0);

    [Fact]
    public void What_clears_and_returns_is_one_trouble()
    {
        Notice[] notices = [Of(CauseNames.PumpStopped, 1, 1.1), Of(CauseNames.Leak, 2, 5), Of(CauseNames.PumpStopped, 8, 8.1), Of(CauseNames.PumpStopped, 15, null)];
        var series = NoticeSeries.Of(notices);
        Assert.Equal([(CauseNames.Leak, 1, false), (CauseNames.PumpStopped, 3, true)], series.Select(s => (s.Latest.Cause, s.Times, s.Stands)));
        Assert.Equal(notices[0].Since, series[1].FirstSince);
        Assert.Same(notices[3], series[1].Latest);
    }

    [Fact]
    public void What_comes_back_after_weeks_is_another_trouble() =>
        Assert.Equal(2, NoticeSeries.Of([Of(CauseNames.Leak, 1, 2), Of(CauseNames.Leak, 20, 21)]).Count);

    [Fact]
    public void Questions_and_what_stands_are_never_folded_together()
    {
        var asked = NoticeSeries.Of([Of(CauseNames.UnloggedDraw, 1, null, Urgency.Record), Of(CauseNames.UnloggedDraw, 2, null, Urgency.Record)]);
        Assert.Equal(2, asked.Count);
        Assert.Equal(2, NoticeSeries.Of([Of(CauseNames.SensorSilent, 1, 2, Urgency.Record), Of(CauseNames.SensorSilent, 3, 4, Urgency.Soon)]).Count);
    }

    [Fact]
    public void What_is_over_keeps_the_highest_urgency_it_had()
    {
        var series = Assert.Single(NoticeSeries.Of([Of(CauseNames.Leak, 1, 2, Urgency.Today), Of(CauseNames.Leak, 3, 4, Urgency.Soon)]));
        Assert.Equal(Urgency.Today, series.Urgency);
        Assert.Equal(Urgency.Soon, Assert.Single(NoticeSeries.Of([Of(CauseNames.Leak, 1, 2, Urgency.Today), Of(CauseNames.Leak, 3, null, Urgency.Soon)])).Urgency);
    }

    [Fact]
    public void Every_notice_is_in_one_series()
    {
        Notice[] notices = [.. Enumerable.Range(0, 40).Select(i => Of(i % 3 == 0 ? CauseNames.Leak : CauseNames.PumpStopped, i, i + 0.5))];
        var series = NoticeSeries.Of(notices);
        Assert.Equal(2, series.Count);
        Assert.Equal(notices, series.SelectMany(s => s.Earlier.Append(s.Latest)).OrderBy(n => n.FirstNoticed));
    }

    private static Notice Of(string cause, double day, double? over, Urgency urgency = Urgency.Today) => new()
    {
        Causes = [new(cause, 0.8)],
        Urgency = urgency,
        Since = Start + Duration.FromDays(day),
        FirstNoticed = Start + Duration.FromDays(day) + Duration.FromMinutes(30),
        Cleared = over is { } end ? Start + Duration.FromDays(end) : null,
        Evidence = "e",
        FirstAct = "f",
    };
}
