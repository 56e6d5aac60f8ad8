using Runnel.Science.Pipes;
using Runnel.Science.Water;
using static Runnel.Science.Reckoning.Ask;
using static Runnel.Science.Reckoning.Hydraulics;

namespace Runnel.Science.Reckoning;

/// <summary>How solids settle, and how big a settler must be.</summary>
internal static class SettlingSums
{
    private static readonly Input Particle = Number("rho_p_kg_m3", "kg/m3", "density of the particle; fish solids 1050 to 1190", 1, 25_000, "1100").Or("1100").Also("density_kg_m3");

    public static readonly Relation[] All =
    [
        new("settling", "Will solids settle in my separator?")
        {
            Explanation = "Settling velocity of a particle (or one you measured in a jar), the separator's surface loading, and the share an ideal settler would take out. Fish solids are flakes that break in pumps: a measured velocity is worth more than a sum, and real settlers reach half to two thirds.",
            Inputs =
            [
                Number("particle_um", "um", "size of the particles", 0.01, 50_000, "200"),
                Number("velocity_mm_s", "mm/s", "measured settling velocity", 0, 1000, "10"),
                Number("density_kg_m3", "kg/m3", "density of the particles; fish solids 1050 to 1190", 1, 25_000, "1100").Or("1100"),
                WaterTemp.Within(0, 100).Or("20"),
                FlowLMin.Say("40"), Number("area_m2", "m2", "surface of the settler", 1e-6, 1e6, "0.25"),
            ],
            Choices = [new([["particle_um"], ["velocity_mm_s"]])],
            Outputs =
            [
                new("velocity_mm_s", "mm/s", "settling velocity"),
                new("surface_loading_m_h", "m/h", "surface loading"),
                new("removed_fraction", "1", "share an ideal settler takes out"),
            ],
            Along = "flow_l_min", Main = "removed_fraction", Shown = (1, 200),
            Formula = "weight less lift = drag (Stokes for small, Clift and Gauvin for all); loading = Q/A; removed = min(1, v A/Q)",
            Source = "Stokes (1851); Clift and Gauvin (1970); Hazen (1904); Davidson and Summerfelt (2005), Aquac. Eng. 33:47-61: 78 % removed at 11 m/h in a radial-flow settler.",
            Reckon = g =>
            {
                double temp = g["temp_c"], water = WaterProperties.DensityKgPerM3(temp);
                double velocity = g.Has("velocity_mm_s") ? g["velocity_mm_s"]
                    : 1000 * Settling.SphereMPerS(g["particle_um"] / 1e6, g["density_kg_m3"], water, WaterProperties.ViscosityPaS(temp));
                double loading = Settling.SurfaceLoadingMPerH(g["flow_l_min"], g["area_m2"]);
                return [velocity, loading, loading > 0 ? Settling.IdealRemoval(Math.Max(0, velocity), loading) : velocity > 0 ? 1 : 0];
            },
            Meaning = a => $"They fall {a.Say("velocity_mm_s")} while the water rises {Figure.Say(a["surface_loading_m_h"] / 3.6, "mm/s")}: an ideal settler takes out {Amounts.Percent(a["removed_fraction"])}, a real one half to two thirds of that.",
        },
        new("settler-size", "How big must my separator be?")
        {
            Explanation = "Surface that a separator needs for a flow at a loading: radial-flow settlers took out 78 % of the suspended solids at 11 m/h, swirl separators 37 %.",
            Inputs = [FlowLMin.Say("40").Within(1e-6, 1e7), Number("surface_loading_m_h", "m/h", "surface loading", 1e-3, 1000, "11").Or("11"), Number("surface_loading_m3_s_m2", "m3/(s m2)", "the same by the second", 1e-7, 1, "0.0031")],
            Choices = [new([["surface_loading_m_h"], ["surface_loading_m3_s_m2"]])],
            Outputs = [new("area_m2", "m2", "surface of the settler"), new("diameter_m", "m", "width if round"), new("surface_loading_m_h", "m/h", "surface loading"), new("surface_loading_gpm_ft2", "gal_us/(min ft2)", "the same in US gallons")],
            Along = "flow_l_min", Shown = (5, 200),
            Formula = "A = Q/loading",
            Source = "Davidson and Summerfelt (2005), Aquac. Eng. 33:47-61.",
            Reckon = g =>
            {
                double loading = g.Has("surface_loading_m3_s_m2") ? 3600 * g["surface_loading_m3_s_m2"] : g["surface_loading_m_h"], area = 0.06 * g["flow_l_min"] / loading;
                return [area, Math.Sqrt(4 * area / Math.PI), loading, loading * 1000 / 60 / Conversions.LPerUsGallon * Conversions.M2PerSquareFoot];
            },
            Meaning = a => $"{a.Say("area_m2")}, {Figure.Say(a["diameter_m"], "m")} across if round.",
        },
        new("overflow-rate", "What does my settler hold back?")
        {
            Explanation = "Surface loading of a settler and the share of particles of one settling velocity that an ideal one takes out. Real settlers reach half to two thirds of it.",
            Inputs =
            [
                FlowLMin.Say("40").Within(1e-6, 1e7), Number("tank_diameter_m", "m", "width of a round settler", 0.01, 1000, "0.56"), Number("area_m2", "m2", "or its surface", 1e-6, 1e6, "0.25"),
                Number("particle_velocity_cm_s", "cm/s", "settling velocity; trout-farm solids 1.7 on average, salmon faeces 4 to 6", 0, 100, "0.7").Or("1.7"),
            ],
            Choices = [new([["tank_diameter_m"], ["area_m2"]])],
            Outputs = [new("overflow_rate_m_h", "m/h", "surface loading"), new("overflow_rate_cm_s", "cm/s", "the same: water rises so fast"), new("ideal_removal_fraction", "1", "share an ideal settler takes out")],
            Along = "flow_l_min", Shown = (5, 400),
            Formula = "loading = Q/A; removed = min(1, v A/Q)",
            Source = "Hazen (1904); settling velocities from a review of fish solids (World Aquaculture Society, meeting abstract 165932).",
            Reckon = g =>
            {
                double loading = Settling.SurfaceLoadingMPerH(g["flow_l_min"], g.Has("area_m2") ? g["area_m2"] : CircleM2(g["tank_diameter_m"]));
                return [loading, loading / 36, Settling.IdealRemoval(10 * g["particle_velocity_cm_s"], loading)];
            },
            Meaning = a => $"Water rises {a.Say("overflow_rate_cm_s")}: an ideal settler takes out {Amounts.Percent(a["ideal_removal_fraction"])}, a real one half to two thirds of that.",
        },
        new("settling-velocity", "How fast does a particle sink?")
        {
            Explanation = "Settling velocity of a sphere with the full law of drag, and by Stokes for contrast: he holds for Reynolds numbers below about 0.5 only. Fish solids are flakes and fall slower than spheres of their size; what floats has a negative velocity.",
            Inputs =
            [
                Number("diameter_m", "m", "size of the particle", 1e-8, 0.1, "0.0002").OnPagesIn("mm").AlsoIn(("diameter_mm", "mm"), ("diameter_um", "um")), Particle, Temp, Number("rho_kg_m3", "kg/m3", "density of the water, with its viscosity in place of the temperature", 1, 20_000, "998.2"),
                Number("mu_pa_s", "Pa s", "its dynamic viscosity", 1e-6, 1000, "0.001002"), Word("law", "law of drag", "full", "full", "stokes").Or("full"), Gravity,
            ],
            Choices = [new([["temp_c"], ["rho_kg_m3", "mu_pa_s"]]) { IsDetail = true }],
            Outputs = [new("velocity_m_s", "m/s", "settling velocity"), new("velocity_mm_s", "mm/s", "the same in millimetres a second"), new("stokes_velocity_m_s", "m/s", "by Stokes"), new("re", "1", "Reynolds number"), new("cd", "1", "drag coefficient")],
            Along = "diameter_m", Main = "velocity_mm_s", Shown = (0.00002, 0.001),
            Formula = "weight less lift = drag, Cd by Clift and Gauvin; Stokes: v = g (rho_p - rho) d^2/(18 mu)",
            Source = "Stokes (1851); Clift and Gauvin (1970). Laws of drag differ by 5 %.",
            Reckon = g =>
            {
                double d = g["diameter_m"], water = g.Has("rho_kg_m3") ? g["rho_kg_m3"] : WaterProperties.DensityKgPerM3(g["temp_c"]);
                double mu = g.Has("mu_pa_s") ? g["mu_pa_s"] : WaterProperties.ViscosityPaS(g["temp_c"]), gravity = g["gravity_m_s2"];
                double stokes = Settling.StokesMPerS(d, g["rho_p_kg_m3"], water, mu, gravity);
                double velocity = g.Word("law") == "stokes" ? stokes : Settling.SphereMPerS(d, g["rho_p_kg_m3"], water, mu, gravity);
                double re = Math.Abs(velocity) * d * water / mu;
                return [velocity, 1000 * velocity, stokes, re, re > 0 ? g.Word("law") == "stokes" ? Settling.DragStokes(re) : Settling.DragCliftGauvin(re) : double.NaN];
            },
            Meaning = a => a["velocity_m_s"] == 0 ? "It hovers." : $"It {(a["velocity_m_s"] > 0 ? "sinks" : "rises")} {Figure.Say(Math.Abs(a["velocity_mm_s"]), "mm/s")}, a metre in {Amounts.Span(1 / Math.Abs(a["velocity_m_s"]))}.",
        },
        new("drag-coefficient", "What is the drag of a sphere?")
        {
            Explanation = "Drag coefficient of a sphere from its Reynolds number, by one of the usual fits.",
            Inputs = [Number("re", "1", "Reynolds number", 1e-6, 2e5, "200"), Word("form", "formula", "clift-gauvin", "clift-gauvin", "haider-levenspiel", "stokes").Or("clift-gauvin")],
            Outputs = [new("cd", "1", "drag coefficient")],
            Along = "re", Shown = (1, 1000),
            Formula = "clift-gauvin: 24/Re (1 + 0.152 Re^0.677) + 0.417/(1 + 5070 Re^-0.94); stokes: 24/Re",
            Source = "Stokes (1851); Clift and Gauvin (1970); Haider and Levenspiel (1989), Powder Technol. 58:63-70.",
            Reckon = g => [g.Word("form") switch { "stokes" => Settling.DragStokes(g["re"]), "haider-levenspiel" => Settling.DragHaiderLevenspiel(g["re"]), _ => Settling.DragCliftGauvin(g["re"]) }],
            Meaning = a => $"{Figure.Brief(a["cd"])}.",
        },
    ];
}
