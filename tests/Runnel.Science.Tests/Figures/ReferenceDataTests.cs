using System.Globalization;
using Runnel.Science.Drying;
using Runnel.Science.Figures;
using Runnel.Science.Fish;
using Runnel.Science.Plants;
using Runnel.Science.Soil;
using Runnel.Science.Units;
using Runnel.Science.Water;

namespace Runnel.Science.Tests.Figures;

public sealed class ReferenceDataTests
{
    // Words that end the name of a column of numbers, and the range that such a number can have at all.
    private static readonly (string Suffix, double Least, double Greatest)[] Lawful =
    [
        ("_m3_m3", 0, 0.8), ("_m2_per_m3", 50, 5000), ("_per_m2", 0.1, 1000), ("_min_m", 0.05, 5), ("_max_m", 0.05, 5), ("height_m", 0.01, 30), ("_mm", 0, 100),
        ("spacing_cm", 1, 500), ("_days", 1, 800), ("temp_c", -5, 60), ("ph", 3, 11), ("kc", 0, 2), ("kcb", 0, 2), ("p_fraction", 0.05, 0.95), ("_fraction", 0, 1),
        ("g_per_100g", 0, 100), ("_l", 1, 10_000), ("_kg", 0, 1000), ("g_per_day", 0, 100_000), ("l_per_h", 0, 100_000), ("_m2", 0, 10_000), ("void", 0, 1), ("temp_f", 32, 110), ("percent_body_weight_d", 0, 20),
    ];

    public static IEnumerable<TheoryDataRow<string>> Files => ReferenceData.Files.Select(f => new TheoryDataRow<string>(f));

    [Theory, MemberData(nameof(Files))]
    public void Every_row_names_its_source_and_how_it_was_come_by(string file)
    {
        var rows = Rows(file);
        Assert.NotEmpty(rows);
        Assert.All(rows, row =>
        {
            Assert.True(row["source"].Length > 5, $"{file}: {string.Join('|', row.Values)}");
            Assert.Matches("^(read|computed|memory): .{5,}", row["provenance"]);
        });
        Assert.Distinct(rows.Select(r => string.Join('|', r.Values)));
    }

    [Theory, MemberData(nameof(Files))]
    public void Every_figure_has_a_lawful_unit_and_a_possible_size(string file)
    {
        foreach (var row in Rows(file))
        {
            if (row.TryGetValue("unit", out string? unit)) Assert.True(Unit.TryParse(unit, out _), $"{file}: unit {unit}");
            foreach (var (column, text) in row)
            {
                if (column is "unit" or "value" or "value_max" or "least" or "greatest" || !double.TryParse(text, NumberStyles.Float, CultureInfo.InvariantCulture, out double value)) continue;
                string bare = column.Replace("_min", "", StringComparison.Ordinal).Replace("_max", "", StringComparison.Ordinal).Replace("_greatest", "", StringComparison.Ordinal);
                var (suffix, least, greatest) = Lawful.FirstOrDefault(l => column.EndsWith(l.Suffix, StringComparison.Ordinal) || bare.EndsWith(l.Suffix, StringComparison.Ordinal)
                    || bare.StartsWith(l.Suffix + "_", StringComparison.Ordinal));
                Assert.True(suffix is not null, $"{file}: column {column} names no unit");
                Assert.True(value >= least && value <= greatest, $"{file}: {column} {value} is not within {least} to {greatest}");
            }
        }
    }

    [Fact]
    public void Figures_of_all_tables_can_be_looked_up()
    {
        Assert.Equal(0.9, CropFigures.Find("Lettuce")!.KcbMid);
        Assert.Equal(75, CropStageLengths.Of("lettuce").First().TotalDays);
        Assert.Null(CropFigures.Find("dandelion"));
        Assert.True(CropNeeds.Of("lettuce").Count() >= 2);
        Assert.Contains(DeficiencySign.All, d => d is { Element: "Fe", OldLeaves: false });
        Assert.Equal(0.2, SoilTexture.Find("loam")!.FieldCapacity.Least);
        Assert.True(ProduceMoisture.Named("apple").Count() >= 2);
        Assert.Contains(FilterMedium.Of("volcanic tuff"), m => m.SpecificSurfaceM2PerM3 == 300);
        Assert.Contains(FilterMedium.Of("volcanic tuff"), m => m.VoidFraction is not null);
        Assert.Equal("KHCO3", DosingSubstance.Find("potassium bicarbonate")!.Formula);
        Assert.Equal("KHCO3", DosingSubstance.Find("KHCO3")!.Base!.Formula);
        Assert.NotEmpty(IronProduct.All);
        Assert.NotEmpty(PlanningFigure.Of("feed for a planted area"));
        Assert.NotEmpty(DryingLimit.All);
        Assert.Throws<ArgumentException>(() => ReferenceData.Text("none.csv"));
    }

    [Fact]
    public void Stage_lengths_add_up_as_printed() =>
        Assert.All(CropStageLengths.All, s => Assert.Equal(s.TotalDays, s.InitialDays + s.DevelopmentDays + s.MidDays + s.LateDays));

    [Fact]
    public void A_crop_with_its_lengths_makes_both_curves()
    {
        var lengths = CropStageLengths.Of("lettuce").First();
        var crop = CropFigures.Find("lettuce")!;
        Assert.Equal(1, CropCoefficient.OnDay(crop.SingleStages(lengths)!, 55));
        Assert.Equal(0.9, CropCoefficient.OnDay(crop.BasalStages(lengths)!, 55));
        Assert.Null(CropFigures.Find("open water under 2 m or subhumid or tropics")!.BasalStages(lengths));
    }

    [Fact]
    public void Every_dosing_substance_has_a_formula_that_holds_what_it_gives() => Assert.All(DosingSubstance.All, s =>
    {
        foreach (string what in s.Gives.Where(g => g is not ("alkalinity" or "dechlorination"))) Assert.InRange(ChemicalFormula.MassFraction(what, s.Formula), 0.01, 1);
        Assert.Equal(s.Gives.Contains("alkalinity"), s.Base is not null);
        Assert.InRange(ChemicalFormula.MolarMass(s.Formula), 20, 400);
    });

    [Fact]
    public void Every_alkaline_base_of_the_dosing_sums_is_listed() =>
        Assert.All(AlkalinityDose.Bases, b => Assert.NotNull(DosingSubstance.Find(b.Formula)));

    [Fact]
    public void A_table_that_is_wrong_says_its_line()
    {
        Assert.Equal("t.csv:3: 1 cells under 2 columns", Assert.Throws<InvalidDataException>(() => ReferenceRowText("a,b\n1,2\n3\n")).Message);
        Assert.Equal("t.csv:4: b is no number: x", Assert.Throws<InvalidDataException>(() => ReferenceRowText("a,b\n\"1\n,\",2\n3,x\n")).Message);
        static void ReferenceRowText(string text) => _ = ReferenceRow.Parse("t.csv", text).Select(r => r.Number("b")).ToArray();
    }

    [Fact, Trait("source", "RFC 4180 (Shafranovich, 2005)")]
    public void Tables_are_read_as_the_standard_has_it()
    {
        var cases = PublishedSeries.Root("hydraulics-signals/csv.json").GetProperty("cases").EnumerateArray()
            .Where(c => c.TryGetProperty("expected", out var e) && e.TryGetProperty("rows", out _)).ToArray();
        Assert.True(cases.Length >= 8);
        foreach (var c in cases)
        {
            string[][] expected = [.. c.At("expected", "rows").EnumerateArray().Select(r => r.EnumerateArray().Select(f => f.GetString()!).ToArray())];
            Assert.Equal(expected, ReferenceRow.Lines(c.GetProperty("input").GetString()!).Select(l => l.Fields));
        }
    }

    private static List<Dictionary<string, string>> Rows(string file)
    {
        var rows = PublishedTable.Csv(ReferenceData.Text(file));
        return [.. rows.Skip(1).Select(r => rows[0].Zip(r).ToDictionary(c => c.First, c => c.Second))];
    }
}
