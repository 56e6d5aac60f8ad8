using Runnel.Science.Soil;
using Runnel.Science.Water;

namespace Runnel.Science.Tests.Soil;

// Source: FAO training manual 3, USDA SCS, enHealth, Pacey and Cullis (1986); named in each row.
public sealed class PublishedRainTests
{
    private const double LPerGallon = 3.785411784, M2PerFt2 = 0.09290304, MmPerInch = 25.4;

    private static readonly PublishedTable Table = PublishedTable.Open("air-sun-soil/rain.csv");

    public static IEnumerable<TheoryDataRow<string, string>> Rows => Table.Rows;

    [Theory, MemberData(nameof(Rows))]
    public void Rain_relations_agree_with_print(string row, string source)
    {
        var c = Table[row];
        Assert.Equal(source, c.Source);
        switch (c.Relation)
        {
            case "effective_rain_fao_tm3":
                // The table prints whole millimetres.
                c.Compare("effective_mm_month", EffectiveRain.TrainingManualMmPerMonth(c.Number("rain_mm_month")));
                break;
            case "effective_rain_usda_scs_monthly":
                c.Compare("effective_mm_month", EffectiveRain.TwoBranchMmPerMonth(c.Number("rain_mm_month")));
                break;
            case "effective_rain_fao_dependable":
                c.Compare("effective_mm_month", EffectiveRain.DependableMmPerMonth(c.Number("rain_mm_month")));
                break;
            case "effective_rain_scs_tr21":
                c.Compare("effective_in_month", EffectiveRain.StorageBasedMmPerMonth(
                    c.Number("rain_in_month") * MmPerInch, c.Number("etc_in_month") * MmPerInch, c.Number("usable_storage_in") * MmPerInch) / MmPerInch);
                break;
            case "scs_curve_number_runoff":
                c.Compare("runoff_mm", CurveNumberRunoff.RunoffMm(c.Number("rain_mm"), c.Number("curve_number")));
                break;
            case "rainwater_yield_us":
                c.Compare("yield_gal", RainCatch.YieldL(
                    c.Number("rain_in") * MmPerInch, c.Number("area_ft2") * M2PerFt2, c.Number("runoff_coefficient")) / LPerGallon);
                break;
            case "rainwater_yield":
            case "rainwater_yield_first_flush":
                c.Compare("yield_l", RainCatch.YieldL(
                    c.Number("rain_mm"), c.Number("area_m2"), c.Number("runoff_coefficient"), c.Number("first_flush_mm", 0)));
                break;
            case "rainwater_yield_martin_month":
                c.Compare("yield_l", RainCatch.MonthlyYieldL(
                    c.Number("rain_mm_month"), c.Number("area_m2"), c.Number("efficiency"), c.Number("loss_mm_month")));
                break;
            case "runoff_coefficient":
                var (least, greatest) = RunoffCoefficients.Of(c.Text("surface"))!.Value;
                c.Compare("coefficient_min", least);
                c.Compare("coefficient_max", greatest);
                break;
            default:
                throw c.Unknown();
        }

        c.AssertAllCompared();
    }
}
