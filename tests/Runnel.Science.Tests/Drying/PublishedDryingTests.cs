using Runnel.Science.Drying;

namespace Runnel.Science.Tests.Drying;

// Source: thin-layer papers with published constants, Crank (1975), Greenspan (1977), ASHRAE (2017), Duffie and Beckman section 6.7; named in each row.
public sealed class PublishedDryingTests
{
    private static readonly PublishedTable Arithmetic = PublishedTable.Open("air-sun-soil/drying-arithmetic.csv");
    private static readonly PublishedTable Kinetics = PublishedTable.Open("air-sun-soil/drying-kinetics.csv");
    private static readonly PublishedTable Isotherms = PublishedTable.Open("air-sun-soil/sorption.csv");
    private static readonly PublishedTable Heaters = PublishedTable.Open("air-sun-soil/solar-air-heater.csv");

    public static IEnumerable<TheoryDataRow<string, string>> ArithmeticRows => Arithmetic.Rows;

    public static IEnumerable<TheoryDataRow<string, string>> KineticsRows => Kinetics.Rows;

    public static IEnumerable<TheoryDataRow<string, string>> IsothermRows => Isotherms.Rows;

    public static IEnumerable<TheoryDataRow<string, string>> HeaterRows => Heaters.Rows;

    [Theory, MemberData(nameof(ArithmeticRows))]
    public void Moisture_yield_and_air_agree_with_print(string row, string source)
    {
        var c = Arithmetic[row];
        Assert.Equal(source, c.Source);
        double N(string name) => c.Number(name);
        switch (c.Relation)
        {
            case "wet_to_dry_basis":
                c.Compare("moisture_dry_basis_kg_kg", Moisture.DryBasis(N("moisture_wet_basis_pct") / 100));
                break;
            case "dry_to_wet_basis":
                c.Compare("moisture_wet_basis_pct", 100 * Moisture.WetBasis(N("moisture_dry_basis_pct") / 100));
                break;
            case "dried_yield":
                var dried = Moisture.Yield(N("fresh_mass_kg"), N("trim_fraction"), N("moisture_initial_wb_pct") / 100, N("moisture_final_wb_pct") / 100);
                c.Compare("prepared_mass_kg", dried.PreparedKg);
                c.Compare("dried_mass_kg", dried.DriedKg);
                c.Compare("water_removed_kg", dried.WaterKg);
                c.Compare("drying_ratio", dried.Ratio);
                break;
            case "drying_air_per_kg_water":
                var need = DryingAir.PerKgWater(N("ambient_c"), N("ambient_rh_pct") / 100, N("drying_air_c"), N("exhaust_rh_pct") / 100, N("pressure_pa"));
                c.Compare("humidity_ratio_in_kg_kg", need.RatioIn);
                c.Compare("heated_rh_pct", 100 * need.HeatedRelHumidity);
                c.Compare("exhaust_c", need.ExhaustC);
                c.Compare("humidity_ratio_out_kg_kg", need.RatioOut);
                c.Compare("dry_air_kg_per_kg_water", need.DryAirKgPerKg);
                c.Compare("heat_kj_per_kg_water", need.HeatKJPerKg);
                c.Compare("ambient_air_m3_per_kg_water", need.AmbientAirM3PerKg);
                break;
            case "dried_yield_extension":
                return; // reference data
            default:
                throw c.Unknown();
        }

        c.AssertAllCompared();
    }

    [Theory, MemberData(nameof(KineticsRows))]
    public void Drying_curves_agree_with_print(string row, string source)
    {
        var c = Kinetics[row];
        Assert.Equal(source, c.Source);
        double N(string name) => c.Number(name);
        switch (c.Relation)
        {
            case "thin_layer_moisture_ratio":
                double t = c.Has("time_min") ? N("time_min") : N("time_h");
                double ratio = c.Text("model") switch
                {
                    "newton" => ThinLayer.Newton(t, N("param_k")),
                    "page" => ThinLayer.Page(t, N("param_k"), N("param_n")),
                    "henderson_pabis" => ThinLayer.HendersonPabis(t, N("param_a"), N("param_k")),
                    "logarithmic" => ThinLayer.Logarithmic(t, N("param_a"), N("param_k"), N("param_c")),
                    "wang_singh" => ThinLayer.WangSingh(t, N("param_a"), N("param_b")),
                    "midilli" => ThinLayer.Midilli(t, N("param_a"), N("param_k"), N("param_n"), N("param_b")),
                    _ => throw c.Unknown(),
                };
                c.Compare("moisture_ratio", ratio);
                break;
            case "thin_layer_time_to_ratio":
                double? time = ThinLayer.TimeTo(N("moisture_ratio"), N("param_k"), c.Number("param_n", 1), c.Number("param_a", 1), c.Number("param_c", 0));
                c.Compare("time_min", time!.Value);
                break;
            case "arrhenius_activation_energy":
                c.Compare("activation_energy_kj_mol", ThinLayer.ActivationEnergyKJPerMol(
                    N("temperature1_c"), N("diffusivity1_m2_s"), N("temperature2_c"), N("diffusivity2_m2_s")));
                break;
            case "fick_slab_moisture_ratio":
                c.Compare("moisture_ratio", ThinLayer.FickSlab(N("diffusivity_m2_s"), N("slice_thickness_mm"), N("time_h")));
                break;
            case "effective_diffusivity_range":
                return; // reference data
            default:
                throw c.Unknown();
        }

        c.AssertAllCompared();
    }

    [Theory, MemberData(nameof(IsothermRows))]
    public void Sorption_agrees_with_print(string row, string source)
    {
        var c = Isotherms[row];
        Assert.Equal(source, c.Source);
        double N(string name) => c.Number(name);
        switch (c.Relation)
        {
            case "gab_isotherm":
                c.Compare("moisture_dry_basis_kg_kg", Sorption.GabDryBasis(N("water_activity"), N("m0_kg_kg"), N("gab_c"), N("gab_k")));
                break;
            case "bet_isotherm":
                c.Compare("moisture_dry_basis_kg_kg", Sorption.GabDryBasis(N("water_activity"), N("m0_kg_kg"), N("bet_c")));
                break;
            case "gab_inverse_water_activity":
                c.Compare("water_activity", Sorption.GabWaterActivity(N("moisture_dry_basis_kg_kg"), N("m0_kg_kg"), N("gab_c"), N("gab_k"))!.Value);
                break;
            case "saturated_salt_rh":
                c.Compare("rh_pct", 100 * Sorption.OverSalt(c.Text("salt"))!.Value.RelHumidity);
                break;
            case "gab_monolayer_range":
                return; // reference data
            default:
                throw c.Unknown();
        }

        c.AssertAllCompared();
    }

    [Theory, MemberData(nameof(HeaterRows))]
    public void Collector_and_stack_agree_with_print(string row, string source)
    {
        var c = Heaters[row];
        Assert.Equal(source, c.Source);
        double N(string name) => c.Number(name);
        switch (c.Relation)
        {
            case "heat_removal_factor":
                double removal = SolarCollector.HeatRemovalFactor(N("mass_flow_kg_s"), N("cp_j_kg_k"), N("area_m2"), N("loss_coefficient_w_m2_k"), N("efficiency_factor"));
                c.Compare("heat_removal_factor", removal);
                c.Compare("flow_factor", removal / N("efficiency_factor"));
                c.Compare("dimensionless_capacitance", N("mass_flow_kg_s") * N("cp_j_kg_k") / (N("area_m2") * N("loss_coefficient_w_m2_k") * N("efficiency_factor")));
                break;
            case "air_heater_gain":
                var gain = SolarCollector.Gain(N("mass_flow_kg_s"), N("cp_j_kg_k"), N("area_m2"), N("loss_coefficient_w_m2_k"), N("efficiency_factor"),
                    N("irradiance_w_m2"), N("tau_alpha"), N("inlet_c"), N("ambient_c"));
                c.Compare("heat_removal_factor", gain.HeatRemoval);
                c.Compare("useful_gain_w", gain.GainW);
                c.Compare("outlet_c", gain.OutletC);
                c.Compare("efficiency", gain.Efficiency);
                break;
            case "stack_draught_and_flow":
                var stack = SolarCollector.Stack(N("height_m"), N("outside_c"), N("inside_c"), N("opening_area_m2"), N("discharge_coefficient"), N("pressure_pa"));
                c.Compare("density_outside_kg_m3", stack.OutsideKgPerM3);
                c.Compare("density_inside_kg_m3", stack.InsideKgPerM3);
                c.Compare("draught_pa", stack.DraughtPa);
                c.Compare("flow_m3_s", stack.FlowM3PerS);
                c.Compare("mass_flow_kg_s", stack.MassFlowKgPerS);
                break;
            default:
                throw c.Unknown();
        }

        c.AssertAllCompared();
    }

    [Fact]
    public void Wetter_than_the_curve_reaches_has_no_water_activity() =>
        Assert.Throws<ArgumentOutOfRangeException>("waterActivity", () => Sorption.GabDryBasis(0.9, 0.2, 11.84, 1.143));
}
