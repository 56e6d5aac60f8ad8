using System.Globalization;
using System.Text.Json;
using Runnel.Science.Reckoning;

namespace Runnel.Science.Tests.Reckoning;

// Source: NIST/SEMATECH e-Handbook, Montgomery (2009), Gilbert (1987), Western Electric (1956), Cobb (1978), NIST StRD and others, named in each case.
// The relations are reached by name, with series and parameters of the case as inputs.
public sealed class SeriesReckonerTests
{
    private static readonly Dictionary<string, JsonElement> Charts = PublishedSeries.Open("hydraulics-signals/spc.json"), Nile = PublishedSeries.Open("hydraulics-signals/nile.json"),
        Fits = PublishedSeries.Open("hydraulics-signals/nlsq.json");

    private static readonly double[] Flows = PublishedSeries.Root("hydraulics-signals/nile.json").Numbers("series", "values");

    [Theory]
    [InlineData("nist-individuals-6.3.2.2", "control-chart", 5e-5, 0)]
    [InlineData("nist-grubbs-uranium", "grubbs", 5e-4, 0)]
    [InlineData("modified-z-uranium", "outliers", 1e-6, 0)]
    [InlineData("hampel-spikes", "spikes", 1e-9, 0)]
    [InlineData("mad-small", "mean-and-spread", 0, 0)]
    [InlineData("gilbert-p211-four-values", "trend", 0, 0)]
    [InlineData("gilbert-ex16.3-multiple-per-period", "trend", 1e-6, 1e-9)]
    [InlineData("gilbert-p211-tie-variance", "trend", 1e-4, 0)]
    [InlineData("vanbelle-hughes-p136", "trend", 0, 0.01)]
    [InlineData("theil-sen-eight", "trend", 1e-6, 0)]
    [InlineData("helsel-hirsch-kendall-ten", "trend", 1e-6, 0)]
    [InlineData("ph-drift-mk-sen", "trend", 0, 1e-6)]
    [InlineData("western-electric-rules-1", "run-rules", 0, 0)]
    [InlineData("nist-cusum-tabular-6.3.2.3", "cusum-chart", 1e-9, 0)]
    [InlineData("montgomery-cusum-ex9.1", "cusum-chart", 1e-9, 0)]
    [InlineData("nist-ewma-6.3.2.4", "ewma-chart", 2e-4, 0)]
    [InlineData("frozen-variance-test", "stuck-sensor", 0, 0)]
    [InlineData("page-hinkley-up-known-mean", "page-hinkley", 1e-9, 0)]
    [InlineData("page-hinkley-up-running-mean", "page-hinkley", 1e-9, 0)]
    public void A_published_series_comes_out_by_name(string name, string relation, double absolute, double relative)
    {
        var c = Charts[name];
        var asked = Catalogue.Find(relation)!;
        var given = new Dictionary<string, string>();
        foreach (string list in new[] { "series", "time", "x" })
        {
            if (c.TryGetProperty(list, out var values) && asked.Find(list) is not null) given[list] = List(values.EnumerateArray().Select(v => v.GetDouble()));
        }

        if (c.TryGetProperty("params", out var parameters))
        {
            foreach (var p in parameters.EnumerateObject().Where(p => p.Value.ValueKind != JsonValueKind.Null && asked.Find(p.Name) is not null)) given[p.Name] = p.Value.ToString();
        }

        var answer = Solved(asked, given);
        int compared = 0;
        foreach (var expected in c.GetProperty("expected").EnumerateObject())
        {
            string output = expected.Name switch
            {
                "critical" when relation == "grubbs" => "critical",
                "p_two_sided_normal" => "p",
                "tau" => "kendall_tau_b",
                "slope_per_day" => "slope",
                "median_all" => "median",
                "first_signal_group" => "first_high_signal",
                "first_signal" when relation == "cusum-chart" => "first_high_signal",
                _ => expected.Name.ToLowerInvariant(),
            };
            if (asked.Outputs.FirstOrDefault(o => o.Name == output) is not { } found) continue;
            compared++;
            if (found.Unit != "word") c.Near(expected.Value.ValueKind == JsonValueKind.Array ? expected.Value.EnumerateArray().Last().GetDouble() : expected.Value.GetDouble(), answer[output], relative, absolute + 1e-12);
            else if (expected.Value.ValueKind == JsonValueKind.Array)
            {
                double[] listed = answer.Say(output) == "none" ? [] : [.. answer.Say(output).Split(' ').Select(v => double.Parse(v, CultureInfo.InvariantCulture))];
                double[] wanted = [.. expected.Value.EnumerateArray().Select(v => v.GetDouble())];
                Assert.Equal(wanted.Length, listed.Length);
                for (int i = 0; i < wanted.Length; i++) c.Near(wanted[i], listed[i], relative, absolute + 1e-8);
            }
            else Assert.Equal(expected.Value.ToString().ToLowerInvariant(), answer.Say(output));
        }

        if (name == "montgomery-cusum-ex9.1") Assert.Equal(c.Numbers("expected", "onset_between_periods")[0], answer["onset"]);
        if (relation == "page-hinkley") c.Near(c.Numbers("expected", "ph")[^1], answer["ph"], 0, 1e-9);
        Assert.True(compared > 0 || relation == "page-hinkley", "nothing was compared");
    }

    [Fact, Trait("source", "run-length rule, flat-line test")]
    public void A_stuck_stretch_is_named()
    {
        var c = Charts["frozen-run-min6"];
        // A gap ends a run: the readings before it stand alone.
        double[] before = [.. c.Numbers("series").TakeWhile(v => !double.IsNaN(v))];
        var answer = Solved(Catalogue.Find("stuck-sensor")!, new() { ["series"] = List(before), ["min_run"] = "6" });
        var run = Assert.Single(c.At("expected", "runs_1_based").EnumerateArray()).EnumerateArray().Select(v => v.GetInt32()).ToArray();
        Assert.Equal($"{run[0]}-{run[1]}", answer.Say("runs_1_based"));
    }

    [Fact, Trait("source", "Montgomery 2009, tables 9.3 and 9.11; Lucas and Crosier 1982; Lucas and Saccucci 1990")]
    public void Run_lengths_come_out_by_name()
    {
        foreach (string name in new[] { "arl-cusum-k0.5-h4", "arl-cusum-fir-h4" })
        {
            foreach (var shift in Charts[name].At("expected", "arl").EnumerateObject())
            {
                var answer = Solved(Catalogue.Find("cusum-run-length")!, new() { ["k"] = "0.5", ["h"] = "4", ["shift"] = shift.Name, ["headstart"] = name.Contains("fir", StringComparison.Ordinal) ? "2" : "0" });
                Charts[name].Near(shift.Value.GetDouble(), answer["arl"], 0.005);
            }
        }

        var ewma = Charts["arl-ewma"];
        foreach (var (design, lengths) in ewma.At("params", "designs").EnumerateArray().Zip(ewma.At("expected", "arl").EnumerateArray()))
        {
            foreach (var shift in lengths.EnumerateObject())
                ewma.Near(shift.Value.GetDouble(), Solved(Catalogue.Find("ewma-run-length")!, new() { ["lambda_"] = design.Number("lambda_").ToString(CultureInfo.InvariantCulture), ["L"] = design.Number("L").ToString(CultureInfo.InvariantCulture), ["shift"] = shift.Name })["arl"], 0.005);
        }

        var limits = Charts["critical-h-for-arl0"];
        var at370 = Solved(Catalogue.Find("chart-limits-for")!, new() { ["arl0"] = "370", ["lambda"] = "0.2" });
        limits.Near(limits.Number("expected", "h_for_arl0_370"), at370["h"], 1e-4);
        limits.Near(limits.Number("expected", "ewma_L_lambda0p2_arl0_370"), at370["l"], 1e-4);
        var at500 = Solved(Catalogue.Find("chart-limits-for")!, new() { ["arl0"] = "500", ["lambda"] = "0.1" });
        limits.Near(limits.Number("expected", "h_for_arl0_500"), at500["h"], 1e-4);
        limits.Near(limits.Number("expected", "ewma_L_lambda0p1_arl0_500"), at500["l"], 1e-4);
    }

    [Theory, Trait("source", "ASTM Manual 7; NIST/SEMATECH e-Handbook 6.3.2.1"), InlineData("2"), InlineData("3"), InlineData("4"), InlineData("5")]
    public void Chart_constants_come_out_by_name(string size)
    {
        var expected = Charts["shewhart-constants"].At("expected");
        var answer = Solved(Catalogue.Find("chart-constants")!, new() { ["group_size"] = size });
        foreach (var (theirs, ours) in new[] { ("d2", "d2"), ("D4", "d4"), ("D3", "d3_lower"), ("A2", "a2") }) Assert.Equal(expected.Number(theirs, size), answer[ours], 0.0006);
    }

    [Fact, Trait("source", "Cobb 1978; Andrews 1993; Ploberger and Kraemer 1992; Durbin and Koopman 2012")]
    public void The_nile_changed_after_1898()
    {
        string series = List(Flows);
        var shift = Solved(Catalogue.Find("level-shift")!, new() { ["series"] = series });
        var f = Nile["nile-supF"];
        f.Near(f.Number("expected", "supF"), shift["supf"], 1e-9);
        Assert.Equal(f.Number("expected", "at_observation"), shift["at_observation"]);
        var cusum = Nile["nile-ols-cusum"];
        cusum.Near(cusum.Number("expected", "sup"), shift["sup"], 1e-9);
        cusum.Near(cusum.Number("expected", "p_value"), shift["p_value"], 1e-6);
        var summary = Nile["nile-summary"];
        summary.Near(summary.Number("expected", "mean_1871_1898"), shift["mean_before"], 1e-12);
        summary.Near(summary.Number("expected", "mean_1899_1970"), shift["mean_after"], 1e-12);
        var spread = Solved(Catalogue.Find("mean-and-spread")!, new() { ["series"] = series });
        foreach (string name in new[] { "n", "mean", "sd" }) summary.Near(summary.Number("expected", name), spread[name], 1e-12);
        var cuts = Nile["nile-breakpoints"];
        var shifts = Solved(Catalogue.Find("level-shifts")!, new() { ["series"] = series, ["least_stretch"] = "15", ["most_breaks"] = "5" });
        Assert.Equal(cuts.Whole("expected", "breaks"), (int)shifts["breaks"]);
        Assert.Equal(cuts.Whole("expected", "break_after_observation")!.Value.ToString(CultureInfo.InvariantCulture), shifts.Say("break_after_observation"));
        foreach (string name in new[] { "ci95_observations", "bic_by_breaks", "rss_by_breaks" })
        {
            double[] published = cuts.Numbers("expected", name), ours = [.. shifts.Say(name).Split(' ').Select(v => double.Parse(v, CultureInfo.InvariantCulture))];
            Assert.Equal(published.Length, ours.Length);
            for (int i = 0; i < ours.Length; i++) cuts.Near(published[i], ours[i], 1e-9);
        }

        var trend = Solved(Catalogue.Find("trend")!, new() { ["series"] = series });
        var drift = Charts["nile-mann-kendall-theil-sen"];
        foreach (var (theirs, ours) in new[] { ("S", "s"), ("var_S", "var_s"), ("Z", "z"), ("p", "p"), ("slope", "slope"), ("kendall_tau_b", "kendall_tau_b") }) drift.Near(drift.Number("expected", theirs), trend[ours], 1e-6);
        foreach (string name in new[] { "slope_low", "slope_high" }) drift.Near(drift.Number("expected", name), trend[name], 0.02);
        string mean = Nile["nile-online-cusum"].Number("params", "mean").ToString("R", CultureInfo.InvariantCulture);
        double sd = Nile["nile-online-cusum"].Number("params", "sd");
        var online = Solved(Catalogue.Find("cusum-chart")!, new() { ["series"] = series, ["target"] = mean, ["k"] = (0.5 * sd).ToString("R", CultureInfo.InvariantCulture), ["h"] = (5 * sd).ToString("R", CultureInfo.InvariantCulture) });
        Assert.Equal(Nile["nile-online-cusum"].Whole("expected", "first_low_signal_year"), 1870 + (int)online["first_low_signal"]);
        Assert.True(double.IsNaN(online["first_high_signal"]));
        var smoothed = Solved(Catalogue.Find("ewma-chart")!, new() { ["series"] = series, ["target"] = mean, ["sigma"] = sd.ToString("R", CultureInfo.InvariantCulture), ["lambda"] = "0.2", ["l"] = "2.962", ["limits"] = "exact" });
        Assert.Equal(Nile["nile-online-ewma"].Whole("expected", "first_signal_year"), 1870 + (int)smoothed["first_signal"]);
        var level = Solved(Catalogue.Find("level-behind-noise")!, new() { ["series"] = series });
        Nile["nile-local-level-mle"].Near(Nile["nile-local-level-mle"].Number("expected", "H"), level["h"], 0, 2);
        Nile["nile-local-level-mle"].Near(Nile["nile-local-level-mle"].Number("expected", "Q"), level["q"], 0, 1);
        var filter = Nile["nile-local-level-filter"];
        filter.Near(filter.Number("expected", "a_next"), level["level"], 1e-4);
        filter.Near(filter.Number("expected", "steady_state_gain"), level["gain"], 1e-3);
    }

    [Theory, Trait("source", "NIST/ITL Statistical Reference Datasets"), InlineData("strd-misra1a"), InlineData("strd-boxbod")]
    public void Certified_fits_come_out_by_name_with_and_without_a_guess(string name)
    {
        var c = Fits[name];
        var given = new Dictionary<string, string> { ["x"] = List(c.Numbers("x")), ["y"] = List(c.Numbers("y")) };
        double[] start = c.Numbers("start2");
        foreach (bool guessed in new[] { false, true })
        {
            if (guessed) (given["b1_start"], given["b2_start"]) = (start[0].ToString("R", CultureInfo.InvariantCulture), start[1].ToString("R", CultureInfo.InvariantCulture));
            var answer = Solved(Catalogue.Find("approach-curve")!, given);
            double[] certified = c.Numbers("certified"), sd = c.Numbers("certified_sd");
            for (int j = 0; j < 2; j++)
            {
                c.Near(certified[j], answer[$"b{j + 1}"], 1e-6);
                c.Near(sd[j], answer[$"b{j + 1}_sd"], 1e-5);
            }

            c.Near(c.Number("residual_sum_of_squares"), answer["residual_sum_of_squares"], 1e-8);
        }
    }

    private static Answer Solved(Relation relation, Dictionary<string, string> given)
    {
        var (answer, problems) = relation.Solve(given);
        return answer ?? throw new InvalidOperationException($"{relation.Name}: {string.Join(" ", problems.Select(p => p.Line))}");
    }

    private static string List(IEnumerable<double> values) => string.Join("; ", values.Select(v => v.ToString("R", CultureInfo.InvariantCulture)));
}
