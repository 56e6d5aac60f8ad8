using Runnel.Science.Pipes;
using Runnel.Science.Power;

namespace Runnel.Science.Tests.Power;

// Source: Dobos (2014), Masters (2004), Faiman (2008), King et al. (2004), Gilman et al. (2018), IEEE sizing worksheet, Metcalf and Eddy; named in each row.
public sealed class PublishedPowerTests
{
    private static readonly PublishedTable Solar = PublishedTable.Open("air-sun-soil/pv-battery.csv");
    private static readonly PublishedTable Machines = PublishedTable.Open("air-sun-soil/pump-power.csv");

    public static IEnumerable<TheoryDataRow<string, string>> SolarRows => Solar.Rows;

    public static IEnumerable<TheoryDataRow<string, string>> MachineRows => Machines.Rows;

    [Theory, MemberData(nameof(SolarRows))]
    public void Panels_and_batteries_agree_with_print(string row, string source)
    {
        var c = Solar[row];
        Assert.Equal(source, c.Source);
        double N(string name) => c.Number(name);
        switch (c.Relation)
        {
            case "pvwatts_dc":
                c.Compare("power_dc_w", SolarPanel.DcW(N("irradiance_w_m2"), N("cell_c"), N("rated_w"), N("gamma_per_c")));
                break;
            case "module_power_temperature":
                c.Compare("power_dc_w", SolarPanel.DcW(1000, N("cell_c"), N("rated_w"), N("power_coefficient_per_c")));
                break;
            case "pvwatts_losses":
                string[] losses = ["soiling", "shading", "snow", "mismatch", "wiring", "connections", "lid", "nameplate", "age", "availability"];
                c.Compare("total_loss_pct", 100 * SolarPanel.TotalLoss([.. losses.Select(l => N(l + "_pct") / 100)]));
                break;
            case "pvwatts_inverter":
                c.Compare("power_ac_w", SolarPanel.AcW(N("dc_power_w"), N("inverter_dc_rated_w"), N("nominal_efficiency")));
                break;
            case "module_voc_temperature":
                c.Compare("voc_v", SolarPanel.OpenCircuitV(N("voc_stc_v"), N("voc_coefficient_per_c"), N("cell_c")));
                break;
            case "cell_temperature_noct":
                c.Compare("cell_c", CellTemperature.FromNominalC(N("irradiance_w_m2"), N("ambient_c"), N("noct_c")));
                break;
            case "cell_temperature_noct_sam":
                c.Compare("cell_c", CellTemperature.FromNominalAndWindC(N("irradiance_w_m2"), N("ambient_c"), N("wind_m_s"), N("noct_c"), N("module_efficiency")));
                break;
            case "cell_temperature_faiman":
                c.Compare("cell_c", CellTemperature.FaimanC(N("irradiance_w_m2"), N("ambient_c"), N("wind_m_s"), N("u0"), N("u1")));
                break;
            case "cell_temperature_sapm":
                c.Compare("cell_c", CellTemperature.SandiaC(N("irradiance_w_m2"), N("ambient_c"), N("wind_m_s"), N("sapm_a"), N("sapm_b"), N("sapm_delta_t")));
                break;
            case "battery_capacity":
                c.Compare("capacity_ah", Battery.CapacityAh(
                    N("load_wh_day"), N("autonomy_days"), N("system_v"), N("depth_of_discharge"), N("temperature_multiplier"), c.Number("inverter_efficiency", 1)));
                break;
            case "battery_temperature_multiplier":
                c.Compare("multiplier", Battery.TemperatureMultiplier(N("battery_c")));
                break;
            case "battery_autonomy":
                var lasts = Battery.Lasts(N("capacity_ah"), N("system_v"), N("state_of_charge"), N("depth_of_discharge"), N("load_w"), N("inverter_efficiency"));
                c.Compare("usable_wh", lasts.UsableWh);
                c.Compare("autonomy_h", lasts.Hours);
                break;
            default:
                throw c.Unknown();
        }

        c.AssertAllCompared();
    }

    [Theory, MemberData(nameof(MachineRows))]
    public void Pumps_and_blowers_agree_with_print(string row, string source)
    {
        var c = Machines[row];
        Assert.Equal(source, c.Source);
        double N(string name) => c.Number(name);
        if (c.Relation == "pump_power")
        {
            double flow = N("flow_l_h") / 3_600_000, electric = PumpDemand.PowerW(flow, N("head_m"), N("wire_to_water_efficiency"), 1000, 9.81);
            c.Compare("hydraulic_w", PumpDemand.PowerW(flow, N("head_m"), 1, 1000, 9.81));
            c.Compare("electrical_w", electric);
            c.Compare("energy_wh_day", 24 * electric);
        }
        else if (c.Relation == "blower_power_adiabatic")
        {
            var blower = Blower.AtDepth(N("air_flow_l_min"), N("water_depth_m"), N("line_loss_pa"), N("inlet_c"), N("efficiency"));
            c.Compare("outlet_pressure_pa", blower.OutletPa);
            c.Compare("mass_flow_kg_s", blower.MassFlowKgPerS);
            c.Compare("shaft_power_w", blower.ShaftW);
        }
        else
        {
            throw c.Unknown();
        }

        c.AssertAllCompared();
    }
}
