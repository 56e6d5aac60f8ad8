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

    public static IReadOnlyList<LedgerDay> Of(LoopState state)
    {
        var days = new List<LedgerDay>();
        var balance = state.Balance;
        if (balance.HourCount == 0) return days;
        var zone = state.Place.Zone;
        var first = state.Began.InZone(zone).Date;
        var last = state.LastReading.InZone(zone).Date;
        for (var date = first; date <= last; date = date.PlusDays(1)) days.Add(Day(state, date));
        return days;
    }

    private static LedgerDay Day(LoopState state, LocalDate date)
    {
        var balance = state.Balance;
        var from = Instant.Max(state.Began, date.AtStartOfDayInZone(state.Place.Zone).ToInstant());
        var to = Instant.Min(state.LastReading, date.PlusDays(1).AtStartOfDayInZone(state.Place.Zone).ToInstant());
        double topUp = 0, bleed = 0, rain = 0, evaporation = 0, plants = 0, drawn = 0, steadyL = 0;
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
            bleed += share * h.BleedL;
            rain += share * balance.RainL(hour);
            drawn += share * h.DrawnL;
            double steady = balance.SteadyAt(learnt), weather = Math.Max(1e-9, balance.WeatherL(hour));
            double use = (balance.FactorAt(learnt) * weather) + steady;
            steadyL += share * steady;
            evaporation += share * use * h.EvaporationL / weather;
            plants += share * use * h.PlantUseL / weather;
        }

        var (stored, storedPm) = Stored(state, from, to);
        double factorShare = balance.Use.FactorSpread / Math.Max(0.1, balance.Use.Factor);
        double weatherShare = Ninety * Math.Sqrt((WeatherShare * WeatherShare) + (factorShare * factorShare));
        double valvePm = ValveShare * topUp, bleedPm = ValveShare * bleed, rainPm = Ninety * RainShare * rain, drawnPm = DrawnShare * Math.Abs(drawn);
        double evaporationPm = weatherShare * evaporation, plantsPm = weatherShare * plants;
        double unexplained = topUp + rain - bleed - drawn - evaporation - plants - stored;

        // What the loop loses day and night (splash, wet nets) is counted as use; how much of it truly is, nobody can see.
        double unseenPm = Ninety * UnseenShare * Math.Abs(steadyL);

        // Evaporation and plant use err together: their bands add up rather than average out.
        double pm = Math.Sqrt(Sq(valvePm) + Sq(bleedPm) + Sq(rainPm) + Sq(drawnPm) + Sq(evaporationPm + plantsPm) + Sq(storedPm) + Sq(unseenPm));
        return new LedgerDay(date, new(topUp, valvePm), new(bleed, bleedPm), new(rain, rainPm), new(evaporation, evaporationPm),
            new(plants, plantsPm), new(drawn, drawnPm), new(stored, storedPm), new(unexplained, pm));
    }

    /// <summary>Change of the loop's water over a day, from the store's readings about both midnights.</summary>
    private static (double Litres, double PlusMinus) Stored(LoopState state, Instant from, Instant to)
    {
        var balance = state.Balance;
        if (!balance.Gauge.Known) return (0, 50);
        var (g0, n0) = Near(state, from);
        var (g1, n1) = Near(state, to);
        double k = balance.Gauge.LitresPerUnit;
        if (n0 == 0 || n1 == 0) return (0, Math.Max(20, k * 4 * balance.ReadingSpread));
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
