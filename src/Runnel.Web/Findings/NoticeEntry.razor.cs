using Microsoft.AspNetCore.Components;
using NodaTime;
using Runnel.Place.Findings;
using Runnel.Web.Words;

namespace Runnel.Web.Findings;

public sealed partial class NoticeEntry : ComponentBase
{
    [Parameter] public required Notice Notice { get; set; }
    [Parameter] public required DateTimeZone Zone { get; set; }

    /// <summary>The word of urgency; a notice that is over no longer asks for anyone.</summary>
    private string Heading => Notice.Cleared is null || Notice.Urgency == Urgency.Record
        ? Urgencies.Word(Notice.Urgency) + ":"
        : $"Over (was {Urgencies.Word(Notice.Urgency).ToLowerInvariant()}):";

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
