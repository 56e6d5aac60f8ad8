using Runnel.Science.Fish;
using static Runnel.Science.Reckoning.Ask;

namespace Runnel.Science.Reckoning;

/// <summary>How a new filter comes to work.</summary>
internal static class FilterStarts
{
    private const string Box = "Two-step nitrification with limited room on the media: rates of Hiatt and Grady (2008), Water Environ. Res. 80:2145-2156; temperature after Vannecke and Volcke (2015); pH after the UCT model (Ekama and Wentzel). A real start scatters by a factor of two about it.";

    private static readonly Input[] Inputs =
    [
        WaterTemp.Within(5, 40), Ph.Within(5.5, 10).Say("7.6"), Oxygen.Within(0.1, 20).Say("7.5"), Number("volume_l", "L", "water in the whole system", 1, 1e8, "1000"),
        Number("media_area_m2", "m2", "surface of all media: litres of media x surface of each m3 / 1000", 0.01, 1e7, "12"), Number("load_mg_n_l_d", "mg/(L d)", "ammonia nitrogen added each day to a litre", 0, 20, "0.5"),
        Number("tan0_mg_n_l", "mg/L as N", "ammonia nitrogen at the start", 0, 50, "2"),
        Number("xa0_mg_cod_l", "mg/L", "ammonia oxidisers at the start: 0.0001 unseeded, 0.005 with a scoop of ripe media", 1e-6, 10, "0.0001").Or("0.0001"),
        Number("xn0_mg_cod_l", "mg/L", "nitrite oxidisers at the start, alike", 1e-6, 10, "0.0001").Or("0.0001"),
    ];

    private static readonly string[] Cautions = [Caution.TestKit, "Days are a guess to plan by. Fish go in when your own tests show ammonia and nitrite gone, not when a sum says so; ammonia products burn skin and lungs."];

    public static readonly Relation[] All =
    [
        new("filter-start", "When can my new filter carry fish?")
        {
            Explanation = "The start of a filter that is fed ammonia every day: when ammonia and nitrite peak, how high, and when both are gone.",
            Inputs = Inputs,
            Outputs =
            [
                new("day_cycled", "d", "day when ammonia and nitrite are below 0.25 mg/L"), new("day_tan_peak", "d", "day of the ammonia peak"), new("day_no2_peak", "d", "day of the nitrite peak"),
                new("tan_mg_n_l", "mg/L as N", "highest ammonia nitrogen"), new("no2_mg_n_l", "mg/L as N", "highest nitrite nitrogen"),
            ],
            Along = "temp_c", Shown = (15, 32),
            Formula = "growth = mu theta^(T - 20) N/(K + N) O2/(Ko + O2) 2.35^(pH - 7.2), for each of two steps, less decay; solved over days",
            Source = Box,
            Cautions = Cautions,
            Reckon = g =>
            {
                var start = NitrifierRun.Start(State(g), Around(g));
                return [start.CycledDay, start.TanPeakDay, start.No2PeakDay, start.TanPeakMgNPerL, start.No2PeakMgNPerL];
            },
            Meaning = a => double.IsFinite(a["day_cycled"])
                ? $"About {Figure.Brief(Math.Round(a["day_cycled"]))} days, and anything from half to twice of that. Nitrite peaks at {a.Say("no2_mg_n_l")} about day {Figure.Brief(Math.Round(a["day_no2_peak"]))}."
                : "Not within 120 days: warm it, raise pH or oxygen, add media, or feed less ammonia.",
        },
        new("filter-start-day", "What should my tests show on that day of the start?")
        {
            Explanation = "Ammonia, nitrite and nitrate on a day of the start of a filter that is fed ammonia every day.",
            Inputs = [.. Inputs, Number("day", "d", "day from the start", 0, 200, "20")],
            Outputs = [new("tan_mg_n_l", "mg/L as N", "ammonia nitrogen"), new("no2_mg_n_l", "mg/L as N", "nitrite nitrogen"), new("no3_mg_n_l", "mg/L as N", "nitrate nitrogen")],
            Along = "day", Main = "no2_mg_n_l", Shown = (0, 40),
            Formula = "growth = mu theta^(T - 20) N/(K + N) O2/(Ko + O2) 2.35^(pH - 7.2), for each of two steps, less decay; solved over days",
            Source = Box,
            Cautions = Cautions,
            Reckon = g =>
            {
                var state = NitrifierRun.After(State(g), Around(g), g["day"]);
                return [Math.Max(0, state.Tan), Math.Max(0, state.No2), Math.Max(0, state.No3)];
            },
            Meaning = a => $"Ammonia {a.Say("tan_mg_n_l")}, nitrite {a.Say("no2_mg_n_l")}, nitrate {a.Say("no3_mg_n_l")}." + (a["no2_mg_n_l"] > 1 ? " That much nitrite harms fish." : ""),
        },
    ];

    private static NitrifierState State(Given g) => new(g["tan0_mg_n_l"], 0, 0, g["xa0_mg_cod_l"], g["xn0_mg_cod_l"]);

    private static NitrifierSurroundings Around(Given g) =>
        new(g["temp_c"], g["ph"], g["do_mg_l"], g["volume_l"], g["media_area_m2"], g["load_mg_n_l_d"]);
}
