using NodaTime;
using Runnel.Place.Findings;
using Runnel.Steward;
using Runnel.Twin.Invented;

namespace Runnel.Tests.Steward;

public sealed class CausalityTests
{
    // A notice may rest on nothing later than its own moment: a log cut short must give the same notices as the whole one up to the cut.
    [Theory]
    [InlineData(LoopKind.SwitchLog, "drain-fouling-8", 1)]
    [InlineData(LoopKind.SwitchLog, "leak-night", 2)]
    [InlineData(LoopKind.SiphonBed, "pump-weakening-5", 3)]
    [InlineData(LoopKind.PowerChannel, "leak-20", 1)]
    [InlineData(LoopKind.AlwaysOn, "leak-6", 2)]
    public void A_log_cut_short_gives_the_same_notices_up_to_the_cut(LoopKind kind, string story, int seed)
    {
        var log = InventedLogs.Make(kind, Stories.Find(story)!, seed, days: 30);
        var whole = Diagnose.Log(log.Place, log.Log, log.Daybook);
        Assert.NotEmpty(whole.Notices);
        foreach (int days in (ReadOnlySpan<int>)[16, 21, 26])
        {
            var cut = whole.From + Duration.FromDays(days);
            var part = Diagnose.Log(log.Place, log.Log, log.Daybook, cut);
            Assert.Equal(Until(whole, part.To), Until(part, part.To));
        }
    }

    [Fact]
    public void The_same_log_gives_the_same_findings_again()
    {
        var log = InventedLogs.Make(LoopKind.SwitchLog, Stories.Find("leak-6")!, seed: 4, days: 25);
        var first = Diagnose.Log(log.Place, log.Log, log.Daybook);
        var again = Diagnose.Log(log.Place, log.Log, log.Daybook);
        Assert.Equal(Until(first, first.To), Until(again, again.To));
        Assert.Equal(first.Ledger, again.Ledger);
        Assert.Equal(first.Estimates, again.Estimates);
    }

    /// <summary>Notices raised by a time, as they then stood: what was cleared later stands.</summary>
    private static List<string> Until(Diagnosis diagnosis, Instant cut) =>
        [.. diagnosis.Notices
            .Where(n => n.FirstNoticed <= cut)
            .Select(n => $"{n.FirstNoticed} {n.Since} {n.Urgency} {string.Join(",", n.Causes)} {n.Evidence} {n.FirstAct} {(n.Cleared <= cut - Duration.FromDays(2) ? n.Cleared : null)}")];
}
