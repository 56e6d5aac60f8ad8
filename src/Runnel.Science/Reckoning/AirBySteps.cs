using Runnel.Science.Air;
using Runnel.Science.Soil;
using Runnel.Science.Sun;
using static Runnel.Science.Reckoning.Ask;

namespace Runnel.Science.Reckoning;

/// <summary>The terms of evapotranspiration that the air gives, one at a time.</summary>
internal static class AirBySteps
{
    internal const string Fao56 = "Allen, Pereira, Raes and Smith (1998), FAO Irrigation and Drainage Paper 56, ";

    private static readonly Input PressureKPa = Number("pressure_kpa", "kPa", "air pressure", 40, 110, "101.3");
    private static readonly Input RhMean = Number("rhmean_pct", "%", "mean relative humidity of the day", 0, 100, "68");

    public static readonly Relation[] All =
    [
        new("pressure-from-elevation", "What is the air pressure at my height?")
        {
            Explanation = "Mean air pressure by height above the sea, as evapotranspiration takes it. Weather moves it by about 3 %.",
            Inputs = [Elevation],
            Outputs = [new("pressure_kpa", "kPa", "air pressure"), new("gamma_kpa_per_c", "kPa/degC", "psychrometric constant")],
            Along = "elevation_m", Shown = (0, 4000),
            Formula = "P = 101.3 ((293 - 0.0065 z)/293)^5.26",
            Source = Fao56 + "equations 7 and 8.",
            Reckon = g =>
            {
                double pressure = Atmosphere.PressureKPa(g["elevation_m"]);
                return [pressure, Atmosphere.PsychrometricConstantKPaPerC(pressure)];
            },
            Meaning = a => $"{a.Say("pressure_kpa")} on an average day.",
        },
        new("psychrometric-constant", "What is the psychrometric constant here?")
        {
            Explanation = "The constant that ties heat and moisture of the air together in evapotranspiration.",
            Inputs = [PressureKPa, Elevation],
            Choices = [new([["pressure_kpa"], ["elevation_m"]])],
            Outputs = [new("gamma_kpa_per_c", "kPa/degC", "psychrometric constant")],
            Along = "pressure_kpa", Shown = (60, 105),
            Formula = "gamma = 0.665e-3 P",
            Source = Fao56 + "equation 8.",
            Reckon = g => [Atmosphere.PsychrometricConstantKPaPerC(g.Has("pressure_kpa") ? g["pressure_kpa"] : Atmosphere.PressureKPa(g["elevation_m"]))],
            Meaning = a => $"{a.Say("gamma_kpa_per_c")}.",
        },
        new("saturation-vapour-pressure", "How much vapour can air hold at this temperature?")
        {
            Explanation = "Vapour pressure of saturated air over water, and how fast it rises with temperature.",
            Inputs = [Number("temperature_c", "degC", "air temperature", -50, 60, "24.5")],
            Outputs = [new("e0_kpa", "kPa", "saturation vapour pressure"), new("delta_kpa_per_c", "kPa/degC", "its slope")],
            Along = "temperature_c", Shown = (0, 45),
            Formula = "e0 = 0.6108 exp(17.27 T/(T + 237.3)); D = 4098 e0/(T + 237.3)^2",
            Source = Fao56 + "equations 11 and 13; up to 0.5 % off the handbook values at 60 °C.",
            Reckon = g => [VapourPressure.SaturationKPa(g["temperature_c"]), VapourPressure.SlopeKPaPerC(g["temperature_c"])],
            Meaning = a => $"At most {a.Say("e0_kpa")} of vapour; each degree more lets in {a.Say("delta_kpa_per_c")}.",
        },
        new("mean-saturation-vapour-pressure", "How much vapour could the day's air hold?")
        {
            Explanation = "Mean of the saturation vapour pressures at the day's highest and lowest temperature. That at the mean temperature would be too low.",
            Inputs = [TempMax, TempMin],
            Rules = [Rule.NotAbove("tmin_c", "tmax_c")],
            Outputs = [new("es_kpa", "kPa", "mean saturation vapour pressure")],
            Along = "tmax_c", Shown = (15, 45),
            Formula = "es = (e0(Tmax) + e0(Tmin))/2",
            Source = Fao56 + "equation 12.",
            Reckon = g => [VapourPressure.MeanSaturationKPa(g["tmax_c"], g["tmin_c"])],
            Meaning = a => $"{a.Say("es_kpa")} over the day.",
        },
        new("actual-vapour-pressure", "How much vapour is in the air?")
        {
            Explanation = "Vapour pressure of the day's air from whatever was measured, the best first: both ends of humidity, its mean, its highest value alone (which suits instruments that err when dry), or the dew point.",
            Inputs = [TempMax, TempMin, RhMax, RhMin, RhMean, Number("dew_point_c", "degC", "dew point", -60, 50, "14.8")],
            Choices = [new([["tmax_c", "tmin_c", "rhmax_pct", "rhmin_pct"], ["tmax_c", "tmin_c", "rhmean_pct"], ["tmin_c", "rhmax_pct"], ["dew_point_c"]])],
            Rules = [Rule.NotAbove("tmin_c", "tmax_c"), Rule.NotAbove("rhmin_pct", "rhmax_pct")],
            Outputs = [new("ea_kpa", "kPa", "actual vapour pressure"), new("dew_point_c", "degC", "dew point")],
            Along = "rhmax_pct", Shown = (50, 100),
            Formula = "ea = (e0(Tmin) RHmax + e0(Tmax) RHmin)/2; or es RHmean; or e0(Tmin) RHmax; or e0(Tdew)",
            Source = Fao56 + "equations 17, 19, 18 and 14.",
            Reckon = g =>
            {
                double ea = g.Has("dew_point_c") ? VapourPressure.FromDewPointKPa(g["dew_point_c"])
                    : g.Has("rhmean_pct") ? VapourPressure.FromMeanHumidityKPa(g["tmax_c"], g["tmin_c"], g["rhmean_pct"] / 100)
                    : g.Has("rhmin_pct") ? VapourPressure.FromHumidityExtremesKPa(g["tmax_c"], g["tmin_c"], g["rhmax_pct"] / 100, g["rhmin_pct"] / 100)
                    : VapourPressure.FromMaxHumidityKPa(g["tmin_c"], g["rhmax_pct"] / 100);
                double log = Math.Log(ea / 0.6108);
                return [ea, g.Has("dew_point_c") ? g["dew_point_c"] : 237.3 * log / (17.27 - log)];
            },
            Meaning = a => $"{a.Say("ea_kpa")}: dew falls on what is colder than {a.Say("dew_point_c")}.",
        },
        new("vapour-pressure-from-psychrometer", "What do my wet and dry thermometers say?")
        {
            Explanation = "Vapour pressure from a dry and a wet thermometer. The coefficient depends on how the wet one is aired.",
            Inputs =
            [
                Number("temperature_c", "degC", "dry thermometer", -20, 60, "30"), Number("wet_bulb_c", "degC", "wet thermometer", -20, 60, "24"), PressureKPa.Or("101.3"),
                Number("a_psy_per_c", "1/degC", "coefficient: 0.000662 with a fan, 0.0008 in moving air, 0.0012 in still air", 0.0005, 0.0015, "0.000662").Or("0.000662"),
            ],
            Rules = [Rule.NotAbove("wet_bulb_c", "temperature_c")],
            Outputs = [new("ea_kpa", "kPa", "actual vapour pressure"), new("rh_pct", "%", "relative humidity")],
            Along = "wet_bulb_c", Shown = (18, 30),
            Formula = "ea = e0(Twet) - a P (Tdry - Twet)",
            Source = Fao56 + "equations 15 and 16.",
            Reckon = g =>
            {
                double ea = VapourPressure.FromWetBulbKPa(g["temperature_c"], g["wet_bulb_c"], g["pressure_kpa"], g["a_psy_per_c"]);
                return [ea, 100 * ea / VapourPressure.SaturationKPa(g["temperature_c"])];
            },
            Meaning = a => $"{a.Say("ea_kpa")}, a relative humidity of {a.Say("rh_pct")}.",
        },
        new("vapour-pressure-deficit", "How thirsty is the day's air?")
        {
            Explanation = "What the air could still take up, over a day: it pulls water through leaves.",
            Inputs = [TempMax, TempMin, RhMax, RhMin],
            Rules = [Rule.NotAbove("tmin_c", "tmax_c"), Rule.NotAbove("rhmin_pct", "rhmax_pct")],
            Outputs = [new("vpd_kpa", "kPa", "vapour pressure deficit"), new("es_kpa", "kPa", "mean saturation vapour pressure"), new("ea_kpa", "kPa", "actual vapour pressure")],
            Along = "rhmin_pct", Shown = (10, 80),
            Formula = "VPD = es - ea",
            Source = Fao56 + "equations 12 and 17, chapter 3.",
            Reckon = g =>
            {
                double ea = VapourPressure.FromHumidityExtremesKPa(g["tmax_c"], g["tmin_c"], g["rhmax_pct"] / 100, g["rhmin_pct"] / 100);
                double es = VapourPressure.MeanSaturationKPa(g["tmax_c"], g["tmin_c"]);
                return [es - ea, es, ea];
            },
            Meaning = a => $"{a.Say("vpd_kpa")} over the day.",
        },
        new("wind-to-2m", "How strong is the wind at plant height?")
        {
            Explanation = "Wind measured at another height over short grass, carried to 2 m, the height that evapotranspiration asks for; or the speed of a day's wind run at 2 m.",
            Inputs = [Number("wind_m_s", "m/s", "wind speed", 0, 100, "3.2"), Number("wind_height_m", "m", "height it was measured at", 0.5, 100, "10"), Number("wind_run_km_day", "km/d", "wind run of a day at 2 m", 0, 5000, "173")],
            Choices = [new([["wind_m_s", "wind_height_m"], ["wind_run_km_day"]])],
            Outputs = [new("wind_2m_m_s", "m/s", "wind at 2 m")],
            Along = "wind_height_m", Shown = (1, 20),
            Formula = "u2 = uz 4.87/ln(67.8 z - 5.42); u2 = run/86.4",
            Source = Fao56 + "equation 47.",
            Reckon = g => [g.Has("wind_run_km_day") ? Wind.FromRunMPerS(g["wind_run_km_day"]) : Wind.At2MMPerS(g["wind_m_s"], g["wind_height_m"])],
            Meaning = a => $"{a.Say("wind_2m_m_s")} at 2 m.",
        },
        new("energy-to-depth", "How much water does that energy evaporate?")
        {
            Explanation = "Depth of water that radiation could evaporate if all of it went there.",
            Inputs = [Number("energy_mj_m2_day", "MJ/(m2 d)", "energy", -60, 60, "12"), Number("latent_heat_mj_kg", "MJ/kg", "latent heat", 2.2, 2.6, "2.45").Or("2.45")],
            Outputs = [new("depth_mm_day", "mm/d", "depth of water")],
            Along = "energy_mj_m2_day", Shown = (0, 30),
            Formula = "mm = MJ/2.45",
            Source = Fao56 + "equation 20.",
            Reckon = g => [SurfaceRadiation.ToDepthMm(g["energy_mj_m2_day"], g["latent_heat_mj_kg"])],
            Meaning = a => $"At most {a.Say("depth_mm_day")}.",
        },
        new("soil-heat-flux-month", "How much heat does the soil take in a month?")
        {
            Explanation = "Heat into the soil over a month, from the mean air temperature of the month before and of the month after, or of this one where the next is not known yet.",
            Inputs = [Number("tmonth_prev_c", "degC", "mean air temperature of the month before", -60, 60, "14.1"), Number("tmonth_next_c", "degC", "mean air temperature of the month after", -60, 60, "18.8"), Number("tmonth_c", "degC", "mean air temperature of this month", -60, 60, "16.1")],
            Choices = [new([["tmonth_next_c"], ["tmonth_c"]])],
            Outputs = [new("soil_heat_mj_m2_day", "MJ/(m2 d)", "heat into the soil")],
            Along = "tmonth_prev_c", Shown = (0, 30),
            Formula = "G = 0.07 (Tnext - Tprevious), or 0.14 (Tthis - Tprevious)",
            Source = Fao56 + "equations 43 and 44.",
            Reckon = g => [g.Has("tmonth_next_c") ? SoilHeatFlux.MonthBetweenMJPerM2Day(g["tmonth_prev_c"], g["tmonth_next_c"]) : SoilHeatFlux.MonthSoFarMJPerM2Day(g["tmonth_prev_c"], g["tmonth_c"])],
            Meaning = a => $"{a.Say("soil_heat_mj_m2_day")}; over single days it is taken as nothing.",
        },
        new("rhmin-from-temperatures", "How dry was it at noon, if I only have a thermometer?")
        {
            Explanation = "Lowest humidity of a day guessed from its temperatures, with the dew point taken at the lowest one. Poor in dry country.",
            Inputs = [TempMax, TempMin],
            Rules = [Rule.NotAbove("tmin_c", "tmax_c")],
            Outputs = [new("rhmin_pct", "%", "lowest relative humidity")],
            Along = "tmax_c", Shown = (20, 45),
            Formula = "RHmin = 100 e0(Tmin)/e0(Tmax)",
            Source = Fao56 + "equation 64.",
            Reckon = g => [100 * VapourPressure.MinHumidityFromTemperatures(g["tmax_c"], g["tmin_c"])],
            Meaning = a => $"About {a.Say("rhmin_pct")} at the hottest hour.",
        },
    ];
}
