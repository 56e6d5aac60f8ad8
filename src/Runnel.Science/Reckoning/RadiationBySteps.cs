using Runnel.Science.Sun;
using static Runnel.Science.Reckoning.Ask;

namespace Runnel.Science.Reckoning;

/// <summary>The terms of evapotranspiration that the sun gives, one at a time.</summary>
internal static class RadiationBySteps
{
    private const string Fao56 = AirBySteps.Fao56;

    private static readonly Input Above = Number("ra_mj_m2_day", "MJ/(m2 d)", "radiation above the air, from the sum of that name", 0, 60, "40.6");
    private static readonly Input OfDay = Number("rs_mj_m2_day", "MJ/(m2 d)", "solar radiation", 0, 50, "22");

    public static readonly Relation[] All =
    [
        new("rs-from-sunshine", "How much sun do hours of sunshine make?")
        {
            Explanation = "Solar radiation of a day from hours of bright sunshine against the longest there could be.",
            Inputs =
            [
                Number("sunshine_h", "h", "hours of bright sunshine", 0, 24, "7.1"), Number("daylight_h", "h", "longest possible sunshine", 0.01, 24, "10.9"), Above.Say("25.1"),
                Number("angstrom_a", "1", "share of sun that comes through on an overcast day", 0, 1, "0.25").Or("0.25"), Number("angstrom_b", "1", "share that full sun adds", 0, 1, "0.5").Or("0.5"),
            ],
            Rules = [Rule.NotAbove("sunshine_h", "daylight_h")],
            Outputs = [new("rs_mj_m2_day", "MJ/(m2 d)", "solar radiation")],
            Along = "sunshine_h", Shown = (0, 10.9),
            Formula = "Rs = (a + b n/N) Ra",
            Source = Fao56 + "equation 35 (Angstrom).",
            Reckon = g => [SurfaceRadiation.FromSunshineMJPerM2Day(g["sunshine_h"], g["daylight_h"], g["ra_mj_m2_day"], g["angstrom_a"], g["angstrom_b"])],
            Meaning = a => $"{a.Say("rs_mj_m2_day")}, or {Figure.Say(a["rs_mj_m2_day"] / 3.6, "kWh/m2")} a day.",
        },
        new("clear-sky-radiation", "How much sun on a cloudless day?")
        {
            Explanation = "Solar radiation of a cloudless day from what arrives above the air: an upper bound that shows when a radiation meter is dirty or off.",
            Inputs = [Above.Say("41.09"), Elevation],
            Outputs = [new("rso_mj_m2_day", "MJ/(m2 d)", "clear-sky solar radiation")],
            Along = "ra_mj_m2_day", Shown = (5, 45),
            Formula = "Rso = (0.75 + 2e-5 z) Ra",
            Source = Fao56 + "equation 37.",
            Reckon = g => [SurfaceRadiation.ClearSkyMJPerM2(g["elevation_m"], g["ra_mj_m2_day"])],
            Meaning = a => $"{a.Say("rso_mj_m2_day")}, or {Figure.Say(a["rso_mj_m2_day"] / 3.6, "kWh/m2")} a day.",
        },
        new("rs-from-temperature-range", "How sunny was it, by thermometer?")
        {
            Explanation = "Solar radiation of a day from how far the temperature swung: clear days swing wide. Good over weeks, rough for single days.",
            Inputs = [Above, TempMax.Say("26.6"), TempMin.Say("14.8"), Number("krs", "1", "coefficient: 0.16 inland, 0.19 at the coast", 0.1, 0.25, "0.16").Or("0.16")],
            Rules = [Rule.NotAbove("tmin_c", "tmax_c")],
            Outputs = [new("rs_mj_m2_day", "MJ/(m2 d)", "solar radiation")],
            Along = "tmax_c", Shown = (16, 40),
            Formula = "Rs = k sqrt(Tmax - Tmin) Ra",
            Source = Fao56 + "equation 50 (Hargreaves).",
            Reckon = g => [SurfaceRadiation.FromTemperatureRangeMJPerM2Day(g["tmax_c"], g["tmin_c"], g["ra_mj_m2_day"], g["krs"])],
            Meaning = a => $"About {a.Say("rs_mj_m2_day")}.",
        },
        new("net-shortwave", "How much sun do plants keep?")
        {
            Explanation = "Solar radiation less what the leaves throw back.",
            Inputs = [OfDay, Number("albedo", "1", "share thrown back: grass 0.23, water 0.08, snow 0.7", 0, 1, "0.23").Or("0.23")],
            Outputs = [new("rns_mj_m2_day", "MJ/(m2 d)", "net shortwave radiation")],
            Along = "rs_mj_m2_day", Shown = (0, 35),
            Formula = "Rns = (1 - albedo) Rs",
            Source = Fao56 + "equation 38.",
            Reckon = g => [SurfaceRadiation.NetShortwaveMJPerM2(g["rs_mj_m2_day"], g["albedo"])],
            Meaning = a => $"{a.Say("rns_mj_m2_day")} stay.",
        },
        new("net-longwave", "How much heat goes back to the sky?")
        {
            Explanation = "Heat that the ground gives to the sky over a day: more when it is warm, dry and clear.",
            Inputs = [TempMax.Say("25.1"), TempMin.Say("19.1"), Number("ea_kpa", "kPa", "vapour pressure of the air", 0, 10, "2.1"), OfDay.Say("14.5"), Number("rso_mj_m2_day", "MJ/(m2 d)", "clear-sky solar radiation", 0.1, 50, "18.8")],
            Rules = [Rule.NotAbove("tmin_c", "tmax_c")],
            Outputs = [new("rnl_mj_m2_day", "MJ/(m2 d)", "net longwave radiation, upward"), new("rs_rso", "1", "solar over clear-sky radiation, at most 1")],
            Along = "ea_kpa", Shown = (0.5, 4),
            Formula = "Rnl = s (Tmax^4 + Tmin^4)/2 (0.34 - 0.14 sqrt(ea)) (1.35 Rs/Rso - 0.35), kelvin",
            Source = Fao56 + "equation 39; the last bracket is not let below nothing.",
            Reckon = g =>
            {
                double relative = SurfaceRadiation.RelativeSolar(g["rs_mj_m2_day"], g["rso_mj_m2_day"]);
                return [SurfaceRadiation.NetLongwaveMJPerM2Day(g["tmax_c"], g["tmin_c"], g["ea_kpa"], relative), relative];
            },
            Meaning = a => $"{a.Say("rnl_mj_m2_day")} leave.",
        },
        new("net-radiation", "How much energy is left to evaporate water?")
        {
            Explanation = "What stays of the sun after the heat that goes back to the sky.",
            Inputs = [Number("rns_mj_m2_day", "MJ/(m2 d)", "net shortwave radiation", 0, 60, "11.1"), Number("rnl_mj_m2_day", "MJ/(m2 d)", "net longwave radiation, upward", -20, 40, "3.5")],
            Outputs = [new("rn_mj_m2_day", "MJ/(m2 d)", "net radiation"), new("depth_mm_day", "mm/d", "water that this could evaporate")],
            Along = "rns_mj_m2_day", Shown = (0, 30),
            Formula = "Rn = Rns - Rnl",
            Source = Fao56 + "equation 40.",
            Reckon = g =>
            {
                double net = g["rns_mj_m2_day"] - g["rnl_mj_m2_day"];
                return [net, SurfaceRadiation.ToDepthMm(net)];
            },
            Meaning = a => $"{a.Say("rn_mj_m2_day")}, enough for {Figure.Say(Math.Max(0, a["depth_mm_day"]), "mm")} of water.",
        },
    ];
}
