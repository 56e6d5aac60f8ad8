using System.Globalization;
using System.Text.Json;
using Runnel.Science.Fish;
using Runnel.Science.Pipes;
using Runnel.Science.Statistics;
using Runnel.Science.Water;

namespace Runnel.Science.Tests.Statistics;

// Source: invented few-sensor logs with a reference detection computed by numpy 1.24.2; closed forms named in each case.
public sealed class PublishedScenarioTests
{
    private static readonly Dictionary<string, JsonElement> Cases = PublishedSeries.Open("hydraulics-signals/scenarios.json");

    [Theory]
    [InlineData("sump-log-healthy")]
    [InlineData("sump-log-pump-wear")]
    [InlineData("sump-log-drain-clog")]
    public void Sump_log_is_read_and_charted_as_published(string name)
    {
        var c = Cases[name];
        var cycles = Cycles(c);
        var first = c.At("expected", "first_cycles").EnumerateArray().ToArray();
        for (int i = 0; i < first.Length; i++)
        {
            Assert.Equal(first[i].Number("fill_s"), cycles[i].FillS);
            Assert.Equal(first[i].Number("run_s"), cycles[i].RunS);
            c.Near(first[i].Number("Q_L_min"), cycles[i].Flows.InflowLPerMin, 1e-6);
            c.Near(first[i].Number("P_L_min"), cycles[i].Flows.PumpLPerMin, 1e-6);
        }

        CompareChart(c, "inflow_chart", [.. cycles.Select(x => Math.Log(x.Flows.InflowLPerMin))]);
        CompareChart(c, "pump_chart", [.. cycles.Select(x => Math.Log(x.Flows.PumpLPerMin))]);
    }

    [Fact]
    public void Over_run_is_seen_when_the_pump_delivers_nothing()
    {
        var c = Cases["sump-log-pump-no-delivery"];
        double[] runs = [.. Cycles(c).Select(x => x.RunS)];
        double median = Robust.Median(runs), spread = Robust.MadToSd * Robust.MedianAbsoluteDeviation(runs);
        double limit = Math.Max(2 * median, median + (8 * spread));
        c.Near(c.Number("expected", "median_run_s"), median, 1e-9);
        c.Near(c.Number("expected", "scaled_mad_s"), spread, 1e-9);
        c.Near(c.Number("expected", "limit_s"), limit, 1e-9);
        double[] on = c.Numbers("log", "pump_on_s");
        Assert.Equal(runs.Length + 1, on.Length);
        c.Near(c.Number("expected", "alarm_time_s"), on[^1] + limit, 0, 1);
        Assert.True(on[^1] + limit < c.Number("log", "log_end_s"));
    }

    [Fact]
    public void Leak_is_told_from_evaporation_by_regression()
    {
        var c = Cases["leak-or-evaporation-1"];
        var rows = c.At("rows").EnumerateArray().ToArray();
        int lastDay = (int)c.Numbers("params", "fit_days")[1];
        var before = FitLoss(rows.Where(r => r.Number("day") <= lastDay));
        CompareLoss(c, "before", before);
        CompareLoss(c, "after", FitLoss(rows.Where(r => r.Number("day") > lastDay)));

        var design = new CusumDesign(0, 0.5 * before.ResidualSd, 5 * before.ResidualSd);
        var state = Cusum.Start();
        double? alarm = null;
        foreach (var night in rows.Where(r => r.GetProperty("period").GetString() == "night"))
        {
            double hours = night.Number("hours");
            double expected = (before.Coefficients[0] * night.Number("demand_kPa") * hours) + (before.Coefficients[1] * hours);
            state = Cusum.Next(state, night.Number("loss_mm") - expected, design);
            if (Cusum.SignalsHigh(state, design)) alarm ??= night.Number("day");
        }

        Assert.Equal(c.Number("expected", "night_cusum_alarm_day"), alarm);
    }

    [Theory, Trait("source", "Lewis and Whitman 1924")]
    [InlineData("oxygen-after-air-failure-1")]
    [InlineData("oxygen-after-air-failure-2")]
    [InlineData("oxygen-after-air-failure-3")]
    public void Oxygen_falls_as_the_closed_form_says(string name)
    {
        var c = Cases[name];
        double saturation = c.Number("params", "Cs_mg_L"), respiration = c.Number("params", "respiration_mg_L_h"), passive = c.Number("params", "passive_k_per_h");
        double start = OxygenAfterAirFailure.SteadyMgPerL(saturation, c.Number("params", "kLa_per_h"), respiration);
        c.Near(c.Number("expected", "C0_mg_L"), start, 1e-9);
        c.Near(c.Number("expected", "initial_slope_mg_L_h"), OxygenAfterAirFailure.SlopeMgPerLH(start, saturation, passive, respiration), 1e-9);
        foreach (var at in c.At("expected", "C_at_h").EnumerateObject())
        {
            double hours = double.Parse(at.Name, CultureInfo.InvariantCulture);
            c.Near(at.Value.GetDouble(), OxygenAfterAirFailure.AfterMgPerL(hours, start, saturation, passive, respiration), 1e-9);
        }

        double time = OxygenAfterAirFailure.HoursTo(c.Number("params", "critical_mg_L"), start, saturation, passive, respiration);
        var never = c.At("expected", "time_to_critical_h");
        if (never.ValueKind == JsonValueKind.Null) Assert.Equal(double.PositiveInfinity, time);
        else c.Near(never.GetDouble(), time, 1e-9);
        if (passive > 0) c.Near(c.Number("expected", "final_mg_L"), OxygenAfterAirFailure.SteadyMgPerL(saturation, passive, respiration), 1e-9);
    }

    [Fact]
    public void Oxygen_slope_agrees_by_both_fits()
    {
        var c = Cases["oxygen-slope-alarm"];
        var samples = c.At("params", "samples_min_mgL").EnumerateArray().Select(s => (Min: s[0].GetDouble(), Do: s[1].GetDouble())).ToArray();
        var last = samples.Where(s => s.Min >= samples[^1].Min - 10).ToArray();
        double[] hours = [.. last.Select(s => s.Min / 60)], oxygen = [.. last.Select(s => s.Do)];
        double slope = LeastSquares.Line(hours, oxygen)!.Coefficients[1];
        c.Near(c.Number("expected", "ols_slope_mg_L_h"), slope, 1e-6);
        c.Near(c.Number("expected", "theil_sen_slope_mg_L_h"), TheilSen.Fit(hours, oxygen).Slope, 1e-6);
        c.Near(c.Number("expected", "minutes_to_3_mg_L"), (oxygen[^1] - 3) / -slope * 60, 1e-6);
    }

    [Theory, Trait("source", "Nernst equation, CODATA 2018")]
    [InlineData("ph-nernst-slope-5C")]
    [InlineData("ph-nernst-slope-15C")]
    [InlineData("ph-nernst-slope-25C")]
    [InlineData("ph-nernst-slope-30C")]
    public void Ideal_electrode_slope_agrees(string name) =>
        Cases[name].Near(Cases[name].Number("expected", "slope_mV"), PhElectrode.NernstSlopeMv(Cases[name].Number("params", "T_degC")), 0, 0.001);

    [Theory, Trait("source", "common practice, two-point electrode calibration")]
    [InlineData("ph-two-buffer-good")]
    [InlineData("ph-two-buffer-worn")]
    public void Two_buffers_judge_an_electrode(string name)
    {
        var c = Cases[name];
        var calibration = PhElectrode.Calibrate(c.Number("params", "E7_mV"), c.Number("params", "E4_mV"), c.Number("params", "T_degC"));
        c.Near(c.Number("expected", "slope_mV"), calibration.SlopeMv, 1e-9);
        c.Near(c.Number("expected", "efficiency_percent"), 100 * calibration.Efficiency, 1e-9);
        c.Near(c.Number("expected", "offset_mV"), calibration.OffsetMv, 1e-9);
        c.Near(c.Number("expected", "pH_of_reading"), PhElectrode.Ph(c.Number("params", "reading_mV"), calibration), 1e-9);
    }

    [Fact, Trait("source", "condition-monitoring rule; thresholds are a proposal, not published")]
    public void Air_pump_current_suggests_a_torn_diaphragm()
    {
        var c = Cases["airpump-current-ratio-1"];
        double now = c.Number("params", "now_A"), healthy = c.Number("params", "healthy_A");
        c.Near(c.Number("expected", "ratio"), now / healthy, 1e-9);
        Assert.Equal("torn-or-leak", c.At("expected", "band").GetString());
        Assert.Equal(AirPumpCondition.TornOrLeaking, AirPumpCurrent.Judge(now, healthy));
    }

    private static void CompareChart(JsonElement c, string chart, double[] logs)
    {
        var expected = c.At("expected", chart);
        double mean = Moments.Mean(logs.AsSpan(0, 80)), sd = Moments.SampleSd(logs.AsSpan(0, 80));
        c.Near(expected.Number("baseline_log_mean"), mean, 1e-6);
        c.Near(expected.Number("baseline_log_sd"), sd, 1e-6);
        var design = new CusumDesign(mean, 0.5 * sd, 10 * sd);
        var state = Cusum.Start();
        int? high = null, highOnset = null, low = null, lowOnset = null;
        for (int i = 80; i < logs.Length; i++)
        {
            state = Cusum.Next(state, logs[i], design);
            if (high is null && Cusum.SignalsHigh(state, design)) (high, highOnset) = (i + 1, i + 2 - state.HighRun);
            if (low is null && Cusum.SignalsLow(state, design)) (low, lowOnset) = (i + 1, i + 2 - state.LowRun);
        }

        Assert.Equal(expected.Whole("first_high_alarm_cycle"), high);
        Assert.Equal(expected.Whole("high_onset_cycle"), highOnset);
        Assert.Equal(expected.Whole("first_low_alarm_cycle"), low);
        Assert.Equal(expected.Whole("low_onset_cycle"), lowOnset);
    }

    private static List<(double FillS, double RunS, SumpFlows Flows)> Cycles(JsonElement c)
    {
        double[] on = c.Numbers("log", "pump_on_s"), off = c.Numbers("log", "pump_off_s");
        double band = c.Number("params", "band_volume_L"), before = 0;
        var cycles = new List<(double, double, SumpFlows)>();
        for (int i = 0; i < off.Length; i++)
        {
            double fill = on[i] - before, run = off[i] - on[i];
            cycles.Add((fill, run, SumpCycle.Flows(band, fill / 60, run / 60)));
            before = off[i];
        }

        return cycles;
    }

    private static LinearFit FitLoss(IEnumerable<JsonElement> rows)
    {
        var all = rows.ToArray();
        double[] design = [.. all.SelectMany(r => new[] { r.Number("demand_kPa") * r.Number("hours"), r.Number("hours") })];
        return LeastSquares.Fit(design, 2, [.. all.Select(r => r.Number("loss_mm"))])!;
    }

    private static void CompareLoss(JsonElement c, string part, LinearFit fit)
    {
        c.Near(c.Number("expected", part, "evaporation_coeff_mm_per_kPa_h"), fit.Coefficients[0], 1e-6);
        c.Near(c.Number("expected", part, "leak_mm_per_h"), fit.Coefficients[1], 1e-6);
        c.Near(c.Number("expected", part, "se_coeff"), fit.StandardErrors[0], 1e-6);
        c.Near(c.Number("expected", part, "se_leak"), fit.StandardErrors[1], 1e-6);
        c.Near(c.Number("expected", part, "residual_sd_mm"), fit.ResidualSd, 1e-6);
    }
}
