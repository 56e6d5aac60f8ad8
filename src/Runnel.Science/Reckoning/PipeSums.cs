using Runnel.Science.Pipes;
using static Runnel.Science.Reckoning.Ask;
using static Runnel.Science.Reckoning.Hydraulics;

namespace Runnel.Science.Reckoning;

/// <summary>What full pipes lose and carry.</summary>
internal static class PipeSums
{
    private static readonly Input C = Number("c", "1", "Hazen-Williams coefficient: plastic 150, old iron 100", 20, 200, "150");
    private static readonly Input HeadLoss = Number("hf_m", "m", "head that is lost, or that there is to lose", 0, 1e4, "1").Also("head_loss_m").AlsoIn(("hf_ft", "ft"));

    public static readonly Relation[] All =
    [
        new("pipe", "How much does this pipe lose?")
        {
            Explanation = "Head lost in a full round pipe with its fittings at a flow, or the flow that a head drives through it. Real plastic pipe with joints loses 5 to 10 % more; slime narrows the bore. Where the pipe ends free or under water, count 1 for the outlet among the fittings, and 0.5 for a plain inlet.",
            Inputs =
            [
                FlowM3S, Number("head_loss_m", "m", "head that is lost, or that there is to lose", 0, 1e4, "1").Also("hf_m").AlsoIn(("head_loss_mm", "mm"), ("hf_ft", "ft")),
                Number("velocity_m_s", "m/s", "velocity, in place of the flow", 0, 50, "0.8").AlsoIn(("velocity_ft_s", "ft/s")),
                Length, Bore, Roughness, MinorK, Temp, Viscosity, Gravity,
            ],
            Choices =
            [
                // A table may hold both flow and velocity.
                new([["flow_m3_s"], ["head_loss_m"], ["velocity_m_s"]]) { Agrees = g => !g.Has("head_loss_m") && g.Has("diameter_m") && Math.Abs((g["velocity_m_s"] * CircleM2(g["diameter_m"])) - g["flow_m3_s"]) <= 0.01 * g["flow_m3_s"] },
                Fluid,
            ],
            Rules = [SmoothEnough],
            Outputs =
            [
                new("head_loss_m", "m", "head lost"),
                new("velocity_m_s", "m/s", "velocity"),
                new Output("reynolds", "1", "Reynolds number").Folded(),
                new Output("friction_factor", "1", "Darcy friction factor").Folded(),
                new Output("flow_m3_s", "m3/s", "flow in cubic metres a second").Folded(),
                new("flow_l_min", "L/min", "flow"),
            ],
            Along = "flow_m3_s", Shown = (0, 0.003),
            Formula = "h = (f L/d + K) V^2/2g; 1/sqrt f = -2 log10(e/(3.7 d) + 2.51/(Re sqrt f)); f = 64/Re in slow flow",
            Source = "Darcy and Weisbach; Colebrook (1939); water density and viscosity from handbook fits. Between Reynolds numbers 2000 and 4000 methods differ by 10 % and more.",
            Reckon = g =>
            {
                double viscosity = ViscosityOf(g), rough = g["roughness_mm"], bore = g["diameter_m"], gravity = g["gravity_m_s2"];
                var state = g.Has("head_loss_m") ? PipeFlow.AtHeadLoss(g["head_loss_m"], g["length_m"], bore, rough, g["minor_k"], viscosity, gravity)
                    : PipeFlow.AtFlow(g.Or("flow_m3_s", g.Or("velocity_m_s", 0) * CircleM2(bore)), g["length_m"], bore, rough, g["minor_k"], viscosity, gravity);
                return [state.HeadLossM, state.VelocityMPerS, state.Reynolds, state.Friction, state.FlowM3PerS, LPerMin(state.FlowM3PerS)];
            },
            Meaning = a => $"{a.Say("flow_l_min")} at {a.Say("velocity_m_s")} lose {Amounts.Height(a["head_loss_m"])} of head." +
                (a["velocity_m_s"] > 2 ? " Fast water is noisy and wasteful: a wider pipe pays." : a["velocity_m_s"] < 0.3 ? " Slow water lets solids settle." : ""),
        },
        new("pipe-size", "How wide must my pipe be?")
        {
            Explanation = "The bore that carries a flow while it loses no more head than you can spare; friction only, so keep some head for bends and outlets. Take the next size up, and measure the inside: nominal sizes are outside diameters in many countries.",
            Inputs =
            [
                FlowM3S.Within(1e-8, 100), HeadLoss.Within(1e-6, 1e4).Say("0.3"), Length.Within(1e-3, 1e5).Say("6"), Roughness.Or("0.007"), Temp, Viscosity, Gravity,
            ],
            Choices = [Fluid],
            Outputs = [new("diameter_m", "m", "bore"), new("velocity_m_s", "m/s", "velocity in it")],
            Along = "flow_m3_s", Shown = (0.0001, 0.003),
            Formula = "D = 0.66 [e^1.25 (L Q^2/(g h))^4.75 + nu Q^9.4 (L/(g h))^5.2]^0.04",
            Source = "Swamee and Jain (1976), within 2 % of Colebrook in turbulent flow.",
            Reckon = g =>
            {
                double bore = PipeFlow.BoreM(g["flow_m3_s"], g["hf_m"], g["length_m"], g["roughness_mm"], ViscosityOf(g), g["gravity_m_s2"]);
                return [bore, g["flow_m3_s"] / CircleM2(bore)];
            },
            Meaning = a => $"{Figure.Say(1000 * a["diameter_m"], "mm")} inside at least, with the water at {a.Say("velocity_m_s")}." +
                (a["velocity_m_s"] > 2 ? " That is fast: a wider pipe is quieter and lasts longer." : ""),
        },
        new("pipe-flow-explicit", "What flows, by one formula?")
        {
            Explanation = "Flow that a head drives through a plain pipe, in a single formula without trial and error; for spreadsheets, and to check others. Turbulent flow only, no fittings.",
            Inputs = [HeadLoss.Within(1e-6, 1e4), Length.Within(1e-3, 1e5), Bore, Roughness.Or("0.007"), Temp, Viscosity, Gravity],
            Choices = [Fluid],
            Rules = [SmoothEnough],
            Outputs = [new("flow_m3_s", "m3/s", "flow"), new("flow_l_min", "L/min", "the same in litres a minute"), new("reynolds", "1", "Reynolds number: the formula holds from 4000")],
            Along = "hf_m", Main = "flow_l_min", Shown = (0.05, 5),
            Formula = "Q = -0.965 sqrt(g D^5 h/L) ln(e/(3.7 D) + sqrt(3.17 nu^2 L/(g D^3 h)))",
            Source = "Swamee and Jain (1976), within 1 % of Colebrook.",
            Reckon = g =>
            {
                double bore = g["diameter_m"], flow = PipeFlow.ExplicitFlowM3PerS(g["hf_m"], g["length_m"], bore, g["roughness_mm"], ViscosityOf(g), g["gravity_m_s2"]);
                return [flow, LPerMin(flow), flow / CircleM2(bore) * bore / ViscosityOf(g)];
            },
            Meaning = a => $"{a.Say("flow_l_min")}." + (a["reynolds"] < 4000 ? " The flow is too slow for this formula: use pipe." : ""),
        },
        new("hazen-williams", "What does this pipe lose, by Hazen and Williams?")
        {
            Explanation = "Head lost at a flow, or the flow at a loss, by the formula that water mains, hoses and sprinkler lines are rated with. For water near 15 to 20 degC, turbulent, bores above 25 mm or so.",
            Inputs =
            [
                FlowM3S, HeadLoss, Length, Bore, C.Or("150"),
                Word("constants", "set of constants", "si", "si", "us").Or("si"),
            ],
            Choices = [new([["flow_m3_s"], ["hf_m"]])],
            Rules = [new("length_m", g => g["length_m"] > 0 || !g.Has("hf_m"), "is 0, so that any flow loses nothing", "Give the length of the pipe")],
            Outputs = [new("hf_m", "m", "head lost"), new("flow_m3_s", "m3/s", "flow"), new("flow_l_min", "L/min", "the same in litres a minute"), new("velocity_m_s", "m/s", "velocity")],
            Along = "flow_m3_s", Shown = (0, 0.003),
            Formula = "si: h = 10.667 L (Q/C)^1.852 / D^4.8704; us: h = 4.727 L (Q/C)^1.852 / D^4.871 in feet and cubic feet a second",
            Source = "Williams and Hazen (1905); us: EPANET 2.2 User Manual. Constants belong together: mixed sets err by some percent.",
            Reckon = g =>
            {
                double Loss(double q) => g.Word("constants") == "si" ? HazenWilliams.HeadLossM(q, g["length_m"], g["diameter_m"], g["c"])
                    : Conversions.MPerFoot * HazenWilliams.HeadLossFt(q / Math.Pow(Conversions.MPerFoot, 3), g["length_m"] / Conversions.MPerFoot, g["diameter_m"] / Conversions.MPerFoot, g["c"]);
                double flow = g.Has("flow_m3_s") ? g["flow_m3_s"] : Math.Pow(g["hf_m"] / Loss(1), 1 / 1.852);
                return [g.Or("hf_m", Loss(flow)), flow, LPerMin(flow), flow / CircleM2(g["diameter_m"])];
            },
            Meaning = a => $"{a.Say("flow_l_min")} lose {Amounts.Height(a["hf_m"])} of head.",
        },
        new("two-sizes", "What runs through a pipe of two sizes?")
        {
            Explanation = "Two pipes one behind the other, as a 50 mm drain that goes on in 40 mm: the flow that a head drives through both. The fittings of each, with the step between them, count on its own bore.",
            Inputs =
            [
                Number("head_m", "m", "head from surface to outlet", 1e-6, 1e4, "0.5"),
                Length.Named("length1_m", "length of the first pipe").Say("2"), Bore.Named("diameter1_m", "inside diameter of the first").Say("0.05"), MinorK.Named("minor_k1", "sum of its fittings' K: plain inlet 0.5"),
                Length.Named("length2_m", "length of the second pipe").Say("3"), Bore.Named("diameter2_m", "inside diameter of the second"), MinorK.Named("minor_k2", "sum of its fittings' K: outlet 1").Or("1"),
                Roughness.Or("0.007"), Temp, Viscosity,
            ],
            Choices = [Fluid],
            Rules = [new("length1_m", g => (g["length1_m"] > 0 || g["minor_k1"] > 0) && (g["length2_m"] > 0 || g["minor_k2"] > 0), "is 0, and that pipe has no fittings either", "Give lengths or fittings of both")],
            Outputs = [new("flow_l_min", "L/min", "flow"), new("head_loss1_m", "m", "head lost in the first"), new("head_loss2_m", "m", "head lost in the second")],
            Along = "head_m", Shown = (0.05, 2),
            Formula = "h = (f1 L1/d1 + K1) V1^2/2g + (f2 L2/d2 + K2) V2^2/2g",
            Source = "Darcy and Weisbach with Colebrook (1939); network method of Todini and Pilati (1988).",
            Cautions = [Caution.Discharge],
            Reckon = g => NetworkSums.InSeries(g),
            Meaning = a => $"{a.Say("flow_l_min")}; {(a["head_loss2_m"] > a["head_loss1_m"] ? "the second pipe" : "the first pipe")} takes most of the head.",
        },
        new("friction-factor", "What is the friction factor?")
        {
            Explanation = "Darcy friction factor from Reynolds number and relative roughness, by the exact equation or by the explicit forms that books and spreadsheets use. The default covers slow and fast flow; ask by pipe where you know flow and bore.",
            Inputs =
            [
                Number("re", "1", "Reynolds number: velocity x bore / viscosity", 1e-3, 1e12, "50000").Also("reynolds"),
                Number("ed", "1", "roughness over inside diameter", 0, 0.1, "0.0002").Or("0").Also("relative_roughness"),
                Word("form", "formula", "any-flow", "any-flow", "colebrook", "swamee-jain", "haaland", "churchill", "serghides", "zigrang-sylvester", "laminar", "blasius").Or("any-flow"),
            ],
            Rules =
            [
                new("re", g => g["re"] >= 1000 || g.Word("form") is "any-flow" or "churchill" or "laminar", "is too low for a formula of turbulent flow", "Give 1000 or more, or form any-flow"),
                new("ed", g => g["ed"] == 0 || g.Word("form") != "blasius", "is not 0, and blasius is for smooth pipe", "Leave it out, or take another form"),
            ],
            Outputs = [new("f_darcy", "1", "Darcy friction factor"), new("f_fanning", "1", "Fanning friction factor, a quarter of it"), new("regime", "word", "kind of flow")],
            Along = "re", Shown = (500, 100_000),
            Formula = "1/sqrt f = -2 log10(e/(3.7 d) + 2.51/(Re sqrt f)) from Re 4000; f = 64/Re to 2000; between them a bridge",
            Source = "Hagen and Poiseuille; Colebrook (1939); Swamee and Jain (1976); Haaland (1983); Churchill (1977); Serghides (1984); Zigrang and Sylvester (1982); Blasius (1913).",
            Reckon = g =>
            {
                double re = g["re"], ed = g["ed"];
                double f = g.Word("form") switch
                {
                    "colebrook" => FrictionFactor.Colebrook(re, ed),
                    "swamee-jain" => FrictionFactor.SwameeJain(re, ed),
                    "haaland" => FrictionFactor.Haaland(re, ed),
                    "churchill" => FrictionFactor.Churchill(re, ed),
                    "serghides" => FrictionFactor.Serghides(re, ed),
                    "zigrang-sylvester" => FrictionFactor.ZigrangSylvester(re, ed),
                    "laminar" => FrictionFactor.Laminar(re),
                    "blasius" => FrictionFactor.Blasius(re),
                    _ => FrictionFactor.Darcy(re, ed),
                };
                return [f, f / 4, re <= 2000 ? "laminar" : re < 4000 ? "between" : "turbulent"];
            },
            Meaning = a => $"{Figure.Brief(a["f_darcy"])}; the flow is {a.Say("regime")}" + (a.Say("regime") == "between" ? " laminar and turbulent, where methods differ by 10 % and more." : "."),
        },
    ];
}
