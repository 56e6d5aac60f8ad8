namespace Runnel.Place.PlaceFiles;

/// <summary>What someone answered when asked about their place. Null: not known yet; the file then shows how to add it.</summary>
public sealed record PlaceAnswers
{
    public required string Name { get; init; }

    /// <summary>Degrees north; south is negative.</summary>
    public required double LatitudeDeg { get; init; }

    /// <summary>Degrees east; west is negative.</summary>
    public required double LongitudeDeg { get; init; }

    public required double AltitudeM { get; init; }

    /// <summary>A name of the tz database.</summary>
    public required string TimeZone { get; init; }

    /// <summary>Water between the sump's two switch levels; null also where the pump always runs.</summary>
    public double? BandL { get; init; }

    public double? TopUpRateLPerMin { get; init; }

    public double? BleedRateLPerMin { get; init; }

    public double? OpenWaterM2 { get; init; }

    public double? CanopyM2 { get; init; }

    /// <summary>0 under cover.</summary>
    public double? RainCatchM2 { get; init; }

    public required IReadOnlyList<ChannelAnswer> Channels { get; init; }
}

/// <summary>A channel as guessed from a log and confirmed.</summary>
/// <param name="Id">Kebab-case identifier; see <see cref="PlaceFileWriter.IdFor"/>.</param>
/// <param name="Measures">What it measures.</param>
/// <param name="Of">One of <see cref="PlaceFileWriter.Things"/>, with <c>-2</c> and so on for a second one; null for the place.</param>
/// <param name="Column">Its name in the log where that differs from the identifier.</param>
/// <param name="Unit">Unit of its raw values where that is not the quantity's own.</param>
/// <param name="Scale">Multiplier that turns raw values into the quantity's unit.</param>
/// <param name="Offset">Added after the multiplier.</param>
public sealed record ChannelAnswer(
    string Id, Quantity Measures, string? Of = null, string? Column = null, string? Unit = null, double Scale = 1, double Offset = 0);
