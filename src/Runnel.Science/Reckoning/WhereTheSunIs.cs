using Runnel.Science.Sun;
using static Runnel.Science.Reckoning.Ask;

namespace Runnel.Science.Reckoning;

/// <summary>Where the sun stands, when it rises and sets.</summary>
internal static class WhereTheSunIs
{
    public static readonly Relation Sun = new("sun", "Where does the sun stand?")
    {
        Explanation = "Height and direction of the sun at a moment, and sunrise, noon and sunset of that day. Give the moment with its offset, or a date with the clock's offset from universal time (without a time of day it is reckoned for noon). Near the poles there may be no sunrise or sunset.",
        Inputs =
        [
            Latitude, LongitudeEast,
            new Input("local_date", "date", "date by the clock") { Kind = InputKind.Date, Example = "2026-01-15" },
            Number("utc_offset_h", "h", "the clock's hours ahead of universal time (Brisbane 10, Berlin 1, New York -5; one more in summer time)", -14, 14, "10"),
            new Input("local_time", "clock", "time of day by the clock of that date") { Kind = InputKind.Clock, Example = "12:00", Default = "12:00", Optional = true },
            new Input("time", "time", "moment with its offset") { Kind = InputKind.Time, Example = "2026-01-15T09:00:00+10:00" },
            Elevation.Within(-450, 9000).Or("0"),
            Number("pressure_mbar", "mbar", "air pressure, which lifts the sun a little", 0, 1100, "1013.25").Or("1013.25"),
            Number("temperature_c", "degC", "air temperature, for the same", -90, 60, "12").Or("12"),
            Number("delta_t_s", "s", "terrestrial less universal time", -10, 300, "69.2").Or("69.2"),
            Number("surface_slope_deg", "deg", "slope of a surface", 0, 180, "0").Or("0"),
            Number("surface_azimuth_rotation_deg", "deg", "direction it faces, from south, west positive; north is 180", -360, 360, "0").Or("0"),
        ],
        Choices = [new([["local_date", "utc_offset_h"], ["time"]])],
        Rules =
        [
            new("time", g => !g.Has("time") || g.Time("time").Year is >= 1901 and <= 2099, "is out of range", "Give a time of the years 1901 to 2099, a time with its offset such as 2026-02-01T12:00:00+10:00"),
            new("local_date", g => !g.Has("local_date") || g.Date("local_date").Year is >= 1901 and <= 2099, "is out of range", "Give a date of the years 1901 to 2099, a date such as 2026-02-01"),
        ],
        Outputs =
        [
            new("elevation_deg", "deg", "height above the horizon, without refraction"),
            new("azimuth_deg", "deg", "direction from north, eastward"),
            new("sunrise", "time", "sunrise"),
            new("solar_noon", "time", "solar noon"),
            new("sunset", "time", "sunset"),
            new("day_length_h", "h", "from sunrise to sunset"),
            new("apparent_elevation_deg", "deg", "height as seen, with refraction"),
            new Output("polar", "word", "sun stays up (day) or down (night)").Folded(),
            new Output("sunrise_local_h", "h", "sunrise by the clock, hours").Folded(),
            new Output("solar_noon_local_h", "h", "solar noon by the clock, hours").Folded(),
            new Output("sunset_local_h", "h", "sunset by the clock, hours").Folded(),
            new Output("zenith_deg", "deg", "angle from straight up, with refraction").Folded(),
            new Output("zenith_unrefracted_deg", "deg", "angle from straight up, without refraction").Folded(),
            new Output("incidence_deg", "deg", "angle to the upright of the surface").Folded(),
            new Output("equation_of_time_min", "min", "equation of time").Folded(),
            new Output("julian_day", "d", "Julian day").Folded(),
        ],
        Along = "latitude_deg",
        Shown = (-66, 66),
        Formula = "sums of periodic terms of the earth's orbit, then spherical astronomy",
        Source = "Reda and Andreas (2004), Solar Position Algorithm, NREL/TP-560-34302; to 0.0003 degrees. Rise and set where the upper limb meets a level horizon (-0.8333 degrees).",
        Reckon = g =>
        {
            var time = g.Has("time") ? g.Time("time")
                : new DateTimeOffset(g.Date("local_date"), g.Clock("local_time"), TimeSpan.FromMinutes(Math.Round(60 * g["utc_offset_h"])));
            double latitude = g["latitude_deg"], longitude = g["longitude_deg_east"], julian = JulianDay.FromUnix(time.ToUnixTimeMilliseconds() / 1000.0);
            var sun = SolarPosition.At(julian, latitude, longitude, g["elevation_m"], g["pressure_mbar"] / 10, g["temperature_c"], g["delta_t_s"]);
            var day = SunTimes.Of(time.Year, time.Month, time.Day, latitude, longitude, time.Offset.TotalHours);
            return
            [
                sun.TrueElevationDeg, sun.AzimuthDeg, At(time, day.SunriseH), At(time, day.NoonH), At(time, day.SunsetH), day.DayLengthH, sun.ElevationDeg,
                day.Polar switch { PolarState.Night => "night", PolarState.MidnightSun => "day", _ => "none" }, day.SunriseH, day.NoonH, day.SunsetH,
                sun.ZenithDeg, 90 - sun.TrueElevationDeg, sun.IncidenceDeg(g["surface_slope_deg"], 180 + Turned(g["surface_azimuth_rotation_deg"])), sun.EquationOfTimeMin, julian,
            ];
        },
        Meaning = a => $"The sun stands {Figure.Brief(Math.Abs(a["elevation_deg"]))}° {(a["elevation_deg"] < 0 ? "below" : "above")} the horizon, {Toward(a["azimuth_deg"])} ({Figure.Brief(a["azimuth_deg"])}° from north). " + DayInWords(a),
    };

    private static readonly string[] Winds = ["north", "north-east", "east", "south-east", "south", "south-west", "west", "north-west"];

    private static string Toward(double azimuthDeg) => "in the " + Winds[(int)Math.Round(azimuthDeg / 45) % 8];

    private static string DayInWords(Answer a) => a.Say("polar") switch
    {
        "night" => "It does not rise that day.",
        "day" => "It does not set that day.",
        _ when !double.IsFinite(a["day_length_h"]) => "It rises or sets only once that day.",
        _ => $"It is up from {Clock(a["sunrise_local_h"])} to {Clock(a["sunset_local_h"])} by that clock, {a.Say("day_length_h")}.",
    };

    private static string Clock(double hours)
    {
        int minutes = (int)Math.Round(60 * (hours - (24 * Math.Floor(hours / 24)))) % 1440;
        return string.Create(System.Globalization.CultureInfo.InvariantCulture, $"{minutes / 60:00}:{minutes % 60:00}");
    }

    private static double Turned(double deg) => deg - (360 * Math.Round(deg / 360));

    private static string? At(DateTimeOffset day, double? hours) => hours is { } h ? Rfc3339.Of(day, h) : null;
}
