using Runnel.Science.Pipes;
using Runnel.Science.Power;
using static Runnel.Science.Reckoning.Ask;

namespace Runnel.Science.Reckoning;

/// <summary>Panels, batteries and what pumps take.</summary>
internal static class PowerForIt
{
    private static readonly Input Sun = Number("irradiance_w_m2", "W/m2", "sun on the panel", 0, 1500, "800");
    private static readonly Input Ambient = Number("ambient_c", "degC", "ambient air", -40, 60, "30");
    private static readonly Input Cell = Number("cell_c", "degC", "cell temperature", -40, 110, "48");
    private static readonly Input SystemV = Number("system_v", "V", "voltage of the bank", 1, 1000, "12");
    private static readonly Input Depth = Number("depth_of_discharge", "1", "depth allowed: lead 0.5, lithium iron phosphate 0.8", 0.01, 1, "0.5");
    private static readonly Input Inverter = Number("inverter_efficiency", "1", "efficiency of the inverter", 0.1, 1, "1").Or("1");

    public static readonly Relation[] All =
    [
        new("battery-autonomy", "How long does my battery last?")
        {
            Explanation = "Hours that a battery carries a load, down to the depth allowed.",
            Inputs = [Number("capacity_ah", "Ah", "capacity", 0, 1e6, "100"), SystemV, Number("state_of_charge", "1", "charge now, as a fraction", 0, 1, "1"), Depth, Number("load_w", "W", "load", 1e-3, 1e7, "45"), Inverter],
            Outputs = [new("autonomy_h", "h", "hours"), new("usable_wh", "Wh", "energy down to that depth")],
            Along = "load_w", Shown = (5, 200),
            Formula = "usable = Ah x V x (charge - (1 - depth)); hours = usable x efficiency / load",
            Source = "Definition.",
            Cautions = [Caution.Battery, Caution.TimeLeft],
            Reckon = g =>
            {
                var lasts = Battery.Lasts(g["capacity_ah"], g["system_v"], g["state_of_charge"], g["depth_of_discharge"], g["load_w"], g["inverter_efficiency"]);
                return [lasts.Hours, lasts.UsableWh];
            },
            Meaning = a => $"{Amounts.Minutes(60 * a["autonomy_h"])}; an old or cold battery gives half of that.",
        },
        new("battery-capacity", "How big a battery do I need?")
        {
            Explanation = "Capacity for a daily load over days without sun.",
            Inputs = [Number("load_wh_day", "Wh/d", "load a day", 0, 1e7, "720"), Number("autonomy_days", "d", "days without sun", 0, 30, "2"), SystemV, Depth, Number("temperature_multiplier", "1", "factor for cold", 0.5, 3, "1").Or("1"), Inverter],
            Outputs = [new("capacity_ah", "Ah", "capacity")],
            Along = "autonomy_days", Shown = (0, 5),
            Formula = "Ah = load x days x cold / (V x depth x efficiency)",
            Source = "Common practice.",
            Cautions = [Caution.Battery],
            Reckon = g => [Battery.CapacityAh(g["load_wh_day"], g["autonomy_days"], g["system_v"], g["depth_of_discharge"], g["temperature_multiplier"], g["inverter_efficiency"])],
            Meaning = a => $"{a.Say("capacity_ah")} or the next size up.",
        },
        new("battery-temperature-multiplier", "How much more battery for the cold?")
        {
            Explanation = "Factor on the capacity of a cold lead-acid battery.",
            Inputs = [Number("battery_c", "degC", "temperature of the battery", -20, 60, "5")],
            Outputs = [new("multiplier", "1", "factor on the capacity")],
            Along = "battery_c", Shown = (-10, 30),
            Formula = "straight lines between the rows of the table",
            Source = "Simplified IEEE sizing worksheet.",
            Cautions = [Caution.Battery],
            Reckon = g => [Battery.TemperatureMultiplier(g["battery_c"])],
            Meaning = a => $"{a.Say("multiplier")} times.",
        },
        new("panel-power", "What does my solar panel give?")
        {
            Explanation = "Direct-current power of a panel at a cell temperature.",
            Inputs = [Sun, Cell, Number("rated_w", "W", "rated power", 0, 1e6, "400"), Number("gamma_per_c", "1/K", "change of power with temperature", -0.01, 0, "-0.0035")],
            Outputs = [new("power_dc_w", "W", "direct-current power")],
            Along = "irradiance_w_m2", Shown = (0, 1100),
            Formula = "P = G/1000 rated (1 + gamma (Tc - 25))",
            Source = "Dobos (2014), PVWatts Version 5 Manual, NREL/TP-6A20-62641, equation 8.",
            Cautions = [Caution.Electric],
            Reckon = g => [SolarPanel.DcW(g["irradiance_w_m2"], g["cell_c"], g["rated_w"], g["gamma_per_c"])],
            Meaning = a => $"{a.Say("power_dc_w")} before losses of about 14 %.",
        },
        new("inverter-power", "What comes out of the inverter?")
        {
            Explanation = "Alternating-current power of an inverter at part load.",
            Inputs = [Number("dc_power_w", "W", "direct-current power", 0, 1e7, "900"), Number("inverter_dc_rated_w", "W", "rated direct-current power", 1e-3, 1e7, "1000"), Number("nominal_efficiency", "1", "nominal efficiency", 0.5, 1, "0.96").Or("0.96")],
            Outputs = [new("power_ac_w", "W", "alternating-current power")],
            Along = "dc_power_w", Shown = (0, 1300),
            Formula = "efficiency = nominal/0.9637 (-0.0162 z - 0.0059/z + 0.9858)",
            Source = "Dobos (2014), PVWatts Version 5 Manual, equations 9 to 12.",
            Cautions = [Caution.Electric],
            Reckon = g => [SolarPanel.AcW(g["dc_power_w"], g["inverter_dc_rated_w"], g["nominal_efficiency"])],
            Meaning = a => $"{a.Say("power_ac_w")}.",
        },
        new("cell-temperature", "How hot do my panels get?")
        {
            Explanation = "Cell temperature from sun, air and the panel's nominal operating temperature.",
            Inputs = [Sun, Ambient, Number("noct_c", "degC", "nominal operating cell temperature", 20, 80, "45").Or("45")],
            Outputs = [new("cell_c", "degC", "cell temperature")],
            Along = "irradiance_w_m2", Shown = (0, 1100),
            Formula = "Tc = Ta + (NOCT - 20) G/800",
            Source = "Ross (1980).",
            Reckon = g => [CellTemperature.FromNominalC(g["irradiance_w_m2"], g["ambient_c"], g["noct_c"])],
            Meaning = a => $"{a.Say("cell_c")}.",
        },
        new("panel-voltage", "Will a cold morning harm my charger?")
        {
            Explanation = "Open-circuit voltage of a panel at a temperature: size the charger for the coldest morning.",
            Inputs = [Number("voc_stc_v", "V", "open-circuit voltage at 25 degC", 0.1, 2000, "22.3"), Number("voc_coefficient_per_c", "1/K", "change with temperature", -0.01, 0, "-0.0031"), Cell.Say("-5")],
            Outputs = [new("voc_v", "V", "open-circuit voltage")],
            Along = "cell_c", Shown = (-20, 60),
            Formula = "V = V25 (1 + c (T - 25))",
            Source = "Definition of the coefficient on the panel's sheet.",
            Cautions = [Caution.Electric],
            Reckon = g => [SolarPanel.OpenCircuitV(g["voc_stc_v"], g["voc_coefficient_per_c"], g["cell_c"])],
            Meaning = a => $"{a.Say("voc_v")} for each panel; panels in a row add up.",
        },
        new("pump-power", "What does my pump take?")
        {
            Explanation = "Electric power and daily energy of a pump from its flow, head and efficiency from plug to water: small pond pumps reach 0.1 to 0.3.",
            Inputs = [Number("flow_l_h", "L/h", "flow", 0, 1e9, "3000"), Number("head_m", "m", "head", 0, 1000, "1.5"), Number("wire_to_water_efficiency", "1", "efficiency from plug to water", 0.001, 1, "0.35")],
            Outputs = [new("electrical_w", "W", "electric power"), new("hydraulic_w", "W", "power in the water"), new("energy_wh_day", "Wh/d", "energy a day")],
            Along = "head_m", Shown = (0, 5),
            Formula = "P = 1000 x 9.81 Q H / efficiency",
            Source = "Hydraulics.",
            Cautions = [Caution.Electric],
            Reckon = g =>
            {
                double flow = g["flow_l_h"] / 3_600_000, electric = PumpDemand.PowerW(flow, g["head_m"], g["wire_to_water_efficiency"], 1000, 9.81);
                return [electric, PumpDemand.PowerW(flow, g["head_m"], 1, 1000, 9.81), 24 * electric];
            },
            Meaning = a => $"{a.Say("electrical_w")}, {Figure.Say(a["energy_wh_day"] / 1000, "kWh")} a day.",
        },
        new("blower-power", "What does my air blower take?")
        {
            Explanation = "Shaft power of a blower that presses air to a depth.",
            Inputs = [Number("air_flow_l_min", "L/min", "air drawn in", 0, 1e6, "60"), Number("water_depth_m", "m", "depth of the diffuser", 0, 20, "0.8"), Number("line_loss_pa", "Pa", "loss of pipe and stone", 0, 1e5, "500"), Number("inlet_c", "degC", "air drawn in", -40, 60, "25"), Number("efficiency", "1", "efficiency", 0.01, 1, "0.5")],
            Outputs = [new("shaft_power_w", "W", "shaft power"), new("outlet_pressure_pa", "Pa", "absolute pressure at the outlet"), new("mass_flow_kg_s", "kg/s", "air")],
            Along = "water_depth_m", Shown = (0, 2),
            Formula = "P = w R T/(M n e) ((p2/p1)^n - 1), n = 0.283",
            Source = "Metcalf and Eddy, adiabatic compression.",
            Cautions = [Caution.Electric],
            Reckon = g =>
            {
                var blower = Blower.AtDepth(g["air_flow_l_min"], g["water_depth_m"], g["line_loss_pa"], g["inlet_c"], g["efficiency"]);
                return [blower.ShaftW, blower.OutletPa, blower.MassFlowKgPerS];
            },
            Meaning = a => $"{a.Say("shaft_power_w")} on the shaft.",
        },
    ];
}
