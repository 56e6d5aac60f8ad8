using NodaTime;
using Runnel.Place.Findings;

namespace Runnel.Steward.Watches;

/// <summary>What one shot, or several taken together, did to the gauge, and what was to be expected.</summary>
internal sealed record ShotEffect(Instant Start, double Litres, double Change, double Expected)
{
    public int Shots { get; init; } = 1;
}

/// <summary>What is said of top-ups that do too little or too much.</summary>
internal static class TopUpNotices
{
    public static Notice WithoutEffect(LoopState state, IReadOnlyList<ShotEffect> shots, bool faint, bool byLevel)
    {
        double litres = shots.Sum(s => s.Litres), change = shots.Sum(s => s.Change), expected = shots.Sum(s => s.Expected);
        string amount = state.TopUpLPerS is null && state.Kit.TopUpVolume < 0 ? "" : Figures.Text($", {litres:0} L together,");

        // Beside a siphon's beat single shots cannot be seen to bring something and lose it again: a leak as large as what the rule pours looks the same.
        (double sure, double leak) = state.Kit.HasSiphon ? (0.55, 0.36) : faint ? (0.65, 0.25) : (0.86, 0.06);
        return new Notice
        {
            Causes = CauseSet.Of((CauseNames.TopUpWithoutEffect, sure), (CauseNames.Leak, leak), (CauseNames.TankOverflow, 0.08)),
            Urgency = faint && !state.Kit.HasSiphon ? Urgency.Soon : Urgency.Today,
            Since = shots[0].Start,
            FirstNoticed = state.Now,
            Evidence = Figures.Text($"The last {shots.Sum(s => s.Shots)} top-ups{amount} left no mark: {Effect(change, byLevel)} in all where {Amount(expected, byLevel)} was to be expected."),
            FirstAct = "Look whether water comes when the top-up opens: an empty supply tank, a shut hand valve or a blocked strainer is likely. If water does come, look for the tank that spills it"
                + (leak > 0.1 ? " and for wet ground under tanks, troughs and pipe joints." : "."),
        };
    }

    /// <summary>A shot that did several times what its litres can do: the valve did not shut behind it.</summary>
    public static Notice TooMuch(LoopState state, Shot shot, double change, double expected, bool byLevel) => new()
    {
        Causes = CauseSet.Of((CauseNames.TopUpStuckOpen, 0.8), (CauseNames.Overfull, 0.15)),
        Urgency = Urgency.Today,
        Since = shot.Start,
        FirstNoticed = state.Now,
        Evidence = Figures.Text($"After the top-up of {shot.Litres:0} L {Effect(change, byLevel)} where {Amount(expected, byLevel)} was to be expected: water seems to go on coming though the valve is ordered shut."),
        FirstAct = "Listen and look whether water still runs from the top-up. If it does, shut the hand valve before it.",
    };

    private static string Effect(double change, bool byLevel) =>
        byLevel ? Figures.Text($"the level rose by {change:0} mm") : $"fills became {Amount(change, byLevel)}";

    private static string Amount(double change, bool byLevel)
    {
        if (byLevel) return Figures.Text($"{change:0} mm");
        double percent = 100 * (1 - Math.Exp(-change));
        return percent >= 0.5 ? Figures.Text($"{percent:0} % shorter") : percent <= -0.5 ? Figures.Text($"{-percent:0} % longer") : "no shorter";
    }
}
