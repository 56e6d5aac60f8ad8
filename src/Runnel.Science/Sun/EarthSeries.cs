namespace Runnel.Science.Sun;

/// <summary>Heliocentric longitude and latitude (1e-8 rad) and distance (1e-8 astronomical units) of the earth, with all terms or with the leading ones.</summary>
internal sealed class EarthSeries
{
    public static readonly EarthSeries Full = new(0, 0, 0);

    // What is left out of the longitude adds up to 0.0003 degrees, and 0.0015 at worst; the latitude is never more than that.
    public static readonly EarthSeries Quick = new(490, double.PositiveInfinity, 5000);

    private EarthSeries(double leastLongitude, double leastLatitude, double leastDistance)
    {
        Longitude = new(
            new(EarthTerms.Longitude0, leastLongitude), new(EarthTerms.Longitude1, leastLongitude), new(EarthTerms.Longitude2, leastLongitude), new(EarthTerms.Longitude3, leastLongitude),
            new(EarthTerms.Longitude4, leastLongitude), new(EarthTerms.Longitude5, leastLongitude));
        Latitude = new(new(EarthTerms.Latitude0, leastLatitude), new(EarthTerms.Latitude1, leastLatitude));
        Distance = new(
            new(EarthTerms.Distance0, leastDistance), new(EarthTerms.Distance1, leastDistance), new(EarthTerms.Distance2, leastDistance), new(EarthTerms.Distance3, leastDistance),
            new(EarthTerms.Distance4, leastDistance));
    }

    public PeriodicSeries Longitude { get; }

    public PeriodicSeries Latitude { get; }

    public PeriodicSeries Distance { get; }
}
