using System.Globalization;
using NodaTime;
using Runnel.Place.Findings;

namespace Runnel.Steward.Drift;

/// <summary>What is said of water that goes missing hour after hour, or comes unasked.</summary>
internal static class LossNotices
{
    public static Notice Loss(LoopState state, double rate, double plusMinus, Instant since, int length, double fouling)
    {
        double weather = 0;
        int last = state.Balance.HourCount - 2;
        for (int i = 0; i < length; i++) weather += state.Balance.UseL(last - i) / length;
        double? hoursLeft = HoursUntilDry(state, rate + weather);
        bool bleed = state.Kit.Bleed is not null;
        double leak = 0.95 - fouling;
        var causes = new List<Cause> { new(CauseNames.Leak, bleed ? 0.88 * leak : leak), new(CauseNames.DrainFouling, fouling) };
        if (bleed) causes.Add(new Cause(CauseNames.BleedStuckOpen, 0.12 * leak));
        causes.Sort((a, b) => b.Probability.CompareTo(a.Probability));
        if (fouling > 0.5)
        {
            return new Notice
            {
                Causes = causes,
                Urgency = Urgency.Soon,
                Since = since,
                FirstNoticed = state.Now,
                Evidence = string.Create(CultureInfo.InvariantCulture,
                    $"Fills lengthen as if {rate:0.0} L/h (± {plusMinus:0.0}) were lost, but top-ups move them less than before: drains that hold water back do that, a leak does not."),
                FirstAct = "Lift out and rinse the drain screens, lowest first, and see that no tank stands near its rim, before any more top-up.",
            };
        }

        return new Notice
        {
            Causes = causes,
            Urgency = rate >= 15 || hoursLeft < 6 ? Urgency.ActNow : Urgency.Today,
            Since = since,
            FirstNoticed = state.Now,
            TimeLeft = hoursLeft is { } h ? Duration.FromMinutes(Math.Floor(h * 4) * 15) : null,
            Evidence = string.Create(CultureInfo.InvariantCulture,
                $"Over the last {length} h the loop lost {rate:0.0} L/h (± {plusMinus:0.0}) more than the {weather:0.0} L/h that sun and plants take; {(length >= 24 ? "it does not stop by night" : "it goes on")}."),
            FirstAct = bleed
                ? "See that the bleed valve is shut; then look for wet ground under tanks, troughs and pipe joints, and keep the top-up within its daily cap."
                : "Look for wet ground under tanks, troughs and pipe joints; keep the top-up within its daily cap until it is found.",
        };
    }

    /// <summary>As much goes missing as the top-ups should have brought.</summary>
    /// <param name="probability">That no water came, 0 to 1.</param>
    public static Notice WithoutEffect(LoopState state, double rate, double plusMinus, double toppedUpLPerH, Instant since, int length, double probability) => new()
    {
        Causes = [new Cause(CauseNames.TopUpWithoutEffect, 0.95 * probability), new Cause(CauseNames.Leak, 0.95 * (1 - probability))],
        Urgency = Urgency.Today,
        Since = since,
        FirstNoticed = state.Now,
        Evidence = string.Create(CultureInfo.InvariantCulture,
            $"Over the last {length} h the loop lost {rate:0.0} L/h (± {plusMinus:0.0}) more than sun and plants take: as much as the {toppedUpLPerH:0.0} L/h that the top-ups should have brought."),
        FirstAct = "Look whether water comes when the top-up opens: an empty supply tank, a shut hand valve or a blocked strainer is likely. If water does come, look for wet ground under tanks, troughs and pipe joints.",
    };

    public static Notice Gain(LoopState state, double rate, double plusMinus, Instant since, int length)
    {
        bool valve = state.Kit.TopUp is not null || state.Kit.FloatValve is not null;
        return new Notice
        {
            Causes = valve
                ? [new Cause(CauseNames.TopUpStuckOpen, 0.8), new Cause(CauseNames.LoopChanged, 0.12)]
                : [new Cause(CauseNames.LoopChanged, 0.6), new Cause(CauseNames.TopUpStuckOpen, 0.3)],
            // Too much water harms slowly: it runs over the sump's own overflow first.
            Urgency = rate >= 10 ? Urgency.Today : Urgency.Soon,
            Since = since,
            FirstNoticed = state.Now,
            Evidence = string.Create(CultureInfo.InvariantCulture,
                $"Over the last {length} h the loop gained {rate:0.0} L/h (± {plusMinus:0.0}) though no top-up was open and no rain fell."),
            FirstAct = "See whether the top-up valve drips while shut, and close its hand valve; then look for a hose left running.",
        };
    }

    /// <summary>Hours until the inflow to the sump would stop, at the cautious end; null where the store does not tell it.</summary>
    private static double? HoursUntilDry(LoopState state, double lossLPerH)
    {
        if (state.Kit.BandL is null) return null;
        var (g, count) = state.Store.Between(state.Now - Duration.FromHours(3), state.Now);
        return count < 3 || lossLPerH <= 0 ? null : 0.7 * g * state.Balance.Gauge.LitresPerUnit / lossLPerH;
    }
}
