namespace Runnel.Science.Tests.Reckoning;

/// <summary>Which relation a row of a published table belongs to, and where its column names differ.</summary>
internal sealed record RowUse(string Relation)
{
    /// <summary>Inputs under another name than the column's.</summary>
    public Dictionary<string, string> Inputs { get; init; } = [];

    /// <summary>Results under another name than the expected column's; empty where the relation leaves it out.</summary>
    public Dictionary<string, string> Outputs { get; init; } = [];

    /// <summary>Inputs the row says in words.</summary>
    public Dictionary<string, string> Also { get; init; } = [];

    /// <summary>Results times this are the expected values.</summary>
    public double Scale { get; init; } = 1;
}

internal static class ReckonedTables
{
    public static readonly string[] Files =
    [
        "water-fish/ammonia.csv", "water-fish/do-saturation.csv", "water-fish/carbonate.csv", "water-fish/dosing.csv", "water-fish/nitrite-chloride.csv",
        "water-fish/aeration.csv", "water-fish/fish-metabolism.csv", "water-fish/growth.csv", "water-fish/nitrification.csv", "water-fish/plant-balance.csv",
        "air-sun-soil/fao56-eto.csv", "air-sun-soil/fao56-eto-hourly.csv", "air-sun-soil/fao56-ra-table.csv", "air-sun-soil/open-water-evaporation.csv",
        "air-sun-soil/psychrometrics.csv", "air-sun-soil/rain.csv", "air-sun-soil/fao56-kc-curve.csv", "air-sun-soil/soil-water.csv", "air-sun-soil/irrigation.csv",
        "air-sun-soil/drying-arithmetic.csv", "air-sun-soil/drying-kinetics.csv", "air-sun-soil/sorption.csv", "air-sun-soil/solar-air-heater.csv",
        "air-sun-soil/pv-battery.csv", "air-sun-soil/pump-power.csv",
    ];

    // A temperature alone says these; the other inputs do not count.
    private static readonly Dictionary<string, string> Anywhere = new() { ["tan_mg_n_l"] = "1", ["do_mg_l"] = "6", ["ph"] = "7" };

    private static readonly Dictionary<string, RowUse> Uses = new()
    {
        ["emerson_pka"] = new("ammonia-fraction") { Also = new() { ["ph"] = "7" } },
        ["emerson_fraction"] = new("ammonia-fraction"),
        ["published_fraction_table"] = new("ammonia") { Also = new() { ["tan_mg_n_l"] = "1" } },
        ["trussell_1972_fraction"] = new("ammonia-fraction"),
        ["phreeqc_fraction_ionic_strength"] = new("ammonia-fraction"),
        ["worked_example"] = new("ammonia"),
        ["tan_to_unionised"] = new("ammonia"),
        ["tan_limit_from_nh3_limit"] = new("tan-limit-from-nh3-limit"),
        ["mass_nh3_n_to_nh3"] = new("nitrogen-forms") { Also = new() { ["ion"] = "nh3" } },
        ["mass_nh4_n_to_nh4"] = new("nitrogen-forms") { Also = new() { ["ion"] = "nh4" } },
        ["mass_no2_n_to_no2"] = new("nitrogen-forms") { Also = new() { ["ion"] = "no2" } },
        ["mass_no3_n_to_no3"] = new("nitrogen-forms") { Also = new() { ["ion"] = "no3" } },

        ["bk_fresh_1atm"] = new("oxygen-saturation"),
        ["published_table_apha"] = new("oxygen-saturation"),
        ["published_table_en25814"] = new("oxygen-saturation"),
        ["published_pressure_table"] = new("oxygen-saturation"),
        ["bk_altitude"] = new("oxygen-saturation"),
        ["bk_pressure"] = new("oxygen-saturation"),
        ["bk_salinity"] = new("oxygen-saturation"),
        ["teos10_o2sol_grid"] = new("oxygen-saturation"),
        ["older_table_for_contrast"] = new("oxygen-saturation"),
        ["percent_saturation"] = new("percent-saturation"),

        ["tucker_factor_table"] = new("carbon-dioxide-factor"),
        ["tucker_worked_example"] = new("carbon-dioxide-factor"),
        ["co2_from_ph_alkalinity"] = new("carbon-dioxide"),

        ["equilibrium_constants"] = new("carbonate-constants"),
        ["published_pk1"] = new("carbonate-constants"),
        ["stumm_morgan_constants"] = new("carbonate-constants"),
        ["ph_of_aerated_water"] = new("ph-of-aerated-water"),
        ["ph_from_co2_alkalinity"] = new("ph-from-co2-alkalinity"),
        ["calcite_saturation_index"] = new("calcite-saturation-index"),
        ["unit_conversion"] = new("unit-conversion"),
        ["nitrification_alkalinity_and_ph"] = new("nitrification-alkalinity-and-ph"),

        ["alkalinity_per_gram"] = new("alkalinity-per-gram"),
        ["dose_to_raise_alkalinity"] = new("dose-to-raise-alkalinity"),
        ["element_dose"] = new("element-dose"),
        ["iron_chelate_dose"] = new("iron-chelate-dose"),
        ["fishless_ammonia_dose"] = new("fishless-ammonia-dose"),
        ["dechlorination_thiosulfate"] = new("dechlorination-thiosulfate"),
        ["dechlorination_ascorbate"] = new("dechlorination-ascorbate"),
        ["ph_after_base"] = new("ph-after-base"),
        ["salt_dose_on_no2"] = new("salt-dose-on-no2"),
        ["salt_dose_from_no2_n"] = new("salt-dose-on-no2"),
        ["ratio_basis"] = new("nitrite-chloride-ratio"),
        ["acre_foot_rule"] = new("salt-for-pond"),
        ["salt_for_chloride"] = new("salt-for-chloride") { Outputs = new() { ["value"] = "salt_mg_l" } },

        ["otr_field"] = new("otr-field"),
        ["kla_temperature"] = new("kla-temperature"),
        ["air_to_oxygen"] = new("air-to-oxygen"),
        ["diffuser_pressure"] = new("diffuser-pressure"),
        ["air_compression_power"] = new("air-compression-power"),
        ["airlift_ideal_bound"] = new("airlift-bound") { Outputs = new() { ["value"] = "flow_l_min" } },
        ["surface_exchange_k600"] = new("surface-exchange"),
        ["surface_exchange_schmidt"] = new("surface-exchange") { Outputs = new() { ["value"] = "schmidt" } },
        ["time_to_hypoxia_no_exchange"] = new("time-to-hypoxia"),
        ["time_to_hypoxia_with_surface"] = new("time-to-hypoxia"),

        ["tan_from_feed"] = new("tan-from-feed"),
        ["fao_ammonia_from_feed"] = new("fao-ammonia-from-feed"),
        ["oxygen_co2_solids_per_feed"] = new("oxygen-co2-solids-from-feed"),
        ["fb4_respiration"] = new("respiration"),
        ["allometric_ratio"] = new("allometric-ratio"),
        ["liao_1971_trout"] = new("trout-respiration"),
        ["ration"] = new("ration"),
        ["feed_conversion"] = new("feed-conversion"),

        ["tgc"] = new("tgc"),
        ["tgc_projection"] = new("tgc-projection"),
        ["tgc_varying_temperature"] = new("tgc-projection") { Inputs = new() { ["days"] = "-" } },
        ["days_to_target"] = new("days-to-target"),
        ["sgr"] = new("sgr"),
        ["length_weight"] = new("length-weight"),
        ["length_weight_imperial"] = new("length-weight-imperial"),
        ["fulton_condition"] = new("fulton-condition"),
        ["sample_mean_and_biomass"] = new("sample-mean-and-biomass"),

        ["oxygen_and_alkalinity_demand"] = new("oxygen-and-alkalinity-demand"),
        ["epa_growth_temperature"] = new("epa-nitrifier-growth") { Outputs = new() { ["value"] = "mu_hat" }, Also = Anywhere },
        ["epa_half_saturation"] = new("epa-nitrifier-growth") { Outputs = new() { ["value"] = "k_n" }, Also = Anywhere },
        ["epa_combined_growth"] = new("epa-nitrifier-growth"),
        ["anthonisen_fa_fna"] = new("free-ammonia-and-nitrous-acid"),
        ["hiatt_grady_growth"] = new("nitrifier-growth"),
        ["uct_ph_factor"] = new("nitrification-ph-factor"),
        ["fao_media_sizing"] = new("media-sizing") { Outputs = new() { ["value"] = "nh3_g_d" } },

        ["area_from_feed"] = new("area-from-feed"),
        ["feed_from_area"] = new("feed-from-area"),
        ["biomass_from_feed"] = new("biomass-from-feed"),
        ["tank_from_biomass"] = new("tank-from-biomass"),
        ["density"] = new("density"),
        ["area_for_weekly_harvest"] = new("area-for-weekly-harvest"),
        ["whole_chain"] = new("whole-chain"),
        ["daily_water_loss"] = new("daily-water-loss"),
        ["transpiration_volume"] = new("transpiration-volume"),
        ["nitrogen_balance"] = new("nitrogen-balance"),

        ["eto_daily_fao_pm_eq6"] = new("eto-daily"),
        ["eto_monthly_fao_pm_eq6"] = new("eto-daily"),
        ["eto_daily_missing_data"] = new("eto-daily"),
        ["eto_hargreaves_eq52"] = new("eto-hargreaves"),
        ["eto_hourly_eq53"] = new("eto-hourly")
        {
            Outputs = Left(
            "delta_kpa_per_c", "gamma_kpa_per_c", "e0_kpa", "ea_kpa", "solar_angle_rad", "sc_h", "rs_rso", "rnl_mj_m2_h", "omega1_rad", "omega2_rad", "rso_mj_m2_h", "rns_mj_m2_h")
        },
        ["ra_table_2_6"] = new("extraterrestrial"),
        ["daylight_table_2_7"] = new("extraterrestrial"),
        ["kc_climate_adjust_eq62"] = new("kc-climate-adjust"),
        ["kc_curve_eq66"] = new("kc-curve"),
        ["taw_raw_eq82_83"] = new("taw-raw"),
        ["depletion_fraction_adjust"] = new("depletion-fraction-adjust"),
        ["daily_balance_eq85_88"] = new("soil-water-day"),
        ["catch_can_uniformity"] = new("catch-can-uniformity"),
        ["precipitation_rate_total_area"] = new("precipitation-rate"),
        ["precipitation_rate_spacing"] = new("precipitation-rate"),
        ["drip_run_time"] = new("drip-run-time"),
        ["run_time_multiplier"] = new("run-time-multiplier"),
        ["cycle_and_soak"] = new("cycle-and-soak"),
        ["leaching_requirement"] = new("leaching-requirement"),
        ["wet_to_dry_basis"] = new("moisture-basis"),
        ["dry_to_wet_basis"] = new("moisture-basis"),
        ["dried_yield"] = new("dried-yield"),
        ["drying_air_per_kg_water"] = new("drying-air"),
        ["thin_layer_time_to_ratio"] = new("thin-layer-time"),
        ["fick_slab_moisture_ratio"] = new("fick-slab"),
        ["gab_isotherm"] = new("gab-isotherm"),
        ["bet_isotherm"] = new("gab-isotherm") { Inputs = new() { ["bet_c"] = "gab_c" } },
        ["gab_inverse_water_activity"] = new("gab-inverse"),
        ["air_heater_gain"] = new("air-heater-gain"),
        ["stack_draught_and_flow"] = new("stack-draught"),
        ["pvwatts_dc"] = new("panel-power"),
        ["module_power_temperature"] = new("panel-power") { Inputs = new() { ["power_coefficient_per_c"] = "gamma_per_c" }, Also = new() { ["irradiance_w_m2"] = "1000" } },
        ["pvwatts_inverter"] = new("inverter-power"),
        ["module_voc_temperature"] = new("panel-voltage"),
        ["cell_temperature_noct"] = new("cell-temperature"),
        ["battery_capacity"] = new("battery-capacity"),
        ["battery_temperature_multiplier"] = new("battery-temperature-multiplier"),
        ["battery_autonomy"] = new("battery-autonomy"),
        ["pump_power"] = new("pump-power"),
        ["blower_power_adiabatic"] = new("blower-power"),
        ["priestley_taylor"] = new("priestley-taylor"),
        ["turc"] = new("turc"),
        ["makkink"] = new("makkink"),
        ["hargreaves_samani_variable_c"] = new("hargreaves-samani"),
        ["tank_evaporation_ashrae"] = new("tank-evaporation"),
        ["greenhouse_eto_almeria_radiation"] = new("greenhouse-eto"),
        ["shade_net_effect"] = new("shade-net"),
        ["open_water_shuttleworth_wind"] = new("open-water-shuttleworth") { Outputs = Left("rn_mj_m2_day") },
        ["isa_pressure"] = new("standard-atmosphere"),
        ["open_water_penman_1956_wind"] = new("open-water-evaporation"),

        ["state_from_dry_bulb_rh"] = new("air"),
        ["state_from_dry_and_wet_bulb"] = new("air"),
        ["state_from_dry_bulb_and_dew_point"] = new("air"),

        ["effective_rain_fao_tm3"] = new("effective-rain"),
        ["effective_rain_usda_scs_monthly"] = new("effective-rain") { Outputs = new() { ["effective_mm_month"] = "usda_scs_mm_month" } },
        ["effective_rain_fao_dependable"] = new("effective-rain") { Outputs = new() { ["effective_mm_month"] = "dependable_mm_month" } },
        ["effective_rain_scs_tr21"] = new("effective-rain-storage"),
        ["scs_curve_number_runoff"] = new("runoff"),
        ["rainwater_yield"] = new("rain-catch"),
        ["rainwater_yield_first_flush"] = new("rain-catch"),
        ["rainwater_yield_martin_month"] = new("rain-catch-month"),
    };

    private static readonly Dictionary<string, string> Reasons = new()
    {
        ["runoff_coefficient"] = "reference data",
        ["soil_table_19"] = "reference data",
        ["water_stress_day_eq84_85"] = "the same day with Kc and ET0 apart, checked where it stands",
        ["basic_intake_rate"] = "reference data",
        ["application_efficiency"] = "reference data",
        ["dried_yield_extension"] = "reference data",
        ["thin_layer_moisture_ratio"] = "one curve a model, checked where they stand",
        ["arrhenius_activation_energy"] = "for the laboratory, checked where it stands",
        ["effective_diffusivity_range"] = "reference data",
        ["gab_monolayer_range"] = "reference data",
        ["saturated_salt_rh"] = "reference data",
        ["heat_removal_factor"] = "part of the collector's gain, checked where it stands",
        ["pvwatts_losses"] = "ten losses that multiply, checked where they stand",
        ["cell_temperature_noct_sam"] = "another model, checked where it stands",
        ["cell_temperature_faiman"] = "another model, checked where it stands",
        ["cell_temperature_sapm"] = "another model, checked where it stands",
        ["published_fact"] = "reference data",
        ["sote_per_depth"] = "reference data",
        ["alpha_range"] = "reference data",
        ["published_time_to_distress"] = "reference data",
        ["trout_feed_chart"] = "reference data",
        ["feed_rate_range"] = "reference data",
        ["fcr_published"] = "reference data",
        ["published_growth_time"] = "reference data",
        ["constant"] = "constants, checked where they stand",
        ["cycling_duration_published"] = "reference data",
        ["cycling_stage_published"] = "reference data",
        ["fish_in_start"] = "reference data",
        ["reference_run_state"] = "a run over weeks, checked with the box model",
        ["reference_run_milestones"] = "a run over weeks, checked with the box model",
        ["ratio_published"] = "reference data",
        ["plant_density_published"] = "reference data",
        ["density_published"] = "reference data",
        ["fao_design_table"] = "reference data",
        ["uvi_system"] = "reference data",
        ["uvi_trials"] = "reference data",
        ["uvi_balance_check"] = "reference data",
        ["target_range"] = "reference data",
        ["en25814_salinity_slope"] = "a slope of tables, checked with the saturation itself",
        ["rainwater_yield_us"] = "the same sum in US units, which the pages convert",
    };

    public static RowUse? Of(string file, PublishedCase c) => c.Relation switch
    {
        "mass_back" => new("nitrogen-forms") { Also = new() { ["ion"] = c.Text("note").Contains("nh4", StringComparison.OrdinalIgnoreCase) ? "nh4" : c.Text("note").Contains("no3", StringComparison.OrdinalIgnoreCase) ? "no3" : c.Text("note").Contains("no2", StringComparison.OrdinalIgnoreCase) ? "no2" : "nh3" } },
        "epa_2013_criterion_anchor" => new("ammonia-criteria")
        {
            Outputs = new()
            {
                ["tan_limit_mg_n_l"] = c.Text("note").StartsWith("acute", StringComparison.Ordinal) ? "tan_acute_mg_n_l"
                : c.Text("note").Contains("4-day", StringComparison.Ordinal) ? "tan_chronic_4d_mg_n_l" : "tan_chronic_mg_n_l",
            }
        },
        "element_fraction" => c.Text("substance").StartsWith("NH3 in 10", StringComparison.Ordinal) ? null : new("element-fraction"),
        "rate_temperature_correction" => new("rate-temperature-correction") { Also = new() { ["reference_temp_c"] = c.Text("parameter").Contains("from 25", StringComparison.Ordinal) ? "25" : "20" } },
        _ => Uses.GetValueOrDefault(c.Relation),
    };

    public static string? ReasonFor(PublishedCase c) =>
        c.Relation == "element_fraction" ? "a solution, not a pure substance" : Reasons.GetValueOrDefault(c.Relation);

    private static Dictionary<string, string> Left(params string[] columns) => columns.ToDictionary(c => c, _ => "");
}
