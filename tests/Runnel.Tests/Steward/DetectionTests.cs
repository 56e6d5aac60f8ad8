using Runnel.Place.Findings;
using Runnel.Steward;
using Runnel.Twin.Invented;

namespace Runnel.Tests.Steward;

/// <summary>A few invented logs end to end: faults are noticed for the right reason and in time, quiet loops are left in peace. The wide
/// tables over many seeds are made by the benchmarks project.</summary>
public sealed class DetectionTests
{
    [Theory]
    [InlineData(LoopKind.SwitchLog, "leak-6", 1, CauseNames.Leak, 24)]
    [InlineData(LoopKind.SwitchLog, "leak-2", 2, CauseNames.Leak, 48)]
    [InlineData(LoopKind.SwitchLog, "drain-fouling-8", 3, CauseNames.DrainFouling, 120)]
    [InlineData(LoopKind.SwitchLog, "pump-weakening-5", 1, CauseNames.PumpWeakening, 72)]
    [InlineData(LoopKind.SwitchLog, "top-up-weeping", 2, CauseNames.TopUpStuckOpen, 24)]
    [InlineData(LoopKind.AlwaysOn, "leak-6", 1, CauseNames.Leak, 24)]
    public void A_fault_is_noticed_for_its_own_reason(LoopKind kind, string story, int seed, string cause, double withinHours)
    {
        var log = InventedLogs.Make(kind, Stories.Find(story)!, seed, days: 36);
        var onset = log.Truth.Events[0].Onset;
        var notice = Diagnose.Log(log.Place, log.Log, log.Daybook).Notices
            .FirstOrDefault(n => n.FirstNoticed >= onset && n.Urgency != Urgency.Record && n.Causes.Any(c => c.Name == cause));
        Assert.NotNull(notice);
        Assert.InRange((notice.FirstNoticed - onset).TotalHours, 0, withinHours);
    }

    [Theory]
    [InlineData("switch-shifted", 1)]
    [InlineData("new-pump", 2)]
    public void A_change_that_people_made_is_asked_about_and_not_called_wear(string story, int seed)
    {
        var log = InventedLogs.Make(LoopKind.SwitchLog, Stories.Find(story)!, seed, days: 36);
        var notices = Diagnose.Log(log.Place, log.Log, log.Daybook).Notices;
        Assert.Contains(notices, n => n.Urgency == Urgency.Record && n.Cause == CauseNames.LoopChanged);
        Assert.DoesNotContain(notices, n => n.Urgency != Urgency.Record && n.Cause is CauseNames.PumpWeakening or CauseNames.Leak);
    }

    [Theory]
    [InlineData(LoopKind.SwitchLog, 1)]
    [InlineData(LoopKind.SwitchLog, 2)]
    [InlineData(LoopKind.SiphonBed, 1)]
    [InlineData(LoopKind.AlwaysOn, 1)]
    public void A_quiet_loop_is_left_in_peace(LoopKind kind, int seed)
    {
        var log = InventedLogs.Make(kind, Stories.Find("healthy")!, seed, days: 45);
        Assert.DoesNotContain(Diagnose.Log(log.Place, log.Log, log.Daybook).Notices, n => n.Urgency is Urgency.ActNow or Urgency.Today);
    }

    [Fact]
    public void Litres_drawn_without_a_word_are_asked_about_and_never_called_a_leak()
    {
        var log = InventedLogs.Make(LoopKind.SwitchLog, Stories.Find("sludge-unlogged")!, seed: 2, days: 36);
        var onset = log.Truth.Events[0].Onset;
        var notices = Diagnose.Log(log.Place, log.Log, log.Daybook).Notices;
        var asked = notices.Single(n => n.Cause == CauseNames.UnloggedDraw);
        Assert.InRange((asked.Since - onset).TotalHours, -3, 3);
        Assert.DoesNotContain(notices, n => n.Cause == CauseNames.Leak);
    }
}
