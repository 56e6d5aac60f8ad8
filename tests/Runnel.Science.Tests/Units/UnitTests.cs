using System.Globalization;
using CsCheck;
using Runnel.Science.Units;

namespace Runnel.Science.Tests.Units;

public class UnitTests
{
    // Source: functional tests of the Unified Code for Units of Measure (G. Grieve, 2008-2014), as shipped with the FHIR Ucum-java
    // library, and values computed from the definitions of ucum-essence.xml 2.2. Left out are the rows whose units have no place in
    // a water loop (light years, coulombs), and test 3-111 as misprinted there: 6.3 /mg is 6300 /g, not 0.0063 /g.
    public static TheoryData<string, double, string, string, double, double> Conversions
    {
        get
        {
            var data = new TheoryData<string, double, string, string, double, double>();
            foreach (var row in Rows().Where(r => r.Relation == "value in source unit to target unit" && r.Case != "ucum-convert-3-111"))
            {
                var input = Pairs(row.Inputs);
                if (input["from"].Contains("[ly]", StringComparison.Ordinal) || input["to"].Contains(".C2", StringComparison.Ordinal)) continue;
                double tolerance = row.Tolerance == "exact" ? 0 : Number(row.Tolerance["rel=".Length..]);
                data.Add(row.Case, Number(input["value"]), input["from"], input["to"], Number(Pairs(row.Expected)["value"]), tolerance);
            }

            return data;
        }
    }

    [Theory, MemberData(nameof(Conversions)), Trait("source", "UCUM functional tests")]
    public void Conversions_agree_with_the_published_ones(string row, double value, string from, string to, double expected, double tolerance)
    {
        Assert.NotEmpty(row);
        double converted = Unit.Convert(value, from, to);
        Assert.InRange(converted, expected - (Math.Abs(expected) * tolerance), expected + (Math.Abs(expected) * tolerance));
    }

    [Fact, Trait("source", "UCUM functional tests")]
    public void Every_string_that_is_no_unit_is_refused_and_the_units_of_the_trade_are_taken()
    {
        var rows = Rows().Where(r => r.Relation.StartsWith("unit string is valid", StringComparison.Ordinal)).ToList();
        Assert.True(rows.Count > 30);
        foreach (var row in rows)
        {
            string unit = row.Inputs["unit=".Length..];
            Assert.True(row.Expected == "valid=true" == Unit.TryParse(unit, out _), $"{row.Case}: {unit} should be {row.Expected}");
        }
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

    private static IEnumerable<(string Case, string Relation, string Inputs, string Expected, string Tolerance)> Rows()
    {
        string file = Path.Combine(AppContext.BaseDirectory, "Published", "ucum.csv");
        foreach (string line in File.ReadLines(file).Skip(1))
        {
            string[] cells = line.Split(',', 6);
            yield return (cells[0], cells[1], cells[2], cells[3], cells[4]);
        }
    }

    private static Dictionary<string, string> Pairs(string text) =>
        text.Split("; ").Select(p => p.Split('=', 2)).ToDictionary(p => p[0], p => p[1]);

    private static double Number(string text) => double.Parse(text, CultureInfo.InvariantCulture);
}
