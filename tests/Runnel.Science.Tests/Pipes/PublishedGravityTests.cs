using CsCheck;
using Runnel.Science.Pipes;
using Runnel.Science.Water;

namespace Runnel.Science.Tests.Pipes;

// Source: Chow (1959), EPA SWMM 5.2 tables, Shen (1981), Kindsvater and Carter (1957), Rehbock (1929), Crane TP-410 and closed forms of Torricelli;
// named in each row.
public sealed class PublishedGravityTests
{
    private static readonly PublishedTable Table = PublishedTable.Open("hydraulics-signals/gravity.csv");

    public static IEnumerable<TheoryDataRow<string, string>> Rows => Table.Rows;

    [Theory, MemberData(nameof(Rows))]
    public void Gravity_relations_agree_with_print(string row, string source)
    {
        var c = Table[row];
        Assert.Equal(source, c.Source);
        double N(string name) => c.Number(name);
        switch (row)
        {
            case var r when r.StartsWith("manning-circular-yD", StringComparison.Ordinal) || r.StartsWith("swmm-circular", StringComparison.Ordinal):
                CompareSection(c, PartFullPipe.Section(N("y_over_D")));
                break;
            case "manning-circular-max-flow":
                c.Compare("y_over_D", PartFullPipe.DepthOfMostFlow);
                c.Compare("flow_ratio", PartFullPipe.Section(PartFullPipe.DepthOfMostFlow).FlowRatio);
                break;
            case var r when r.StartsWith("swmm-section-factor", StringComparison.Ordinal):
                c.Compare("section_factor_ratio", PartFullPipe.SectionOfArea(N("area_ratio")).FlowRatio);
                break;
            case "manning-8in-full":
                // The US coefficient 1.49 stands for the cube root of 3.2808 ft/m, rounded.
                double bore = N("diameter_ft") * 0.3048, full = PartFullPipe.FullFlowM3PerS(bore, N("slope"), N("n")), area = Math.PI * bore * bore / 4;
                c.Compare("flow_ft3_s", full / 0.028316846592);
                c.Compare("velocity_ft_s", full / area / 0.3048);
                c.Compare("area_ft2", area / 0.09290304);
                break;
            case "cengel-manning-channel":
                double velocity = PartFullPipe.ManningVelocityMPerS(N("hydraulic_radius_m"), N("slope"), N("n"));
                c.Compare("velocity_m_s", velocity);
                c.Compare("flow_m3_s", velocity * N("area_m2"));
                break;
            case "manning-100mm-drain":
                c.Compare("flow_L_s", 1000 * PartFullPipe.FullFlowM3PerS(N("diameter_m"), N("slope"), N("n")));
                c.Compare("velocity_m_s", PartFullPipe.ManningVelocityMPerS(N("diameter_m") / 4, N("slope"), N("n")));
                break;
            case var r when r.StartsWith("manning-normal-depth", StringComparison.Ordinal):
                double most = PartFullPipe.FullFlowM3PerS(N("diameter_m"), N("slope"), N("n")), depth = PartFullPipe.DepthRatio(N("flow_m3_s") / most)!.Value;
                c.Compare("y_over_D", depth);
                c.Compare("velocity_m_s", PartFullPipe.Section(depth).VelocityRatio * PartFullPipe.ManningVelocityMPerS(N("diameter_m") / 4, N("slope"), N("n")));
                c.Compare("full_flow_m3_s", most);
                break;
            case "manning-above-full-two-depths":
                c.Compare("y_over_D_low", PartFullPipe.DepthRatio(N("flow_ratio"))!.Value);
                c.Compare("y_over_D_high", PartFullPipe.UpperDepthRatio(N("flow_ratio"))!.Value);
                break;
            case "crane-7.26-part-full":
                double density = N("specific_weight_lbf_ft3") * 157.087463847 / PipeFlow.GravityMPerS2;
                double flow = PartFullPipe.DarcyFlowM3PerS(N("diameter_in") * 0.0254, N("y_over_D"), N("slope_in_per_ft") / 12, N("eD"), N("viscosity_cP") / 1000 / density);
                c.Compare("flow_gal_min", flow * 60_000 / Conversions.LPerUsGallon);
                break;
            case var r when r.StartsWith("weir-v-notch", StringComparison.Ordinal):
                c.Compare("flow_m3_s", Weir.VNotchM3PerS(N("head_m"), N("notch_angle_deg"), 9.81));
                break;
            case var r when r.StartsWith("weir-rect", StringComparison.Ordinal):
                Func<double, double, double, double, double> weir = r.Contains("rehbock", StringComparison.Ordinal) ? Weir.RehbockM3PerS
                    : r.Contains("cengel", StringComparison.Ordinal) ? Weir.AckersM3PerS
                    : r.Contains("kc-suppressed", StringComparison.Ordinal) ? Weir.RectangularM3PerS : Weir.NarrowRectangularM3PerS;
                c.Compare("flow_m3_s", weir(N("head_m"), N("crest_height_m"), N("width_m"), c.Number("gravity_m_s2", PipeFlow.GravityMPerS2)));
                break;
            case var r when r.StartsWith("standpipe-head", StringComparison.Ordinal):
                c.Compare("head_m", Standpipe.HeadM(N("diameter_m"), N("flow_L_min"), N("Cw_SI")));
                break;
            case var r when r.StartsWith("standpipe", StringComparison.Ordinal):
                var into = Standpipe.AtHead(N("diameter_m"), N("head_m"), N("Cw_SI"), N("Cd"));
                c.Compare("weir_flow_L_min", into.WeirLPerMin);
                c.Compare("orifice_flow_L_min", into.OrificeLPerMin);
                c.Compare("governing_flow_L_min", into.LPerMin);
                c.Compare("crossover_head_m", Standpipe.CrossoverHeadM(N("diameter_m"), N("Cw_SI"), N("Cd")));
                break;
            case var r when r.StartsWith("orifice", StringComparison.Ordinal):
                c.Compare("flow_L_min", 60_000 * Orifice.FlowM3PerS(N("diameter_m"), N("head_m"), N("Cd")));
                break;
            case "crane-7.23-orifice-meter":
                CompareMeter(c);
                break;
            case var r when r.StartsWith("drain-prismatic", StringComparison.Ordinal):
                c.Compare("time_s", DrainDown.UprightS(Circle(N("tank_diameter_m")), N("orifice_diameter_m"), N("h1_m"), N("h2_m"), N("Cd")));
                break;
            case "drain-torricelli-demo":
                c.Compare("time_s", DrainDown.UprightS(Circle(2 * N("tank_radius_m")), 2 * N("spigot_radius_m"), N("h_m"), 0, 1, N("gravity_m_s2")));
                break;
            case var r when r.StartsWith("drain-with-inflow", StringComparison.Ordinal):
                c.Compare("time_s", DrainDown.WithInflowS(N("tank_area_m2"), N("c_m2.5_s"), N("inflow_m3_s"), N("h_start_m"), N("h_end_m")));
                c.Compare("equilibrium_level_m", DrainDown.BalanceM(N("inflow_m3_s"), N("c_m2.5_s")));
                break;
            case "drain-cone":
                c.Compare("time_s", DrainDown.ConeS(N("half_angle_tan"), N("orifice_diameter_m"), N("h1_m"), N("h2_m"), N("Cd")));
                break;
            case var r when r.StartsWith("siphon", StringComparison.Ordinal):
                var siphon = GravityDrain.Siphon(N("diameter_m"), N("outlet_below_surface_m"), N("crest_above_surface_m"), N("K_sum"), N("length_m"), N("f"));
                c.Compare("velocity_m_s", siphon.VelocityMPerS);
                c.Compare("flow_L_min", siphon.FlowLPerMin);
                c.Compare("crest_gauge_head_m", siphon.CrestHeadM);
                break;
            case var r when r.StartsWith("drain-clog-level", StringComparison.Ordinal):
                c.Compare("h_clean_m", GravityDrain.LevelM(N("flow_L_min"), N("drain_diameter_m"), N("K_clean")));
                c.Compare("h_clogged_m", GravityDrain.LevelM(N("flow_L_min"), N("drain_diameter_m"), N("K_clogged")));
                break;
            case var r when r.StartsWith("tanks-equalise", StringComparison.Ordinal):
                c.Compare("time_s", DrainDown.EqualiseS(N("A1_m2"), N("A2_m2"), N("dH_m"), N("orifice_diameter_m"), N("Cd")));
                break;
            default:
                throw c.Unknown();
        }

        c.AssertAllCompared();
    }

    [Fact]
    public void Standpipe_flow_and_head_undo_each_other() => Gen.Select(Gen.Double[0.02, 0.2], Gen.Double[0.1, 300]).Sample((bore, flow) =>
        Assert.Equal(1, Standpipe.AtHead(bore, Standpipe.HeadM(bore, flow)).LPerMin / flow, 1e-9));

    [Fact]
    public void Depth_and_flow_of_a_drain_undo_each_other() => Gen.Double[0.001, 0.938].Sample(depth =>
        Assert.Equal(depth, PartFullPipe.DepthRatio(PartFullPipe.Section(depth).FlowRatio)!.Value, 1e-6));

    [Fact]
    public void A_level_that_is_never_reached_takes_for_ever()
    {
        double c = 0.001326, balance = DrainDown.BalanceM(0.0003, c);
        Assert.Equal(double.PositiveInfinity, DrainDown.WithInflowS(0.28, c, 0.0003, 0.3, balance * 0.9));
        Assert.Equal(double.PositiveInfinity, DrainDown.WithInflowS(0.28, c, 0.0003, 0.3, 0.4));
        Assert.True(double.IsFinite(DrainDown.WithInflowS(0.28, c, 0.0003, 0.3, balance * 1.1)));
        Assert.Null(PartFullPipe.DepthRatio(1.2));
    }

    private static double Circle(double diameter) => Math.PI * diameter * diameter / 4;

    private static void CompareSection(PublishedCase c, PartFullSection section)
    {
        c.Compare("theta_rad", section.AngleRad);
        c.Compare("area_ratio", section.AreaRatio);
        c.Compare("perimeter_ratio", section.PerimeterRatio);
        c.Compare("hydraulic_radius_ratio", section.HydraulicRadiusRatio);
        c.Compare("velocity_ratio", section.VelocityRatio);
        c.Compare("flow_ratio", section.FlowRatio);
        c.Compare("top_width_ratio", section.TopWidthRatio);
    }

    // A mercury gauge under water: the column counts 13.57 - 1 times.
    private static void CompareMeter(PublishedCase c)
    {
        double bore = c.Number("bore_in") * 0.0254, pipe = c.Number("pipe_inside_in") * 0.0254, head = c.Number("mercury_deflection_in") * 0.0254 * (13.57 - 1);
        double coefficient = 0.62, flow = 0;
        for (int i = 0; i < 20; i++)
        {
            flow = coefficient * Circle(bore) * Math.Sqrt(2 * PipeFlow.GravityMPerS2 * head);
            coefficient = Orifice.PlateCoefficient(bore / pipe, flow / Circle(pipe) * pipe / 1.1e-6);
        }

        c.Compare("flow_coefficient", coefficient);
        c.Compare("flow_gal_min", flow * 60_000 / Conversions.LPerUsGallon);
    }
}
