using Runnel.Science.Pipes;

namespace Runnel.Science.Tests.Pipes;

// Source: MIL-HDBK-1005/9A section 2.5.3.6, UFC 3-240-04A, closed forms of the storage balance; named in each row.
public sealed class PublishedSumpTests
{
    private static readonly PublishedTable Table = PublishedTable.Open("hydraulics-signals/sump.csv");

    public static IEnumerable<TheoryDataRow<string, string>> Rows => Table.Rows;

    [Theory, MemberData(nameof(Rows))]
    public void Sump_relations_agree(string row, string source)
    {
        var c = Table[row];
        Assert.Equal(source, c.Source);
        double N(string name) => c.Number(name);
        switch (row[..(row.LastIndexOf('-') is var end && char.IsDigit(row[^1]) ? end : row.Length)])
        {
            case "wetwell-relation-milhdbk":
                c.Compare("cycle_min", SumpCycle.Times(N("V_gal"), N("Q_over_D") * N("D_gal_min"), N("D_gal_min")).CycleMin);
                c.Compare("V_from_tmin_gal", SumpCycle.BandForStartsL(60 / c.Number("cycle_min", 10), N("D_gal_min")));
                break;
            case "wetwell-relation-ufc":
                c.Compare("V_L", SumpCycle.BandForStartsL(3600 / N("t_s"), N("q_L_s") * 60));
                break;
            case "wetwell-worked-example":
                double band = SumpCycle.BandForStartsL(3600 / N("T_s"), N("pump_L_s") * 60);
                c.Compare("volume_L", band);
                c.Compare("band_depth_m", band / 1000 / (Math.PI * N("well_diameter_m") * N("well_diameter_m") / 4));
                Assert.Equal(N("T_s") / 60, SumpCycle.Times(band, N("inflow_L_s") * 60, N("pump_L_s") * 60).CycleMin, 1e-9);
                break;
            case "sump-cycle":
                var times = SumpCycle.Times(N("V_L"), N("Q_L_min"), N("P_L_min"));
                c.Compare("fill_min", times.FillMin);
                c.Compare("run_min", times.RunMin);
                c.Compare("cycle_min", times.CycleMin);
                c.Compare("starts_per_h", times.StartsPerH);
                c.Compare("duty", times.Duty);
                break;
            case "sump-max-starts":
                double most = SumpCycle.MostStartsPerH(N("V_L"), N("P_L_min"));
                c.Compare("max_starts_per_h", most);
                c.Compare("tmin_min", 60 / most);
                c.Compare("Q_at_max_L_min", N("P_L_min") / 2);
                Assert.Equal(most, SumpCycle.Times(N("V_L"), N("P_L_min") / 2, N("P_L_min")).StartsPerH, 1e-9);
                break;
            case "sump-size":
                c.Compare("V_L", SumpCycle.BandForStartsL(N("max_starts_per_h"), N("P_L_min")));
                break;
            case "sump-infer":
                var flows = SumpCycle.Flows(N("V_L"), N("fill_min"), N("run_min"));
                c.Compare("Q_L_min", flows.InflowLPerMin);
                c.Compare("P_L_min", flows.PumpLPerMin);
                c.Compare("duty", new SumpTimes(N("fill_min"), N("run_min")).Duty);
                break;
            case "sump-infer-uncertainty":
                var mean = SumpCycle.Flows(N("V_L"), N("fill_s") / 60, N("run_s") / 60);
                var sd = SumpCycle.FlowsSd(N("V_L"), N("sV_L"), N("fill_s") / 60, N("sfill_s") / 60, N("run_s") / 60, N("srun_s") / 60);
                c.Compare("Q_L_min", mean.InflowLPerMin);
                c.Compare("sQ_L_min", sd.InflowLPerMin);
                c.Compare("P_L_min", mean.PumpLPerMin);
                c.Compare("sP_L_min", sd.PumpLPerMin);
                break;
            case "sump-run-linear-curve":
                double depth = N("z_on_m") - N("z_off_m");
                c.Compare("run_s", SumpCycle.RunOfLinearPumpS(N("area_m2"), N("Q_m3_s"), N("P0_m3_s"), N("b_m2_s"), depth));
                c.Compare("run_if_P_constant_at_P0_s", SumpCycle.RunOfLinearPumpS(N("area_m2"), N("Q_m3_s"), N("P0_m3_s"), 0, depth));
                break;
            case "sump-wear":
                double worn = N("P_L_min") * (1 - N("loss"));
                var after = SumpCycle.Times(N("V_L"), N("Q_L_min"), worn);
                c.Compare("run_before_min", SumpCycle.Times(N("V_L"), N("Q_L_min"), N("P_L_min")).RunMin);
                c.Compare("run_after_min", after.RunMin);
                c.Compare("run_ratio", SumpCycle.RunRatioAfterWear(N("Q_L_min"), N("P_L_min"), N("loss")));
                c.Compare("duty_after", after.Duty);
                break;
            case "sump-backflow-volume":
                var back = SumpCycle.TimesWithDrainBack(N("V_L"), N("Vr_L"), N("Q_L_min"), N("P_L_min"));
                c.Compare("fill_min", back.FillMin);
                c.Compare("run_min", back.RunMin);
                c.Compare("no_delivery_min", N("Vr_L") / N("P_L_min"));
                c.Compare("Q_naive_L_min", SumpCycle.Flows(N("V_L"), back.FillMin, back.RunMin).InflowLPerMin);
                break;
            case "sump-time-to-overflow":
                c.Compare("time_min", SumpCycle.OverflowMin(N("free_volume_L"), N("Q_L_min")));
                break;
            case "sump-no-stop":
                Assert.Equal(c.ExpectedText("stops"), SumpCycle.Stops(N("Q_L_min"), N("P_L_min")) ? "true" : "false");
                break;
            default:
                throw c.Unknown();
        }

        c.AssertAllCompared();
    }
}
