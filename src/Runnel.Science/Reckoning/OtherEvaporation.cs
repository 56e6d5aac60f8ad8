using Runnel.Science.Air;
using Runnel.Science.Plants;
using Runnel.Science.Water;
using static Runnel.Science.Reckoning.Ask;

namespace Runnel.Science.Reckoning;

/// <summary>Evaporation where the weather station is poor, the tank small, or a roof overhead.</summary>
internal static class OtherEvaporation
{
    private const string McMahon = "as in McMahon and others (2013), Hydrol. Earth Syst. Sci. 17:1331-1363.";

    private static readonly Input Mean = Number("tmean_c", "degC", "mean air temperature of the day", -14, 60, "22");
    private static readonly Input AboveAir = Number("ra_mj_m2_day", "MJ/(m2 d)", "radiation above the air", 0, 60, "40");

    public static readonly Relation[] All =
    [
        new("tank-evaporation", "How much does a small tank lose?")
        {
            Explanation = "Evaporation of a small tank or pool from the damp of the air over it and the water's own warmth: heated tanks in cold dry air lose most.",
            Inputs =
            [
                Number("area_m2", "m2", "open water", 0, 1e5, "4"), Number("water_c", "degC", "water temperature", 0, 50, "26"), Number("temperature_c", "degC", "air temperature", -30, 60, "18"),
                Number("rh_pct", "%", "relative humidity", 0, 100, "60"), Number("wind_m_s", "m/s", "air speed over the water", 0, 10, "0.1"),
                Number("latent_heat_kj_kg", "kJ/kg", "latent heat at the water's temperature", 2200, 2600, "2430").Or("2430"),
            ],
            Outputs = [new("evaporation_kg_h", "kg/h", "evaporation"), new("evaporation_l_d", "L/d", "the same in litres a day")],
            Along = "wind_m_s", Shown = (0, 3),
            Formula = "A (pw - pa)(0.089 + 0.0782 V)/Y",
            Source = "ASHRAE Handbook, HVAC Applications, natatoriums; coefficients from memory.",
            Reckon = g =>
            {
                double kgPerH = OpenWaterEvaporation.SmallTankKgPerH(g["area_m2"], g["water_c"], g["temperature_c"], g["rh_pct"] / 100, g["wind_m_s"], g["latent_heat_kj_kg"]);
                return [kgPerH, 24 * kgPerH];
            },
            Meaning = a => a["evaporation_kg_h"] >= 0 ? $"{a.Say("evaporation_l_d")}; a cover saves most of it, and the heat that goes with it." : "Moisture settles on the cold water.",
        },
        new("greenhouse-eto", "How much do plants drink under plastic?")
        {
            Explanation = "Reference evapotranspiration in an unheated plastic greenhouse, from the sun outside and the cover. In the southern hemisphere add half a year to the day.",
            Inputs = [DayOfYear, Number("outside_radiation_mm_day", "mm/d", "sun outside as mm of water (MJ/m2 x 0.408)", 0, 25, "8"), Number("cover_transmissivity", "1", "share that the cover lets through", 0, 1, "0.65")],
            Outputs = [new("eto_mm_day", "mm/d", "reference evapotranspiration inside")],
            Along = "outside_radiation_mm_day", Shown = (0, 12),
            Formula = "(0.288 + 0.0019 day) x inside sun to day 220, (1.339 - 0.00288 day) x inside sun after it",
            Source = "Fernandez and others (2010), Irrigation Science 28:497-509, calibrated at Almeria; coefficients from memory.",
            Reckon = g => [GreenhouseEvapotranspiration.PlasticMmPerDay((int)g["day_of_year"], g["outside_radiation_mm_day"], g["cover_transmissivity"])],
            Meaning = a => $"{a.Say("eto_mm_day")}, times the crop coefficient.",
        },
        new("shade-net", "What does a shade net save?")
        {
            Explanation = "Share of irrigation that a black screen saves, for plausibility only.",
            Inputs = [Number("shade_pct", "%", "light that the net holds back", 0, 60, "30")],
            Outputs = [new("irrigation_reduction_pct", "%", "irrigation saved")],
            Along = "shade_pct",
            Formula = "38/30 x shade",
            Source = "Moeller and Assouline (2007), Irrigation Science 25:171-181: 38 % (give or take 8) under 30 %, from memory; in proportion elsewhere, which is common practice.",
            Reckon = g => [100 * ShadeNet.IrrigationSavedShare(g["shade_pct"] / 100)],
            Meaning = a => $"About {a.Say("irrigation_reduction_pct")}.",
        },
        new("open-water-shuttleworth", "What does open water lose, by the other wind function?")
        {
            Explanation = "Penman's evaporation from open water with Shuttleworth's wind function.",
            Inputs = [Latitude, Elevation, DayOfYear, Date, TempMax, TempMin, RhMax, RhMin, Wind2, SunOfDay, Number("albedo", "1", "share of sun thrown back by the water", 0, 1, "0.08").Or("0.08")],
            Choices = [Day],
            Rules = [Rule.NotAbove("tmin_c", "tmax_c"), Rule.NotAbove("rhmin_pct", "rhmax_pct")],
            Outputs = [new("evaporation_mm_day", "mm/d", "evaporation"), new("rn_mj_m2_day", "MJ/(m2 d)", "net radiation")],
            Along = "wind_2m_m_s", Shown = (0, 8),
            Formula = "E = D/(D + g) Rn/2.45 + g/(D + g) 6.43 (1 + 0.536 u2)(es - ea)/2.45",
            Source = "Shuttleworth (1993), Handbook of Hydrology, chapter 4.",
            Reckon = g =>
            {
                double actual = VapourPressure.FromHumidityExtremesKPa(g["tmax_c"], g["tmin_c"], g["rhmax_pct"] / 100, g["rhmin_pct"] / 100);
                var day = OpenWaterEvaporation.PenmanDaily(
                    g["latitude_deg"], g["elevation_m"], DayOf(g), g["tmax_c"], g["tmin_c"], actual, g["wind_2m_m_s"], g["rs_mj_m2_day"], g["albedo"],
                    OpenWaterEvaporation.ShuttleworthWindA, OpenWaterEvaporation.ShuttleworthWindB);
                return [day.EvaporationMm, day.NetRadiationMJPerM2];
            },
            Meaning = a => $"{a.Say("evaporation_mm_day")}.",
        },
        new("priestley-taylor", "What evaporates where wind carries little?")
        {
            Explanation = "Evaporation of a day from net radiation and temperature.",
            Inputs = [Mean, Number("rn_mj_m2_day", "MJ/(m2 d)", "net radiation", -10, 40, "12"), Elevation, Number("alpha", "1", "factor on equilibrium evaporation", 0.5, 2, "1.26").Or("1.26")],
            Outputs = [new("evaporation_mm_day", "mm/d", "evaporation")],
            Along = "rn_mj_m2_day", Shown = (0, 20),
            Formula = "E = 1.26 D/(D + g) Rn/2.45",
            Source = "Priestley and Taylor (1972), " + McMahon,
            Reckon = g => [OpenWaterEvaporation.PriestleyTaylorMmPerDay(g["tmean_c"], g["rn_mj_m2_day"], Atmosphere.PressureKPa(g["elevation_m"]), g["alpha"])],
            Meaning = a => $"{a.Say("evaporation_mm_day")}.",
        },
        new("makkink", "What do plants lose, from sun and warmth?")
        {
            Explanation = "Evapotranspiration of a day from temperature and solar radiation.",
            Inputs = [Mean, SunOfDay, Elevation],
            Outputs = [new("evaporation_mm_day", "mm/d", "evapotranspiration")],
            Along = "rs_mj_m2_day", Shown = (0, 30),
            Formula = "E = 0.61 D/(D + g) Rs/2.45 - 0.12",
            Source = "Makkink (1957), " + McMahon,
            Reckon = g => [OpenWaterEvaporation.MakkinkMmPerDay(g["tmean_c"], g["rs_mj_m2_day"], Atmosphere.PressureKPa(g["elevation_m"]))],
            Meaning = a => $"{a.Say("evaporation_mm_day")}.",
        },
        new("turc", "What do plants lose, from sun, warmth and damp?")
        {
            Explanation = "Evapotranspiration of a day from temperature, humidity and solar radiation.",
            Inputs = [Mean, Number("rhmean_pct", "%", "mean relative humidity", 0, 100, "60"), SunOfDay],
            Outputs = [new("evaporation_mm_day", "mm/d", "evapotranspiration")],
            Along = "rs_mj_m2_day", Shown = (0, 30),
            Formula = "E = 0.013 (23.88 Rs + 50) T/(T + 15), raised below 50 % humidity",
            Source = "Turc (1961), " + McMahon,
            Reckon = g => [OpenWaterEvaporation.TurcMmPerDay(g["tmean_c"], g["rhmean_pct"] / 100, g["rs_mj_m2_day"])],
            Meaning = a => $"{a.Say("evaporation_mm_day")}.",
        },
        new("hargreaves-samani", "What do plants lose, from the temperature range?")
        {
            Explanation = "Evapotranspiration of a day with a coefficient that follows the temperature range.",
            Inputs = [TempMax, TempMin, AboveAir],
            Rules = [Rule.NotAbove("tmin_c", "tmax_c")],
            Outputs = [new("evaporation_mm_day", "mm/d", "evapotranspiration")],
            Along = "tmax_c", Shown = (21, 45),
            Formula = "E = 0.0135 C Ra/2.45 sqrt(dT) (T + 17.8), C = 0.00185 dT^2 - 0.0433 dT + 0.4023",
            Source = "Hargreaves and Samani (1985), " + McMahon,
            Reckon = g => [OpenWaterEvaporation.HargreavesSamaniMmPerDay(g["tmax_c"], g["tmin_c"], g["ra_mj_m2_day"])],
            Meaning = a => $"{a.Say("evaporation_mm_day")}.",
        },
        new("standard-atmosphere", "What is the air pressure up here?")
        {
            Explanation = "Pressure and temperature of the standard atmosphere by altitude; weather moves pressure by about 3 %.",
            Inputs = [Number("altitude_m", "m", "height above sea level", -5000, 11_000, "300").Also("elevation_m")],
            Outputs =
            [
                new("pressure_kpa", "kPa", "air pressure"), new("temperature_c", "degC", "air temperature of the standard atmosphere"), new("pressure_fao_kpa", "kPa", "air pressure by the FAO-56 form"),
                new Output("pressure_pa", "Pa", "air pressure").Folded(),
            ],
            Along = "altitude_m", Shown = (0, 4000),
            Formula = "p = 101.325 (1 - 2.25577e-5 z)^5.2559",
            Source = "ASHRAE Handbook Fundamentals (2017), chapter 1, equations 3 and 4; FAO-56 equation 7.",
            Reckon = g =>
            [
                StandardAtmosphere.PressurePa(g["altitude_m"]) / 1000, StandardAtmosphere.TempC(g["altitude_m"]),
                g["altitude_m"] is >= -450 and <= 6000 ? Atmosphere.PressureKPa(g["altitude_m"]) : double.NaN, StandardAtmosphere.PressurePa(g["altitude_m"]),
            ],
            Meaning = a => $"{a.Say("pressure_kpa")}.",
        },
    ];
}
