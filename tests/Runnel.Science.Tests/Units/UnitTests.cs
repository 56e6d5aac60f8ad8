using CsCheck;
using Runnel.Science.Units;

namespace Runnel.Science.Tests.Units;

public class UnitTests
{
    private static readonly PublishedTable Table = PublishedTable.Open("hydraulics-signals/ucum.csv");

    // Rows whose units have no place in a water loop (coulombs, light years), and test 3-111 as misprinted there: 6.3 /mg is
    // 6300 /g, not 0.0063 /g.
    private static readonly string[] LeftOut = ["ucum-convert-3-126", "ucum-convert-3-127", "ucum-convert-3-128", "ucum-convert-3-111"];

    public static IEnumerable<TheoryDataRow<string, string>> Rows => Table.Rows.Where(r => !LeftOut.Contains(r.Data.Item1));

    // Source: functional tests of the Unified Code for Units of Measure (G. Grieve, 2008-2014), as shipped with the FHIR Ucum-java
    // library, and values computed from the definitions of ucum-essence.xml 2.2; named in each row.
    [Theory, MemberData(nameof(Rows)), Trait("source", "UCUM functional tests")]
    public void Units_agree_with_the_published_tests(string row, string source)
    {
        var c = Table[row];
        Assert.Equal(source, c.Source);
        switch (c.Relation)
        {
            case "value in source unit to target unit":
                c.Compare("value", Unit.Convert(c.Number("value"), c.Text("from"), c.Text("to")));
                break;
            case "unit string is valid UCUM (case sensitive)":
                Assert.Equal(c.ExpectedText("valid") == "true", Unit.TryParse(c.Text("unit"), out _));
                break;
            default:
                throw c.Unknown();
        }

        c.AssertAllCompared();
    }

    [Theory]
    [InlineData("m3/h", "L/min", 2.4, 40)]
    [InlineData("L/s", "L/h", 1, 3600)]
    [InlineData("kWh", "MJ", 1, 3.6)]
    [InlineData("degC", "K", 20, 293.15)]
    [InlineData("°C", "degF", 37, 98.6)]
    [InlineData("km/h", "m/s", 36, 10)]
    [InlineData("mbar", "kPa", 1013.25, 101.325)]
    [InlineData("hPa", "mbar", 1, 1)]
    [InlineData("W/(m2 K)", "kW/m2/K", 2500, 2.5)]
    [InlineData("m²", "cm2", 1, 10_000)]
    [InlineData("%", "1", 45, 0.45)]
    [InlineData("ppm", "mg/L", 20, 20)]
    [InlineData("µS/cm", "uS/cm", 7, 7)]
    [InlineData("L/m2", "mm", 3, 3)]
    [InlineData("Ah", "mAh", 1.2, 1200)]
    public void Trade_spellings_convert(string from, string to, double value, double expected) =>
        Assert.Equal(expected, Unit.Convert(value, from, to), 9);

    [Theory]
    [InlineData("")]
    [InlineData(" ")]
    [InlineData("gal")]
    [InlineData("kmin")]
    [InlineData("kd")]
    [InlineData("m10")]
    [InlineData("m-")]
    [InlineData("m0")]
    [InlineData("L//min")]
    [InlineData("(m")]
    [InlineData("m)")]
    [InlineData("[in_i")]
    [InlineData("kdegC")]
    [InlineData("l/Min")]
    public void What_is_no_unit_is_refused(string text) => Assert.False(Unit.TryParse(text, out _));

    [Fact]
    public void Units_of_different_kinds_do_not_convert() =>
        Assert.Contains("does not convert", Assert.Throws<ArgumentException>(() => Unit.Convert(1, "L", "W")).Message, StringComparison.Ordinal);

    [Fact]
    public void Going_there_and_back_changes_nothing()
    {
        (string From, string To)[] pairs = [("degF", "degC"), ("m3/h", "L/min"), ("[psi]", "kPa"), ("kn", "km/h"), ("mS/cm", "uS/cm")];
        Gen.Select(Gen.Int[0, pairs.Length - 1].Select(i => pairs[i]), Gen.Double[-1e6, 1e6]).Sample((pair, x) =>
            Math.Abs(Unit.Convert(Unit.Convert(x, pair.From, pair.To), pair.To, pair.From) - x) <= 1e-9 * (1 + Math.Abs(x)));
    }

    [Fact]
    public void Any_text_reads_or_is_refused_without_an_exception() => Gen.String[Gen.Char["mLkWh2./() [_]%°-+1"], 0, 12].Sample(text =>
    {
        _ = Unit.TryParse(text, out _);
        _ = Measure.Read(text);
    });
}
