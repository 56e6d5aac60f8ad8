using Runnel.Science.Drying;
using static Runnel.Science.Reckoning.Ask;

namespace Runnel.Science.Reckoning;

/// <summary>Drying curves and the collector that warms the air.</summary>
internal static class DryingCurves
{
    private static readonly string[] Models = ["newton", "page", "henderson_pabis", "logarithmic", "wang_singh", "midilli"];

    public static readonly Relation[] All =
    [
        new("thin-layer-moisture-ratio", "How much water is left after that time?")
        {
            Explanation = "Moisture ratio of a thin layer after a time, by the model and constants that were measured for that food in that dryer: 1 at the start, 0 in balance with the air.",
            Inputs =
            [
                Word("model", "model", "newton", Models), Number("time_min", "min", "time", 0, 1e5, "60"), Number("param_k", "1", "drying constant k", 0, 100, "0.0198"), Number("param_n", "1", "exponent n", 0.05, 5, "0.761"),
                Number("param_a", "1", "factor a", -5, 5, "1"), Number("param_b", "1", "constant b", -5, 5, "0.0001"), Number("param_c", "1", "constant c", -2, 2, "0.1"),
            ],
            Choices = [new([["param_k"], ["param_k", "param_n"], ["param_a", "param_k"], ["param_a", "param_k", "param_c"], ["param_a", "param_b"], ["param_a", "param_k", "param_n", "param_b"]])],
            Rules =
            [
                Needs("param_k", "newton", "page", "henderson_pabis", "logarithmic", "midilli"), Needs("param_n", "page", "midilli"), Needs("param_a", "henderson_pabis", "logarithmic", "wang_singh", "midilli"),
                Needs("param_b", "wang_singh", "midilli"), Needs("param_c", "logarithmic"),
            ],
            Outputs = [new("moisture_ratio", "1", "moisture ratio")],
            Along = "time_min", Shown = (0, 240),
            Formula = "newton exp(-kt); page exp(-k t^n); henderson_pabis a exp(-kt); logarithmic a exp(-kt) + c; wang_singh 1 + at + bt^2; midilli a exp(-k t^n) + bt",
            Source = "Lewis (1921); Page (1949); Henderson and Pabis (1961); Wang and Singh (1978); Midilli, Kucuk and Yapar (2002). Constants from the source of the food.",
            Cautions = [Caution.Food],
            Reckon = g =>
            {
                double t = g["time_min"], k = g.Or("param_k", 0), n = g.Or("param_n", 1), a = g.Or("param_a", 1), b = g.Or("param_b", 0), c = g.Or("param_c", 0);
                return
                [
                    g.Word("model") switch
                    {
                        "newton" => ThinLayer.Newton(t, k), "page" => ThinLayer.Page(t, k, n), "henderson_pabis" => ThinLayer.HendersonPabis(t, a, k), "logarithmic" => ThinLayer.Logarithmic(t, a, k, c),
                        "wang_singh" => ThinLayer.WangSingh(t, a, b), _ => ThinLayer.Midilli(t, a, k, n, b),
                    },
                ];
            },
            Meaning = a => a["moisture_ratio"] is >= 0 and <= 1.05 ? $"{Amounts.Percent(a["moisture_ratio"])} of the water that can leave is still there." : "The curve says nothing there: its constants hold for shorter times.",
        },
        new("arrhenius-activation-energy", "How much faster does it dry when hotter?")
        {
            Explanation = "Activation energy from two diffusivities at two temperatures: the larger it is, the more a hotter dryer gains.",
            Inputs =
            [
                Number("temperature1_c", "degC", "first temperature", -50, 200, "60"), Number("diffusivity1_m2_s", "m2/s", "diffusivity at it", 1e-14, 1e-5, "4.97e-10"), Number("temperature2_c", "degC", "second temperature", -50, 200, "80"),
                Number("diffusivity2_m2_s", "m2/s", "diffusivity at it", 1e-14, 1e-5, "1.083e-9"),
            ],
            Rules = [new("temperature2_c", g => Math.Abs(g["temperature1_c"] - g["temperature2_c"]) > 0.1, "is the same as temperature1_c", "Give two temperatures that differ")],
            Outputs = [new("activation_energy_kj_mol", "kJ/mol", "activation energy")],
            Along = "diffusivity2_m2_s", Shown = (5e-10, 3e-9),
            Formula = "E = R ln(D2/D1)/(1/T1 - 1/T2), kelvin",
            Source = "Arrhenius form, as in Akoy (2014), International Food Research Journal 21:1911-1917.",
            Reckon = g => [ThinLayer.ActivationEnergyKJPerMol(g["temperature1_c"], g["diffusivity1_m2_s"], g["temperature2_c"], g["diffusivity2_m2_s"])],
            Meaning = a => $"{a.Say("activation_energy_kj_mol")}; 15 to 40 kJ/mol is usual for food.",
        },
        new("heat-removal-factor", "How much of the sun does my collector hand on?")
        {
            Explanation = "Share of the ideal gain that a flat collector hands to the air or water that passes.",
            Inputs =
            [
                Number("mass_flow_kg_s", "kg/s", "flow through it", 1e-6, 100, "0.03"), Number("cp_j_kg_k", "J/(kg K)", "heat capacity: air 1007, water 4190", 100, 10_000, "4190"), Number("area_m2", "m2", "area", 1e-3, 1e4, "2"),
                Number("loss_coefficient_w_m2_k", "W/(m2 K)", "loss coefficient", 0.1, 50, "8"), Number("efficiency_factor", "1", "efficiency factor of the absorber", 0.01, 1, "0.841"),
            ],
            Outputs = [new("heat_removal_factor", "1", "heat removal factor"), new("flow_factor", "1", "flow factor"), new("dimensionless_capacitance", "1", "capacity of the flow against the losses")],
            Along = "mass_flow_kg_s", Shown = (0.002, 0.1),
            Formula = "FR = m cp/(A UL) (1 - exp(-A UL F'/(m cp)))",
            Source = "Duffie and Beckman, Solar Engineering of Thermal Processes, equations 6.7.4 and 6.7.5.",
            Reckon = g =>
            {
                double removal = SolarCollector.HeatRemovalFactor(g["mass_flow_kg_s"], g["cp_j_kg_k"], g["area_m2"], g["loss_coefficient_w_m2_k"], g["efficiency_factor"]);
                return [removal, removal / g["efficiency_factor"], g["mass_flow_kg_s"] * g["cp_j_kg_k"] / (g["area_m2"] * g["loss_coefficient_w_m2_k"] * g["efficiency_factor"])];
            },
            Meaning = a => $"{Amounts.Percent(a["heat_removal_factor"])} of what it would give if all of it stayed as cool as the inlet.",
        },
    ];

    private static Rule Needs(string input, params string[] models) => new(
        input, g => g.Has(input) || !models.Contains(g.Word("model")), "is missing for this model", $"Give {input}, which {string.Join(", ", models)} {(models.Length > 1 ? "take" : "takes")}");
}
