namespace Runnel.Tests.Place;

internal static class Sample
{
    /// <summary>The least that diagnose needs, as the guide to the place file prints it.</summary>
    internal const string Least = """
        [place]
        name      = "Weir Cottage"
        latitude  = "34.2 S"
        longitude = "150.6 E"
        altitude  = "80 m"
        time-zone = "Australia/Sydney"

        [loop]
        open-water = "2.5 m2"
        canopy     = "6.5 m2"
        rain-catch = "2.4 m2"
        [[vessel]]
        id   = "sump"
        kind = "sump"
        band = "65 L"

        [[equipment]]
        id   = "sump-pump"
        kind = "pump"
        from = "sump"

        [[equipment]]
        id   = "top-up"
        kind = "top-up-valve"
        rate = "11.5 L/min"

        [[channel]]
        id       = "sump-pump"
        measures = "running"
        of       = "sump-pump"

        [[channel]]
        id       = "top-up-valve"
        measures = "running"
        of       = "top-up"

        """;
}
