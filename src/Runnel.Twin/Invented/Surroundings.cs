using NodaTime;

namespace Runnel.Twin.Invented;

/// <summary>Where an invented place lies: latitudes of both hemispheres with a civil zone that fits. The households are invented.</summary>
internal static class Surroundings
{
    private static readonly (double Lat, double Lon, string Zone)[] Regions =
    [
        (-34.1, 150.6, "Australia/Sydney"), (-27.6, 152.3, "Australia/Brisbane"), (-37.2, 174.9, "Pacific/Auckland"),
        (-33.6, 18.9, "Africa/Johannesburg"), (-33.0, -70.9, "America/Santiago"), (50.4, 8.3, "Europe/Berlin"),
        (43.7, 1.2, "Europe/Paris"), (40.1, -3.9, "Europe/Madrid"), (38.4, -121.6, "America/Los_Angeles"),
        (39.6, -104.9, "America/Denver"), (35.2, 136.6, "Asia/Tokyo"), (31.8, 35.2, "Asia/Jerusalem"), (52.1, -1.4, "Europe/London"),
    ];

    private static readonly string[] First = ["Alder", "Bramble", "Clover", "Dove", "Elder", "Fern", "Gorse", "Heron", "Ivy", "Juniper", "Kestrel", "Linnet"];
    private static readonly string[] Second = ["Croft", "Acre", "Yard", "Patch", "End", "Hollow", "Bank", "Corner"];

    public static (string Name, double Lat, double Lon, double Altitude, DateTimeZone Zone, LocalDate FirstDay) Draw(Seeded rng)
    {
        var (lat, lon, zone) = Regions[rng.Whole(0, Regions.Length - 1)];
        lat += rng.Between(-1, 1);
        lon += rng.Between(-0.3, 0.3);
        // Growing seasons mostly; a log may run over a change of the clocks.
        int month = lat < 0 ? rng.Pick(9, 10, 11, 12, 1, 2, 3) : rng.Pick(3, 4, 5, 6, 7, 8, 9);
        var day = new LocalDate(rng.Whole(2023, 2025), month, rng.Whole(1, 28));
        string name = $"{First[rng.Whole(0, First.Length - 1)]} {Second[rng.Whole(0, Second.Length - 1)]}";
        return (name, Math.Round(lat, 2), Math.Round(lon, 2), rng.Whole(2, 60) * 10, DateTimeZoneProviders.Tzdb[zone], day);
    }
}
