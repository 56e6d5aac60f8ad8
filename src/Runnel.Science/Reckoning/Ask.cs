namespace Runnel.Science.Reckoning;

/// <summary>Inputs that many relations ask for, and the short way to write one.</summary>
internal static class Ask
{
    public static Input WaterTemp { get; } = Number("temp_c", "degC", "water temperature", 0, 50, "25");

    public static Input Ph { get; } = Number("ph", "1", "pH", 0, 14, "7.5");

    public static Input Alkalinity { get; } = Number("alkalinity_mg_l_caco3", "mg/L as CaCO3", "alkalinity", 0, 1000, "80");

    public static Input Volume { get; } = Number("volume_l", "L", "water in the whole system", 0, 1e9, "1000");

    public static Input Oxygen { get; } = Number("do_mg_l", "mg/L", "dissolved oxygen", 0, 60, "6");

    public static Input Tan { get; } = Number("tan_mg_n_l", "mg/L as N", "total ammonia nitrogen (TAN)", 0, 1000, "1");

    public static Input AirPressurePa { get; } = Number("pressure_pa", "Pa", "air pressure", 50_000, 110_000, "101325");

    public static Input Latitude { get; } = Number("latitude_deg", "deg", "latitude, south negative", -90, 90, "-27.5");

    public static Input LongitudeEast { get; } = Number("longitude_deg_east", "deg", "longitude, west negative", -180, 180, "153");

    public static Input Elevation { get; } = Number("elevation_m", "m", "height above sea level", -450, 6000, "30");

    public static Input DayOfYear { get; } = Number("day_of_year", "1", "day of the year", 1, 366, "15") with { Kind = InputKind.Whole };

    public static Input Date { get; } = new("date", "date", "date") { Kind = InputKind.Date, Example = "2026-01-15" };

    public static Input TempMax { get; } = Number("tmax_c", "degC", "highest air temperature of the day", -60, 60, "29");

    public static Input TempMin { get; } = Number("tmin_c", "degC", "lowest air temperature of the day", -60, 60, "21");

    public static Input RhMax { get; } = Number("rhmax_pct", "%", "highest relative humidity of the day", 0, 100, "85");

    public static Input RhMin { get; } = Number("rhmin_pct", "%", "lowest relative humidity of the day", 0, 100, "50");

    public static Input Wind2 { get; } = Number("wind_2m_m_s", "m/s", "wind 2 m above the ground", 0, 50, "2");

    public static Input SunOfDay { get; } = Number("rs_mj_m2_day", "MJ/(m2 d)", "solar radiation of the day", 0, 50, "22");

    public static Input ProteinFraction { get; } = Number("protein_fraction", "1", "protein in the feed, as a fraction", 0, 1, "0.32");

    public static Input Feed { get; } = Number("feed_g_d", "g/d", "feed eaten a day", 0, 1e7, "200");

    public static Input Gravity { get; } = Number("gravity_m_s2", "m/s2", "gravity", 9.7, 9.9, "9.80665").Or("9.80665");

    /// <summary>Either the day of the year or a date.</summary>
    public static OneOf Day { get; } = new([["day_of_year"], ["date"]]);

    /// <summary>A number with a unit and a range.</summary>
    public static Input Number(string name, string unit, string words, double least, double greatest, string example) =>
        new(name, unit, words) { Least = least, Greatest = greatest, Example = example };

    /// <summary>A number without decimals.</summary>
    public static Input Whole(string name, string unit, string words, double least, double greatest, string example) =>
        new(name, unit, words) { Least = least, Greatest = greatest, Example = example, Kind = InputKind.Whole };

    /// <summary>A word out of a list, or any word where the list is empty.</summary>
    public static Input Word(string name, string words, string example, params IReadOnlyList<string> choices) =>
        new(name, "word", words) { Kind = InputKind.Word, Example = example, Choices = choices };

    /// <summary>A row of numbers.</summary>
    public static Input Numbers(string name, string unit, string words, double least, double greatest, string example) =>
        new(name, unit, words) { Least = least, Greatest = greatest, Example = example, Kind = InputKind.Numbers };

    /// <summary>The day of the year, however it was given.</summary>
    public static int DayOf(Given given) => given.Has("date") ? given.Date("date").DayOfYear : (int)given["day_of_year"];
}
