using Runnel.Place;

namespace Runnel.Exchange.Survey;

/// <summary>Switches whose names do not tell: the busiest is the pump where none is named, seldom and short ones are valves.</summary>
internal static class UnnamedSwitches
{
    public static void Fill(IReadOnlyList<(string Name, string? Unit, ChannelStatistics Statistics)> found, List<ChannelGuess?> guesses)
    {
        bool Has(EquipmentKind kind) => guesses.Exists(g => g?.Equipment == kind && g.Certainty != Certainty.Guess);
        var open = Enumerable.Range(0, found.Count).Where(i => guesses[i] is null && found[i].Statistics is { IsSwitch: true, ChangesPerDay: > 0 })
            .OrderByDescending(i => found[i].Statistics.ChangesPerDay);
        foreach (int i in open)
        {
            var s = found[i].Statistics;
            string pattern = $"it switches {ChannelGuesses.N(s.ChangesPerDay)} times a day" + (s.ShareOn is { } on ? $" and is on {ChannelGuesses.Percent(on)} of the time" : "");
            if (!Has(EquipmentKind.Pump) && s.ChangesPerDay >= 8 && s.ShareOn is > 0.02)
                guesses[i] = Running(EquipmentKind.Pump, Certainty.Likely, $"{pattern}, more than any other, as a pump between two floats does");
            else if (s.ShareOn is > 0.8 && !guesses.Exists(g => g?.Equipment == EquipmentKind.Pump))
                guesses[i] = Running(EquipmentKind.Pump, Certainty.Guess, $"{pattern}, as a pump that hardly ever stops");
            else if (s.ShareOn is < 0.05 && !guesses.Exists(g => g?.Equipment == EquipmentKind.TopUpValve))
                guesses[i] = Running(EquipmentKind.TopUpValve, Certainty.Guess, $"{pattern}, as a top-up valve does");
            else if (s.ShareOn is < 0.05 && !guesses.Exists(g => g?.Equipment == EquipmentKind.BleedValve))
                guesses[i] = Running(EquipmentKind.BleedValve, Certainty.Guess, $"{pattern}, as a bleed valve does");
        }
    }

    private static ChannelGuess Running(EquipmentKind kind, Certainty certainty, string reason) => new(Quantity.Running, kind, null, certainty, reason);
}
