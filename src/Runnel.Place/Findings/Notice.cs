using NodaTime;

namespace Runnel.Place.Findings;

/// <summary>How soon a notice wants a person.</summary>
public enum Urgency { ActNow, Today, Soon, Record }

/// <summary>One possible cause with its probability, 0 to 1.</summary>
public sealed record Cause(string Name, double Probability);

/// <summary>What a watch tells people. Causes are the names of the command contract, in kebab-case.</summary>
public sealed record Notice
{
    /// <summary>Likeliest first; their probabilities add up to at most 1.</summary>
    public required IReadOnlyList<Cause> Causes { get; init; }

    /// <summary>How soon it wants a person.</summary>
    public required Urgency Urgency { get; init; }

    /// <summary>When the trouble began, as far as can be told.</summary>
    public required Instant Since { get; init; }

    /// <summary>When the watch first spoke; nothing later than this went into it.</summary>
    public required Instant FirstNoticed { get; init; }

    /// <summary>When it was over, or null while it stands.</summary>
    public Instant? Cleared { get; init; }

    /// <summary>Cautious end of the time left before harm, or null where it cannot be told.</summary>
    public Duration? TimeLeft { get; init; }

    /// <summary>One or two sentences with figures.</summary>
    public required string Evidence { get; init; }

    /// <summary>What to do or look at first.</summary>
    public required string FirstAct { get; init; }

    /// <summary>The first of <see cref="Causes"/>.</summary>
    public string Cause => Causes[0].Name;

    /// <summary>Whether the trouble went on at a time, as known now.</summary>
    public bool StandsAt(Instant time) => Since <= time && !(Cleared <= time);
}
