using Runnel.Steward;
using Runnel.Twin.Invented;

namespace Runnel.Tests.Steward;

public sealed class LedgerTests
{
    [Theory]
    [InlineData(LoopKind.SwitchLog, 2, 8)]
    [InlineData(LoopKind.AlwaysOn, 3, 8)]
    public void Known_litres_are_right_and_the_unexplained_keep_their_band(LoopKind kind, int seed, double medianOffL)
    {
        var log = InventedLogs.Make(kind, Stories.Find("healthy")!, seed, days: 35);
        var findings = Diagnose.Log(log.Place, log.Log, log.Daybook);
        var days = findings.Ledger.Skip(1).SkipLast(1)
            .Join(log.Truth.Days, d => d.Date, t => t.Date, (Found, True) => (Found, True))
            .ToList();
        Assert.True(days.Count >= 30);
        Assert.Equal(days.Sum(d => d.True.TopUpL), days.Sum(d => d.Found.TopUp.L), 0.03 * days.Sum(d => d.True.TopUpL));

        var off = days.Select(d => Math.Abs(d.Found.Unexplained.L - d.True.UnexplainedL)).Order().ToList();
        Assert.InRange(off[off.Count / 2], 0, medianOffL);
        double held = days.Count(d => Math.Abs(d.Found.Unexplained.L - d.True.UnexplainedL) <= d.Found.Unexplained.PlusMinusL) / (double)days.Count;
        Assert.InRange(held, 0.75, 1);
    }

    [Fact]
    public void Every_day_adds_up()
    {
        var log = InventedLogs.Make(LoopKind.SwitchLog, Stories.Find("sludge-logged")!, seed: 1, days: 25);
        foreach (var day in Diagnose.Log(log.Place, log.Log, log.Daybook).Ledger)
        {
            double unexplained = day.TopUp.L + day.Rain.L - day.Bleed.L - day.Drawn.L - day.Evaporation.L - day.PlantUse.L - day.Stored.L;
            Assert.Equal(unexplained, day.Unexplained.L, 1e-9);
        }
    }

    [Fact]
    public void While_a_drain_fouls_the_balance_and_not_the_gauge_says_how_full_the_loop_is()
    {
        var log = InventedLogs.Make(LoopKind.SwitchLog, Stories.Find("one-drain-fouling")!, seed: 802, days: 42);
        var findings = Diagnose.Log(log.Place, log.Log, log.Daybook);
        var onset = log.Truth.Events[0].Onset;
        var firstDay = onset.InZone(log.Place.Zone).Date.PlusDays(1);
        double gained = log.Truth.Days.Where(d => d.Date >= firstDay).Sum(d => d.StoredL);
        var before = findings.Evidence.LitresShort.Last(p => p.Time <= onset);
        var last = findings.Evidence.LitresShort[^1];

        // The rule pours while the drains hold water back: fills are slow and yet the loop is overfull.
        Assert.True(gained > 60);
        Assert.InRange(before.Value - gained, last.Low, last.High);
    }
}
