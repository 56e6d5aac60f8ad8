using Runnel.Science.Fish;
using Runnel.Science.Plants;
using Runnel.Science.Water;

namespace Runnel.Science.Tests.Fish;

// Source: ASCE 2-06, Timmons and Ebeling, FAO 589, Deslauriers et al. (2017), Liao (1971), Beamish (1964), Iwama and Tautz (1981), Cochran (1977),
// Hiatt and Grady (2008), Anthonisen et al. (1976), US EPA (1975, 1993); named in each row.
public sealed class PublishedFishTests
{
    private static readonly PublishedTable AerationTable = PublishedTable.Open("water-fish/aeration.csv");
    private static readonly PublishedTable MetabolismTable = PublishedTable.Open("water-fish/fish-metabolism.csv");
    private static readonly PublishedTable GrowthTable = PublishedTable.Open("water-fish/growth.csv");
    private static readonly PublishedTable NitrificationTable = PublishedTable.Open("water-fish/nitrification.csv");
    private static readonly PublishedTable BalanceTable = PublishedTable.Open("water-fish/plant-balance.csv");

    public static IEnumerable<TheoryDataRow<string, string>> AerationRows => AerationTable.Rows;

    public static IEnumerable<TheoryDataRow<string, string>> MetabolismRows => MetabolismTable.Rows;

    public static IEnumerable<TheoryDataRow<string, string>> GrowthRows => GrowthTable.Rows;

    public static IEnumerable<TheoryDataRow<string, string>> NitrificationRows => NitrificationTable.Rows;

    public static IEnumerable<TheoryDataRow<string, string>> BalanceRows => BalanceTable.Rows;

    [Theory, MemberData(nameof(AerationRows))]
    public void Aeration_agrees_with_print(string row, string source)
    {
        var c = AerationTable[row];
        Assert.Equal(source, c.Source);
        double N(string name) => c.Number(name);
        switch (c.Relation)
        {
            case "otr_field":
                c.Compare("otr_g_h", Aeration.FieldGPerH(N("sotr_g_h"), N("temp_c"), N("do_mg_l"), N("altitude_m"), N("alpha"), N("beta"), N("theta")));
                break;
            case "kla_temperature":
                c.Compare("kla_per_h", Aeration.TransferPerH(N("kla20_per_h"), N("temp_c")));
                break;
            case "air_to_oxygen":
                c.Compare("o2_supplied_g_h", Aeration.OxygenFromAirGPerH(N("airflow_l_min"), N("sote_percent") / 100));
                break;
            case "diffuser_pressure":
                c.Compare("gauge_kpa", Aeration.DiffuserKPa(N("depth_m")));
                break;
            case "air_compression_power":
                c.Compare("power_w", Aeration.CompressionW(N("airflow_l_min"), N("depth_m")));
                break;
            case "airlift_ideal_bound":
                c.Compare("power_w", Aeration.RisingAirW(N("airflow_l_min"), N("submergence_m")));
                c.Compare("value", Aeration.AirLiftBoundLPerMin(N("airflow_l_min"), N("submergence_m"), N("lift_m")));
                break;
            case "surface_exchange_k600":
                c.Compare("k600_cm_h", Aeration.SurfaceK600CmPerH(N("wind_m_s")));
                break;
            case "surface_exchange_schmidt":
                c.Compare("value", Aeration.SchmidtNumber(N("temp_c")));
                c.Compare("k_cm_h", Aeration.SurfaceExchangeCmPerH(N("k600_cm_h"), N("temp_c")));
                break;
            case "time_to_hypoxia_no_exchange" or "time_to_hypoxia_with_surface":
                double demand = ((N("biomass_kg") * N("respiration_mg_kg_h")) + (1000 * N("other_demand_g_h"))) / N("volume_l");
                bool still = c.Relation == "time_to_hypoxia_no_exchange";
                double transfer = still ? 0 : Aeration.TransferPerH(N("kla20_per_h"), N("temp_c")), saturation = still ? 0 : OxygenSaturation.MgPerL(N("temp_c"));
                double minutes = 60 * OxygenAfterAirFailure.HoursTo(N("do_critical_mg_l"), N("do_mg_l"), saturation, transfer, demand);
                if (c.Expects("minutes_to_critical")) c.Compare("minutes_to_critical", minutes);
                else Assert.Equal(double.PositiveInfinity, minutes);
                if (c.Expects("steady_do_mg_l")) c.Compare("steady_do_mg_l", OxygenAfterAirFailure.SteadyMgPerL(saturation, transfer, demand));
                break;
            case "sote_per_depth" or "alpha_range" or "published_time_to_distress":
                return; // reference data
            default:
                throw c.Unknown();
        }

        c.AssertAllCompared();
    }

    [Theory, MemberData(nameof(MetabolismRows))]
    public void Feed_and_respiration_agree_with_print(string row, string source)
    {
        var c = MetabolismTable[row];
        Assert.Equal(source, c.Source);
        double N(string name) => c.Number(name);
        switch (c.Relation)
        {
            case "tan_from_feed":
                c.Compare("tan_g_d", FeedWaste.TanGNPerDay(N("feed_g_d"), N("protein_fraction")));
                break;
            case "fao_ammonia_from_feed":
                double ammonia = FeedWaste.FaoAmmoniaGPerDay(N("feed_g_d"), N("protein_fraction"));
                c.Compare("nh3_g_d", ammonia);
                // The paper's factor 1.2 stands for NH3 over N.
                c.Compare("tan_g_d", ammonia / 1.2);
                break;
            case "oxygen_co2_solids_per_feed":
                var load = FeedWaste.Load(N("feed_g_d"));
                c.Compare("o2_g_d", load.OxygenGPerDay);
                c.Compare("co2_g_d", load.CarbonDioxideGPerDay);
                c.Compare("solids_g_d", load.SolidsGPerDay);
                break;
            case "fb4_respiration":
                c.Compare("o2_mg_kg_h", Respiration.StandardMgPerKgH(Respiration.Find(c.Text("species"))!, N("weight_g"), N("temp_c")));
                break;
            case "allometric_ratio":
                double exponent = c.Text("species") switch { "carp" => 0.894, "brown trout" => 0.877, "brown bullhead" => 0.925, _ => throw c.Unknown() };
                c.Compare("ratio", Respiration.WholeFishRatio(N("mean_weight_g"), N("weight_g"), exponent));
                break;
            case "liao_1971_trout":
                c.Compare("o2_mg_kg_h", Respiration.TroutLiaoMgPerKgH(N("weight_g"), N("temp_c")));
                break;
            case "ration":
                double biomass = N("n_fish") * N("mean_weight_g") / 1000;
                c.Compare("biomass_kg", biomass);
                c.Compare("feed_g_d", Stocking.RationGPerDay(biomass, N("percent_body_weight_d")));
                break;
            case "feed_conversion":
                c.Compare("fcr", Stocking.FeedConversion(N("total_feed_kg"), N("weight_gain_kg")));
                break;
            case "trout_feed_chart" or "feed_rate_range" or "fcr_published":
                return; // reference data
            default:
                throw c.Unknown();
        }

        c.AssertAllCompared();
    }

    [Theory, MemberData(nameof(GrowthRows))]
    public void Growth_agrees_with_print(string row, string source)
    {
        var c = GrowthTable[row];
        Assert.Equal(source, c.Source);
        double N(string name) => c.Number(name);
        switch (c.Relation)
        {
            case "tgc":
                double coefficient = Growth.ThermalCoefficient(N("w1_g"), N("w2_g"), N("temp_c") * N("days"));
                c.Compare("tgc_x1000", coefficient);
                c.Compare("tgc_x100", coefficient / 10);
                break;
            case "tgc_projection":
                c.Compare("w2_g", Growth.WeightG(N("w1_g"), N("tgc_x1000"), N("temp_c") * N("days")));
                break;
            case "tgc_varying_temperature":
                c.Compare("w2_g", Growth.WeightG(N("w1_g"), N("tgc_x1000"), N("degree_days")));
                break;
            case "days_to_target":
                c.Compare("days", Growth.DaysTo(N("w1_g"), N("target_g"), N("tgc_x1000"), N("temp_c")));
                break;
            case "sgr":
                c.Compare("sgr_percent_d", Growth.SpecificPercentPerDay(N("w1_g"), N("w2_g"), N("days")));
                break;
            case "length_weight":
                c.Compare("weight_g", Growth.WeightOfLength(N("length_cm"), N("coef_a"), N("coef_b")));
                break;
            case "length_weight_imperial":
                c.Compare("weight_lb", Growth.WeightOfLength(N("length_in"), N("coef_a"), N("coef_b")));
                break;
            case "fulton_condition":
                c.Compare("condition_k", Growth.Condition(N("w1_g"), N("length_cm")));
                break;
            case "sample_mean_and_biomass":
                double[] weights = [.. c.Text("sample_weights_g").Split(' ').Select(w => double.Parse(w, System.Globalization.CultureInfo.InvariantCulture))];
                var sample = Growth.Sample(weights, (int)N("population"));
                c.Compare("mean_g", sample.MeanG);
                c.Compare("sd_g", sample.SdG);
                c.Compare("ci95_half_g", sample.MeanPm95G);
                c.Compare("biomass_kg", sample.BiomassKg);
                break;
            case "published_growth_time":
                return; // reference data
            default:
                throw c.Unknown();
        }

        c.AssertAllCompared();
    }

    [Theory, MemberData(nameof(NitrificationRows))]
    public void Nitrification_agrees_with_print(string row, string source)
    {
        var c = NitrificationTable[row];
        Assert.Equal(source, c.Source);
        double N(string name) => c.Number(name);
        switch (c.Relation)
        {
            case "constant" when StoichiometryOf(c.Text("parameter")) is { } constant:
                c.Compare("value", constant);
                break;
            case "oxygen_and_alkalinity_demand":
                c.Compare("o2_g", N("n_oxidised_g") * Nitrification.OxygenPerN);
                c.Compare("alkalinity_g_caco3", N("n_oxidised_g") * Nitrification.AlkalinityPerN);
                c.Compare("biomass_g_vss", N("n_oxidised_g") * Nitrification.BiomassPerN);
                break;
            case "epa_growth_temperature":
                c.Compare("value", Nitrification.EpaGreatestGrowthPerDay(N("temp_c")));
                break;
            case "epa_half_saturation":
                c.Compare("value", Nitrification.EpaHalfSaturationMgNPerL(N("temp_c")));
                break;
            case "epa_combined_growth":
                c.Compare("value", Nitrification.EpaGrowthPerDay(N("temp_c"), N("tan_mg_n_l"), N("do_mg_l"), N("ph")));
                break;
            case "anthonisen_fa_fna":
                var free = Nitrification.Free(N("temp_c"), N("ph"), N("tan_mg_n_l"), N("no2_mg_n_l"));
                c.Compare("fa_mg_n_l", free.AmmoniaMgNPerL);
                c.Compare("fna_mg_n_l", free.NitrousAcidMgNPerL);
                break;
            case "hiatt_grady_growth":
                var both = Nitrification.Free(N("temp_c"), N("ph"), N("tan_mg_n_l"), N("no2_mg_n_l"));
                c.Compare("rate", N("step") == 1 ? Nitrification.AmmoniaOxidiserGrowthPerDay(both, N("do_mg_l")) : Nitrification.NitriteOxidiserGrowthPerDay(both, N("do_mg_l")));
                break;
            case "uct_ph_factor":
                c.Compare("value", Nitrification.PhFactor(N("ph")));
                break;
            case "rate_temperature_correction":
                double from = c.Text("parameter").Contains("from 25", StringComparison.Ordinal) ? 25 : 20;
                c.Compare("rate", Nitrification.AtTemperature(N("areal_rate_g_m2_d"), from, N("temp_c"), 1.09));
                break;
            case "fao_media_sizing":
                double load = FeedWaste.FaoAmmoniaGPerDay(N("feed_g_d"), N("protein_fraction")), area = Nitrification.MediaAreaM2(load, N("areal_rate_g_m2_d"));
                c.Compare("value", load);
                c.Compare("area_m2", area);
                c.Compare("media_l", Nitrification.MediaVolumeL(area, N("specific_surface_m2_m3")));
                break;
            case "constant" or "cycling_duration_published" or "cycling_stage_published" or "fish_in_start" or "reference_run_state" or "reference_run_milestones":
                return; // reference data; the runs have a test class of their own
            default:
                throw c.Unknown();
        }

        c.AssertAllCompared();
    }

    [Theory, MemberData(nameof(BalanceRows))]
    public void Plant_balance_agrees_with_print(string row, string source)
    {
        var c = BalanceTable[row];
        Assert.Equal(source, c.Source);
        double N(string name) => c.Number(name);
        switch (c.Relation)
        {
            case "area_from_feed":
                c.Compare("plant_area_m2", PlantBalance.AreaM2(N("feed_g_d"), N("feed_rate_ratio_g_m2_d")));
                break;
            case "feed_from_area":
                c.Compare("feed_g_d", PlantBalance.FeedGPerDay(N("plant_area_m2"), N("feed_rate_ratio_g_m2_d")));
                break;
            case "biomass_from_feed":
                c.Compare("fish_biomass_kg", Stocking.BiomassKg(N("feed_g_d"), N("percent_body_weight_d")));
                break;
            case "tank_from_biomass":
                c.Compare("tank_volume_l", Stocking.TankL(N("fish_biomass_kg"), N("density_kg_m3")));
                break;
            case "density":
                c.Compare("density_kg_m3", Stocking.DensityKgPerM3(N("fish_biomass_kg"), N("tank_volume_l")));
                break;
            case "whole_chain":
                double feed = PlantBalance.FeedGPerDay(N("plant_area_m2"), N("feed_rate_ratio_g_m2_d")), fish = Stocking.BiomassKg(feed, N("percent_body_weight_d"));
                c.Compare("feed_g_d", feed);
                c.Compare("fish_biomass_kg", fish);
                c.Compare("tank_volume_l", Stocking.TankL(fish, N("density_kg_m3")));
                break;
            case "area_for_weekly_harvest":
                double plants = PlantBalance.StandingPlants(N("plants_per_week"), 7 * N("weeks_to_harvest"), 7);
                c.Compare("plants", plants);
                c.Compare("plant_area_m2", PlantBalance.StandingAreaM2(plants, N("plants_per_m2")));
                break;
            case "daily_water_loss":
                c.Compare("water_l_d", PlantBalance.LossLPerDay(N("system_volume_l"), N("loss_percent_d") / 100));
                break;
            case "transpiration_volume":
                c.Compare("water_l_d", PlantBalance.WaterLPerDay(N("plant_area_m2"), N("et_mm_d")));
                break;
            case "nitrogen_balance":
                c.Compare("n_from_feed_g_d", PlantBalance.FeedNitrogenGPerDay(N("feed_g_d"), N("protein_fraction")));
                c.Compare("n_to_plants_g_d", PlantBalance.PlantNitrogenGPerDay(N("plant_area_m2"), N("nitrogen_uptake_g_m2_d")));
                break;
            case "uvi_balance_check" or "uvi_system" or "uvi_trials" or "target_range" or "fao_design_table" or "ratio_published" or "plant_density_published" or "density_published":
                return; // reference data
            default:
                throw c.Unknown();
        }

        c.AssertAllCompared();
    }

    private static double? StoichiometryOf(string parameter) => parameter switch
    {
        "o2_ammonia_step" => Nitrification.OxygenPerNToNitrite,
        "o2_nitrite_step" => Nitrification.OxygenPerN - Nitrification.OxygenPerNToNitrite,
        "o2_total" => Nitrification.OxygenPerN,
        "alkalinity_consumed" => Nitrification.AlkalinityPerN,
        "biomass_yield_total" => Nitrification.BiomassPerN,
        _ => null,
    };
}
