using System.Globalization;
using NodaTime;
using Runnel.Place.Findings;
using Runnel.Steward.Watches;

namespace Runnel.Steward;

/// <summary>The verdict and the remarks, in plain sentences.</summary>
internal static class Wording
{
    /// <summary>Share of the usual return flow below which a loop is not called well.</summary>
    private const double Slow = 0.4;

    public static string Verdict(LoopState state, IReadOnlyList<Notice> notices, IReadOnlyList<TimeBand> litresShort)
    {
        var standing = notices.Where(n => n.Cleared is null && n.Urgency != Urgency.Record).OrderBy(n => n.Urgency).ThenBy(n => n.FirstNoticed)
            .FirstOrDefault();
        if (standing is not null)
        {
            string urgency = standing.Urgency switch { Urgency.ActNow => "Act now", Urgency.Today => "Today", _ => "Soon" };
            return $"{urgency}: {Plain(standing.Cause)}.";
        }

        if (Starved(state) is { } starved) return starved;
        if (litresShort.Count == 0 || !IsKnown(litresShort[^1])) return "All is well as far as these readings show.";
        var last = litresShort[^1];
        return last.Value < 1
            ? "All is well; the loop is full."
            : string.Create(CultureInfo.InvariantCulture, $"All is well; the loop is {last.Value:0} L short of full.");
    }

    /// <summary>No watch speaks, and yet the loop hardly turns: that must not be called well.</summary>
    private static string? Starved(LoopState state)
    {
        if (state.Kit.BandL is null || state.Store.UsualFillS == 0 || state.Silent) return null;
        var from = state.LastReading - Duration.FromDays(1);
        var (g, n) = state.Store.Between(from, state.LastReading);
        if (n == 0)
        {
            bool turned = state.Cycles.Cycles.Count > 0 && state.Cycles.Cycles[^1].RunEnd > from;
            return turned || state.Gaps.Exists(gap => gap.End > from)
                ? null
                : "Look at the loop: no pump cycle ended in the last day, and no watch can say why.";
        }

        // What was usual over the whole log: its first fills may have been odd ones.
        double usual = Robust.Quantile([.. state.Store.Values], 0.75), usualMin = state.Store.UsualFillS / usual / 60;
        return g > Slow * usual
            ? null
            : string.Create(CultureInfo.InvariantCulture,
                $"Look at the loop: fills take {state.Store.UsualFillS / g / 60:0} min where {usualMin:0} min were usual, and no watch can say why. It is short of water, or something holds water back.");
    }

    /// <summary>A number whose band is wider than itself and than a few buckets would only mislead in a verdict.</summary>
    private static bool IsKnown(TimeBand litres) => (litres.High - litres.Low) / 2 <= Math.Max(15, litres.Value / 2);

    /// <summary>A cause in the words of a sentence.</summary>
    public static string Plain(string cause) => cause switch
    {
        CauseNames.PumpStopped => "the pump moves no water",
        CauseNames.PumpDry => "the pump runs dry",
        CauseNames.PumpStuckOn => "the pump does not switch off",
        CauseNames.PumpWeakening => "the pump is weakening; more water would not help",
        CauseNames.PumpShortCycling => "the pump starts far too often",
        CauseNames.DrainFouling => "fouling drains hold back water that seems to be missing",
        CauseNames.TankOverflow => "a tank is running over",
        CauseNames.SiphonStuck => "a siphon has stopped breaking or tripping",
        CauseNames.CheckValveLeaking => "water runs back through the check valve",
        CauseNames.Leak => "the loop loses water",
        CauseNames.Overfull => "the loop holds too much water",
        CauseNames.TopUpStuckOpen => "the top-up does not shut",
        CauseNames.TopUpWithoutEffect => "the top-up brings no water",
        CauseNames.BleedStuckOpen => "the bleed does not shut",
        CauseNames.SensorSilent => "a sensor is silent",
        CauseNames.SensorFrozen => "a sensor stands still",
        CauseNames.SensorJumping => "a sensor jumps",
        CauseNames.SensorDrifting => "a sensor's zero creeps",
        CauseNames.WaterTooWarm => "the water is too warm",
        CauseNames.WaterTooCold => "the water is too cold",
        _ => cause.Replace('-', ' '),
    };

    public static IEnumerable<string> Remarks(LoopState state, IReadOnlyList<TimeBand> litresShort, bool misled)
    {
        double days = (state.LastReading - state.Began).TotalDays;
        if (days < 12)
        {
            yield return string.Create(CultureInfo.InvariantCulture,
                $"The log covers {days:0} days. Wear, fouling and small leaks are watched for after about 10 to 14; until then only plain causes speak.");
        }

        if (state.Kit.BandL is null && state.Kit.SumpLevel < 0)
        {
            yield return "The sump's band is not told, so flows and litres cannot be worked out: add band = \"... L\" to the sump.";
        }

        if (state.Kit.BandL is null && state.Kit.SumpLevel >= 0)
        {
            yield return "A pump that always runs hides slow wear and slow fouling: what these readings show of them comes late. A flow channel, or a stop of ten minutes each week, shows them sooner.";
        }

        if (state.Kit.TopUp is not null && state.TopUpLPerS is null && state.Kit.TopUpVolume < 0)
        {
            yield return "The top-up's rate is not told, so its litres count as none: time a bucket and add rate = \"... L/min\".";
        }

        if (state.Kit.AirTemperature < 0)
        {
            yield return "No weather is logged: evaporation and plant use are taken from latitude and date, with wide bands.";
        }

        if (!state.Balance.Gauge.Known && days > 5)
        {
            yield return "Litres short could not be learnt: no top-up or bleed with a known rate was seen between quiet readings.";
        }

        if (litresShort.Count > 0 && !IsKnown(litresShort[^1]))
        {
            string why = misled ? "while drains or pump mislead the fills, they are reckoned from what came and went" : "fills scatter too much, or the band or a rate is told wrongly";
            yield return string.Create(CultureInfo.InvariantCulture,
                $"Litres can be told only to about {(litresShort[^1].High - litresShort[^1].Low) / 2:0} L either way: {why}.");
        }
    }
}
