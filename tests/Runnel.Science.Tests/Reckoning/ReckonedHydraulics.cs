using System.Globalization;
using Runnel.Science.Pipes;

namespace Runnel.Science.Tests.Reckoning;

/// <summary>How a row of the hydraulic tables is asked for by name: columns under their own name unless told here.</summary>
internal sealed record HydraulicUse(string Relation)
{
    /// <summary>Columns that go by another name, or are in another unit: input and unit.</summary>
    public Dictionary<string, (string Input, string Unit)> Inputs { get; init; } = [];

    /// <summary>Inputs the row says in words, or that follow from several columns.</summary>
    public Dictionary<string, string> Also { get; init; } = [];

    /// <summary>Results under another name, times a factor for their unit.</summary>
    public Dictionary<string, (string Output, double Factor)> Outputs { get; init; } = [];

    /// <summary>Expected values that are another sum's.</summary>
    public string[] Left { get; init; } = [];
}

internal static class ReckonedHydraulics
{
    private const double Foot = Conversions.MPerFoot, LPerMinOfGal = Conversions.LPerUsGallon;
    private const double KNPerM3OfLbfPerFt3 = 0.157087463847, KPaPerPsi = 6.894757293168;

    public static readonly string[] Files =
    [
        "hydraulics-signals/pipes.csv", "hydraulics-signals/gravity.csv", "hydraulics-signals/sump.csv", "hydraulics-signals/solids.csv", "hydraulics-signals/ucum.csv",
    ];

    private static readonly Dictionary<string, (string, double)> SumpResults = new() { ["Q_L_min"] = ("inflow_l_min", 1), ["P_L_min"] = ("pump_l_min", 1) };

    public static HydraulicUse? Of(PublishedCase c) => Family(c.Name) switch
    {
        "colebrook" or "laminar" => new("friction-factor"),
        "explicit" => new("friction-factor") { Also = new() { ["form"] = Form(c.Name) } },
        "swamee-jain" or "haaland" or "churchill" or "blasius" => new("friction-factor") { Also = new() { ["form"] = Family(c.Name) } },
        "crane-7.1-smooth-plastic" or "white-ex6.7-oil-cast-iron-f" => new("friction-factor"),
        "white-ex6.6-asphalted-cast-iron" => new("pipe")
        {
            Inputs = new() { ["length_ft"] = ("length_m", "ft"), ["diameter_ft"] = ("diameter_m", "ft"), ["velocity_ft_s"] = ("velocity_m_s", "ft/s"), ["nu_ft2_s"] = ("nu_m2_s", "ft2/s"), ["roughness_ft"] = ("roughness_mm", "ft") },
            Also = new() { ["gravity_m_s2"] = Text(c.Number("gravity_ft_s2") * Foot) },
            Outputs = new() { ["hf_ft"] = ("head_loss_m", 1 / Foot), ["dp_lbf_ft2"] = ("head_loss_m", c.Number("specific_weight_lbf_ft3", 0) / Foot) },
            Left = ["eD"],
        },
        "white-ex6.7-oil-cast-iron-hf" => new("pipe")
        {
            Inputs = new() { ["diameter_mm"] = ("diameter_m", "mm") },
            Outputs = new() { ["Re"] = ("reynolds", 1), ["hf_m"] = ("head_loss_m", 1) },
        },
        "sdsu-cive444-type2" => new("pipe")
        {
            Inputs = new() { ["diameter_in"] = ("diameter_m", "in"), ["hf_over_L"] = ("head_loss_m", "m"), ["nu_ft2_s"] = ("nu_m2_s", "ft2/s") },
            Also = new() { ["length_m"] = "1", ["roughness_mm"] = Text(c.Number("eD") * c.Number("diameter_in") * 25.4), ["gravity_m_s2"] = Text(c.Number("gravity_ft_s2") * Foot) },
            Outputs = new() { ["f_darcy"] = ("friction_factor", 1), ["velocity_ft_s"] = ("velocity_m_s", 1 / Foot), ["flow_ft3_s"] = ("flow_m3_s", 1 / (Foot * Foot * Foot)) },
        },
        "crane-7.15-brake-power" => new("pump-power")
        {
            Inputs = new() { ["flow_gal_min"] = ("flow_l_h", "gal_us/min"), ["head_ft"] = ("head_m", "ft"), ["efficiency"] = ("wire_to_water_efficiency", "") },
            Outputs = new() { ["brake_power_hp"] = ("electrical_w", 1 / Conversions.WPerHorsepower) },
        },
        "crane-7.33-affinity" => new("affinity")
        {
            Inputs = new() { ["flow1_gal_min"] = ("flow1_l_min", "gal_us/min"), ["head1_ft"] = ("head1_m", "ft") },
            Also = new() { ["power1_w"] = Text(c.Number("power1_hp", 0) * Conversions.WPerHorsepower) },
            Outputs = new() { ["flow2_gal_min"] = ("flow2_l_min", 1 / LPerMinOfGal), ["head2_ft"] = ("head2_m", 1 / Foot), ["power2_hp"] = ("power2_w", 1 / Conversions.WPerHorsepower) },
        },
        "crane-7.32-npsh" => new("npsh")
        {
            Inputs = new() { ["lift_ft"] = ("lift_m", "ft"), ["losses_ft"] = ("losses_m", "ft") },
            Also = new()
            {
                ["tank_pressure_kpa"] = Text(c.Number("tank_pressure_psia") * KPaPerPsi),
                ["vapour_pressure_kpa"] = Text(c.Number("vapour_pressure_psi") * KPaPerPsi),
                ["specific_weight_kn_m3"] = Text(c.Number("specific_weight_lbf_ft3") * KNPerM3OfLbfPerFt3),
            },
            Outputs = new() { ["npsha_ft"] = ("npsha_m", 1 / Foot) },
        },
        "crane-7.19-gravity-two-sizes" => TwoSizes(c),
        "hw-si" => new("hazen-williams"),
        "hw-vs-4.727-us-form" => new("hazen-williams")
        {
            Inputs = new() { ["flow_ft3_s"] = ("flow_m3_s", "ft3/s"), ["diameter_ft"] = ("diameter_m", "ft"), ["length_ft"] = ("length_m", "ft") },
            Also = new() { ["constants"] = "us" },
            Outputs = new() { ["hf_ft"] = ("hf_m", 1 / Foot) },
        },
        "hw-wang-ex5.36-us" => new("hazen-williams")
        {
            Inputs = new() { ["diameter_in"] = ("diameter_m", "in"), ["length_ft"] = ("length_m", "ft") },
            Also = new() { ["flow_m3_s"] = Text(c.Number("flow_MGD") * 1e6) + " gal_us/d" },
            Outputs = new() { ["hf_ft"] = ("hf_m", 1 / Foot) },
        },
        "pump-operating-point-quadratic" => new("operating-point"),
        "pump-3point-power-law" => new("pump-curve") { Also = new() { ["flow_l_min"] = "40" }, Outputs = new() { ["head_at_40_L_min_m"] = ("head_m", 1) }, Left = ["head_at_120_L_min_m"] },
        "pump-1point-default-curve" => new("pump-curve") { Also = new() { ["flow_l_min"] = "30" }, Outputs = new() { ["head_at_30_L_min_m"] = ("head_m", 1) } },
        var f when f.StartsWith("fouling-flow-ratio", StringComparison.Ordinal) => new("narrowed-bore"),
        var f when f.StartsWith("fouling-hw", StringComparison.Ordinal) => new("rougher-pipe"),
        "swamee-jain-explicit-Q" => new("pipe-flow-explicit"),
        "swamee-jain-explicit-D" => new("pipe-size"),
        "K" => new("fitting-loss"),
        "crane-fT" => new("fitting-friction"),

        "manning-circular" or "swmm-circular" or "swmm-section-factor" => new("part-full-section"),
        "manning-circular-max-flow" => new("part-full-depths") { Also = new() { ["flow_ratio"] = "1" }, Outputs = new() { ["y_over_D"] = ("y_over_d_most", 1), ["flow_ratio"] = ("flow_ratio_most", 1) } },
        "manning-above-full-two-depths" => new("part-full-depths"),
        "manning-8in-full" => new("drain-pipe")
        {
            Inputs = new() { ["diameter_ft"] = ("diameter_m", "ft") },
            Outputs = new() { ["flow_ft3_s"] = ("flow_m3_s", 1 / (Foot * Foot * Foot)), ["velocity_ft_s"] = ("velocity_m_s", 1 / Foot), ["area_ft2"] = ("area_m2", 1 / (Foot * Foot)) },
        },
        "cengel-manning-channel" => new("channel"),
        "manning-100mm-drain" or "manning-normal-depth" => new("drain-pipe"),
        "crane-7.26-part-full" => new("drain-pipe-darcy")
        {
            Inputs = new() { ["diameter_in"] = ("diameter_m", "in") },
            Also = new() { ["slope"] = Text(c.Number("slope_in_per_ft") / 12), ["nu_m2_s"] = Text(CraneViscosity(c)) },
            Outputs = new() { ["flow_gal_min"] = ("flow_l_min", 1 / LPerMinOfGal) },
        },
        var f when f.StartsWith("weir-v-notch", StringComparison.Ordinal) => new("weir") { Also = new() { ["gravity_m_s2"] = "9.81" } },
        var f when f.StartsWith("weir-rect", StringComparison.Ordinal) => new("weir")
        {
            Also = new() { ["form"] = f.Contains("rehbock", StringComparison.Ordinal) ? "rehbock" : f.Contains("cengel", StringComparison.Ordinal) ? "ackers" : f.Contains("kc-suppressed", StringComparison.Ordinal) ? "suppressed" : "narrow" },
        },
        "standpipe" or "standpipe-head" => new("standpipe"),
        "orifice" => new("orifice"),
        "crane-7.23-orifice-meter" => new("orifice-plate")
        {
            Inputs = new() { ["bore_in"] = ("bore_m", "in"), ["pipe_inside_in"] = ("pipe_inside_m", "in") },
            Also = new() { ["head_difference_m"] = Text(c.Number("mercury_deflection_in") * 0.0254 * (13.57 - 1)), ["nu_m2_s"] = "1.1e-6" },
            Outputs = new() { ["flow_gal_min"] = ("flow_l_min", 1 / LPerMinOfGal) },
        },
        "drain-prismatic" => new("drain-down"),
        "drain-torricelli-demo" => new("drain-down") { Also = new() { ["tank_diameter_m"] = Text(2 * c.Number("tank_radius_m")), ["orifice_diameter_m"] = Text(2 * c.Number("spigot_radius_m")), ["cd"] = "1" } },
        "drain-with-inflow" => new("drain-down-with-inflow"),
        "drain-cone" => new("drain-down-cone"),
        "siphon" => new("siphon"),
        "drain-clog-level" => new("drain-clog"),
        "tanks-equalise" => new("tanks-equalise"),

        "wetwell-relation-milhdbk" => new("sump-cycle")
        {
            Inputs = new() { ["V_gal"] = ("band_l", "gal_us"), ["D_gal_min"] = ("pump_l_min", "gal_us/min") },
            Also = new() { ["inflow_l_min"] = Text(c.Number("Q_over_D") * c.Number("D_gal_min")) + " gal_us/min" },
            Left = ["V_from_tmin_gal"],
        },
        "wetwell-relation-ufc" => new("sump-band") { Inputs = new() { ["q_L_s"] = ("p_l_min", "L/s") } },
        "wetwell-worked-example" => new("sump-band")
        {
            Inputs = new() { ["T_s"] = ("t_s", ""), ["pump_L_s"] = ("p_l_min", "L/s") },
            Outputs = new() { ["volume_L"] = ("v_l", 1) },
        },
        "sump-cycle" or "sump-infer" => new("sump-cycle") { Outputs = SumpResults },
        "sump-max-starts" => new("most-starts"),
        "sump-size" => new("sump-band"),
        "sump-infer-uncertainty" => new("sump-flow-error"),
        "sump-run-linear-curve" => new("sump-run-rising"),
        "sump-wear" => new("sump-wear"),
        "sump-backflow-volume" => new("sump-drain-back"),
        "sump-time-to-overflow" => new("sump-overflow"),
        "sump-no-stop" => new("sump-stops"),

        "stokes" or "fluids-laminar-settling" => new("settling-velocity") { Also = new() { ["law"] = "stokes" } },
        "settling-70um-quartz" or "settling-beyond-stokes" => new("settling-velocity"),
        "drag-stokes-0.1" => new("drag-coefficient") { Also = new() { ["form"] = "stokes" } },
        "drag-haider-levenspiel" => new("drag-coefficient") { Also = new() { ["form"] = "haider-levenspiel" } },
        "drag-clift-gauvin" => new("drag-coefficient"),
        "radial-flow-settler-loading" => new("settler-size"),
        "overflow-rate" => new("overflow-rate"),

        "ucum-convert" or "ucum-own" => Uncommon.Contains(c.Name) ? null : new("unit-conversion") { Inputs = new() { ["value"] = ("value_in", ""), ["from"] = ("unit_in", ""), ["to"] = ("unit_out", "") }, Outputs = new() { ["value"] = ("value_out", 1) } },
        "ucum-valid" => new("unit-known"),
        _ => null,
    };

    public static string? ReasonFor(PublishedCase c) => Family(c.Name) switch
    {
        "ucum-convert" => "units without a place in a water loop, and a misprint; told beside the units' own tests",
        var f when f.StartsWith("fish-solids", StringComparison.Ordinal) || f.EndsWith("-removal", StringComparison.Ordinal) => "reference data",
        _ => null,
    };

    private static readonly string[] Uncommon = ["ucum-convert-3-126", "ucum-convert-3-127", "ucum-convert-3-128", "ucum-convert-3-111"];

    // A case is named by its family and a running number or the values of its inputs.
    public static string Family(string name)
    {
        foreach (string family in new[] { "colebrook-Re", "laminar-Re", "explicit-", "blasius-Re", "K-", "crane-fT-", "ucum-valid-", "ucum-convert-", "ucum-own-", "manning-circular-yD", "swmm-circular-yD", "swmm-section-factor-a" })
        {
            if (name.StartsWith(family, StringComparison.Ordinal)) return family[..family.LastIndexOf('-')];
        }

        int last = name.LastIndexOf('-');
        return last > 0 && name[(last + 1)..].All(char.IsDigit) && name[(last + 1)..] is not ("45" or "90" or "60") ? name[..last] : name;
    }

    private static string Form(string name) => name["explicit-".Length..name.IndexOf("-Re", StringComparison.Ordinal)] switch
    {
        "swamee-jain-1976" => "swamee-jain",
        "churchill-1977" => "churchill",
        "serghides-1" => "serghides",
        "zigrang-sylvester-2" => "zigrang-sylvester",
        "colebrook-ref" => "colebrook",
        var form => form,
    };

    // Fittings rated on the friction of fully rough flow in the larger pipe.
    private static HydraulicUse TwoSizes(PublishedCase c)
    {
        double bore1 = c.Number("pipe1_inside_in") * 0.0254, bore2 = c.Number("pipe2_inside_in") * 0.0254;
        double rated = FrictionFactor.FullyRough(c.Number("roughness_in") * 0.0254 / bore1);
        return new("two-sizes")
        {
            Inputs = new()
            {
                ["head_ft"] = ("head_m", "ft"),
                ["pipe1_inside_in"] = ("diameter1_m", "in"),
                ["pipe1_length_ft"] = ("length1_m", "ft"),
                ["pipe2_inside_in"] = ("diameter2_m", "in"),
                ["pipe2_length_ft"] = ("length2_m", "ft"),
                ["roughness_in"] = ("roughness_mm", "in"),
            },
            Also = new()
            {
                ["minor_k1"] = Text(c.Number("K_entrance_on_pipe1") + (68 * rated)),
                ["minor_k2"] = Text(MinorLoss.SuddenContraction(bore2, bore1) + c.Number("K_exit_on_pipe2")),
                ["nu_m2_s"] = Text(CraneViscosity(c)),
            },
            Outputs = new() { ["flow_gal_min"] = ("flow_l_min", 1 / LPerMinOfGal) },
        };
    }

    private static double CraneViscosity(PublishedCase c) =>
        c.Number("viscosity_cP") / 1000 / (c.Number("specific_weight_lbf_ft3") * KNPerM3OfLbfPerFt3 * 1000 / PipeFlow.GravityMPerS2);

    private static string Text(double value) => value.ToString("R", CultureInfo.InvariantCulture);
}
