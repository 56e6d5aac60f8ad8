using Microsoft.AspNetCore.Components;
using NodaTime;
using Runnel.Place.Findings;
using Runnel.Web.Words;

namespace Runnel.Web.Findings;

public sealed partial class FindingsBody : ComponentBase
{
    [Parameter] public required FindingsView View { get; set; }

    /// <summary>What the page sets at the head of the margin.</summary>
    [Parameter] public RenderFragment? Beside { get; set; }

    /// <summary>What the page sets into the margin below the figures: saving, forgetting.</summary>
    [Parameter] public RenderFragment? Aside { get; set; }

    private Diagnosis D => View.Diagnosis;

    private NoticeSeries? Top => TopNotice.SeriesOf(D);

    private IReadOnlyList<NoticeSeries> Others => TopNotice.Others(D);

    /// <summary>The sentence without an urgency word of its own, which is set apart in colour.</summary>
    private string Verdict
    {
        get
        {
            if (Top is null) return D.Verdict;
            string word = Urgencies.Word(Top.Urgency) + ":";
            return D.Verdict.StartsWith(word, StringComparison.OrdinalIgnoreCase) ? D.Verdict[word.Length..].TrimStart() : D.Verdict;
        }
    }

    private string Summary
    {
        get
        {
            Interval whole = View.Whole;
            int days = Period.DaysBetween(whole.Start.InZone(D.Zone).Date, Stretch.LastDay(whole.End, D.Zone)) + 1;
            string cycles = D.Cycles.Count > 0 ? $", {Figures.Number(D.Cycles.Count)} pump cycles" : "";
            return $"{D.PlaceName}, {Stretch.InWords(whole, D.Zone)}: {Figures.Number(days)} {(days == 1 ? "day" : "days")}{cycles}, {Figures.Number(D.ReadingCount)} readings.";
        }
    }

    private string StandingCount
    {
        get
        {
            int standing = Others.Count(s => s.Stands && !s.IsForTheRecord);
            int asked = Others.Count(s => NoticeEntry.IsQuestion(s.Latest));
            string words = standing == 0 ? "none of them stands" : $"{Figures.Number(standing)} of them {(standing == 1 ? "stands" : "stand")}";
            return asked == 0 ? words : $"{words}; {Figures.Number(asked)} {(asked == 1 ? "question" : "questions")}";
        }
    }
}
