using Runnel.Place.Findings;
using Runnel.Steward;
using Runnel.Steward.Ledger;
using Runnel.Steward.OwnRule;
using Runnel.Tests.Steward.Watches;
using static Runnel.Tests.Steward.Watches.HandMadeLog;

namespace Runnel.Tests.Steward.OwnRule;

/// <summary>The judge is fed with what the reading core gives it (litres short by the hour, notices), so that each verdict is tested alone.</summary>
public sealed class OwnRuleJudgeTests
{
    private const double Day = 24;

    private static LoopState State(HandMadeLog log)
    {
        log.Put(TopUp, 0, 0).Put(Bleed, 0, 0).Course(Air, 0, 12 * Day);
        log.Cycles(0, 12 * Day, 7, 4);
        return log.Read().State;
    }

    private static List<TimeBand> Short(Func<double, double> litres) =>
        [.. Enumerable.Range(0, (int)(12 * Day)).Select(h => new TimeBand(At(h + 0.5), litres(h), litres(h) - 4, litres(h) + 4))];

    private static HandMadeLog Daily(double hour, double minutes = 3)
    {
        var log = new HandMadeLog();
        for (int d = 1; d < 11; d++) log.Open(TopUp, (d * Day) + hour, minutes);
        return log;
    }

    private static OwnRuleFinding? Judged(LoopState state, IReadOnlyList<Notice> notices, IReadOnlyList<TimeBand> litresShort) =>
        OwnRuleJudge.Of(state, notices, new LedgerDoubts(notices), litresShort);

    [Fact]
    public void No_top_up_channel_no_finding() => Assert.Null(Judged(Of(60, null, PumpSwitch).Read().State, [], []));

    [Fact]
    public void Top_ups_of_a_loop_that_is_short_are_needed()
    {
        var finding = Judged(State(Daily(9)), [], Short(_ => 32))!;
        Assert.Equal((10, 0, 0), (finding.TopUps, finding.NotNeeded, finding.Late));
        Assert.Equal(300, finding.Litres, 1.0);
        Assert.Equal(0, finding.TooMuchL, 1.0);
    }

    [Fact]
    public void Top_ups_of_a_full_loop_are_not_needed_and_too_much()
    {
        var finding = Judged(State(Daily(9)), [], Short(h => h < 6 * Day ? 32 : 2))!;
        Assert.Equal(5, finding.NotNeeded);

        // Room for 6 L at the most, 30 L poured, five times.
        Assert.Equal(5 * 24, finding.TooMuchL, 1.0);
        Assert.Contains(finding.Why, w => w.StartsWith("5 of 10 top-ups were not needed", StringComparison.Ordinal));
    }

    [Fact]
    public void Top_ups_while_drains_foul_are_blamed_on_them_and_overfilling_is_counted_once()
    {
        // Each day 30 L are poured and 20 L used from day 5 on, in a loop that was full then.
        var fouling = new Notice
        {
            Causes = [new Cause(CauseNames.DrainFouling, 0.9)],
            Urgency = Urgency.Today,
            Since = At(5 * Day),
            FirstNoticed = At(8 * Day),
            Evidence = "",
            FirstAct = "",
        };
        var finding = Judged(State(Daily(9)), [fouling], Short(h => h < 5 * Day ? 1 : -10 * ((h / Day) - 5)))!;
        Assert.InRange(finding.NotNeeded, 8, 10);

        // 25 L too much a day at first, then what the loop was overfilled by at the most: 26 L and 10 L more on each of the last four days.
        Assert.InRange(finding.TooMuchL, 150, 200);
        Assert.Contains(finding.Why, w => w.Contains("from 7 March the drains were fouling", StringComparison.Ordinal));
    }

    [Fact]
    public void Shots_of_an_empty_supply_are_told_apart()
    {
        var empty = new Notice
        {
            Causes = [new Cause(CauseNames.TopUpWithoutEffect, 0.9)],
            Urgency = Urgency.Today,
            Since = At(8 * Day),
            FirstNoticed = At(9 * Day),
            Evidence = "",
            FirstAct = "",
        };
        var finding = Judged(State(Daily(9)), [empty], Short(_ => 32))!;
        Assert.Contains(finding.Why, w => w.StartsWith("3 top-ups from 10 March on left no mark", StringComparison.Ordinal));
    }

    [Fact]
    public void Litres_let_out_again_were_too_much()
    {
        var log = Daily(9);
        for (int d = 1; d < 11; d++) log.Open(Bleed, (d * Day) + 14, 2);
        var finding = Judged(State(log), [], Short(_ => 40))!;
        Assert.Equal(200, finding.TooMuchL, 2.0);
        Assert.Contains(finding.Why, w => w.StartsWith("200 L were let out again", StringComparison.Ordinal));
    }

    [Fact]
    public void A_timer_is_known_by_its_hours_and_a_rule_by_its_fills()
    {
        Assert.Contains(Judged(State(Daily(9)), [], Short(_ => 32))!.Why, w => w.Contains("by the clock, near 09:00", StringComparison.Ordinal));
        var log = new HandMadeLog();
        for (int i = 1; i < 22; i++) log.Open(TopUp, i * 13.1, 3);
        Assert.Contains(Judged(State(log), [], Short(_ => 32))!.Why, w => w.Contains("when fills are slower than about 7 min, 3 min (30 L) at a time", StringComparison.Ordinal));
    }
}
