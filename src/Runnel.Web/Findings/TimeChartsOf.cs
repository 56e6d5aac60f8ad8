using NodaTime;
using Runnel.Place.Findings;
using Runnel.Web.Charts;
using Runnel.Web.Words;

namespace Runnel.Web.Findings;

/// <summary>Makes the time charts of a diagnosis; a chart without data is null.</summary>
public static class TimeChartsOf
{
    /// <summary>Addresses name charts by these.</summary>
    public static readonly IReadOnlyList<string> Ids = ["litres-short", "run-departure", "cycles", "water", "unexplained", "level"];

    /// <summary>The chart of that short name, or null where it is unknown or there is nothing to draw.</summary>
    public static TimeChart? Find(string id, Diagnosis d) => id switch
    {
        "litres-short" => LitresShort(d),
        "run-departure" => RunDeparture(d),
        "cycles" => CyclesByDay(d),
        "water" => LedgerCharts.Water(d),
        "unexplained" => LedgerCharts.Unexplained(d),
        "level" => Level(d),
        _ => null,
    };

    /// <summary>The stretch that the charts show at first: the whole log.</summary>
    public static Interval Whole(Diagnosis d) => new(d.From, d.To > d.From ? d.To : d.From + Duration.FromHours(1));

    public static TimeChart? LitresShort(Diagnosis d)
    {
        IReadOnlyList<TimeBand> points = d.Evidence.LitresShort;
        if (points.Count == 0) return null;
        WaterPulse[] topUps = [.. d.Evidence.Pulses.Where(p => p.Litres >= 0)], bleeds = [.. d.Evidence.Pulses.Where(p => p.Litres < 0)];
        var lanes = new List<PulseLane>();
        if (topUps.Length > 0) lanes.Add(new("top-up", "pulse", topUps));
        if (bleeds.Length > 0) lanes.Add(new("bleed", "pulse out", bleeds));
        TimeBand last = points[^1], most = points.MaxBy(p => p.Value);
        return new()
        {
            Id = "litres-short",
            Title = "Litres short of full",
            Description = $"{Litres(last)} at the end of the log; most short on {Times.DayAndClock(most.Time, d.Zone)} with {Litres(most)}. {Figures.Number(topUps.Length)} top-ups and {Figures.Number(bleeds.Length)} bleeds are marked.",
            ValueName = "short of full, L",
            Whole = Whole(d),
            Zone = d.Zone,
            Layers = [new BandLine("", "trace wet", points, Spacing(points) * 3)],
            Gaps = d.Evidence.Gaps,
            Lanes = lanes,
            Downward = true,
            ZeroName = "full 0",
            Table = DailyTable(d, points, "Litres short", 0),
        };
    }

    public static TimeChart? RunDeparture(Diagnosis d)
    {
        IReadOnlyList<TimeBand> points = d.Evidence.RunDeparturePercent;
        if (points.Count == 0) return null;
        Notice? notice = TopNotice.Of(d) is { } top && Causes.ShowsInRunOverFill(top.Cause) ? top : null;
        TimeBand last = points[^1];
        string way = last.Value < 0 ? "shorter" : "longer";
        return new()
        {
            Id = "run-departure",
            Title = "Runs against what their fills lead to expect",
            Description = $"By half days. At the end of the log runs are {Figures.Number(Math.Abs(last.Value), 1)} % {way} than expected ({Figures.Range(last.Low, last.High, 1)}).",
            ValueName = "longer (+) or shorter (−), %",
            Whole = Whole(d),
            Zone = d.Zone,
            Layers = [new BandMarks("", notice is null ? "" : Urgencies.Rule(notice.Urgency), points, notice?.Since)],
            Gaps = d.Evidence.Gaps,
            Events = notice is null ? [] : [new(notice.Since, $"since {Times.ShortDay(notice.Since.InZone(d.Zone).Date)}")],
            Table = new(["Half day from", "Departure, %", "90 % band"],
                [.. points.Select(p => (IReadOnlyList<string>)[Times.DayAndClock(p.Time, d.Zone), Figures.Number(p.Value, 1), Figures.Range(p.Low, p.High, 1)])]),
        };
    }

    public static TimeChart? CyclesByDay(Diagnosis d)
    {
        CycleDay[] days = [.. d.Cycles.Days.Where(c => c.MedianFillS is not null || c.MedianRunS is not null)];
        // A pump that runs on has no cycles to speak of, only its rare stops.
        if (days.Length == 0 || d.Cycles.Count < 2 * Whole(d).Duration.TotalDays) return null;
        (string unit, double per) = d.Cycles.MedianFillS < 120 ? ("s", 1.0) : ("min", 60.0);
        TimeBand At(CycleDay c, double? seconds) => new(
            d.Zone.AtStartOfDay(c.Date).ToInstant() + Duration.FromHours(12), (seconds ?? double.NaN) / per, double.NaN, double.NaN);
        string Cell(double? seconds) => seconds is { } s ? Figures.Number(s / per, per > 1 ? 1 : 0) : "none";
        return new()
        {
            Id = "cycles",
            Title = "Fill and run",
            Description = $"{Figures.Number(d.Cycles.Count)} cycles in all; the middle fill takes {Cell(d.Cycles.MedianFillS)} {unit} and the middle run {Cell(d.Cycles.MedianRunS)} {unit}.",
            ValueName = $"middle of each day, {unit}",
            Whole = Whole(d),
            Zone = d.Zone,
            Layers =
            [
                new BandLine("fill", "trace wet", [.. days.Select(c => At(c, c.MedianFillS))], Duration.FromHours(40)),
                new BandLine("run", "trace", [.. days.Select(c => At(c, c.MedianRunS))], Duration.FromHours(40)),
            ],
            Close = new($"each cycle, {unit}",
            [
                new Dots("fill", "each wet", [.. d.Evidence.Cycles.Select(c => new TimeBand(c.Start, c.FillS / per, double.NaN, double.NaN))]),
                new Dots("run", "each", [.. d.Evidence.Cycles.Select(c => new TimeBand(c.Start + Duration.FromSeconds(c.FillS), c.RunS / per, double.NaN, double.NaN))]),
            ]),
            Gaps = d.Evidence.Gaps,
            Table = new(["Day", "Cycles", $"Fill, {unit}", $"Run, {unit}"],
                [.. d.Cycles.Days.Select(c => (IReadOnlyList<string>)[Times.WeekdayAndDay(c.Date), Figures.Number(c.Count), Cell(c.MedianFillS), Cell(c.MedianRunS)])]),
        };
    }

    public static TimeChart? Level(Diagnosis d)
    {
        IReadOnlyList<TimeBand> points = d.Evidence.LevelMm;
        if (points.Count == 0) return null;
        return new()
        {
            Id = "level",
            Title = "Sump level by the hour",
            Description = $"Between {Figures.Range(points.Min(p => p.Value), points.Max(p => p.Value), 0)} mm above the sump floor.",
            ValueName = "sump level, mm",
            Whole = Whole(d),
            Zone = d.Zone,
            ZeroShown = false,
            Layers = [new BandLine("", "trace wet", points, Spacing(points) * 3)],
            Gaps = d.Evidence.Gaps,
            Table = DailyTable(d, points, "Level, mm", 0),
        };
    }

    private static string Litres(TimeBand p) => $"{Figures.Number(p.Value)} L ({Figures.Range(p.Low, p.High, 0)})";

    /// <summary>The usual distance between points, so that a gap can be told from a pace.</summary>
    private static Duration Spacing(IReadOnlyList<TimeBand> points)
    {
        if (points.Count < 3) return Duration.FromHours(1);
        Duration[] steps = [.. points.Skip(1).Zip(points, (later, earlier) => later.Time - earlier.Time).Order()];
        return Duration.Max(steps[steps.Length / 2], Duration.FromMinutes(1));
    }

    /// <summary>One row a civil day: the last value of the day, which is what a person would have read that evening.</summary>
    private static ChartTable DailyTable(Diagnosis d, IReadOnlyList<TimeBand> points, string name, int decimals) => new(
        ["At the end of", name, "90 % band"],
        [.. points.GroupBy(p => p.Time.InZone(d.Zone).Date).Select(g => g.Last()).Select(p => (IReadOnlyList<string>)
            [Times.WeekdayAndDay(p.Time.InZone(d.Zone).Date), Figures.Number(p.Value, decimals), Figures.Range(p.Low, p.High, decimals)])]);
}
