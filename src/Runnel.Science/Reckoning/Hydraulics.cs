using Runnel.Science.Water;
using static Runnel.Science.Reckoning.Ask;

namespace Runnel.Science.Reckoning;

/// <summary>Inputs that the sums of pipes, pumps and drains share.</summary>
internal static class Hydraulics
{
    public static Input Length { get; } = Number("length_m", "m", "length of pipe", 0, 1e5, "20").AlsoIn(("length_ft", "ft"));

    public static Input Bore { get; } = Number("diameter_m", "m", "inside diameter", 0.001, 10, "0.04").OnPagesIn("mm").AlsoIn(("diameter_mm", "mm"), ("diameter_in", "in"), ("diameter_ft", "ft"));

    public static Input Roughness { get; } = Number("roughness_mm", "mm", "roughness: plastic 0.0015 to 0.007, steel 0.046", 0, 10, "0.007").AlsoIn(("roughness_m", "m"), ("roughness_ft", "ft"), ("roughness_in", "in"));

    public static Input MinorK { get; } = Number("minor_k", "1", "sum of the fittings' K", 0, 1e6, "0").Or("0");

    public static Input Temp { get; } = WaterTemp.Within(0, 100).Or("20");

    /// <summary>For other water, or to follow a printed sum.</summary>
    public static Input Viscosity { get; } = Number("nu_m2_s", "m2/s", "kinematic viscosity, in place of the temperature", 1e-8, 1, "0.000001004").AlsoIn(("nu_ft2_s", "ft2/s"));

    public static Input FlowM3S { get; } = Number("flow_m3_s", "m3/s", "flow", 0, 100, "0.001").OnPagesIn("L/min").AlsoIn(("flow_l_min", "L/min"), ("flow_l_s", "L/s"), ("flow_m3_h", "m3/h"), ("flow_gal_min", "gal_us/min"), ("flow_ft3_s", "ft3/s"));

    public static Input FlowLMin { get; } = Number("flow_l_min", "L/min", "flow", 0, 1e7, "20").AlsoIn(("flow_l_s", "L/s"), ("flow_m3_h", "m3/h"), ("flow_m3_s", "m3/s"), ("flow_gal_min", "gal_us/min"));

    /// <summary>Water by its temperature, or by its viscosity.</summary>
    public static OneOf Fluid { get; } = new([["temp_c"], ["nu_m2_s"]]) { IsDetail = true };

    public static double ViscosityOf(Given g) => g.Has("nu_m2_s") ? g["nu_m2_s"] : WaterProperties.KinematicViscosityM2PerS(g["temp_c"]);

    public static double LPerMin(double m3PerS) => 60_000 * m3PerS;

    public static double CircleM2(double diameterM) => Math.PI * diameterM * diameterM / 4;

    /// <summary>Where the roughness is more than a pipe of that bore can have.</summary>
    public static Rule SmoothEnough { get; } = new(
        "roughness_mm", g => g["roughness_mm"] <= 100 * g["diameter_m"], "is more than a tenth of the bore", "Give a smaller roughness or the inside diameter in metres");
}
