using Microsoft.AspNetCore.Components;
using NodaTime;
using Runnel.Place.Findings;
using Runnel.Web.Words;

namespace Runnel.Web.Findings;

public sealed partial class NoticeEntry : ComponentBase
{
    [Parameter] public required Notice Notice { get; set; }
    [Parameter] public required DateTimeZone Zone { get; set; }

    /// <summary>What only a person can answer.</summary>
    internal static bool IsQuestion(Notice notice) =>
        notice is { Urgency: Urgency.Record, Cleared: null, Cause: CauseNames.LoopChanged or CauseNames.UnloggedDraw };

    /// <summary>The word of urgency; what only a person can answer is a question; what is over no longer asks for anyone.</summary>
    private string Heading => Notice switch
    {
        _ when IsQuestion(Notice) => "Question:",
        { Cleared: not null, Urgency: not Urgency.Record } => $"Over (was {Urgencies.Word(Notice.Urgency).ToLowerInvariant()}):",
        _ => Urgencies.Word(Notice.Urgency) + ":",
    };

    private string Statement => !IsQuestion(Notice) ? Causes.Statement(Notice.Cause)
        : Notice.Cause == CauseNames.LoopChanged ? "was something in the loop changed?" : "was water drawn?";

    private string Likelihoods => string.Join("; ", Notice.Causes.Select(c => $"{Chances.InWords(c.Probability)} {Causes.Statement(c.Name)}")) + ".";

    private string When
    {
        get
        {
            string words = $"Since {Times.DayAndClock(Notice.Since, Zone)}";
            if (Notice.FirstNoticed - Notice.Since > Duration.FromMinutes(1)) words += $", noticed {Times.DayAndClock(Notice.FirstNoticed, Zone)}";
            if (Notice.Cleared is { } cleared) return $"{words}; over {Times.DayAndClock(cleared, Zone)}.";
            return Notice.TimeLeft is { } left ? $"{words}; at least {Times.SpanRoundedDown(left)} left." : words + ".";
        }
    }
}
