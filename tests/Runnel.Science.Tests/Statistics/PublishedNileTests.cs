using System.Globalization;
using System.Text.Json;
using Runnel.Science.Statistics;

namespace Runnel.Science.Tests.Statistics;

// Source: Cobb (1978), Biometrika 65: Nile annual flow at Aswan 1871-1970; methods and reference programs are named in each case.
public sealed class PublishedNileTests
{
    private static readonly Dictionary<string, JsonElement> Cases = PublishedSeries.Open("hydraulics-signals/nile.json");
    private static readonly double[] Nile = PublishedSeries.Root("hydraulics-signals/nile.json").Numbers("series", "values");
    private const int FirstYear = 1871;

    [Fact]
    public void Moments_agree()
    {
        var c = Cases["nile-summary"];
        Assert.Equal(c.Number("expected", "n"), Nile.Length);
        c.Near(c.Number("expected", "mean"), Moments.Mean(Nile), 1e-12);
        c.Near(c.Number("expected", "sd"), Moments.SampleSd(Nile), 1e-12);
        c.Near(c.Number("expected", "mean_1871_1898"), Moments.Mean(Nile.AsSpan(0, 28)), 1e-12);
        c.Near(c.Number("expected", "sd_1871_1898"), Moments.SampleSd(Nile.AsSpan(0, 28)), 1e-12);
        c.Near(c.Number("expected", "mean_1899_1970"), Moments.Mean(Nile.AsSpan(28)), 1e-12);
        c.Near(c.Number("expected", "sd_1899_1970"), Moments.SampleSd(Nile.AsSpan(28)), 1e-12);
    }

    [Fact]
    public void Breakpoints_agree_with_bai_and_perron()
    {
        var c = Cases["nile-breakpoints"];
        var search = Breakpoints.Find(Nile, leastStretch: 15, mostBreaks: 5);
        double[] squares = c.Numbers("expected", "rss_by_breaks"), bic = c.Numbers("expected", "bic_by_breaks");
        Assert.Equal(squares.Length, search.ResidualSquares.Count);
        for (int m = 0; m < squares.Length; m++)
        {
            c.Near(squares[m], search.ResidualSquares[m], 1e-9);
            c.Near(bic[m], search.Bic[m], 1e-9);
        }

        foreach (var years in c.At("expected", "break_years_by_count").EnumerateObject())
        {
            var found = search.BreaksByCount[int.Parse(years.Name, CultureInfo.InvariantCulture)];
            Assert.Equal(years.Value.EnumerateArray().Select(y => y.GetInt32()), found.Select(b => FirstYear + b - 1));
        }

        Assert.Equal(c.Whole("expected", "breaks"), search.BestCount);
        int before = Assert.Single(search.Best);
        Assert.Equal(c.Whole("expected", "break_after_observation"), before);
        Assert.Equal(c.Whole("expected", "break_year"), FirstYear + before - 1);
        var (first, last) = Breakpoints.Interval(Nile.AsSpan(0, before), Nile.AsSpan(before));
        Assert.Equal(c.Numbers("expected", "ci95_observations"), new double[] { first, last });
        Assert.Equal(c.Numbers("expected", "ci95_years"), new double[] { FirstYear + first - 1, FirstYear + last - 1 });
    }

    [Fact]
    public void Sup_f_agrees_with_andrews()
    {
        var c = Cases["nile-supF"];
        var shift = MeanShiftTests.SupF(Nile);
        c.Near(c.Number("expected", "supF"), shift.Statistic, 1e-9);
        Assert.Equal(c.Whole("expected", "at_observation"), shift.Before);
        Assert.True(shift.P < c.Number("expected", "p_value_below"));
    }

    [Fact]
    public void Cumulated_residuals_agree_with_ploberger_and_kraemer()
    {
        var c = Cases["nile-ols-cusum"];
        var shift = MeanShiftTests.OlsCusum(Nile);
        c.Near(c.Number("expected", "sup"), shift.Statistic, 1e-9);
        Assert.Equal(c.Whole("expected", "at_observation"), shift.Before);
        c.Near(c.Number("expected", "p_value"), shift.P, 1e-6);
        var process = new double[Nile.Length + 1];
        MeanShiftTests.OlsCusumProcess(Nile, process);
        foreach (var place in c.At("expected", "process_at_observations").EnumerateObject())
            c.Near(place.Value.GetDouble(), process[int.Parse(place.Name, CultureInfo.InvariantCulture)], 1e-9, 1e-9);
    }

    [Fact]
    public void Online_charts_signal_in_the_published_years()
    {
        var c = Cases["nile-online-cusum"];
        double mean = Moments.Mean(Nile.AsSpan(0, 20)), sd = Moments.SampleSd(Nile.AsSpan(0, 20));
        c.Near(c.Number("params", "mean"), mean, 1e-12);
        c.Near(c.Number("params", "sd"), sd, 1e-12);
        var design = new CusumDesign(mean, 0.5 * sd, 5 * sd);
        var chart = new EwmaDesign(mean, sd, 0.2, 2.962);
        var sums = Cusum.Start();
        var average = Ewma.Start(chart);
        int? low = null, high = null, ewma = null;
        for (int i = 0; i < Nile.Length; i++)
        {
            sums = Cusum.Next(sums, Nile[i], design);
            average = Ewma.Next(average, Nile[i], chart);
            if (Cusum.SignalsLow(sums, design)) low ??= FirstYear + i;
            if (Cusum.SignalsHigh(sums, design)) high ??= FirstYear + i;
            if (Ewma.Signals(average, chart)) ewma ??= FirstYear + i;
        }

        Assert.Equal(c.Whole("expected", "first_low_signal_year"), low);
        Assert.Equal(c.Whole("expected", "first_high_signal_year"), high);
        Assert.Equal(Cases["nile-online-ewma"].Whole("expected", "first_signal_year"), ewma);
    }

    [Fact]
    public void Local_level_filter_follows_durbin_and_koopman()
    {
        var c = Cases["nile-local-level-filter"];
        var rows = c.At("expected", "by_year").EnumerateArray().ToDictionary(r => r.GetProperty("year").GetInt32());
        double h = c.Number("params", "H"), q = c.Number("params", "Q");
        var forecast = new LevelForecast(c.Number("params", "a1"), c.Number("params", "P1"));
        LevelStep step = default;
        for (int i = 0; i < Nile.Length; i++)
        {
            step = LocalLevel.Step(forecast, Nile[i], h, q);
            if (rows.Remove(FirstYear + i, out var row))
            {
                c.Near(row.Number("a_pred"), forecast.Mean, 1e-6);
                c.Near(row.Number("P_pred"), forecast.Variance, 1e-6);
                c.Near(row.Number("v"), step.Surprise, 1e-6);
                c.Near(row.Number("F"), step.SurpriseVariance, 1e-6);
                c.Near(row.Number("K"), step.Gain, 1e-6);
                c.Near(row.Number("a_filt"), step.Mean, 1e-6);
                c.Near(row.Number("P_filt"), step.Variance, 1e-6);
            }

            forecast = step.Next;
        }

        Assert.Empty(rows);
        c.Near(c.Number("expected", "a_next"), forecast.Mean, 1e-9);
        c.Near(c.Number("expected", "P_next"), forecast.Variance, 1e-9);
        c.Near(c.Number("expected", "steady_state_gain"), step.Gain, 1e-9);
        c.Near(c.Number("expected", "steady_state_P_pred"), forecast.Variance, 1e-9);
    }

    [Fact]
    public void Local_level_likelihoods_agree_in_each_convention()
    {
        var c = Cases["nile-local-level-loglik"];
        var start = new LevelForecast(0, 1e7);
        c.Near(c.Number("expected", "all_observations_a1_0_P1_1e7"), LocalLevel.LogLikelihood(Nile, 15099, 1469.1, start), 0, 1e-5);
        c.Near(c.Number("expected", "first_observation_left_out"), LocalLevel.LogLikelihood(Nile, 15099, 1469.1, start, leaveOut: 1), 0, 1e-5);
        c.Near(c.Number("expected", "published_with_fixed_H"), LocalLevel.LogLikelihood(Nile, 15099, 1469.1, start, leaveOut: 1), 0, 1e-5);
        // The exact diffuse start: the first year sets the level, its term is that of a unit variance.
        double diffuse = LocalLevel.LogLikelihood(Nile.AsSpan(1), 15099, 1469.1, new LevelForecast(Nile[0], 15099 + 1469.1)) - (Math.Log(2 * Math.PI) / 2);
        c.Near(c.Number("expected", "exact_diffuse_statsmodels"), diffuse, 0, 1e-5);
    }

    [Fact]
    public void Local_level_fit_finds_the_published_variances()
    {
        var c = Cases["nile-local-level-mle"];
        var fit = LocalLevel.Fit(Nile);
        c.Near(c.Number("expected", "H"), fit.ReadingVariance, 0, 2);
        c.Near(c.Number("expected", "Q"), fit.LevelVariance, 0, 1);
        // The optimum itself, as the reference programs have it.
        Assert.Equal(15098.55, fit.ReadingVariance, 0.2);
    }
}
