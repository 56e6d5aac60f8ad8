using Runnel.Science.Sun;
using static Runnel.Science.Reckoning.Ask;

namespace Runnel.Science.Reckoning;

/// <summary>Angles of the sun by hand, and what falls on level and tilted planes.</summary>
internal static class SunAndPanels
{
    private const string Book = "Duffie and Beckman, Solar Engineering of Thermal Processes, ";
    private const double DegPerRad = 180 / Math.PI;

    private static readonly Input HourAngle = Number("hour_angle_deg", "deg", "hour angle: 15 for each hour after solar noon, negative before it", -180, 180, "-22.5");
    private static readonly Input Slope = Number("slope_deg", "deg", "slope of the surface: 0 level, 90 upright", 0, 180, "30");
    private static readonly Input FromSouth = Number("surface_azimuth_deg", "deg", "direction it faces, from south, west positive; north is 180", -180, 180, "180");
    private static readonly Input SolarConstant = Number("solar_constant_w_m2", "W/m2", "solar constant", 1300, 1400, "1367").Or("1367");
    private static readonly Input Zenith = Number("zenith_deg", "deg", "angle of the sun from straight up, with refraction", 0, 89.9, "35");
    private static readonly Input Albedo = Number("albedo", "1", "share that the ground throws back: grass 0.2, snow 0.7", 0, 1, "0.2").Or("0.2");
    private static readonly Input Global = Number("ghi_w_m2", "W/m2", "sun on the level", 0, 1500, "790");
    private static readonly Input GlobalHour = Number("ghi_mj_m2_h", "MJ/(m2 h)", "sun on the level in the hour", 0, 6, "2.2");
    private static readonly Input MidHour = HourAngle.Named("hour_angle_deg", "hour angle at the middle of the hour: 15 for each hour after solar noon");

    public static readonly Relation[] All =
    [
        new("solar-time", "What time is it by the sun?")
        {
            Explanation = "Solar time from the clock, without daylight saving. Longitudes count west of Greenwich, as in the source.",
            Inputs =
            [
                Number("clock_h", "h", "standard clock time, hours", 0, 24, "10.5"), Number("longitude_deg_west", "deg", "longitude west of Greenwich", -360, 360, "207"),
                Number("zone_meridian_deg_west", "deg", "meridian of the time zone, west of Greenwich", -360, 360, "210"), DayOfYear, Date,
            ],
            Choices = [Day],
            Outputs = [new("solar_time_h", "h", "solar time"), new("equation_of_time_min", "min", "equation of time")],
            Along = "day_of_year", Main = "solar_time_h",
            Formula = "solar = clock + (4 (Lzone - Lplace) + E)/60",
            Source = Book + "equations 1.5.2 and 1.5.3 (Spencer 1971); to half a minute.",
            Reckon = g => [SolarGeometry.SolarTimeH(g["clock_h"], g["longitude_deg_west"], g["zone_meridian_deg_west"], DayOf(g)), SolarGeometry.EquationOfTimeMin(DayOf(g))],
            Meaning = a => $"{Clock(a["solar_time_h"])} by the sun; noon by the sun is 12:00.",
        },
        new("sun-angles", "At what angle does the sun meet my panel?")
        {
            Explanation = "Height and direction of the sun, and its angle to a tilted surface, by solar time. To half a degree; the sum of where the sun stands is finer.",
            Inputs = [Latitude, DayOfYear, Date, HourAngle, Slope.Or("0"), FromSouth.Or("0")],
            Choices = [Day],
            Outputs =
            [
                new("incidence_deg", "deg", "between the rays and the upright of the surface"), new("altitude_deg", "deg", "height above the horizon"), new("zenith_deg", "deg", "angle from straight up"),
                new("solar_azimuth_deg", "deg", "direction from south, west positive"), new("declination_deg", "deg", "declination"), new("sunset_angle_deg", "deg", "hour angle of sunset"),
                new("rb", "1", "beam on the surface over beam on the level"),
            ],
            Along = "slope_deg", Shown = (0, 90),
            Formula = "cos z = cos(lat) cos(d) cos(w) + sin(lat) sin(d); cos i = cos z cos(slope) + sin z sin(slope) cos(az - facing); Rb = cos i / cos z",
            Source = Book + "equations 1.6.1 to 1.8.1.",
            Reckon = g =>
            {
                double declination = SolarGeometry.DeclinationDeg(DayOf(g)), latitude = g["latitude_deg"], hour = g["hour_angle_deg"];
                double cosine = SolarGeometry.CosZenith(latitude, declination, hour), incidence = SolarGeometry.CosIncidence(latitude, declination, hour, g["slope_deg"], g["surface_azimuth_deg"]);
                return
                [
                    DegPerRad * Math.Acos(Math.Clamp(incidence, -1, 1)), 90 - (DegPerRad * Math.Acos(cosine)), DegPerRad * Math.Acos(cosine), SolarGeometry.AzimuthDeg(latitude, declination, hour), declination,
                    SolarGeometry.SunsetAngleDeg(latitude, declination), cosine > 0 ? TiltedPlane.BeamRatio(Math.Clamp(incidence, -1, 1), cosine) : double.NaN,
                ];
            },
            Meaning = a => a["altitude_deg"] <= 0 ? "The sun is down." : a["incidence_deg"] >= 90 ? "The sun is behind the surface." : $"The rays meet it {a.Say("incidence_deg")} off its upright: {Amounts.Percent(Math.Cos(a["incidence_deg"] / DegPerRad))} of the beam counts.",
        },
        new("extraterrestrial-radiation", "How much sun is there above the air?")
        {
            Explanation = "Radiation on the level above the air: of a whole day, and of the time between two hour angles where they are given.",
            Inputs = [Latitude, DayOfYear, Date, HourAngle.Named("hour_angle_deg", "hour angle at the start").Say("-15").OrNone(), HourAngle.Named("hour_angle_end_deg", "hour angle at the end").Say("0").OrNone(), SolarConstant],
            Choices = [Day],
            Rules = [new("hour_angle_end_deg", g => g.Has("hour_angle_end_deg") || !g.Has("hour_angle_deg"), "is missing beside hour_angle_deg", "Give the hour angle at the end, -180 to 180 deg"), new("hour_angle_deg", g => g.Has("hour_angle_deg") || !g.Has("hour_angle_end_deg"), "is missing beside hour_angle_end_deg", "Give the hour angle at the start, -180 to 180 deg"), Rule.NotAbove("hour_angle_deg", "hour_angle_end_deg")],
            Outputs = [new("h0_mj_m2_day", "MJ/(m2 d)", "of the day"), new("i0_mj_m2_h", "MJ/m2", "between the hour angles"), new("sunset_angle_deg", "deg", "hour angle of sunset")],
            Along = "latitude_deg",
            Formula = "I0 = 12 x 3600/pi Gsc (1 + 0.033 cos(360 n/365)) (cos(lat) cos(d) (sin w2 - sin w1) + (w2 - w1) sin(lat) sin(d))",
            Source = Book + "equations 1.10.3 and 1.10.4.",
            Reckon = g =>
            {
                double sunset = SolarGeometry.SunsetAngleDeg(g["latitude_deg"], SolarGeometry.DeclinationDeg(DayOf(g)));
                double day = SolarGeometry.ExtraterrestrialMJPerM2(g["latitude_deg"], DayOf(g), -sunset, sunset, g["solar_constant_w_m2"]);
                double part = !g.Has("hour_angle_deg") ? double.NaN : SolarGeometry.ExtraterrestrialMJPerM2(
                    g["latitude_deg"], DayOf(g), Math.Clamp(g["hour_angle_deg"], -sunset, sunset), Math.Clamp(g["hour_angle_end_deg"], -sunset, sunset), g["solar_constant_w_m2"]);
                return [day, part, sunset];
            },
            Meaning = a => $"{a.Say("h0_mj_m2_day")} above the air; a clear sky lets through about three quarters.",
        },
        new("beam-and-diffuse", "How much of the sun is beam, how much is sky?")
        {
            Explanation = "Splits what a level meter shows into the beam and the light of the sky. Good over many hours, rough for one.",
            Inputs = [Global, Zenith, DayOfYear, Date],
            Choices = [Day],
            Outputs = [new("dhi_w_m2", "W/m2", "from the sky, on the level"), new("dni_w_m2", "W/m2", "beam, on a surface that faces the sun"), new("kt", "1", "clearness index")],
            Along = "ghi_w_m2", Shown = (0, 1000),
            Formula = "kt = GHI/(G0 cos z); sky share by kt: 1 - 0.09 kt up to 0.22, a quartic to 0.8, 0.165 beyond",
            Source = "Erbs, Klein and Duffie (1982), Solar Energy 28:293-302; Spencer (1971) for the sun above the air.",
            Reckon = g =>
            {
                double cosine = Math.Cos(g["zenith_deg"] / DegPerRad), clearness = g["ghi_w_m2"] / (DiffuseSplit.ExtraterrestrialNormalWPerM2(DayOf(g)) * cosine);
                double sky = g["ghi_w_m2"] * DiffuseSplit.ErbsDiffuseShare(clearness);
                return [sky, (g["ghi_w_m2"] - sky) / cosine, clearness];
            },
            Meaning = a => $"{a.Say("dhi_w_m2")} from the sky, a beam of {a.Say("dni_w_m2")}" + (a["kt"] > 0.85 ? "; more than clear air lets through: check the meter and the angle." : "."),
        },
        new("tilted-plane", "How much sun falls on my tilted panel?")
        {
            Explanation = "Sun on a tilted surface from beam, sky and ground, with three views of the sky: evenly bright, brighter about the sun, and brighter at the horizon too (HDKR), which is nearest to measurements.",
            Inputs =
            [
                Global, Number("dni_w_m2", "W/m2", "beam, on a surface that faces the sun", 0, 1500, "780"), Number("dhi_w_m2", "W/m2", "from the sky, on the level", 0, 1000, "150"), Zenith,
                Number("sun_azimuth_from_north_deg", "deg", "direction of the sun from north, eastward", -360, 360, "40"), Slope.Say("27"),
                Number("surface_azimuth_from_north_deg", "deg", "direction the surface faces, from north, eastward", -360, 360, "0"), Albedo, DayOfYear, Date,
            ],
            Choices = [Day],
            Outputs =
            [
                new("poa_hdkr_w_m2", "W/m2", "on the surface, HDKR"), new("poa_hay_davies_w_m2", "W/m2", "on the surface, sky brighter about the sun"), new("poa_isotropic_w_m2", "W/m2", "on the surface, sky evenly bright"),
                new("poa_beam_w_m2", "W/m2", "of it beam"), new("poa_ground_w_m2", "W/m2", "of it from the ground"), new("incidence_deg", "deg", "between the rays and the upright of the surface"), new("dni_extra_w_m2", "W/m2", "sun above the air"),
            ],
            Along = "slope_deg", Shown = (0, 90),
            Formula = "beam DNI cos i + sky + GHI albedo (1 - cos(slope))/2",
            Source = Book + "section 2.16; Liu and Jordan (1963); Hay and Davies (1980); Reindl, Beckman and Duffie (1990), Solar Energy 45:9-17.",
            Reckon = g =>
            {
                double slope = g["slope_deg"], normal = g["dni_w_m2"], sky = g["dhi_w_m2"], global = g["ghi_w_m2"], outside = DiffuseSplit.ExtraterrestrialNormalWPerM2(DayOf(g));
                double incidence = new SolarPosition(90 - g["zenith_deg"], 90 - g["zenith_deg"], g["sun_azimuth_from_north_deg"], 0).IncidenceDeg(slope, g["surface_azimuth_from_north_deg"]);
                double cosZenith = Math.Cos(g["zenith_deg"] / DegPerRad), cosIncidence = Math.Clamp(Math.Cos(incidence / DegPerRad), -1, 1);
                double beam = normal * Math.Max(0, cosIncidence), ground = TiltedPlane.Ground(global, slope, g["albedo"]);
                double ratio = TiltedPlane.BeamRatio(cosIncidence, cosZenith), clear = Math.Min(1, normal / outside), share = global > 0 ? Math.Min(1, normal * cosZenith / global) : 0;
                return
                [
                    beam + ground + TiltedPlane.HdkrSky(sky, slope, ratio, clear, share), beam + ground + TiltedPlane.HayDaviesSky(sky, slope, ratio, clear),
                    beam + ground + TiltedPlane.IsotropicSky(sky, slope), beam, ground, incidence, outside,
                ];
            },
            Meaning = a => $"{a.Say("poa_hdkr_w_m2")} on the surface, against {Figure.Say(a.Given["ghi_w_m2"], "W/m2")} on the level.",
        },
        new("tilted-plane-hour", "How much sun falls on my tilted panel in an hour?")
        {
            Explanation = "Sun on a tilted surface over an hour with the sky evenly bright; beam and sky are split by clearness where they were not measured. Low by some percent for surfaces that face the sun.",
            Inputs = HourInputs, Choices = [Day, BeamAndSky],
            Outputs = HourOutputs,
            Along = "slope_deg", Shown = (0, 90),
            Formula = "I = Ib Rb + Id (1 + cos(slope))/2 + I albedo (1 - cos(slope))/2",
            Source = Book + "section 2.15 (Liu and Jordan 1963), with the split of Erbs, Klein and Duffie (1982).",
            Reckon = g => Hour(g, false),
            Meaning = a => $"{a.Say("tilted_mj_m2_h")} on the surface, against {Figure.Say(a.Given["ghi_mj_m2_h"], "MJ/m2")} on the level.",
        },
        new("tilted-plane-hour-hdkr", "How much sun falls on my tilted panel in an hour, to a few percent?")
        {
            Explanation = "Sun on a tilted surface over an hour with a sky that is brighter about the sun and at the horizon (HDKR): nearer to measurements than an evenly bright one.",
            Inputs = HourInputs, Choices = [Day, BeamAndSky],
            Outputs = HourOutputs,
            Along = "slope_deg", Shown = (0, 90),
            Formula = "I = (Ib + Id A) Rb + Id (1 - A) (1 + cos(slope))/2 (1 + sqrt(Ib/I) sin^3(slope/2)) + I albedo (1 - cos(slope))/2",
            Source = Book + "section 2.16; Reindl, Beckman and Duffie (1990), Solar Energy 45:9-17.",
            Reckon = g => Hour(g, true),
            Meaning = a => $"{a.Say("tilted_mj_m2_h")} on the surface, against {Figure.Say(a.Given["ghi_mj_m2_h"], "MJ/m2")} on the level.",
        },
        new("clear-sky", "How strong is the sun under a clear sky?")
        {
            Explanation = "Sun under a cloudless sky from the height of the sun, the height above the sea and the haze.",
            Inputs = [Zenith.Say("15"), Elevation.Within(0, 7000), Number("linke_turbidity", "1", "haze (Linke turbidity): 2 clear and cold, 3 usual, 5 hazy", 1, 10, "3").Or("3"), DayOfYear, Date],
            Choices = [Day],
            Outputs =
            [
                new("ineichen_ghi_w_m2", "W/m2", "on the level"), new("ineichen_dni_w_m2", "W/m2", "beam, on a surface that faces the sun"), new("ineichen_dhi_w_m2", "W/m2", "from the sky, on the level"),
                new("haurwitz_ghi_w_m2", "W/m2", "on the level, by the simplest formula"), new("air_mass_relative", "1", "air passed, against straight up"), new("pressure_pa", "Pa", "air pressure"),
            ],
            Along = "zenith_deg", Shown = (0, 88),
            Formula = "GHI = (5.09e-5 h + 0.868) G0 cos z exp(-(3.92e-5 h + 0.0387) AM (fh1 + fh2 (TL - 1)))",
            Source = "Ineichen and Perez (2002), Solar Energy 73:151-157; air mass of Kasten and Young (1989); Haurwitz (1945).",
            Reckon = g =>
            {
                var sky = ClearSky.Ineichen(g["zenith_deg"], g["elevation_m"], g["linke_turbidity"], DiffuseSplit.ExtraterrestrialNormalWPerM2(DayOf(g)));
                return
                [
                    sky.GlobalWPerM2, sky.BeamNormalWPerM2, sky.DiffuseWPerM2, ClearSky.HaurwitzWPerM2(g["zenith_deg"]), ClearSky.AirMass(g["zenith_deg"]), ClearSky.PressurePa(g["elevation_m"]),
                ];
            },
            Meaning = a => $"{a.Say("ineichen_ghi_w_m2")} on the level when no cloud is near.",
        },
        new("clear-sky-beam", "How strong is the beam under a clear sky?")
        {
            Explanation = "Beam of a clear sky with 23 km of sight, by height above the sea and climate.",
            Inputs =
            [
                Elevation.Within(0, 2500).Say("270"), Number("cos_zenith", "1", "cosine of the sun's angle from straight up", 0.02, 1, "0.846"), Number("r0", "1", "climate factor: summer 0.97, winter 1.03, tropics 0.95", 0.8, 1.2, "0.97").Or("0.97"),
                Number("r1", "1", "climate factor: summer 0.99, winter 1.01, tropics 0.98", 0.8, 1.2, "0.99").Or("0.99"), Number("rk", "1", "climate factor: summer and tropics 1.02, winter 1", 0.8, 1.2, "1.02").Or("1.02"), DayOfYear, Date, SolarConstant,
            ],
            Choices = [Day],
            Outputs = [new("beam_transmittance", "1", "share of the beam that comes through"), new("beam_horizontal_w_m2", "W/m2", "beam on the level")],
            Along = "cos_zenith", Main = "beam_horizontal_w_m2", Shown = (0.05, 1),
            Formula = "tau = a0 + a1 exp(-k/cos z)",
            Source = "Hottel (1976), Solar Energy 18:129-134, as in Duffie and Beckman section 2.8.",
            Reckon = g =>
            {
                double through = ClearSky.HottelBeamTransmittance(g["elevation_m"], g["cos_zenith"], g["r0"], g["r1"], g["rk"]);
                return [through, g["solar_constant_w_m2"] * (1 + (0.033 * Math.Cos(2 * Math.PI * DayOf(g) / 365))) * through * g["cos_zenith"]];
            },
            Meaning = a => $"{Amounts.Percent(a["beam_transmittance"])} comes through: {a.Say("beam_horizontal_w_m2")} on the level.",
        },
    ];

    private static Input[] HourInputs =>
    [
        Latitude, DayOfYear, Date, MidHour, GlobalHour, Slope, FromSouth, Albedo, Number("beam_input_mj_m2_h", "MJ/(m2 h)", "of it beam, measured", 0, 6, "1.5"),
        Number("diffuse_input_mj_m2_h", "MJ/(m2 h)", "of it from the sky, measured", 0, 6, "0.7"), Number("i0_input_mj_m2_h", "MJ/(m2 h)", "sun above the air in the hour, where it is known", 0.001, 6, "3.9").OrNone(),
    ];

    private static OneOf BeamAndSky => new([["beam_input_mj_m2_h", "diffuse_input_mj_m2_h"]], MayBeNone: true);

    private static Output[] HourOutputs =>
    [
        new("tilted_mj_m2_h", "MJ/(m2 h)", "on the surface"), new("rb", "1", "beam on the surface over beam on the level"), new("beam_mj_m2_h", "MJ/(m2 h)", "beam on the level"), new("diffuse_mj_m2_h", "MJ/(m2 h)", "from the sky on the level"),
        new("kt", "1", "clearness index"), new("i0_mj_m2_h", "MJ/(m2 h)", "sun above the air"), new("anisotropy_index", "1", "beam over the sun above the air"),
    ];

    private static Value[] Hour(Given g, bool hdkr)
    {
        double latitude = g["latitude_deg"], hour = g["hour_angle_deg"], slope = g["slope_deg"], global = g["ghi_mj_m2_h"], declination = SolarGeometry.DeclinationDeg(DayOf(g));
        double cosZenith = SolarGeometry.CosZenith(latitude, declination, hour), sunset = SolarGeometry.SunsetAngleDeg(latitude, declination);
        double from = Math.Clamp(hour - 7.5, -sunset, sunset), to = Math.Clamp(hour + 7.5, -sunset, sunset);
        double outside = g.Has("i0_input_mj_m2_h") ? g["i0_input_mj_m2_h"] : SolarGeometry.ExtraterrestrialMJPerM2(latitude, DayOf(g), from, to);
        if (!(cosZenith > 0) || !(outside > 0)) throw new RefusedInputException(new Problem("hour_angle_deg", "has the sun below the horizon", "Give an hour between sunrise and sunset"));
        double ratio = TiltedPlane.BeamRatio(Math.Clamp(SolarGeometry.CosIncidence(latitude, declination, hour, slope, g["surface_azimuth_deg"]), -1, 1), cosZenith);
        double sky = g.Or("diffuse_input_mj_m2_h", global * DiffuseSplit.ErbsDiffuseShare(global / outside)), beam = g.Or("beam_input_mj_m2_h", global - sky);
        double clear = beam / outside, fromSky = hdkr ? TiltedPlane.HdkrSky(sky, slope, ratio, Math.Min(1, clear), global > 0 ? Math.Min(1, beam / global) : 0) : TiltedPlane.IsotropicSky(sky, slope);
        return [(beam * ratio) + fromSky + TiltedPlane.Ground(global, slope, g["albedo"]), ratio, beam, sky, global / outside, outside, clear];
    }

    private static string Clock(double hours)
    {
        int minutes = (int)Math.Round(60 * (hours - (24 * Math.Floor(hours / 24))));
        return string.Create(System.Globalization.CultureInfo.InvariantCulture, $"{minutes / 60 % 24}:{minutes % 60:00}");
    }
}
