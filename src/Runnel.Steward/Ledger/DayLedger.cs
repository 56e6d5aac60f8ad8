using NodaTime;
using Runnel.Place.Findings;

namespace Runnel.Steward.Ledger;

/// <summary>The water ledger by civil day.</summary>
internal static class DayLedger
{
    // Half widths of 90 % bands: 1.645 standard deviations.
    private const double Ninety = 1.645;

    // Common practice: a told valve rate is good to 2 %, a gauge's rain to a tenth, a bucket to a twentieth, a day's ET0 to an eighth.
    private const double ValveShare = 0.02, RainShare = 0.1, DrawnShare = 0.05, WeatherShare = 0.12, UnseenShare = 0.5;

    /// <summary>Least half width of a day's change of the store where no reading tells it, L (common practice).</summary>
    private const double UnreadL = 20;

    /// <param name="state">What was read.</param>
    /// <param name="doubts">What was noticed and changes what a reading is worth.</param>
    public static IReadOnlyList<LedgerDay> Of(LoopState state, LedgerDoubts doubts)
    {
        var days = new List<LedgerDay>();
        var balance = state.Balance;
        if (balance.HourCount == 0) return days;
        var zone = state.Place.Zone;
        var first = state.Began.InZone(zone).Date;
        var last = state.LastReading.InZone(zone).Date;
        for (var date = first; date <= last; date = date.PlusDays(1)) days.Add(Day(state, doubts, date));
        return days;
    }

    private static LedgerDay Day(LoopState state, LedgerDoubts doubts, LocalDate date)
    {
        var balance = state.Balance;
        var from = Instant.Max(state.Began, date.AtStartOfDayInZone(state.Place.Zone).ToInstant());
        var to = Instant.Min(state.LastReading, date.PlusDays(1).AtStartOfDayInZone(state.Place.Zone).ToInstant());
        double topUp = 0, doubtful = 0, bleed = 0, rain = 0, evaporation = 0, plants = 0, drawn = 0, steadyL = 0;
        int start = Math.Max(0, state.Hours.IndexOf(from)), end = Math.Min(balance.HourCount - 1, state.Hours.IndexOf(to));
        for (int hour = start; hour <= end; hour++)
        {
            var h = state.Hours.Hours[hour];
            var begins = Instant.Max(from, h.Start);
            var ends = Instant.Min(to, h.Start + Duration.FromHours(1));
            double share = (ends - begins).TotalHours;
            if (share <= 0) continue;

            // Learnt a little later than the day itself: the factor that this day, too, went into.
            int learnt = Math.Min(balance.HourCount - 1, Math.Max(240, hour + 66));
            topUp += share * h.TopUpL;

            // Counted by the valve's times; while a notice stands that says no water came, none at all may be true.
            if (doubts.TopUpsEmptyAt(h.Start)) doubtful += share * h.TopUpL;
            bleed += share * h.BleedL;
            rain += share * balance.RainL(hour);
            drawn += share * h.DrawnL;
            double steady = balance.SteadyAt(learnt), weather = Math.Max(1e-9, balance.WeatherL(hour));
            double use = (balance.FactorAt(learnt) * weather) + steady;
            steadyL += share * steady;
            evaporation += share * use * h.EvaporationL / weather;
            plants += share * use * h.PlantUseL / weather;
        }

        var (stored, storedPm) = Stored(state, doubts, from, to, topUp + rain - bleed - drawn - evaporation - plants, evaporation + plants);
        double factorShare = balance.Use.FactorSpread / Math.Max(0.1, balance.Use.Factor);
        double weatherShare = Ninety * Math.Sqrt((WeatherShare * WeatherShare) + (factorShare * factorShare));
        double valvePm = (ValveShare * topUp) + doubtful, bleedPm = ValveShare * bleed, rainPm = Ninety * RainShare * rain, drawnPm = DrawnShare * Math.Abs(drawn);
        double evaporationPm = weatherShare * evaporation, plantsPm = weatherShare * plants;
        double unexplained = topUp + rain - bleed - drawn - evaporation - plants - stored;

        // What the loop loses day and night (splash, wet nets) is counted as use; how much of it truly is, nobody can see.
        double unseenPm = Ninety * UnseenShare * Math.Abs(steadyL);

        // Evaporation and plant use err together: their bands add up rather than average out.
        double pm = Math.Sqrt(Sq(valvePm) + Sq(bleedPm) + Sq(rainPm) + Sq(drawnPm) + Sq(evaporationPm + plantsPm) + Sq(storedPm) + Sq(unseenPm));
        if (doubts.MisledAt(from + ((to - from) / 2)) is { } notice)
        {
            // Held back rather than lost, as likely as the notice says: what seems missing is still in the loop.
            double p = LedgerDoubts.Misled(notice), most = LedgerDoubts.MostHeldBackADay * balance.Gauge.LitresPerUnit;
            double heldBack = balance.Gauge.Known ? Math.Clamp(p * unexplained, -most, most) : 0;
            (stored, storedPm) = (stored + heldBack, Math.Sqrt(Sq(storedPm) + (Sq(Ninety * unexplained) * p * (1 - p))));
            pm = Math.Sqrt(Sq(pm) + (Sq(Ninety * unexplained) * p * (1 - p)));
            unexplained -= heldBack;
        }

        return new LedgerDay(date, new(topUp, valvePm), new(bleed, bleedPm), new(rain, rainPm), new(evaporation, evaporationPm),
            new(plants, plantsPm), new(drawn, drawnPm), new(stored, storedPm), new(unexplained, pm));
    }

    /// <summary>Change of the loop's water over a day, from the store's readings about both midnights. Where they do not tell, a loop shrinks by
    /// what it is known to use, and gains nothing that is known only from a valve's times.</summary>
    private static (double Litres, double PlusMinus) Stored(LoopState state, LedgerDoubts doubts, Instant from, Instant to, double net, double used)
    {
        var balance = state.Balance;
        if (!balance.Gauge.Known) return (0, 50);
        var (g0, n0) = Near(state, from);
        var (g1, n1) = Near(state, to);
        double k = balance.Gauge.LitresPerUnit;
        bool read = n0 > 0 && n1 > 0 && !doubts.StoreUnreadableAt(from) && !doubts.StoreUnreadableAt(to);
        if (!read) return (Math.Min(0, net), Math.Max(Math.Max(UnreadL, used), k * 4 * balance.ReadingSpread));
        double litres = k * (g1 - g0);
        double scatter = k * balance.ReadingSpread;
        return (litres, Ninety * Math.Sqrt(Sq(balance.Gauge.RelativeSpread * litres) + (1.6 * Sq(scatter) * ((1.0 / n0) + (1.0 / n1)))));
    }

    private static (double Median, int Count) Near(LoopState state, Instant time)
    {
        foreach (int minutes in (ReadOnlySpan<int>)[60, 150, 300])
        {
            var side = Duration.FromMinutes(minutes);
            var found = state.Store.Between(time - side, time + side);
            if (found.Count >= 4) return found;
        }

        return (double.NaN, 0);
    }

    private static double Sq(double x) => x * x;
}
