using System.Globalization;
using System.Text.Json;
using Runnel.Science.Statistics;

namespace Runnel.Science.Tests.Statistics;

// Source: Montgomery (2009) Tables 9.3 and 9.11, Lucas and Crosier (1982), Lucas and Saccucci (1990); long figures computed there by the
// R package spc 0.6.7; named in each case.
public sealed class PublishedRunLengthTests
{
    private static readonly Dictionary<string, JsonElement> Cases = PublishedSeries.Open("hydraulics-signals/spc.json");

    [Theory, Trait("source", "Montgomery 2009 Table 9.3; Lucas and Crosier 1982")]
    [InlineData("arl-cusum-k0.5-h4")]
    [InlineData("arl-cusum-fir-h4")]
    public void Cusum_run_lengths_agree_with_the_tables(string name)
    {
        var c = Cases[name];
        var settings = c.At("params");
        double headStart = settings.TryGetProperty("headstart", out var start) ? start.GetDouble() : 0;
        foreach (var length in c.At("expected", "arl").EnumerateObject())
        {
            double found = RunLength.TwoSidedCusum(settings.Number("k"), settings.Number("h"), double.Parse(length.Name, CultureInfo.InvariantCulture), headStart);
            // With a head start the combination of both sides is good to a few millionths only.
            c.Near(length.Value.GetDouble(), found, headStart > 0 ? 1e-5 : 1e-6);
            if (c.At("expected").TryGetProperty("printed", out var printed)) c.Near(printed.Number(length.Name), found, 0.005);
        }
    }

    [Fact, Trait("source", "Lucas and Saccucci 1990; Montgomery 2009 Table 9.11")]
    public void Ewma_run_lengths_agree_with_the_tables()
    {
        var c = Cases["arl-ewma"];
        var designs = c.At("params", "designs").EnumerateArray().ToArray();
        var expected = c.At("expected", "arl").EnumerateArray().ToArray();
        for (int i = 0; i < designs.Length; i++)
        {
            foreach (var length in expected[i].EnumerateObject())
            {
                double shift = double.Parse(length.Name, CultureInfo.InvariantCulture);
                c.Near(length.Value.GetDouble(), RunLength.TwoSidedEwma(designs[i].Number("lambda_"), designs[i].Number("L"), shift), 1e-6);
            }
        }
    }

    [Fact, Trait("source", "Page 1954; Roberts 1959")]
    public void Limits_for_a_wanted_run_length_agree()
    {
        var c = Cases["critical-h-for-arl0"];
        c.Near(c.Number("expected", "h_for_arl0_370"), RunLength.CusumLimitFor(370), 1e-6);
        c.Near(c.Number("expected", "h_for_arl0_500"), RunLength.CusumLimitFor(500), 1e-6);
        c.Near(c.Number("expected", "ewma_L_lambda0p1_arl0_500"), RunLength.EwmaWidthFor(500, 0.1), 1e-6);
        c.Near(c.Number("expected", "ewma_L_lambda0p2_arl0_370"), RunLength.EwmaWidthFor(370, 0.2), 1e-6);
    }

    [Fact]
    public void Run_length_of_a_memoryless_chart_is_that_of_shewhart()
    {
        // An EWMA with weight 1 is a Shewhart chart: 1/(2 Phi(-3)) = 370.4.
        Assert.Equal(1 / (2 * NormalDistribution.Cdf(-3)), RunLength.TwoSidedEwma(1, 3), 1e-3);
    }

    [Fact]
    public void Run_length_agrees_with_a_simulation()
    {
        var random = new Random(4711);
        var design = new CusumDesign(0, 0.5, 4);
        double total = 0;
        const int runs = 4000;
        for (int run = 0; run < runs; run++)
        {
            var state = Cusum.Start();
            do
            {
                double normal = Math.Sqrt(-2 * Math.Log(1 - random.NextDouble())) * Math.Cos(2 * Math.PI * random.NextDouble());
                state = Cusum.Next(state, 0.75 + normal, design);
                total++;
            }
            while (!Cusum.SignalsHigh(state, design) && !Cusum.SignalsLow(state, design));
        }

        Assert.Equal(RunLength.TwoSidedCusum(0.5, 4, 0.75), total / runs, 0.5);
    }

    [Fact]
    public void Long_wanted_run_lengths_are_met()
    {
        foreach (double wanted in new[] { 30.0, 1e4, 1e6 })
        {
            Assert.Equal(1, RunLength.TwoSidedCusum(0.25, RunLength.CusumLimitFor(wanted, 0.25)) / wanted, 1e-6);
            Assert.Equal(1, RunLength.TwoSidedEwma(0.05, RunLength.EwmaWidthFor(wanted, 0.05)) / wanted, 1e-6);
        }
    }
}
