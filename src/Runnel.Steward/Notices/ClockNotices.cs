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

        // Of the two times the one near the log's other rows is the sound one.
        bool beforeIsSound = Apart(step.Before, state.LastReading) <= Apart(step.After, state.LastReading);
        var noticed = Apart(step.Before, step.After) < Duration.FromDays(5)
            ? Instant.Max(state.LastReading, step.Before)
            : Instant.Max(state.LastReading, beforeIsSound ? step.Before : step.After);
        return new Notice
        {
            Causes = [new Cause(CauseNames.ClockJump, 1)],
            Urgency = Urgency.Record,
            Since = noticed,
            FirstNoticed = noticed,
            Cleared = noticed,
            Evidence = string.Create(CultureInfo.InvariantCulture, $"At line {step.Line} the log's clock stepped from {before} to {after}."),
            FirstAct = "Check the clock and the time zone of the machine that writes the log.",
        };
    }

    private static Duration Apart(Instant a, Instant b) => a > b ? a - b : b - a;
}
