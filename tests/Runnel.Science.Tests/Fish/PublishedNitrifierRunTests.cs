using Runnel.Science.Fish;

namespace Runnel.Science.Tests.Fish;

// Source: two-step box model with the parameters of Hiatt and Grady (2008) and others; runs solved by scipy 1.10.1 (LSODA, rtol 1e-9).
// They check the equations, not nature.
public sealed class PublishedNitrifierRunTests
{
    private const double StepDays = 0.01;

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
            int steps = (int)Math.Round(c.Number("day") / StepDays);
            for (int i = 0; i < steps; i++) state = Step(state, around);
            Close(c, "tan_mg_n_l", state.Tan);
            Close(c, "no2_mg_n_l", state.No2);
            Close(c, "no3_mg_n_l", state.No3);
            return;
        }

        double tanPeak = state.Tan, tanDay = 0, no2Peak = 0, no2Day = 0, cycled = double.NaN;
        for (int i = 1; i <= 60 / StepDays && double.IsNaN(cycled); i++)
        {
            state = Step(state, around);
            if (state.Tan > tanPeak) (tanPeak, tanDay) = (state.Tan, i * StepDays);
            if (state.No2 > no2Peak) (no2Peak, no2Day) = (state.No2, i * StepDays);
            else if (no2Peak > 0.25 && state.Tan < 0.25 && state.No2 < 0.25) cycled = i * StepDays;
        }

        Assert.Equal(double.Parse(c.ExpectedText("tan_mg_n_l"), System.Globalization.CultureInfo.InvariantCulture), tanPeak, 0.01 * tanPeak);
        Assert.Equal(double.Parse(c.ExpectedText("no2_mg_n_l"), System.Globalization.CultureInfo.InvariantCulture), no2Peak, 0.01 * no2Peak);
        Close(c, "day_tan_peak", tanDay, 0.15);
        Close(c, "day_no2_peak", no2Day, 0.15);
        Close(c, "day_cycled", cycled, 0.15);
        c.AssertAllCompared();
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
    private static NitrifierState Step(NitrifierState s, NitrifierSurroundings around)
    {
        var k1 = NitrifierBox.ChangePerDay(s, around);
        var k2 = NitrifierBox.ChangePerDay(Plus(s, k1, StepDays / 2), around);
        var k3 = NitrifierBox.ChangePerDay(Plus(s, k2, StepDays / 2), around);
        var k4 = NitrifierBox.ChangePerDay(Plus(s, k3, StepDays), around);
        return Plus(Plus(Plus(Plus(s, k1, StepDays / 6), k2, StepDays / 3), k3, StepDays / 3), k4, StepDays / 6);
    }

    private static NitrifierState Plus(NitrifierState s, NitrifierState k, double h) => new(
        s.Tan + (h * k.Tan), s.No2 + (h * k.No2), s.No3 + (h * k.No3), s.AmmoniaOxidisers + (h * k.AmmoniaOxidisers), s.NitriteOxidisers + (h * k.NitriteOxidisers));
}
