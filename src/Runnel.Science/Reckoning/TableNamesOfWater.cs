namespace Runnel.Science.Reckoning;

/// <summary>The kinds of rows of the tables of pipes, drains, sumps, solids, readings and units.</summary>
internal sealed partial record TableName
{
    private static TableName[] Hydraulics =>
    [
        Friction("colebrook"), Friction("laminar"), Friction("swamee-jain"), Friction("haaland"), Friction("churchill"), Friction("serghides"), Friction("zigrang-sylvester"), Friction("blasius"),
        new("crane-ft", "fitting-friction"), new("minor-loss", "fitting-loss"), new("darcy-weisbach", "pipe"),
        new("hw-si", "hazen-williams") { Says = new() { ["constants"] = "si" } }, new("hw-us", "hazen-williams") { Says = new() { ["constants"] = "us" } },
        new("swamee-jain-explicit-q", "pipe-flow-explicit"), new("swamee-jain-explicit-d", "pipe-size"),
        new("fouling-flow-ratio", "narrowed-bore"), new("fouling-hw", "rougher-pipe"),
        new("pump-operating-point-quadratic", "operating-point"), new("pump-3point-power-law", "pump-curve"), new("pump-1point-default-curve", "pump-curve"),

        new("manning-circular", "part-full-section"), new("swmm-circular", "part-full-section"), new("swmm-section-factor", "part-full-section"),
        new("manning-circular-max-flow", "part-full-depths") { Says = new() { ["flow_ratio"] = "1" }, Results = new() { ["y_over_d"] = "y_over_d_most", ["flow_ratio"] = "flow_ratio_most" } },
        new("manning-above-full-two-depths", "part-full-depths"), new("manning-normal-depth", "drain-pipe"), new("manning-drain", "drain-pipe"), new("manning-channel", "channel"),
        new("weir-v-notch", "weir") { Says = new() { ["gravity_m_s2"] = "9.81" } }, new("weir-rect-kindsvater-carter", "weir") { Says = new() { ["form"] = "narrow" } },
        new("weir-rect-kc-suppressed", "weir") { Says = new() { ["form"] = "suppressed" } }, new("weir-rect-rehbock", "weir") { Says = new() { ["form"] = "rehbock" } },
        new("weir-rect-cengel-example", "weir") { Says = new() { ["form"] = "ackers" } },
        new("standpipe-head", "standpipe"), new("drain-prismatic", "drain-down"), new("drain-with-inflow", "drain-down-with-inflow"), new("drain-cone", "drain-down-cone"), new("drain-clog-level", "drain-clog"),

        new("sump-infer", "sump-cycle") { Results = new() { ["q_l_min"] = "inflow_l_min", ["p_l_min"] = "pump_l_min" } }, new("sump-infer-uncertainty", "sump-flow-error"),
        new("sump-max-starts", "most-starts"), new("sump-size", "sump-band"), new("sump-run-linear-curve", "sump-run-rising"), new("sump-backflow-volume", "sump-drain-back"),
        new("sump-time-to-overflow", "sump-overflow"), new("sump-no-stop", "sump-stops"),

        new("stokes", "settling-velocity") { Says = new() { ["law"] = "stokes" } }, new("settling-beyond-stokes", "settling-velocity"),
        new("drag-stokes", "drag-coefficient") { Says = new() { ["form"] = "stokes" } }, new("drag-haider-levenspiel", "drag-coefficient") { Says = new() { ["form"] = "haider-levenspiel" } },
        new("drag-clift-gauvin", "drag-coefficient") { Says = new() { ["form"] = "clift-gauvin" } }, new("radial-flow-settler-loading", "settler-size"),
    ];

    private static TableName[] Signals =>
    [
        new("individuals", "control-chart"), new("western-electric-rules", "run-rules"), new("cusum", "cusum-chart"), new("ewma", "ewma-chart"), new("arl-cusum", "cusum-run-length"), new("arl-ewma", "ewma-run-length"),
        new("critical-h-for-arl0", "chart-limits-for"), new("shewhart-constants", "chart-constants"), new("modified-z", "outliers"), new("hampel", "spikes"), new("mann-kendall", "trend"), new("theil-sen", "trend"),
        new("frozen-run", "stuck-sensor"), new("sup-f", "level-shift"), new("ols-cusum", "level-shift"), new("breakpoints", "level-shifts"), new("frozen-variance-test", "stuck-sensor"), new("local-level", "level-behind-noise"),
        new("ucum-convert", "unit-conversion")
        {
            Columns = new() { ["value"] = "value_in", ["from"] = "unit_in", ["to"] = "unit_out" }, Results = new() { ["value"] = "value_out" },
        },
        new("ucum-valid", "unit-known"),
    ];

    private static TableName Friction(string form) => new(form, "friction-factor") { Says = new() { ["form"] = form } };
}
