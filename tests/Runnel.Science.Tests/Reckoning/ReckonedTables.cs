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
        "water-fish/ammonia.csv", "water-fish/do-saturation.csv", "water-fish/carbonate.csv",
        "air-sun-soil/fao56-eto.csv", "air-sun-soil/fao56-eto-hourly.csv", "air-sun-soil/fao56-ra-table.csv", "air-sun-soil/open-water-evaporation.csv",
        "air-sun-soil/psychrometrics.csv", "air-sun-soil/rain.csv",
    ];

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
        _ => Uses.GetValueOrDefault(c.Relation),
    };

    public static string? ReasonFor(PublishedCase c) => Reasons.GetValueOrDefault(c.Relation);

    private static Dictionary<string, string> Left(params string[] columns) => columns.ToDictionary(c => c, _ => "");
}
