using Microsoft.AspNetCore.Components;
using NodaTime;
using Runnel.Place.Findings;
using Runnel.Web.Words;

namespace Runnel.Web.Findings;

public sealed partial class NoticeEntry : ComponentBase
{
    /// <summary>Bouts that are told with their times; of more, only the number.</summary>
    private const int MostBoutsTold = 4;

    [Parameter] public required NoticeSeries Series { get; set; }
    [Parameter] public required DateTimeZone Zone { get; set; }

    private Notice Notice => Series.Latest;

    /// <summary>What only a person can answer.</summary>
    internal static bool IsQuestion(Notice notice) =>
        notice is { Urgency: Urgency.Record, Cleared: null, Cause: CauseNames.LoopChanged or CauseNames.UnloggedDraw };

    /// <summary>The word of urgency; what only a person can answer is a question; what is over no longer asks for anyone.</summary>
    private string Heading => Notice switch
    {
        _ when IsQuestion(Notice) => "Question:",
        { Cleared: not null, Urgency: not Urgency.Record } => $"Over (was {Urgencies.Word(Series.Urgency).ToLowerInvariant()}):",
        _ => Urgencies.Word(Notice.Urgency) + ":",
    };

    private string Statement => !IsQuestion(Notice) ? Causes.Statement(Notice.Cause)
        : Notice.Cause == CauseNames.LoopChanged ? "was something in the loop changed?" : "was water drawn?";

    private string Likelihoods => string.Join("; ", Notice.Causes.Select(c => $"{Chances.InWords(c.Probability)} {Causes.Statement(c.Name)}")) + ".";

    private string When
    {
        get
        {
            string words = Series.Times == 1
                ? $"Since {Times.DayAndClock(Notice.Since, Zone)}"
                : $"{Bouts} since {Times.DayAndMonth(Series.FirstSince.InZone(Zone).Date)}; the last from {Times.DayAndClock(Notice.Since, Zone)}";
            if (Notice.FirstNoticed - Notice.Since > Duration.FromMinutes(1)) words += $", noticed {Times.DayAndClock(Notice.FirstNoticed, Zone)}";
            if (Notice.Cleared is { } cleared) return $"{words}; over {Times.DayAndClock(cleared, Zone)}.";
            return Notice.TimeLeft is { } left ? $"{words}; at least {Times.SpanRoundedDown(left)} left." : words + ".";
        }
    }

    private string Bouts => Series.Times == 2 ? "Twice" : $"{Figures.Number(Series.Times)} times";

    private string EarlierBouts
    {
        get
        {
            Notice[] told = [.. Series.Earlier.Reverse().Take(MostBoutsTold)];
            string words = "Before that: " + string.Join("; ", told.Select(n => $"{Times.DayAndClock(n.Since, Zone)}, for {Times.Span(n.Cleared!.Value - n.Since)}"));
            int more = Series.Earlier.Count - told.Length;
            return more == 0 ? words + "." : $"{words}; and {Figures.Number(more)} more.";
        }
    }
}
