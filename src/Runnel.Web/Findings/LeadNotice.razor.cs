using Microsoft.AspNetCore.Components;
using NodaTime;
using Runnel.Place.Findings;
using Runnel.Web.Charts;
using Runnel.Web.Words;

namespace Runnel.Web.Findings;

public sealed partial class LeadNotice : ComponentBase
{
    [Parameter] public required FindingsView View { get; set; }
    [Parameter] public required NoticeSeries Series { get; set; }

    private Notice Notice => Series.Latest;

    private DateTimeZone Zone => View.Diagnosis.Zone;

    private string EarlierRounds => Series.Earlier.Count == 1
        ? $"Once, from {Times.DayAndClock(Series.FirstSince, Zone)}, for {Times.Span(Series.Earlier[0].Cleared!.Value - Series.FirstSince)}."
        : $"{Figures.Number(Series.Earlier.Count)} times since {Times.DayAndMonth(Series.FirstSince.InZone(Zone).Date)}.";

    private string OtherCauses
    {
        get
        {
            string words = string.Join("; ", Notice.Causes.Skip(1).Select(c => $"{Causes.Statement(c.Name)}, {Chances.InWords(c.Probability)}"));
            return char.ToUpperInvariant(words[0]) + words[1..] + ".";
        }
    }

    /// <summary>The drawing that shows this cause; both are null where figures say it all.</summary>
    private RunOverFillChart? RunOverFill { get; set; }

    private TimeChart? Ledger { get; set; }

    protected override void OnParametersSet()
    {
        if (Causes.ShowsInRunOverFill(Notice.Cause)) RunOverFill = View.Drawings.RunOverFill;
        if (RunOverFill is null && Causes.ShowsInLedger(Notice.Cause)) Ledger = View.Drawings.Find("unexplained");
    }

    private string Caption => "Each mark is the middle of half a day's cycles, dots are single cycles. Line and band: what this loop did in health. "
        + $"Squares: since {Times.DayAndMonth(Notice.Since.InZone(Zone).Date)}.";
}
