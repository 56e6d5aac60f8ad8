namespace Runnel.Science.Tests.Reckoning;

/// <summary>What must hold of the sums of water, fish, air, sun, soil, drying and power for any figures: which way each moves, and what undoes what.</summary>
public sealed class KeeperPropertyTests
{
    // Relation; input; result; whether it rises with the input; the rest.
    public static TheoryData<string, string, string, bool, string> Monotone => new()
    {
        { "ammonia", "temp_c=0..40", "nh3_mg_n_l", true, "ph=8 tan_mg_n_l=1" },
        { "ammonia", "ph=5..11", "nh3_mg_n_l", true, "temp_c=25 tan_mg_n_l=1" },
        { "tan-limit-from-nh3-limit", "ph=6..10", "tan_limit_mg_n_l", false, "temp_c=25 limit_nh3_mg_n_l=0.05" },
        { "carbon-dioxide", "ph=5..9", "co2_mg_l", false, "temp_c=25 alkalinity_mg_l_caco3=80" },
        { "carbon-dioxide", "alkalinity_mg_l_caco3=5..300", "co2_mg_l", true, "temp_c=25 ph=7" },
        { "oxygen-saturation", "temp_c=0..40", "do_sat_mg_l", false, "altitude_m=0" },
        { "oxygen-saturation", "altitude_m=0..3000", "do_sat_mg_l", false, "temp_c=25" },
        { "oxygen-saturation", "salinity_g_kg=0..35", "do_sat_mg_l", false, "temp_c=25 altitude_m=0" },
        { "ph-after-base", "dose_mmol_l=0..2", "ph_closed", true, "substance=NaHCO3 temp_c=25 start_ph=6.5 start_alkalinity_mg_l_caco3=30" },
        { "calcite-saturation-index", "ph=6..9", "si_calcite", true, "temp_c=25 alkalinity_mg_l_caco3=80 calcium_mg_l=40" },
        { "salt-dose-on-no2", "no2_mg_l=0.5..20", "salt_g", true, "volume_l=1000 chloride_mg_l=5" },
        { "salt-dose-on-no2", "chloride_mg_l=0..90", "salt_g", false, "volume_l=1000 no2_mg_l=10" },
        { "time-to-hypoxia", "biomass_kg=1..50", "minutes_to_critical", false, "do_mg_l=7 volume_l=1000 respiration_mg_kg_h=300" },
        { "time-to-hypoxia", "do_mg_l=4..9", "minutes_to_critical", true, "volume_l=1000 biomass_kg=10 respiration_mg_kg_h=300" },
        { "otr-field", "do_mg_l=0..8", "otr_g_h", false, "sotr_g_h=100 temp_c=25" },
        { "surface-exchange", "wind_m_s=0.5..20", "k_cm_h", true, "" },
        { "tgc-projection", "days=1..200", "w2_g", true, "w1_g=20 temp_c=24 tgc_x1000=0.8" },
        { "days-to-target", "tgc_x1000=0.3..2", "days", false, "w1_g=20 temp_c=24 target_g=400" },
        { "respiration", "weight_g=1..2000", "o2_mg_kg_h", false, "species=tilapia temp_c=26" },
        { "media-sizing", "protein_fraction=0.2..0.5", "media_l", true, "feed_g_d=100 specific_surface_m2_m3=300" },
        { "nitrification-ph-factor", "ph=5.5..7.2", "value", true, "" },
        { "filter-start", "temp_c=16..28", "day_cycled", false, "ph=7.5 do_mg_l=6 volume_l=1000 media_area_m2=20 load_mg_n_l_d=0.5 tan0_mg_n_l=2" },
        { "saturation-pressure", "temperature_c=-60..150", "saturation_pressure_pa", true, "" },
        { "air", "rh_pct=5..100", "humidity_ratio_kg_kg", true, "dry_bulb_c=25" },
        { "air", "rh_pct=5..100", "vpd_pa", false, "dry_bulb_c=25" },
        { "air", "wet_bulb_c=12..25", "rh_pct", true, "dry_bulb_c=25" },
        { "vapour-pressure-from-psychrometer", "wet_bulb_c=12..25", "ea_kpa", true, "temperature_c=25" },
        { "pressure-from-elevation", "elevation_m=0..4000", "pressure_kpa", false, "" },
        { "wind-to-2m", "wind_height_m=2..50", "wind_2m_m_s", false, "wind_m_s=3" },
        { "net-shortwave", "albedo=0..1", "rns_mj_m2_day", false, "rs_mj_m2_day=20" },
        { "net-longwave", "ea_kpa=0.5..4", "rnl_mj_m2_day", false, "tmax_c=30 tmin_c=18 rs_mj_m2_day=20 rso_mj_m2_day=27" },
        { "rs-from-sunshine", "sunshine_h=0..12", "rs_mj_m2_day", true, "daylight_h=12 ra_mj_m2_day=35" },
        { "eto-daily", "wind_2m_m_s=0.5..8", "eto_mm_day", true, "latitude_deg=-27.5 elevation_m=30 day_of_year=15 tmax_c=30 tmin_c=20 rhmax_pct=80 rhmin_pct=40 rs_mj_m2_day=22" },
        { "eto-daily", "rs_mj_m2_day=5..30", "eto_mm_day", true, "latitude_deg=-27.5 elevation_m=30 day_of_year=15 tmax_c=30 tmin_c=20 rhmax_pct=80 rhmin_pct=40 wind_2m_m_s=2" },
        { "open-water-evaporation", "rhmin_pct=20..75", "evaporation_mm_day", false, "latitude_deg=-27.5 elevation_m=30 day_of_year=15 tmax_c=30 tmin_c=20 rhmax_pct=80 wind_2m_m_s=2 rs_mj_m2_day=22" },
        { "clear-sky", "zenith_deg=0..85", "ineichen_ghi_w_m2", false, "elevation_m=100 day_of_year=15" },
        { "clear-sky", "linke_turbidity=1.5..8", "ineichen_dni_w_m2", false, "zenith_deg=30 elevation_m=100 day_of_year=15" },
        { "kc-climate-adjust", "rhmin_pct=20..80", "kc", false, "kc_table=1.15 wind_2m_m_s=2 height_m=1" },
        { "kc-max", "wind_2m_m_s=1..6", "kc_max", true, "kcb=1.1 rhmin_pct=45 height_m=1" },
        { "water-stress-day", "dr_start_mm=0..99", "ks", false, "taw_mm=100 p_fraction=0.5 kc=1 eto_mm_day=5" },
        { "runoff", "rain_mm=0..300", "runoff_mm", true, "curve_number=75" },
        { "runoff", "curve_number=40..98", "runoff_mm", true, "rain_mm=60" },
        { "leaching-requirement", "ec_water_ds_m=0.2..4", "leaching_fraction", true, "ec_soil_threshold_ds_m=2.5" },
        { "run-time-multiplier", "du_low_quarter=0.4..1", "run_time_multiplier", false, "" },
        { "dried-yield", "moisture_initial_wb_pct=30..95", "dried_mass_kg", false, "fresh_mass_kg=10 trim_fraction=0.1 moisture_final_wb_pct=15" },
        { "drying-air", "ambient_rh_pct=20..90", "ambient_air_m3_per_kg_water", true, "ambient_c=28 drying_air_c=50 exhaust_rh_pct=60" },
        { "thin-layer-time", "moisture_ratio=0.02..0.95", "time_min", false, "param_k=0.01" },
        { "gab-isotherm", "water_activity=0.05..0.95", "moisture_dry_basis_kg_kg", true, "m0_kg_kg=0.1 gab_c=15 gab_k=0.9" },
        { "stack-draught", "height_m=0.2..5", "flow_m3_s", true, "outside_c=25 inside_c=50 opening_area_m2=0.02" },
        { "air-heater-gain", "irradiance_w_m2=100..1000", "useful_gain_w", true, "mass_flow_kg_s=0.02 area_m2=2 loss_coefficient_w_m2_k=6 efficiency_factor=0.8 tau_alpha=0.8 inlet_c=25 ambient_c=25" },
        { "panel-power", "cell_c=0..80", "power_dc_w", false, "irradiance_w_m2=800 rated_w=400 gamma_per_c=-0.004" },
        { "cell-temperature-wind", "wind_m_s=0..10", "cell_c", false, "irradiance_w_m2=800 ambient_c=25" },
        { "pvwatts-losses", "soiling_pct=0..40", "total_loss_pct", true, "" },
        { "battery-autonomy", "load_w=5..500", "autonomy_h", false, "capacity_ah=100 system_v=12 state_of_charge=1 depth_of_discharge=0.5" },
        { "blower-power", "water_depth_m=0.2..3", "shaft_power_w", true, "air_flow_l_min=100 line_loss_pa=1000 inlet_c=25 efficiency=0.5" },
    };

    [Theory, MemberData(nameof(Monotone))]
    public void More_of_the_cause_is_more_or_less_of_the_effect(string relation, string range, string result, bool rises, string rest) =>
        OverRanges.OnlyMoves(relation, range, result, rises, rest);

    // Relation; the input given; the result, which is given back; the relation that undoes it (null: the same); what both need.
    public static TheoryData<string, string, string, string?, string> Inverses => new()
    {
        { "air", "rh_pct=5..99", "wet_bulb_c", null, "dry_bulb_c=25" },
        { "air", "rh_pct=5..99", "dew_point_c", null, "dry_bulb_c=25" },
        { "air", "rh_pct=5..99", "humidity_ratio_kg_kg", null, "dry_bulb_c=25" },
        { "carbon-dioxide", "ph=5.5..8.5", "co2_mg_l", "ph-from-co2-alkalinity", "temp_c=25 alkalinity_mg_l_caco3=80" },
        { "gab-isotherm", "water_activity=0.05..0.95", "moisture_dry_basis_kg_kg", "gab-inverse", "m0_kg_kg=0.1 gab_c=15 gab_k=0.9" },
        { "thin-layer-moisture-ratio", "time_min=1..300", "moisture_ratio", "thin-layer-time", "model=newton param_k=0.01" },
        { "feed-from-area", "plant_area_m2=1..100", "feed_g_d", "area-from-feed", "feed_rate_ratio_g_m2_d=60" },
    };

    [Theory, MemberData(nameof(Inverses))]
    public void Given_the_result_the_input_comes_back(string relation, string range, string result, string? back, string rest) =>
        OverRanges.UndoesItself(relation, range, result, rest, back);
}
