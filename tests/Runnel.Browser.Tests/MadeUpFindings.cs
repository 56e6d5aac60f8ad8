using NodaTime;
using Runnel.Place;
using Runnel.Place.Findings;

namespace Runnel.Browser.Tests;

/// <summary>Findings of an invented place, made by rough arithmetic, so that pages can be looked at without a log.</summary>
internal static class MadeUpFindings
{
    private const double BandL = 65, PumpLPerMin = 26.7, FullReturnLPerMin = 9.4;
    private static readonly DateTimeZone Zone = DateTimeZoneProviders.Tzdb["Australia/Sydney"];
    private static readonly LocalDate FirstDay = new(2026, 1, 5);
    private const int Days = 60;

    /// <summary>Drains foul from day 48 on; one leak mended by a person on day 21; a gap of nine hours on day 33.</summary>
    public static Diagnosis FoulingDrains()
    {
        var random = new Random(20260105);
        Instant from = Zone.AtStartOfDay(FirstDay).ToInstant(), to = Zone.AtStartOfDay(FirstDay.PlusDays(Days)).ToInstant();
        Instant fouls = At(48, 9), gapStart = At(33, 13), gapEnd = At(33, 22);
        var cycles = new List<CyclePoint>();
        var shortBand = new List<TimeBand>();
        var pulses = new List<WaterPulse>();
        double litresShort = 6;
        Instant nextHour = from;
        for (Instant t = from; t < to;)
        {
            if (t >= gapStart && t < gapEnd) { t = gapEnd; continue; }
            double fouling = t < fouls ? 0 : 0.018 * (t - fouls).TotalDays;
            double inflow = FullReturnLPerMin * (1 - (litresShort / 190)) * (1 - fouling);
            double fillMin = BandL / inflow * (1 + (0.012 * Gauss(random)));
            double runMin = BandL / (PumpLPerMin - inflow) * (1 - (0.55 * fouling)) * (1 + (0.012 * Gauss(random)));
            bool disturbed = false;
            double hourOfDay = t.InZone(Zone).TimeOfDay.TickOfDay / (double)NodaConstants.TicksPerHour;
            double useLPerMin = (0.9 + (3.6 * Math.Max(0, Math.Sin((hourOfDay - 6) / 12 * Math.PI)))) / 60 * (1 + (0.004 * (t - from).TotalDays));
            litresShort += useLPerMin * (fillMin + runMin);
            if (fillMin > 9.3 && litresShort > 4)
            {
                pulses.Add(new(t, Duration.FromSeconds(110), 21, "top-up"));
                litresShort -= 21;
                disturbed = true;
            }

            cycles.Add(new(t, fillMin * 60, runMin * 60, disturbed));
            t += Duration.FromSeconds((fillMin + runMin) * 60);
            while (nextHour <= t && nextHour < to)
            {
                if (nextHour < gapStart || nextHour >= gapEnd)
                {
                    double half = 5 + (nextHour - from < Duration.FromDays(10) ? 8 * (1 - ((nextHour - from).TotalDays / 10)) : 0);
                    shortBand.Add(new(nextHour, litresShort, litresShort - half, litresShort + half));
                }

                nextHour += Duration.FromHours(1);
            }
        }

        return new Diagnosis
        {
            PlaceName = "Lower Terrace",
            Zone = Zone,
            From = from,
            To = to,
            ReadingCount = 61_842,
            Skipped = [new("the time could not be read", 3, 4_012), new("the same row twice", 118, 20_455)],
            Kit = ["pump-running", "top-up-running", "bleed-running", "weather"],
            Cycles = Summarise(cycles),
            Ledger = [.. Enumerable.Range(0, Days).Select(i => LedgerOf(i, pulses, random))],
            Estimates =
            [
                new("litres-short", to, litresShort, litresShort - 5, litresShort + 6, "L"),
                new("pump-flow", to, 26.7, 25.9, 27.6, "L/min"),
                new("return-flow", to, 7.1, 6.8, 7.4, "L/min"),
                new("use-a-day", to, 62, 54, 71, "L"),
                new("gauge", to, 2.7, 2.3, 3.1, "s"),
            ],
            Notices = Notices(fouls, gapStart, gapEnd),
            OwnRule = new(pulses.Count, pulses.Sum(p => p.Litres), 31, 2, 412,
                ["31 top-ups since 22 February answered slow fills that came from the drains, not from missing water.", "2 came more than 12 h after the loop was 30 L short."]),
            Verdict = "Today: clean the drains of the troughs. No water is missing.",
            Remarks = ["The first 12 days were used to learn how this loop runs.", "A worn pump and a higher lift cannot be told apart from a switch log alone."],
            Evidence = new Evidence
            {
                Cycles = cycles,
                RunOverFill = [.. Enumerable.Range(0, 30).Select(i => Expected(380 + (i * 12)))],
                LitresShort = shortBand,
                RunDeparturePercent = [.. Enumerable.Range(0, Days * 2).Where(i => i is not 67).Select(i => Departure(i, fouls, random))],
                LevelMm = [],
                Pulses = pulses,
                Gaps = [new(gapStart, gapEnd)],
            },
        };
    }

    /// <summary>The same place with nothing the matter.</summary>
    public static Diagnosis Quiet()
    {
        Diagnosis d = FoulingDrains();
        Instant end = At(40, 0);
        return d with
        {
            To = end,
            Verdict = "All is well; the loop is 14 L short.",
            Notices = [.. d.Notices.Where(n => n.Urgency == Urgency.Record)],
            Skipped = [],
            OwnRule = d.OwnRule! with { NotNeeded = 0, Late = 0, TooMuchL = 0, Why = [] },
            Ledger = [.. d.Ledger.Take(40)],
            Cycles = d.Cycles with { Days = [.. d.Cycles.Days.Take(40)] },
            Evidence = d.Evidence with
            {
                Cycles = [.. d.Evidence.Cycles.Where(c => c.Start < end)],
                LitresShort = [.. d.Evidence.LitresShort.Where(p => p.Time < end)],
                RunDeparturePercent = [.. d.Evidence.RunDeparturePercent.Where(p => p.Time < end)],
                Pulses = [.. d.Evidence.Pulses.Where(p => p.Start < end)],
            },
        };
    }

    private static Notice[] Notices(Instant fouls, Instant gapStart, Instant gapEnd) =>
    [
        new()
        {
            Causes = [new(CauseNames.Leak, 0.82), new(CauseNames.UnloggedDraw, 0.11)], Urgency = Urgency.Today, Since = At(21, 2), FirstNoticed = At(21, 15), Cleared = At(23, 11),
            TimeLeft = Duration.FromHours(9), Evidence = "The loop lost 6 L/h (5 to 8) day and night; weather explains 3. The fill curve was unchanged.",
            FirstAct = "Look under the unions and the bleed first.",
        },
        new()
        {
            Causes = [new(CauseNames.SensorSilent, 1)], Urgency = Urgency.Record, Since = gapStart, FirstNoticed = gapStart + Duration.FromHours(2), Cleared = gapEnd,
            Evidence = "No readings of any channel for 9 h.", FirstAct = "See whether the power was off.",
        },
        new()
        {
            Causes = [new(CauseNames.UnloggedDraw, 0.7), new(CauseNames.LoopChanged, 0.2)], Urgency = Urgency.Record, Since = At(38, 8), FirstNoticed = At(38, 9),
            Evidence = "About 18 L (14 to 23) left the loop within 20 min.", FirstAct = "Did you drain the separator at 08:10? Write it into the daybook.",
        },
        new()
        {
            Causes = [new(CauseNames.DrainFouling, 0.91), new(CauseNames.LoopChanged, 0.05), new(CauseNames.PumpWeakening, 0.02)], Urgency = Urgency.Today,
            Since = fouls, FirstNoticed = At(51, 12), TimeLeft = Duration.FromDays(4),
            Evidence = "The sump fills in 9.3 min instead of 7.5, and the pump then runs only 3.2 min where 3.6 (3.5 to 3.7) fits such a fill. Lost water would lie on the curve; this lies under it, and further each day since 22 February.",
            FirstAct = "Lift out and rinse the drain screens of the troughs, lowest first. Leave the top-up shut meanwhile: it would overfill the loop once the drains run free.",
        },
    ];

    private static BandPoint Expected(double fillS)
    {
        double inflow = BandL / (fillS / 60), run = BandL / (PumpLPerMin - inflow) * 60;
        return new(fillS, run, run * 0.972, run * 1.028);
    }

    private static TimeBand Departure(int half, Instant fouls, Random random)
    {
        Instant t = At(half / 2, half % 2 == 0 ? 6 : 18);
        double value = (t < fouls ? 0 : -0.99 * (t - fouls).TotalDays) + (0.45 * Gauss(random));
        return new(t, value, value - 1.1, value + 1.1);
    }

    private static CycleSummary Summarise(List<CyclePoint> cycles)
    {
        CycleDay[] days = [.. cycles.GroupBy(c => c.Start.InZone(Zone).Date).Select(g => new CycleDay(g.Key, g.Count(), Median(g.Select(c => c.FillS)), Median(g.Select(c => c.RunS))))];
        return new(cycles.Count, Median(cycles.Select(c => c.FillS)), Median(cycles.Select(c => c.RunS)), days);
    }

    private static LedgerDay LedgerOf(int day, List<WaterPulse> pulses, Random random)
    {
        LocalDate date = FirstDay.PlusDays(day);
        double topUp = pulses.Where(p => p.Start.InZone(Zone).Date == date).Sum(p => p.Litres);
        double rain = day % 11 == 4 ? 26 + (14 * random.NextDouble()) : 0, evaporation = 14 + (4 * random.NextDouble());
        double plants = 34 + (day * 0.2) + (6 * random.NextDouble()), drawn = day == 38 ? 18 : 0, bleed = day % 11 == 4 ? 12 : 0;
        double unexplained = (day is 21 or 22 ? 70 : 0) + (3 * Gauss(random)), stored = topUp + rain - evaporation - plants - bleed - drawn - unexplained;
        return new(date, new(topUp, topUp * 0.02), new(bleed, bleed * 0.03), new(rain, rain * 0.1), new(evaporation, 2.5), new(plants, 6), new(drawn, 0), new(stored, 3), new(unexplained, 7.5));
    }

    private static double Median(IEnumerable<double> values)
    {
        double[] sorted = [.. values.Order()];
        return sorted[sorted.Length / 2];
    }

    private static double Gauss(Random random) =>
        Math.Sqrt(-2 * Math.Log(1 - random.NextDouble())) * Math.Cos(2 * Math.PI * random.NextDouble());

    private static Instant At(int day, int hour) => Zone.AtLeniently(FirstDay.PlusDays(day) + new LocalTime(hour, 0)).ToInstant();
}
