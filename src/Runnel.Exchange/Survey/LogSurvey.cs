using Runnel.Place;

namespace Runnel.Exchange.Survey;

/// <summary>How a log lays out its readings.</summary>
public enum LogForm
{
    /// <summary>Time, channel, value: one reading a row.</summary>
    LongForm,

    /// <summary>Time and one column a channel.</summary>
    WideForm,
}

/// <summary>How far a guess may be trusted.</summary>
public enum Certainty
{
    /// <summary>Name and values agree.</summary>
    Sure,

    /// <summary>The name says so and the values do not contradict, or the values leave little else.</summary>
    Likely,

    /// <summary>Something to ask about.</summary>
    Guess,
}

/// <summary>What a log holds, as seen without a place file.</summary>
public sealed record LogSurvey
{
    /// <summary>In words: comma, semicolon, tab or vertical bar.</summary>
    public required string Separator { get; init; }

    public required LogForm Form { get; init; }

    /// <summary>Heading of the time column; two headings joined by a plus sign where date and time stand apart.</summary>
    public required string TimeColumn { get; init; }

    /// <summary>Whether times name their offset (or count from 1970), so that the log does not depend on the zone of the place.</summary>
    public required bool TimesHaveOffset { get; init; }

    /// <summary>How the times are written, in words.</summary>
    public required string TimeForm { get; init; }

    /// <summary>The first time that was understood, as written.</summary>
    public required string FirstTime { get; init; }

    /// <summary>The last time that was understood, as written.</summary>
    public required string LastTime { get; init; }

    /// <summary>Days from the earliest to the latest time, rows of a wrong clock aside.</summary>
    public required double Days { get; init; }

    /// <summary>Rows below the header that were looked at.</summary>
    public required long Rows { get; init; }

    /// <summary>False where the log is so long that only its first part was looked at.</summary>
    public required bool IsWhole { get; init; }

    /// <summary>The channels, in the order in which they first appear.</summary>
    public required IReadOnlyList<FoundChannel> Channels { get; init; }

    /// <summary>The headings.</summary>
    public required IReadOnlyList<string> Columns { get; init; }

    /// <summary>The first rows below the header, field by field.</summary>
    public required IReadOnlyList<IReadOnlyList<string>> Preview { get; init; }

    public required IReadOnlyList<string> Remarks { get; init; }
}

/// <summary>A column of the wide form or a name of the long form, and what it probably is.</summary>
/// <param name="Name">As written in the log.</param>
/// <param name="Statistics">What its values look like.</param>
/// <param name="Guess">What it probably measures, or null where nothing fits.</param>
public sealed record FoundChannel(string Name, ChannelStatistics Statistics, ChannelGuess? Guess);

/// <summary>What a channel's values look like.</summary>
/// <param name="Readings">Values that were understood.</param>
/// <param name="NotUnderstood">Values that were not, empty ones aside.</param>
/// <param name="Least">Least value.</param>
/// <param name="Greatest">Greatest value.</param>
/// <param name="Mean">Mean of the values.</param>
/// <param name="IsSwitch">Only two states occur.</param>
/// <param name="ChangesPerDay">How often the state of a switch, or low and high of another channel, change in a day.</param>
/// <param name="ShareOn">Share of the time that a switch is on, 0 to 1; else null.</param>
/// <param name="TypicalIntervalS">Usual time between rows, s; null with a single row.</param>
/// <param name="DailyCycle">Share of the variance that the hour of the day explains, 0 to 1; 0 under two days.</param>
/// <param name="ShareZero">Share of values that are zero.</param>
/// <param name="NeverFalls">A count that only rises.</param>
public sealed record ChannelStatistics(
    long Readings, long NotUnderstood, double Least, double Greatest, double Mean, bool IsSwitch, double ChangesPerDay, double? ShareOn,
    double? TypicalIntervalS, double DailyCycle, double ShareZero, bool NeverFalls);

/// <summary>What a channel probably measures.</summary>
/// <param name="Measures">The quantity.</param>
/// <param name="Equipment">What it switches or belongs to, or null.</param>
/// <param name="Vessel">The vessel it sits in, or null.</param>
/// <param name="Certainty">How far to trust it.</param>
/// <param name="Reason">Why, in words.</param>
/// <param name="Scale">Multiplier that turns the logged value into the quantity's unit.</param>
/// <param name="Offset">Added after the multiplier.</param>
public sealed record ChannelGuess(
    Quantity Measures, EquipmentKind? Equipment, VesselKind? Vessel, Certainty Certainty, string Reason, double Scale = 1, double Offset = 0);
