using NodaTime;
using Runnel.Place.Findings;

namespace Runnel.Live.View;

/// <summary>A notice with what people said to it.</summary>
/// <param name="Key">Names it in addresses and answers: when it was first noticed, and its cause.</param>
/// <param name="Notice">As told.</param>
/// <param name="Acknowledged">Who has seen it, and when; null: nobody yet.</param>
/// <param name="Answer">What it was in the end; null: not told yet.</param>
public sealed record NoticeStanding(string Key, Notice Notice, Acknowledgement? Acknowledged, ClosingAnswer? Answer)
{
    /// <summary>It goes on and wants a person.</summary>
    public bool Stands => Notice.Cleared is null && Notice.Urgency != Urgency.Record && Answer is null;
}

/// <summary>Somebody has seen a notice.</summary>
public sealed record Acknowledgement(Instant At, string? By);

/// <summary>What a notice turned out to be.</summary>
/// <param name="At">When that was said.</param>
/// <param name="Was">A cause of the command contract, <c>nothing</c> for a false notice, or <c>other</c>.</param>
/// <param name="By">Who said so.</param>
/// <param name="Note">In their words.</param>
public sealed record ClosingAnswer(Instant At, string Was, string? By, string? Note);
