using NodaTime;
using Runnel.Place.Findings;

namespace Runnel.Steward.OwnRule;

/// <summary>What the keeper's top-up rule seems to be, read from when it poured.</summary>
/// <param name="AtHours">Clock hours at which a timer pours; empty where it follows the readings.</param>
/// <param name="Trigger">Fill, s, or sump level, mm, at which it usually pours; NaN where a timer pours or too little was read.</param>
/// <param name="ByLevel">The trigger is a level.</param>
/// <param name="Dose">Usual length of a top-up.</param>
/// <param name="DoseL">Usual litres of a top-up.</param>
internal sealed record RuleHabit(IReadOnlyList<double> AtHours, double Trigger, bool ByLevel, Duration Dose, double DoseL)
{
    private const int Least = 5;
    private const double NearHours = 0.4;

    /// <summary>A rule that pours mostly at the same few times of day is a timer.</summary>
    private const double TimerShare = 0.85;

    public static RuleHabit? Of(LoopState state, IReadOnlyList<WaterPulse> topUps)
    {
        if (topUps.Count < Least) return null;
        bool level = state.Kit.BandL is null;
        var triggers = new List<double>();
        foreach (var pulse in topUps)
        {
            var (g, n) = state.Store.Between(pulse.Start - Duration.FromMinutes(45), pulse.Start);
            if (n > 0) triggers.Add(level ? g : state.Store.UsualFillS / g);
        }

        var hours = TimerHours(state, topUps);
        double trigger = hours.Count > 0 || triggers.Count < Least ? double.NaN : Median(triggers);
        return new RuleHabit(hours, trigger, level, Duration.FromSeconds(Median([.. topUps.Select(p => p.Length.TotalSeconds)])), Median([.. topUps.Select(p => p.Litres)]));
    }

    /// <summary>The rule in one sentence.</summary>
    public string Sentence()
    {
        string dose = Dose > Duration.Zero ? Words.Text($"{Words.Minutes(Dose)} ({DoseL:0} L) at a time") : Words.Text($"{DoseL:0} L at a time");
        if (AtHours.Count > 0) return $"It tops up by the clock, near {string.Join(" and ", AtHours.Select(Words.ClockHour))}, {dose}, whatever the readings say.";
        if (double.IsNaN(Trigger)) return $"It tops up {dose}.";
        return ByLevel
            ? Words.Text($"It tops up when the sump stands below about {Trigger:0} mm, {dose}.")
            : Words.Text($"It tops up when fills are slower than about {Words.Minutes(Duration.FromSeconds(Trigger))}, {dose}.");
    }

    private static List<double> TimerHours(LoopState state, IReadOnlyList<WaterPulse> topUps)
    {
        var at = topUps.Select(p => p.Start.InZone(state.Place.Zone).TimeOfDay.TickOfDay / (double)NodaConstants.TicksPerHour).ToList();
        var hours = new List<double>();
        var left = new List<double>(at);
        while (hours.Count < 4 && left.Count > 0)
        {
            double best = left.MaxBy(h => left.Count(o => Apart(h, o) < NearHours));
            var near = left.Where(o => Apart(best, o) < NearHours).ToList();
            if (near.Count < Math.Max(3, 0.12 * at.Count)) break;
            hours.Add(Median(near));
            left.RemoveAll(o => Apart(best, o) < NearHours);
        }

        hours.Sort();
        return at.Count - left.Count >= TimerShare * at.Count ? hours : [];
    }

    private static double Apart(double a, double b)
    {
        double off = Math.Abs(a - b) % 24;
        return Math.Min(off, 24 - off);
    }

    private static double Median(List<double> values) => Watches.Robust.Median(values);
}
