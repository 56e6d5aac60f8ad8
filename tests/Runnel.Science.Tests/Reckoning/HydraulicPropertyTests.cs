using CsCheck;
using Runnel.Science.Reckoning;

namespace Runnel.Science.Tests.Reckoning;

/// <summary>What must hold for any figures: sums undo each other, and more of a cause is more of its effect.</summary>
public sealed class HydraulicPropertyTests
{
    // Relation; the input given, the result that comes of it and is given back, under its input's name; the rest.
    public static TheoryData<string, string, string, string> Inverses => new()
    {
        { "pipe", "flow_m3_s=0.00002..0.005", "head_loss_m", "length_m=20 diameter_m=0.04 roughness_mm=0.007 minor_k=3" },
        { "hazen-williams", "flow_m3_s=0.00002..0.005", "hf_m", "length_m=20 diameter_m=0.04" },
        { "standpipe", "flow_l_min=0.5..200", "head_m", "diameter_m=0.05" },
        { "orifice", "flow_l_min=0.5..200", "head_m", "diameter_m=0.02" },
        { "weir", "flow_m3_s=0.00005..0.05", "head_m", "notch_angle_deg=60" },
        { "drain-pipe", "flow_m3_s=0.00002..0.001", "y_over_d", "diameter_m=0.05 slope=0.01" },
        { "part-full-section", "y_over_d=0.01..0.99", "area_ratio", "" },
        { "head-and-pressure", "head_m=0.01..20", "pressure_kpa", "" },
        { "settler-size", "surface_loading_m_h=1..50", "surface_loading_m_h", "flow_l_min=40" },
    };

    [Theory, MemberData(nameof(Inverses))]
    public void Given_the_result_the_input_comes_back(string relation, string range, string result, string rest) =>
        OverRanges.UndoesItself(relation, range, result, rest);

    // Relation; input; result; whether it rises with the input; the rest.
    public static TheoryData<string, string, string, bool, string> Monotone => new()
    {
        { "pipe", "flow_m3_s=0..0.005", "head_loss_m", true, "length_m=20 diameter_m=0.04 roughness_mm=0.007" },
        { "pipe", "diameter_m=0.02..0.1", "head_loss_m", false, "length_m=20 flow_m3_s=0.001 roughness_mm=0.007" },
        { "pipe", "roughness_mm=0..1", "head_loss_m", true, "length_m=20 flow_m3_s=0.001 diameter_m=0.04" },
        { "pipe", "head_loss_m=0.001..5", "flow_l_min", true, "length_m=20 diameter_m=0.04 roughness_mm=0.007" },
        { "pipe-size", "flow_m3_s=0.0001..0.005", "diameter_m", true, "hf_m=0.3 length_m=6" },
        { "pipe-size", "hf_m=0.01..5", "diameter_m", false, "flow_m3_s=0.001 length_m=6" },
        { "hazen-williams", "c=60..150", "hf_m", false, "length_m=20 diameter_m=0.04 flow_m3_s=0.001" },
        { "narrowed-bore", "slime_mm=0..9", "flow_ratio_darcy_const_f", false, "diameter_mm=20" },
        { "rougher-pipe", "c1=60..150", "headloss_ratio", false, "c0=150" },
        { "fitting-loss", "k=0..50", "head_loss_m", true, "velocity_m_s=1" },
        { "two-sizes", "head_m=0.01..5", "flow_l_min", true, "length1_m=2 diameter1_m=0.05 length2_m=3 diameter2_m=0.04" },
        { "pump-duty", "lift_m=0..5", "flow_l_min", false, "shutoff_head_m=5 flow1_l_min=80 head1_m=3.5 flow2_l_min=160 head2_m=0 length_m=6 diameter_m=0.04 roughness_mm=0.007" },
        { "pump-curve", "flow_l_min=0..160", "head_m", false, "shutoff_head_m=5 flow1_l_min=80 head1_m=3.5 flow2_l_min=160 head2_m=0" },
        { "affinity", "speed_ratio=0.1..2", "power2_w", true, "flow1_l_min=60 head1_m=3 power1_w=80" },
        { "npsh", "temp_c=0..80", "greatest_lift_m", false, "" },
        { "npsh", "altitude_m=0..4000", "greatest_lift_m", false, "" },
        { "npsh", "losses_m=0..5", "npsha_m", false, "" },
        { "pump-branches", "riser_diameter_mm=15..80", "total_l_min", true, "shutoff_head_m=5 flow1_l_min=80 head1_m=3.5 flow2_l_min=160 head2_m=0 riser_length_m=3 outlets_m=1.1 lengths_m=1;2 diameters_mm=25 minor_ks=6" },
        { "parallel-pipes", "head_m=0.05..5", "total_l_min", true, "lengths_m=20;35 diameters_mm=32;25 minor_ks=1.5" },
        { "emitter-line", "count=1..60", "last_over_first", false, "head_m=12 spacing_m=0.5 diameter_mm=13.6 coeff_l_min_per_m_pow=0.1" },
        { "sump-cycle", "inflow_l_min=1..59", "run_s", true, "band_l=65 pump_l_min=60" },
        { "sump-cycle", "fill_s=10..1000", "inflow_l_min", false, "band_l=65 run_s=100" },
        { "sump-band", "max_starts_per_h=1..30", "v_l", false, "p_l_min=60" },
        { "sump-wear", "loss=0..0.4", "run_ratio", true, "v_l=65 q_l_min=30 p_l_min=60" },
        { "sump-overflow", "q_l_min=1..60", "time_min", false, "free_volume_l=60" },
        { "standpipe", "head_m=0..0.2", "flow_l_min", true, "diameter_m=0.05" },
        { "weir", "head_m=0.001..0.3", "flow_l_min", true, "width_m=0.3 crest_height_m=0.3" },
        { "orifice-plate", "head_difference_m=0.1..2", "flow_l_min", true, "bore_m=0.02 pipe_inside_m=0.04" },
        { "channel", "depth_m=0.005..1", "flow_l_min", true, "width_m=0.3 slope=0.001" },
        { "drain-clog", "k_clogged=0..100", "h_clogged_m", true, "flow_l_min=20 drain_diameter_m=0.032 k_clean=2.5" },
        { "drain-down", "orifice_diameter_m=0.01..0.1", "time_s", false, "tank_diameter_m=1 h1_m=0.8" },
        { "drain-down", "h1_m=0.01..2", "time_s", true, "tank_diameter_m=1 orifice_diameter_m=0.025" },
        { "drain-down-pipe", "length_m=0.1..50", "time_s", true, "tank_diameter_m=1 h1_m=0.8 diameter_m=0.025" },
        { "drain-down-pipe", "fall_m=0..2", "time_s", false, "tank_diameter_m=1 h1_m=0.8 diameter_m=0.025 length_m=5" },
        { "siphon", "outlet_below_surface_m=0.01..3", "flow_l_min", true, "diameter_m=0.025 crest_above_surface_m=0.3 length_m=3" },
        { "siphon", "crest_above_surface_m=0..8", "crest_gauge_head_m", false, "diameter_m=0.025 outlet_below_surface_m=0.5 length_m=3" },
        { "settling-velocity", "diameter_m=0.00001..0.005", "velocity_m_s", true, "rho_p_kg_m3=1100" },
        { "settling-velocity", "temp_c=0..40", "velocity_m_s", true, "rho_p_kg_m3=1100 diameter_m=0.0002" },
        { "settling", "flow_l_min=1..500", "removed_fraction", false, "particle_um=200 area_m2=0.25" },
        { "overflow-rate", "flow_l_min=1..500", "overflow_rate_m_h", true, "tank_diameter_m=0.56" },
        { "settler-size", "flow_l_min=1..500", "area_m2", true, "" },
        { "drag-coefficient", "re=0.01..1000", "cd", false, "" },
        { "friction-factor", "ed=0..0.05", "f_darcy", true, "re=50000" },
        { "water-properties", "temp_c=0..100", "viscosity_pa_s", false, "" },
        { "water-properties", "temp_c=0..100", "vapour_pressure_kpa", true, "" },
        { "cusum-run-length", "shift=0..3", "arl", false, "" },
        { "ewma-run-length", "shift=0..3", "arl", false, "" },
        { "chart-limits-for", "arl0=50..2000", "h", true, "" },
    };

    [Theory, MemberData(nameof(Monotone))]
    public void More_of_the_cause_is_more_or_less_of_the_effect(string relation, string range, string result, bool rises, string rest) =>
        OverRanges.OnlyMoves(relation, range, result, rises, rest);

    [Fact]
    public void A_measured_curve_is_found_again() => Gen.Select(Gen.Double[1, 20], Gen.Double[20, 500], Gen.Double[1.2, 2.8]).Sample((head, most, power) =>
    {
        double r = head / Math.Pow(most, power);
        double[] flows = [.. Enumerable.Range(0, 8).Select(i => most * i / 8)], heads = [.. flows.Select(q => head - (r * Math.Pow(q, power)))];
        var answer = OverRanges.Solved("pump-curve-fit", "", ("flows_l_min", flows), ("heads_m", heads));
        Assert.Equal(1, answer["h0_m"] / head, 1e-5);
        Assert.Equal(power, answer["n"], 1e-3);
        Assert.Equal(1, answer["qmax_l_min"] / most, 1e-3);
    }, iter: 100);

    [Fact]
    public void Points_that_rise_with_the_flow_are_no_pump()
    {
        var (answer, problems) = Catalogue.Find("pump-curve-fit")!.Solve([new("flows_l_min", "0 20 40 60"), new("heads_m", "1 2 3 4.5")]);
        Assert.Null(answer);
        Assert.Equal("heads_m", Assert.Single(problems).Input);
    }

    [Theory]
    [InlineData("return-bend", 2.2)]
    [InlineData("tee branch", 1.8)]
    [InlineData("Swing-Check-Valve-Open", 2.5)]
    public void A_fitting_is_known_by_words_that_are_its_own(string fitting, double k) =>
        Assert.Equal(k, OverRanges.Solved("fitting-loss", "", ("fitting", fitting))["k"]);

    [Fact]
    public void A_fitting_that_could_be_several_is_refused_with_the_list()
    {
        var problem = Assert.Single(Catalogue.Find("fitting-loss")!.Solve([new("fitting", "elbow")]).Problems);
        Assert.Contains("elbow-short-radius", problem.Remedy, StringComparison.Ordinal);
    }

    [Fact]
    public void A_pump_that_no_longer_keeps_up_has_no_run_time()
    {
        var answer = OverRanges.Solved("sump-wear", "v_l=65 q_l_min=50 p_l_min=60 loss=0.3");
        Assert.False(double.IsFinite(answer["run_after_min"]));
        Assert.Contains("no longer keeps up", answer.Meaning, StringComparison.Ordinal);
    }
}
