using Runnel.Science.Drying;
using Runnel.Science.Figures;
using Runnel.Science.Fish;
using Runnel.Science.Plants;
using Runnel.Science.Soil;

namespace Runnel.Science.Tests.Figures;

// Source: FAO-56 tables 11, 12, 17, 19, 22; FAO 589; Indian Food Composition Tables 2017; NCHFP; state fisheries guidance and others, named in each row.
public sealed class PublishedFigureTests
{
    private static readonly PublishedTable Crops = PublishedTable.Open("water-fish/crops.csv"), Limits = PublishedTable.Open("water-fish/fish-limits.csv");

    public static IEnumerable<TheoryDataRow<string, string>> CropRows => Crops.Rows;

    public static IEnumerable<TheoryDataRow<string, string>> LimitRows => Limits.Rows;

    [Fact, Trait("source", "FAO-56 tables 11, 12, 17, 19, 22")]
    public void Crop_and_soil_tables_agree_with_print()
    {
        foreach (var c in All("air-sun-soil/crop-coefficients.csv"))
        {
            var crop = CropFigures.Find(c.Text("crop"))!;
            Compare(c, ("kc_ini", crop.KcInitial), ("kc_mid", crop.KcMid), ("kc_end", crop.KcEnd), ("height_m", crop.HeightM), ("kcb_ini", crop.KcbInitial), ("kcb_mid", crop.KcbMid),
                ("kcb_end", crop.KcbEnd), ("root_depth_min_m", crop.RootDepthM?.Least), ("root_depth_max_m", crop.RootDepthM?.Greatest), ("p_fraction", crop.DepletionShare));
        }

        foreach (var c in All("air-sun-soil/crop-stages.csv"))
        {
            var stages = CropStageLengths.Of(c.Text("crop")).Single(s => s.Region == c.Text("region"));
            Compare(c, ("ini_days", stages.InitialDays), ("dev_days", stages.DevelopmentDays), ("mid_days", stages.MidDays), ("late_days", stages.LateDays), ("total_days", stages.TotalDays));
        }

        foreach (var c in All("air-sun-soil/soil-water.csv").Where(c => c.Relation == "soil_table_19"))
        {
            var soil = SoilTexture.Find(c.Text("texture"))!;
            Compare(c, [.. new[] { ("fc", "m3_m3", soil.FieldCapacity), ("wp", "m3_m3", soil.WiltingPoint), ("fc_minus_wp", "m3_m3", soil.Available), ("rew", "mm", soil.ReadilyEvaporableMm),
                ("tew", "mm", soil.TotalEvaporableMm) }.SelectMany(r => new (string, double?)[] { ($"{r.Item1}_min_{r.Item2}", r.Item3.Least), ($"{r.Item1}_max_{r.Item2}", r.Item3.Greatest) })]);
        }
    }

    [Fact, Trait("source", "Indian Food Composition Tables 2017; USDA; NCHFP; Kansas State extension")]
    public void Produce_and_drying_limits_agree_with_print()
    {
        foreach (var c in All("air-sun-soil/produce-moisture.csv"))
        {
            var food = ProduceMoisture.All.Single(f => f.Food == c.Text("food") && f.IsDried == (c.Text("state") == "dried") && f.Source == c.Source);
            Compare(c, ("water_g_per_100g", 100 * food.WaterFraction));
        }

        foreach (var c in All("air-sun-soil/drying-safety.csv"))
            Compare(c, [.. DryingLimit.All.Where(l => l.Subject == c.Text("subject")).Select(l => (l.Quantity, (double?)l.Value))]);
    }

    [Theory, MemberData(nameof(CropRows))]
    public void Crop_needs_and_succession_agree_with_print(string row, string source)
    {
        var c = Crops[row];
        switch (c.Relation)
        {
            case "crop":
                var crop = CropNeeds.All.Single(n => n.Crop == c.Text("crop") && n.Source == source);
                Same(c, "ph", crop.Ph);
                Same(c, "plants_per_m2", crop.PlantsPerM2);
                Same(c, "spacing_cm", crop.SpacingCm);
                Same(c, "germination_days", crop.GerminationDays);
                Same(c, "germination_temp_c", crop.GerminationTempC);
                Same(c, "growth_days", crop.GrowthDays);
                Same(c, "temp_c", crop.TempC);
                Same(c, "optimal_temp_c", crop.OptimalTempC);
                break;
            case "deficiency_symptom":
                Assert.Contains(DeficiencySign.All, d => d.Element == c.Text("deficiency_element") && d.Sign == c.Text("symptom") && d.OldLeaves == (c.Text("symptom_leaf_age") == "old"));
                break;
            case "succession_planting":
                c.Compare("plants_needed", PlantBalance.StandingPlants(c.Number("transplants"), c.Number("growth_days_min"), c.Number("harvest_interval_d")));
                break;
            default:
                throw c.Unknown();
        }

        c.AssertAllCompared();
    }

    [Theory, MemberData(nameof(LimitRows))]
    public void Fish_limits_and_the_decisions_from_them_agree_with_print(string row, string source)
    {
        var c = Limits[row];
        if (c.Relation == "limit")
        {
            var limit = Assert.Single(FishLimits.All, l => l.Species == c.Text("species") && l.Source == source && l.Says == c.Text("sense") && Quantity(l, c.Text("quantity"))
                && l.Value?.Least == (c.Has("value") ? c.Number("value") : null) && l.Value?.Greatest == (c.Has("value") ? c.Number("value_max", c.Number("value")) : null));
            Assert.Equal(c.Has("scientific_name") ? c.Text("scientific_name") : "", limit.ScientificName);
            return;
        }

        Assert.Equal("temperature_decision", c.Relation);
        var acts = FishLimits.Trouble(c.Text("species"), "water-temperature", c.Number("temp_c")).Select(l => l.Act).ToHashSet();
        string[] wanted = c.ExpectedText("decision").Split(';', StringSplitOptions.TrimEntries);
        Assert.All(wanted, w => Assert.True(w switch
        {
            "feed normally" => acts.Count == 0,
            "stop feeding" => acts.Contains(FishAct.StopFeeding),
            "do not handle" => acts.Contains(FishAct.DoNotHandle),
            "raise aeration" => acts.Contains(FishAct.RaiseAeration),
            "growth poor: cut feed" => acts.Contains(FishAct.CutFeed),
            "alarm: lethal" or "alarm" => acts.Contains(FishAct.Alarm),
            _ => throw c.Unknown(),
        }, $"{row}: {w}, got {string.Join(", ", acts)}"));
        if (!wanted.Any(w => w.StartsWith("alarm", StringComparison.Ordinal))) Assert.DoesNotContain(FishAct.Alarm, acts);
    }

    [Fact, Trait("source", "Leitritz and Lewis (1980), feeding chart")]
    public void The_trout_feeding_chart_agrees_with_print()
    {
        foreach (var c in All("water-fish/fish-metabolism.csv").Where(c => c.Relation == "trout_feed_chart"))
        {
            string[] ends = c.Text("length_class_in").Trim('<', '>').Split('-');
            double inches = c.Text("length_class_in")[0] == '<' ? 0.7 : double.Parse(ends[0], System.Globalization.CultureInfo.InvariantCulture) + 0.5;
            c.Compare("percent_body_weight_d", FeedChart.TroutPercentPerDay((c.Number("temp_f") - 32) / 1.8, inches * 2.54));
            c.AssertAllCompared();
        }
    }

    [Fact]
    public void Trout_eat_more_when_warmer_and_less_when_longer()
    {
        for (double temp = 2; temp < 17.9; temp += 0.1)
        {
            for (double length = 1; length < 40; length += 1)
            {
                double here = FeedChart.TroutPercentPerDay(temp, length);
                Assert.True(FeedChart.TroutPercentPerDay(temp + 0.1, length) >= here - 1e-12, $"{temp} {length}");
                Assert.True(FeedChart.TroutPercentPerDay(temp, length + 1) <= here + 1e-12, $"{temp} {length}");
            }
        }

        Assert.Throws<ArgumentOutOfRangeException>("waterTempC", () => FeedChart.TroutPercentPerDay(double.NaN, 10));
        Assert.Throws<ArgumentOutOfRangeException>("lengthCm", () => FeedChart.TroutPercentPerDay(10, 0));
    }

    [Fact]
    public void Sources_that_differ_stand_side_by_side()
    {
        var stops = FishLimits.Of("jade perch", "water-temperature").Where(l => l.Act == FishAct.StopFeeding).ToArray();
        Assert.Equal([16, 18], stops.Select(l => l.Value!.Value.Least).Order());
        Assert.Single(FishLimits.Trouble("Scortum barcoo", "water-temperature", 17.5), l => l.Act == FishAct.StopFeeding);
        Assert.Throws<ArgumentOutOfRangeException>(() => FishLimits.Trouble("jade perch", "water-temperature", double.NaN));
    }

    [Theory]
    [InlineData("Nile tilapia", "water-temperature", 28, FishComfort.Comfort)]
    [InlineData("Nile tilapia", "water-temperature", 24, FishComfort.OutsideComfort)]
    [InlineData("Nile tilapia", "water-temperature", 16, FishComfort.Stress)]
    [InlineData("Nile tilapia", "water-temperature", 11, FishComfort.Danger)]
    [InlineData("rainbow trout", "dissolved-oxygen", 8, FishComfort.Comfort)]
    [InlineData("rainbow trout", "dissolved-oxygen", 6.2, FishComfort.OutsideComfort)]
    [InlineData("jade perch", "nitrate", 50, FishComfort.NothingKnown)]
    public void A_level_is_judged_by_the_strictest_source(string species, string quantity, double level, FishComfort verdict)
    {
        var judged = FishLimits.Judge(species, quantity, level);
        Assert.Equal(verdict, judged.Comfort);
        Assert.Equal(verdict == FishComfort.NothingKnown, judged.Because.Count == 0);
    }

    [Fact]
    public void No_species_is_in_comfort_and_in_danger_by_the_same_source() => Assert.All(
        FishLimits.All.Where(l => l is { Grade: FishLimitGrade.Comfort, Bound: FishLimitBound.Within }),
        comfort => Assert.DoesNotContain(FishLimits.Of(comfort.Species, comfort.Quantity), l => l.Grade == FishLimitGrade.Danger && l.Source == comfort.Source && l.Speaks(comfort.Value!.Value.Middle)));

    [Fact, Trait("source", "rows of plant-balance, nitrification, aeration, solids, sorption and drying tables")]
    public void Planning_figures_agree_with_print()
    {
        (string File, string[] Relations)[] tables =
        [
            ("water-fish/plant-balance.csv", ["target_range", "ratio_published", "plant_density_published"]), ("water-fish/nitrification.csv", ["cycling_duration_published"]),
            ("water-fish/aeration.csv", ["alpha_range", "published_time_to_distress", "sote_per_depth"]), ("water-fish/fish-metabolism.csv", ["feed_rate_range"]),
        ];
        foreach (var (file, relations) in tables)
        {
            foreach (var c in All(file).Where(c => relations.Contains(c.Relation)))
            {
                Assert.Contains(PlanningFigure.All, f => f.Source == c.Source
                    && Math.Abs(f.Range.Least - Expected(c, "min")) < 1e-9 && Math.Abs(f.Range.Greatest - Expected(c, "max")) < 1e-9);
            }
        }

        static double Expected(PublishedCase c, string end) => double.Parse(c.ExpectedText(end), System.Globalization.CultureInfo.InvariantCulture);
    }

    [Fact, Trait("source", "FAO 589 (2014), table 8.1")]
    public void Sizes_of_small_systems_agree_with_print_and_with_the_sums()
    {
        foreach (var c in All("water-fish/plant-balance.csv").Where(c => c.Relation == "fao_design_table"))
        {
            var size = SystemSize.For(c.Number("tank_volume_l"))!;
            Compare(c, ("plant_area_m2", size.PlantAreaM2), ("feed_g_d", size.FeedGPerDay), ("fish_biomass_kg", size.FishKg), ("min", size.FiltersL.Least), ("max", size.FiltersL.Greatest));
            Assert.InRange(Stocking.DensityKgPerM3(size.FishKg, size.TankL), 19, 25.1);
            Assert.InRange(size.FeedGPerDay / size.PlantAreaM2, 49, 51);
        }

        Assert.Null(SystemSize.For(100));
        Assert.Equal(500, SystemSize.For(999)!.TankL);
    }

    private static IEnumerable<PublishedCase> All(string file)
    {
        var table = PublishedTable.Open(file);
        return table.Rows.Select(r => table[r.Data.Item1]);
    }

    private static void Compare(PublishedCase c, params (string Column, double? Value)[] values)
    {
        foreach (var (column, value) in values)
        {
            Assert.Equal(c.Expects(column), value is not null);
            if (value is double number) c.Compare(column, number);
        }

        c.AssertAllCompared();
    }

    private static void Same(PublishedCase c, string column, FigureRange? range)
    {
        Assert.Equal(c.Has(column + "_min"), range is not null);
        if (range is { } r) Assert.Equal((c.Number(column + "_min"), c.Number(column + "_max", c.Number(column + "_min"))), (r.Least, r.Greatest));
    }

    private static bool Quantity(FishLimit limit, string published) => published switch
    {
        "temperature" => limit.Quantity.StartsWith("water-temperature", StringComparison.Ordinal),
        "no2" => limit.Quantity == "nitrite",
        "no3" => limit.Quantity == "nitrate",
        "nh3_n" => limit.Quantity == "unionised-ammonia",
        "tan_or_no2" => limit.Quantity == "tan-or-nitrite",
        "unionised_ammonia_96h_lc50" => limit.Quantity == "unionised-ammonia-lc50-96h",
        _ => limit.Quantity == published.Replace('_', '-'),
    };
}
