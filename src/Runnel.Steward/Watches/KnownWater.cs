using NodaTime;

namespace Runnel.Steward.Watches;

/// <summary>Water that the log shows coming in or going out, over a stretch of time.</summary>
internal static class KnownWater
{
    /// <summary>Seconds in which the top-up stood open since <paramref name="from"/>.</summary>
    public static double TopUpOpenS(LoopState state, Instant from) => OpenS(state.TopUp, from, state.LastReading);

    /// <summary>Seconds in which the bleed stood open since <paramref name="from"/>.</summary>
    public static double BleedOpenS(LoopState state, Instant from) => OpenS(state.Bleed, from, state.LastReading);

    /// <summary>Rain in the hours from that of <paramref name="from"/> on, mm.</summary>
    public static double RainMm(LoopState state, Instant from)
    {
        var hours = state.Hours.Hours;
        double sum = 0;
        for (int i = hours.Count - 1; i >= 0 && hours[i].Start + Duration.FromHours(1) > from; i--) sum += hours[i].RainMm;
        return sum;
    }

    /// <summary>Litres that people took out (positive) since <paramref name="from"/>, as they wrote down.</summary>
    public static double DrawnL(LoopState state, Instant from)
    {
        double sum = 0;
        for (int i = state.Daybook.Count - 1; i >= 0 && state.Daybook[i].Time >= from; i--)
        {
            if (state.Daybook[i] is { Entry: "drained" or "carried-off", Litres: { } litres }) sum += litres;
        }

        return sum;
    }

    private static double OpenS(Signals.RunTrace valve, Instant from, Instant to)
    {
        double sum = valve.IsOn == true && to > Instant.Max(from, valve.Since) ? (to - Instant.Max(from, valve.Since)).TotalSeconds : 0;
        for (int i = valve.Runs.Count - 1; i >= 0 && valve.Runs[i].End > from; i--)
        {
            sum += (valve.Runs[i].End - Instant.Max(from, valve.Runs[i].Start)).TotalSeconds;
        }

        return sum;
    }
}
