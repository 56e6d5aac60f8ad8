using Runnel.Science.Power;
using static Runnel.Science.Reckoning.Ask;

namespace Runnel.Science.Reckoning;

/// <summary>Other models of how warm a panel gets, and what is lost between sun and socket.</summary>
internal static class CellsAndLosses
{
    private static readonly Input Sun = Number("irradiance_w_m2", "W/m2", "sun on the panel", 0, 1500, "800");
    private static readonly Input Ambient = Number("ambient_c", "degC", "ambient air", -40, 60, "30");
    private static readonly Input Wind = Number("wind_m_s", "m/s", "wind at the panel", 0, 50, "1.5");

    public static readonly Relation[] All =
    [
        new("pvwatts-losses", "How much of my panels' power is lost on the way?")
        {
            Explanation = "Ten usual losses taken together: each takes its share of what the others left. The figures that stand there are usual ones.",
            Inputs =
            [
                Loss("soiling", "dust and droppings", "2"), Loss("shading", "shade", "3"), Loss("snow", "snow", "0"), Loss("mismatch", "panels that differ", "2"), Loss("wiring", "wires", "2"), Loss("connections", "plugs and clamps", "0.5"),
                Loss("lid", "first light on new panels", "1.5"), Loss("nameplate", "less than the label says", "1"), Loss("age", "age", "0"), Loss("availability", "time out of order", "3"),
            ],
            Outputs = [new("total_loss_pct", "%", "lost together")],
            Along = "soiling_pct", Shown = (0, 20),
            Formula = "100 (1 - (1 - L1/100)(1 - L2/100)...)",
            Source = "Dobos (2014), PVWatts Version 5 Manual, NREL/TP-6A20-62641.",
            Reckon = g =>
            {
                string[] names = ["soiling", "shading", "snow", "mismatch", "wiring", "connections", "lid", "nameplate", "age", "availability"];
                return [100 * SolarPanel.TotalLoss([.. names.Select(n => g[n + "_pct"] / 100)])];
            },
            Meaning = a => $"{a.Say("total_loss_pct")} lost; {Figure.Say(100 - a["total_loss_pct"], "%")} arrive.",
        },
        new("cell-temperature-wind", "How hot are the cells in this wind?")
        {
            Explanation = "Cell temperature from sun, air and wind, with the coefficients of an open rack.",
            Inputs = [Sun, Ambient, Wind, Number("u0", "W/(m2 K)", "loss in still air", 1, 100, "25").Or("25"), Number("u1", "W s/(m3 K)", "loss that wind adds", 0, 50, "6.84").Or("6.84")],
            Outputs = [new("cell_c", "degC", "cell temperature")],
            Along = "wind_m_s", Shown = (0, 10),
            Formula = "Tc = Ta + G/(u0 + u1 v)",
            Source = "Faiman (2008), Progress in Photovoltaics 16:307-315.",
            Reckon = g => [CellTemperature.FaimanC(g["irradiance_w_m2"], g["ambient_c"], g["wind_m_s"], g["u0"], g["u1"])],
            Meaning = a => $"{a.Say("cell_c")}; each degree above 25 °C costs about 0.4 % of the power.",
        },
        new("cell-temperature-noct-wind", "How hot are the cells, by the data sheet and the wind?")
        {
            Explanation = "Cell temperature from the nominal temperature of the data sheet, corrected for wind and for what leaves as electricity.",
            Inputs = [Sun, Ambient, Wind, Number("noct_c", "degC", "nominal operating cell temperature", 20, 80, "45"), Number("module_efficiency", "1", "efficiency of the panel", 0, 0.5, "0.2")],
            Outputs = [new("cell_c", "degC", "cell temperature")],
            Along = "wind_m_s", Shown = (0, 10),
            Formula = "Tc = Ta + G/800 (NOCT - 20)(1 - eff/0.9) 9.5/(5.7 + 3.8 v)",
            Source = "Gilman (2015), SAM Photovoltaic Model Technical Reference, NREL/TP-6A20-64102.",
            Reckon = g => [CellTemperature.FromNominalAndWindC(g["irradiance_w_m2"], g["ambient_c"], g["wind_m_s"], g["noct_c"], g["module_efficiency"])],
            Meaning = a => $"{a.Say("cell_c")}.",
        },
        new("cell-temperature-mounting", "How hot are the cells on this mounting?")
        {
            Explanation = "Cell temperature by the kind of panel and mounting: the coefficients that stand there are of a glass and polymer panel on an open rack.",
            Inputs =
            [
                Sun, Ambient, Wind, Number("sapm_a", "1", "coefficient a: open rack -3.56, close to a roof -2.98, glass on both sides -3.47", -6, 0, "-3.56").Or("-3.56"),
                Number("sapm_b", "s/m", "coefficient b of the wind: open rack -0.075, close to a roof -0.0471", -0.5, 0, "-0.075").Or("-0.075"), Number("sapm_delta_t", "degC", "cell over back in full sun", 0, 10, "3").Or("3"),
            ],
            Outputs = [new("cell_c", "degC", "cell temperature")],
            Along = "wind_m_s", Shown = (0, 10),
            Formula = "Tc = Ta + G exp(a + b v) + G/1000 dT",
            Source = "King, Boyson and Kratochvil (2004), Photovoltaic Array Performance Model, SAND2004-3535.",
            Reckon = g => [CellTemperature.SandiaC(g["irradiance_w_m2"], g["ambient_c"], g["wind_m_s"], g["sapm_a"], g["sapm_b"], g["sapm_delta_t"])],
            Meaning = a => $"{a.Say("cell_c")}.",
        },
    ];

    private static Input Loss(string name, string words, string usual) => Number(name + "_pct", "%", "lost to " + words, 0, 100, usual).Or(usual);
}
