using NodaTime;
using Runnel.Place.Findings;
using Runnel.Web.Charts;
using Runnel.Web.Words;

namespace Runnel.Web.Findings;

/// <summary>The water ledger drawn: what came in and went out by day, and what stays unexplained.</summary>
public static class LedgerCharts
{
    public static TimeChart? Water(Diagnosis d)
    {
        if (d.Ledger.Count == 0 || !d.InflowIsKnown) return null;
        DayBar[] Stack(Func<LedgerDay, double> from, Func<LedgerDay, double> height) =>
            [.. d.Ledger.Select(day => new DayBar(day.Date, from(day), from(day) + height(day)))];
        return new()
        {
            Id = "water",
            Title = "Water in and out, by day",
            Description = $"A day's mean: {Mean(d, l => l.TopUp.L)} L topped up, {Mean(d, l => l.Rain.L)} L of rain; {Mean(d, l => l.Evaporation.L)} L evaporated, {Mean(d, l => l.PlantUse.L)} L used by plants, {Mean(d, l => l.Bleed.L + l.Drawn.L)} L bled or drawn.",
            ValueName = "in (above), out (below), L a day",
            Whole = TimeChartsOf.Whole(d),
            Zone = d.Zone,
            Layers =
            [
                new DayBars("top-up", "bar in", Stack(_ => 0, l => l.TopUp.L)),
                new DayBars("rain", "bar rain", Stack(l => l.TopUp.L, l => l.Rain.L)),
                new DayBars("plants", "bar plants", Stack(_ => 0, l => -l.PlantUse.L)),
                new DayBars("evaporation", "bar evaporation", Stack(l => -l.PlantUse.L, l => -l.Evaporation.L)),
                new DayBars("bled or drawn", "bar out", Stack(l => -l.PlantUse.L - l.Evaporation.L, l => -l.Bleed.L - l.Drawn.L)),
            ],
            Gaps = d.Evidence.Gaps,
            Table = new(["Day", "Top-up", "Rain", "Evaporation", "Plants", "Bleed", "Drawn", "Stored", "Unexplained"],
                [.. d.Ledger.Select(l => (IReadOnlyList<string>)
                    [Times.WeekdayAndDay(l.Date), Cell(l.TopUp), Cell(l.Rain), Cell(l.Evaporation), Cell(l.PlantUse), Cell(l.Bleed), Cell(l.Drawn), Cell(l.Stored), Cell(l.Unexplained)])]),
        };
    }

    public static TimeChart? Unexplained(Diagnosis d)
    {
        if (d.Ledger.Count == 0 || !d.InflowIsKnown) return null;
        Notice? notice = TopNotice.Of(d) is { } top && Causes.ShowsInLedger(top.Cause) ? top : null;
        TimeBand[] points = [.. d.Ledger.Select(l => new TimeBand(
            d.Zone.AtStartOfDay(l.Date).ToInstant() + Duration.FromHours(12), l.Unexplained.L,
            l.Unexplained.L - l.Unexplained.PlusMinusL, l.Unexplained.L + l.Unexplained.PlusMinusL))];
        int outside = points.Count(p => p.Low > 0 || p.High < 0);
        return new()
        {
            Id = "unexplained",
            Title = "Unexplained, by day",
            Description = $"What top-up, rain, weather, plants and store leave over each day. {Figures.Number(outside)} of {Figures.Number(points.Length)} days lie clear of nought. Above nought water is missing, below it there is more than accounted for.",
            ValueName = "missing (+) or too much (−), L a day",
            Whole = TimeChartsOf.Whole(d),
            Zone = d.Zone,
            Layers = [new BandMarks("", notice is null ? "" : Urgencies.Rule(notice.Urgency), points, notice?.Since)],
            Gaps = d.Evidence.Gaps,
            Events = notice is null ? [] : [new(notice.Since, $"since {Times.ShortDay(notice.Since.InZone(d.Zone).Date)}")],
            Table = new(["Day", "Unexplained, L", "90 % band"],
                [.. d.Ledger.Select(l => (IReadOnlyList<string>)
                    [Times.WeekdayAndDay(l.Date), Figures.Number(l.Unexplained.L), Figures.Range(l.Unexplained.L - l.Unexplained.PlusMinusL, l.Unexplained.L + l.Unexplained.PlusMinusL, 0)])]),
        };
    }

    private static string Mean(Diagnosis d, Func<LedgerDay, double> litres) => Figures.Number(d.Ledger.Average(litres));

    private static string Cell(Litres litres) => $"{Figures.Number(litres.L)} ± {Figures.Number(litres.PlusMinusL)}";
}
