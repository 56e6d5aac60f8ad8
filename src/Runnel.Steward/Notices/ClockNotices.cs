using System.Globalization;
using NodaTime;
using NodaTime.Text;
using Runnel.Place;
using Runnel.Place.Findings;

namespace Runnel.Steward.Notices;

/// <summary>Words for a step of the log's clock.</summary>
internal static class ClockNotices
{
    private static readonly LocalDateTimePattern Pattern = LocalDateTimePattern.CreateWithInvariantCulture("d MMM uuuu HH:mm");

    public static Notice Of(LoopState state, ClockStep step)
    {
        string before = Pattern.Format(step.Before.InZone(state.Place.Zone).LocalDateTime);
        string after = Pattern.Format(step.After.InZone(state.Place.Zone).LocalDateTime);
        var noticed = Instant.Max(state.LastReading, step.Before);
        return new Notice
        {
            Causes = [new Cause(CauseNames.ClockJump, 1)],
            Urgency = Urgency.Record,
            Since = step.Before,
            FirstNoticed = noticed,
            Cleared = noticed,
            Evidence = string.Create(CultureInfo.InvariantCulture, $"At line {step.Line} the log's clock stepped from {before} to {after}."),
            FirstAct = "Check the clock and the time zone of the machine that writes the log.",
        };
    }
}
