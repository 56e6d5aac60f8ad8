using Runnel.Science.Reckoning;

namespace Runnel.Science.Tests.Reckoning;

/// <summary>Which relation a row of a published table belongs to, and where its column names differ.</summary>
internal sealed record RowUse(string Relation)
{
    /// <summary>Results under another name than the expected column's; empty where the relation leaves it out.</summary>
    public Dictionary<string, string> Outputs { get; init; } = [];

    /// <summary>Inputs the row says in words.</summary>
    public Dictionary<string, string> Also { get; init; } = [];
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
        "air-sun-soil/pv-battery.csv", "air-sun-soil/pump-power.csv", "air-sun-soil/fao56-atmosphere.csv", "air-sun-soil/fao56-radiation.csv", "air-sun-soil/fao56-dual-kc.csv",
        "air-sun-soil/psychrometrics-ashrae.csv", "air-sun-soil/psychrometrics-library.csv", "air-sun-soil/solar-position.csv", "air-sun-soil/sun-times.csv", "air-sun-soil/solar-geometry.csv", "air-sun-soil/irradiance.csv",
        "air-sun-soil/crop-coefficients.csv", "air-sun-soil/crop-stages.csv", "air-sun-soil/produce-moisture.csv", "air-sun-soil/drying-safety.csv", "water-fish/crops.csv",
        "water-fish/fish-limits.csv",
    ];

    private static readonly Dictionary<string, string> Reasons = new()
    {
        // Reference data whose rows have no column to ask by: they are compared with the tables of reference data themselves.
        ["crop"] = "all its figures are inputs of the row; compared with the table of crops",
        ["deficiency_symptom"] = "all its words are inputs of the row; compared with the table of signs",
        ["limit"] = "all its figures are inputs of the row; compared with the table of limits",
        ["dried_yield_extension"] = "household figures from memory, plausibility only; dried-yield reckons them",
        ["gab_monolayer_range"] = "one measured range, reference data",
        ["published_fact"] = "one figure, no column to ask by",
        ["sote_per_depth"] = "a planning figure, no column to ask by",
        ["alpha_range"] = "a planning figure, no column to ask by",
        ["published_time_to_distress"] = "a planning figure, no column to ask by",
        ["feed_rate_range"] = "a planning figure, no column to ask by",
        ["fcr_published"] = "a planning figure, no column to ask by",
        ["published_growth_time"] = "a planning figure, no column to ask by",
        ["cycling_duration_published"] = "a planning figure, no column to ask by",
        ["cycling_stage_published"] = "one curve of one source",
        ["fish_in_start"] = "a planning figure, no column to ask by",
        ["ratio_published"] = "a planning figure, no column to ask by",
        ["plant_density_published"] = "a planning figure, no column to ask by",
        ["density_published"] = "a planning figure, no column to ask by",
        ["target_range"] = "a planning figure, no column to ask by",
        ["uvi_system"] = "measures of one farm",
        ["uvi_trials"] = "harvests of one farm",
        ["uvi_balance_check"] = "harvests of one farm",
        ["constant"] = "constants, checked where they stand",
    };

    public static RowUse? Of(string file, PublishedCase c) => Reasons.ContainsKey(c.Relation) ? null : c.Relation switch
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
        // The table starts at its first day; a row alone needs the evening before, as it is printed there.
        "dual_kc_day" => DeStart.TryGetValue(c.Text("day"), out string? start) ? new("dual-kc-day") { Also = new() { ["de_start_mm"] = start } } : null,
        _ => Catalogue.Find(c.Relation) is null ? null : new(c.Relation),
    };

    public static string? ReasonFor(PublishedCase c) => c.Relation switch
    {
        "element_fraction" => "a solution, not a pure substance",
        "dual_kc_day" => "the evening before is not printed; checked as a run of ten days",
        _ => Reasons.GetValueOrDefault(c.Relation),
    };

    private static readonly Dictionary<string, string> DeStart = new() { ["1"] = "18", ["2"] = "5", ["5"] = "16", ["9"] = "17" };
}
