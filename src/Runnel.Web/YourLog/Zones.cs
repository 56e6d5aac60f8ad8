using NodaTime.TimeZones;

namespace Runnel.Web.YourLog;

/// <summary>Time zones to choose from, with the town that gives each its name.</summary>
public static class Zones
{
    /// <summary>One zone.</summary>
    public sealed record Zone(string Id, string Region, string Words, double LatitudeDeg, double LongitudeDeg);

    /// <summary>By part of the world, then by town.</summary>
    public static readonly IReadOnlyList<Zone> All =
    [
        .. (TzdbDateTimeZoneSource.Default.ZoneLocations ?? [])
            .Where(l => l.ZoneId.Contains('/'))
            .Select(l => new Zone(l.ZoneId, l.ZoneId[..l.ZoneId.IndexOf('/')], $"{Town(l.ZoneId)}, {l.CountryName}", l.Latitude, l.Longitude))
            .OrderBy(z => z.Region, StringComparer.Ordinal).ThenBy(z => z.Words, StringComparer.Ordinal),
    ];

    /// <summary>The zone of that name, or null.</summary>
    public static Zone? Find(string? id) => All.FirstOrDefault(z => z.Id == id);

    private static string Town(string id) => id[(id.IndexOf('/') + 1)..].Replace('_', ' ').Replace("/", ", ", StringComparison.Ordinal);
}
