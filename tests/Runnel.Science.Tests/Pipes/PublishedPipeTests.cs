using CsCheck;
using Runnel.Science.Pipes;
using Runnel.Science.Water;

namespace Runnel.Science.Tests.Pipes;

// Source: Colebrook (1939) at 30 digits, White, Crane TP-410, EPANET 2.2 manual, Swamee and Jain (1976), Williams and Hazen (1905) and others;
// named in each row.
public sealed class PublishedPipeTests
{
    private const double M3PerFt3 = 0.028316846592, KPaPerPsi = 6.894757293168, KNPerM3PerLbfPerFt3 = 0.157087463847;

    private static readonly PublishedTable Table = PublishedTable.Open("hydraulics-signals/pipes.csv");

    public static IEnumerable<TheoryDataRow<string, string>> Rows => Table.Rows;

    [Theory, MemberData(nameof(Rows))]
    public void Pipe_relations_agree_with_print(string row, string source)
    {
        var c = Table[row];
        Assert.Equal(source, c.Source);
        if (c.Expects("f_darcy") && c.Has("Re")) CompareFriction(c);
        else if (row.StartsWith("crane-fT", StringComparison.Ordinal))
            c.Compare("fT", FrictionFactor.FullyRough(c.Number("roughness_m") / c.Number("inside_diameter_m")));
        else if (row.StartsWith("K-", StringComparison.Ordinal)) c.Compare("K", MinorLoss.Of(c.Text("fitting"))!.Value);
        else if (row.StartsWith("fouling", StringComparison.Ordinal)) CompareFouling(c);
        else if (row.StartsWith("pump-", StringComparison.Ordinal)) ComparePump(c);
        else if (row.StartsWith("hw-", StringComparison.Ordinal)) CompareHazenWilliams(c);
        else CompareExample(c);
        c.AssertAllCompared();
    }

    [Fact]
    public void Explicit_forms_stay_close_to_colebrook() => Gen.Select(Gen.Double[3.7, 8], Gen.Double[0, 0.05]).Sample((log, rough) =>
    {
        double re = Math.Pow(10, log), exact = FrictionFactor.Colebrook(re, rough);
        Assert.Equal(1, FrictionFactor.Serghides(re, rough) / exact, 1e-4);
        Assert.Equal(1, FrictionFactor.Haaland(re, rough) / exact, 0.03);
        Assert.Equal(1, FrictionFactor.SwameeJain(re, rough) / exact, 0.04);
    });

    [Fact]
    public void Friction_has_no_jump_at_the_ends_of_the_transition()
    {
        Assert.Equal(FrictionFactor.Darcy(2000, 0.001), FrictionFactor.Darcy(2000.0001, 0.001), 1e-6);
        Assert.Equal(FrictionFactor.Darcy(4000, 0.001), FrictionFactor.Darcy(3999.9999, 0.001), 1e-6);
    }

    [Fact]
    public void Flow_and_loss_undo_each_other() => Gen.Select(Gen.Double[1e-6, 0.01], Gen.Double[0.5, 100], Gen.Double[0.015, 0.11], Gen.Double[0, 20])
        .Sample((flow, length, bore, k) =>
        {
            double loss = PipeFlow.AtFlow(flow, length, bore, 0.0015, k).HeadLossM;
            Assert.Equal(1, PipeFlow.AtHeadLoss(loss, length, bore, 0.0015, k).FlowM3PerS / flow, 1e-9);
        });

    [Fact, Trait("source", "IAPWS / handbook values: 999.84, 999.97, 998.20, 958.4 kg/m3; 1.792, 1.002, 0.653 mPa s (memory)")]
    public void Water_has_the_handbook_density_and_viscosity()
    {
        Assert.Equal(999.84, WaterProperties.DensityKgPerM3(0), 0.02);
        Assert.Equal(999.97, WaterProperties.DensityKgPerM3(4), 0.02);
        Assert.Equal(998.20, WaterProperties.DensityKgPerM3(20), 0.02);
        Assert.Equal(958.4, WaterProperties.DensityKgPerM3(100), 0.1);
        Assert.Equal(1.792e-3, WaterProperties.ViscosityPaS(0), 0.01e-3);
        Assert.Equal(1.002e-3, WaterProperties.ViscosityPaS(20), 0.001e-3);
        Assert.Equal(0.653e-3, WaterProperties.ViscosityPaS(40), 0.002e-3);
        Assert.Equal(1.004e-6, WaterProperties.KinematicViscosityM2PerS(20), 0.001e-6);
    }

    private static void CompareFriction(PublishedCase c)
    {
        double re = c.Number("Re"), rough = c.Number("eD", 0);
        double f = c.Name switch
        {
            var n when n.StartsWith("laminar", StringComparison.Ordinal) => FrictionFactor.Laminar(re),
            var n when n.StartsWith("blasius", StringComparison.Ordinal) => FrictionFactor.Blasius(re),
            var n when n.Contains("swamee-jain", StringComparison.Ordinal) => FrictionFactor.SwameeJain(re, rough),
            var n when n.Contains("haaland", StringComparison.Ordinal) => FrictionFactor.Haaland(re, rough),
            var n when n.Contains("churchill", StringComparison.Ordinal) => FrictionFactor.Churchill(re, rough),
            var n when n.Contains("serghides", StringComparison.Ordinal) => FrictionFactor.Serghides(re, rough),
            var n when n.Contains("zigrang", StringComparison.Ordinal) => FrictionFactor.ZigrangSylvester(re, rough),
            _ => FrictionFactor.Colebrook(re, rough),
        };
        c.Compare("f_darcy", f);
    }

    private static void CompareFouling(PublishedCase c)
    {
        if (c.Has("diameter_ratio"))
        {
            c.Compare("flow_ratio_darcy_const_f", PipeFlow.FlowRatioOfBore(c.Number("diameter_ratio")));
            c.Compare("flow_ratio_hazen_williams", HazenWilliams.FlowRatioOfBore(c.Number("diameter_ratio")));
            return;
        }

        c.Compare("flow_ratio", c.Number("C1") / c.Number("C0"));
        c.Compare("headloss_ratio", HazenWilliams.HeadLossRatioOfC(c.Number("C0"), c.Number("C1")));
    }

    private static void ComparePump(PublishedCase c)
    {
        if (c.Name == "pump-operating-point-quadratic")
        {
            var (flow, head) = new PumpCurve(c.Number("H0_m"), c.Number("a_m_per_Lpm2"), 2).DutyPoint(q => c.Number("dz_m") + (c.Number("b_m_per_Lpm2") * q * q));
            c.Compare("flow_L_min", flow);
            c.Compare("head_m", head);
        }
        else if (c.Name == "pump-3point-power-law")
        {
            var curve = PumpCurve.ThroughPoints(c.Number("H0_m"), c.Number("q1_L_min"), c.Number("h1_m"), c.Number("q2_L_min"), c.Number("h2_m"));
            c.Compare("n", curve.Exponent);
            c.Compare("r", curve.Coefficient);
            c.Compare("head_at_40_L_min_m", curve.HeadM(40));
            c.Compare("head_at_120_L_min_m", curve.HeadM(120));
        }
        else
        {
            var curve = PumpCurve.FromDesignPoint(c.Number("design_flow_L_min"), c.Number("design_head_m"));
            c.Compare("H0_m", curve.ShutOffHeadM);
            c.Compare("qmax_L_min", curve.MostFlowLPerMin);
            c.Compare("n", curve.Exponent);
            c.Compare("head_at_30_L_min_m", curve.HeadM(30));
        }
    }

    private static void CompareHazenWilliams(PublishedCase c)
    {
        if (c.Expects("hf_m"))
            c.Compare("hf_m", HazenWilliams.HeadLossM(c.Number("flow_m3_s"), c.Number("length_m"), c.Number("diameter_m"), c.Number("C")));
        else if (c.Has("flow_MGD"))
            c.Compare("hf_ft", HazenWilliams.HeadLossFt(c.Number("flow_MGD") * 1e6 * 231 / 1728 / 86_400, c.Number("length_ft"), c.Number("diameter_in") / 12, c.Number("C")));
        else
            c.Compare("hf_ft", HazenWilliams.HeadLossFt(c.Number("flow_ft3_s"), c.Number("length_ft"), c.Number("diameter_ft"), c.Number("C")));
    }

    private static void CompareExample(PublishedCase c)
    {
        switch (c.Name)
        {
            case "white-ex6.6-asphalted-cast-iron":
                double bore = c.Number("diameter_ft") * 0.3048, area = Math.PI * bore * bore / 4;
                var white = PipeFlow.AtFlow(c.Number("velocity_ft_s") * 0.3048 * area, c.Number("length_ft") * 0.3048, bore, c.Number("roughness_ft") * 304.8, 0,
                    c.Number("nu_ft2_s") * 0.09290304, c.Number("gravity_ft_s2") * 0.3048);
                c.Compare("eD", c.Number("roughness_ft") / c.Number("diameter_ft"));
                c.Compare("hf_ft", white.HeadLossM / 0.3048);
                c.Compare("dp_lbf_ft2", white.HeadLossM / 0.3048 * c.Number("specific_weight_lbf_ft3"));
                break;
            case "white-ex6.7-oil-cast-iron-hf":
                var oil = PipeFlow.AtFlow(c.Number("flow_m3_s"), c.Number("length_m"), c.Number("diameter_mm") / 1000, c.Number("roughness_mm"), 0, c.Number("nu_m2_s"), 9.81);
                c.Compare("velocity_m_s", oil.VelocityMPerS);
                c.Compare("Re", oil.Reynolds);
                c.Compare("hf_m", oil.HeadLossM);
                break;
            case "sdsu-cive444-type2":
                double ten = c.Number("diameter_in") * 0.0254;
                var found = PipeFlow.AtHeadLoss(c.Number("hf_over_L") * 100, 100, ten, c.Number("eD") * ten * 1000, 0, c.Number("nu_ft2_s") * 0.09290304, c.Number("gravity_ft_s2") * 0.3048);
                c.Compare("f_darcy", found.Friction);
                c.Compare("velocity_ft_s", found.VelocityMPerS / 0.3048);
                c.Compare("flow_ft3_s", found.FlowM3PerS / M3PerFt3);
                break;
            case "crane-7.15-brake-power":
                double kn = c.Number("specific_weight_lbf_ft3") * KNPerM3PerLbfPerFt3, flow = c.Number("flow_gal_min") * Conversions.LPerUsGallon / 60_000;
                c.Compare("brake_power_hp", PumpDemand.PowerW(flow, c.Number("head_ft") * 0.3048, c.Number("efficiency"), kn * 1000 / PipeFlow.GravityMPerS2) / Conversions.WPerHorsepower);
                break;
            case "crane-7.33-affinity":
                double ratio = c.Number("speed2_rpm") / c.Number("speed1_rpm");
                var curve = new PumpCurve(2 * c.Number("head1_ft"), c.Number("head1_ft") / Math.Pow(c.Number("flow1_gal_min"), 2), 2).AtSpeed(ratio);
                var like = new PumpAffinity(c.Number("flow1_gal_min"), c.Number("head1_ft"), c.Number("power1_hp")).AtSpeed(ratio);
                c.Compare("flow2_gal_min", like.FlowLPerMin);
                c.Compare("head2_ft", like.HeadM);
                c.Compare("power2_hp", like.PowerW);
                Assert.Equal(like.HeadM, curve.HeadM(like.FlowLPerMin), 1e-9);
                break;
            case "crane-7.32-npsh":
                c.Compare("npsha_ft", PumpDemand.SuctionHeadM(
                    c.Number("tank_pressure_psia") * KPaPerPsi, c.Number("vapour_pressure_psi") * KPaPerPsi, c.Number("lift_ft") * 0.3048, c.Number("losses_ft") * 0.3048,
                    c.Number("specific_weight_lbf_ft3") * KNPerM3PerLbfPerFt3) / 0.3048);
                break;
            case "crane-7.19-gravity-two-sizes":
                c.Compare("flow_gal_min", TwoSizes(c) * 60_000 / Conversions.LPerUsGallon);
                break;
            case "swamee-jain-explicit-Q":
                c.Compare("flow_m3_s", PipeFlow.ExplicitFlowM3PerS(
                    c.Number("hf_m"), c.Number("length_m"), c.Number("diameter_m"), c.Number("roughness_m") * 1000, c.Number("nu_m2_s"), c.Number("gravity_m_s2")));
                break;
            case "swamee-jain-explicit-D":
                c.Compare("diameter_m", PipeFlow.BoreM(
                    c.Number("flow_m3_s"), c.Number("hf_m"), c.Number("length_m"), c.Number("roughness_m") * 1000, c.Number("nu_m2_s"), c.Number("gravity_m_s2")));
                break;
            default:
                throw c.Unknown();
        }
    }

    // Two pipes in series under a fixed head, the fittings rated on the pipe they sit in.
    private static double TwoSizes(PublishedCase c)
    {
        double bore1 = c.Number("pipe1_inside_in") * 0.0254, bore2 = c.Number("pipe2_inside_in") * 0.0254, rough = c.Number("roughness_in") * 25.4;
        double density = c.Number("specific_weight_lbf_ft3") * KNPerM3PerLbfPerFt3 * 1000 / PipeFlow.GravityMPerS2, viscosity = c.Number("viscosity_cP") / 1000 / density;
        double rated = FrictionFactor.FullyRough(rough / 1000 / bore1);
        double k1 = c.Number("K_entrance_on_pipe1") + (68 * rated), k2 = MinorLoss.SuddenContraction(bore2, bore1) + c.Number("K_exit_on_pipe2");
        double low = 0, high = 0.1;
        for (int i = 0; i < 60; i++)
        {
            double q = (low + high) / 2;
            double loss = PipeFlow.AtFlow(q, c.Number("pipe1_length_ft") * 0.3048, bore1, rough, k1, viscosity).HeadLossM
                + PipeFlow.AtFlow(q, c.Number("pipe2_length_ft") * 0.3048, bore2, rough, k2, viscosity).HeadLossM;
            if (loss < c.Number("head_ft") * 0.3048) low = q;
            else high = q;
        }

        return low;
    }
}
