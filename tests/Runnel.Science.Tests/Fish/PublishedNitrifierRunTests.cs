using Runnel.Science.Fish;

namespace Runnel.Science.Tests.Fish;

// Source: two-step box model with the parameters of Hiatt and Grady (2008) and others; runs solved by scipy 1.10.1 (LSODA, rtol 1e-9).
// They check the equations, not nature.
public sealed class PublishedNitrifierRunTests
{
    private static readonly PublishedTable Table = PublishedTable.Open("water-fish/nitrification.csv");

    public static IEnumerable<TheoryDataRow<string, string>> Rows =>
        Table.Rows.Where(r => Table[r.Data.Item1].Relation.StartsWith("reference_run", StringComparison.Ordinal));

    [Theory, MemberData(nameof(Rows))]
    public void Runs_agree_with_the_reference_solver(string row, string source)
    {
        var c = Table[row];
        Assert.Equal(source, c.Source);
        var around = new NitrifierSurroundings(c.Number("temp_c"), c.Number("ph"), c.Number("do_mg_l"), c.Number("volume_l"), c.Number("media_area_m2"), c.Number("load_mg_n_l_d"));
        var state = new NitrifierState(c.Number("tan0_mg_n_l"), 0, 0, c.Number("xa0_mg_cod_l"), c.Number("xn0_mg_cod_l"));
        if (c.Relation == "reference_run_state")
        {
            state = NitrifierRun.After(state, around, c.Number("day"));
            Close(c, "tan_mg_n_l", state.Tan);
            Close(c, "no2_mg_n_l", state.No2);
            Close(c, "no3_mg_n_l", state.No3);
            return;
        }

        var start = NitrifierRun.Start(state, around);
        Assert.Equal(double.Parse(c.ExpectedText("tan_mg_n_l"), System.Globalization.CultureInfo.InvariantCulture), start.TanPeakMgNPerL, 0.01 * start.TanPeakMgNPerL);
        Assert.Equal(double.Parse(c.ExpectedText("no2_mg_n_l"), System.Globalization.CultureInfo.InvariantCulture), start.No2PeakMgNPerL, 0.01 * start.No2PeakMgNPerL);
        Close(c, "day_tan_peak", start.TanPeakDay, 0.15);
        Close(c, "day_no2_peak", start.No2PeakDay, 0.15);
        Close(c, "day_cycled", start.CycledDay!.Value, 0.15);
        c.AssertAllCompared();
    }

    [Fact]
    public void Nitrogen_is_conserved_over_a_run_and_impossible_surroundings_are_refused()
    {
        var around = new NitrifierSurroundings(25, 7.6, 7.5, 5000, 60, 0.5);
        var end = NitrifierRun.After(new NitrifierState(2, 0, 0, 1e-4, 1e-4), around, 30);
        Assert.Equal(2 + (30 * 0.5), end.Tan + end.No2 + end.No3, 1e-6);
        Assert.Throws<ArgumentOutOfRangeException>(() => NitrifierRun.After(end, around, double.NaN));
        Assert.Throws<ArgumentOutOfRangeException>(() => NitrifierRun.After(end, around with { MediaM2 = 1e9 }, 30));
        Assert.Null(NitrifierRun.Start(new NitrifierState(2, 0, 0, 1e-4, 1e-4), around with { WaterTempC = 6 }, 20).CycledDay);
    }

    [Fact]
    public void Nitrogen_is_neither_made_nor_lost()
    {
        var around = new NitrifierSurroundings(25, 7.6, 7.5, 5000, 60, 0.5);
        var change = NitrifierBox.ChangePerDay(new NitrifierState(3, 2, 1, 0.01, 0.02), around);
        Assert.Equal(0.5, change.Tan + change.No2 + change.No3, 1e-12);
    }

    private static void Close(PublishedCase c, string column, double actual, double within = 0.01)
    {
        double expected = double.Parse(c.ExpectedText(column), System.Globalization.CultureInfo.InvariantCulture);
        double margin = column.StartsWith("day", StringComparison.Ordinal) ? within : Math.Max(within, 0.01 * expected);
        Assert.True(Math.Abs(actual - expected) <= margin, $"{c.Name}: {column} is {actual}, published {expected} within {margin}. Source: {c.Source}");
    }

    // Classical Runge-Kutta; the step is far below the fastest time of the box.
}
