namespace Runnel.Science.Reckoning;

/// <summary>The kinds of rows of the published tables that the relations are checked against.</summary>
internal sealed partial record TableName
{
    /// <summary>All of them.</summary>
    public static IReadOnlyList<TableName> All { get; } = [.. Water, .. FishAndPlants, .. AirAndSoil, .. Hydraulics, .. Signals];

    private static TableName[] Water =>
    [
        new("emerson-pka", "ammonia-fraction") { Says = new() { ["ph"] = "7" } },
        new("emerson-fraction", "ammonia-fraction"), new("trussell-1972-fraction", "ammonia-fraction"), new("phreeqc-fraction-ionic-strength", "ammonia-fraction"), new("published-fraction-table", "ammonia-fraction"),
        new("worked-example", "ammonia"), new("tan-to-unionised", "ammonia"),
        new("mass-nh3-n-to-nh3", "nitrogen-forms") { Says = new() { ["ion"] = "nh3" } }, new("mass-nh4-n-to-nh4", "nitrogen-forms") { Says = new() { ["ion"] = "nh4" } },
        new("mass-no2-n-to-no2", "nitrogen-forms") { Says = new() { ["ion"] = "no2" } }, new("mass-no3-n-to-no3", "nitrogen-forms") { Says = new() { ["ion"] = "no3" } },
        new("mass-back", "nitrogen-forms"), new("epa-2013-criterion-anchor", "ammonia-criteria"), new("en25814-salinity-slope", "oxygen-lost-to-salt"),
        new("bk-fresh-1atm", "oxygen-saturation"), new("published-table-apha", "oxygen-saturation"), new("published-table-en25814", "oxygen-saturation"), new("published-pressure-table", "oxygen-saturation"),
        new("bk-altitude", "oxygen-saturation"), new("bk-pressure", "oxygen-saturation"), new("bk-salinity", "oxygen-saturation"), new("teos10-o2sol-grid", "oxygen-saturation"), new("older-table-for-contrast", "oxygen-saturation"),
        new("isa-pressure", "standard-atmosphere"), new("standard-atmosphere-table1", "standard-atmosphere"),
        new("tucker-factor-table", "carbon-dioxide-factor"), new("tucker-worked-example", "carbon-dioxide-factor"), new("co2-from-ph-alkalinity", "carbon-dioxide"),
        new("equilibrium-constants", "carbonate-constants"), new("published-pk1", "carbonate-constants"), new("stumm-morgan-constants", "carbonate-constants"),
        new("salt-dose-from-no2-n", "salt-dose-on-no2"), new("ratio-basis", "nitrite-chloride-ratio"), new("acre-foot-rule", "salt-for-pond"),
    ];

    private static TableName[] FishAndPlants =>
    [
        new("airlift-ideal-bound", "airlift-bound") { Results = new() { ["value"] = "flow_l_min" } },
        new("surface-exchange-k600", "surface-exchange"), new("surface-exchange-schmidt", "surface-exchange") { Results = new() { ["value"] = "schmidt" } },
        new("time-to-hypoxia-no-exchange", "time-to-hypoxia"), new("time-to-hypoxia-with-surface", "time-to-hypoxia"),
        new("oxygen-co2-solids-per-feed", "oxygen-co2-solids-from-feed"), new("fb4-respiration", "respiration"), new("liao-1971-trout", "trout-respiration"),
        new("tgc-varying-temperature", "tgc-projection") { Without = ["days", "temp_c"] },
        new("epa-combined-growth", "epa-nitrifier-growth"),
        new("anthonisen-fa-fna", "free-ammonia-and-nitrous-acid"), new("hiatt-grady-growth", "nitrifier-growth"), new("uct-ph-factor", "nitrification-ph-factor"),
        new("fao-media-sizing", "media-sizing") { Results = new() { ["value"] = "nh3_g_d" } },
        new("reference-run-milestones", "filter-start"), new("reference-run-state", "filter-start-day"), new("fao-design-table", "small-system") { Results = new() { ["min"] = "filters_min_l", ["max"] = "filters_max_l" } },
        new("crop", "crop-needs"), new("deficiency-symptom", "deficiency-sign"),
    ];

    private static TableName[] AirAndSoil =>
    [
        new("pressure-from-elevation-eq7", "pressure-from-elevation"), new("psychrometric-constant-eq8", "psychrometric-constant"), new("saturation-vapour-pressure-eq11", "saturation-vapour-pressure"),
        new("slope-eq13", "saturation-vapour-pressure"), new("mean-saturation-vapour-pressure-eq12", "mean-saturation-vapour-pressure"), new("ea-from-rhmax-rhmin-eq17", "actual-vapour-pressure"),
        new("ea-from-rhmean-eq19", "actual-vapour-pressure"), new("ea-from-rhmax-eq18", "actual-vapour-pressure"), new("ea-from-dewpoint-eq14", "actual-vapour-pressure"),
        new("ea-from-psychrometer-eq15", "vapour-pressure-from-psychrometer"), new("wind-to-2m-eq47", "wind-to-2m"), new("wind-run-to-speed", "wind-to-2m"), new("energy-to-depth-eq20", "energy-to-depth"),
        new("soil-heat-flux-month-eq43", "soil-heat-flux-month"), new("soil-heat-flux-month-eq44", "soil-heat-flux-month"), new("rhmin-from-temperatures-eq64", "rhmin-from-temperatures"),
        new("ra-daily-eq21-25-34", "extraterrestrial"), new("ra-table-2-6", "extraterrestrial"), new("daylight-table-2-7", "extraterrestrial"), new("rs-from-sunshine-eq35", "rs-from-sunshine"),
        new("rso-eq37", "clear-sky-radiation"), new("rs-from-temperature-range-eq50", "rs-from-temperature-range"), new("rns-eq38", "net-shortwave"), new("rnl-daily-eq39", "net-longwave"), new("rn-eq40", "net-radiation"),
        new("eto-daily-fao-pm-eq6", "eto-daily"), new("eto-monthly-fao-pm-eq6", "eto-daily"), new("eto-daily-missing-data", "eto-daily"), new("eto-hargreaves-eq52", "eto-hargreaves"), new("eto-hourly-eq53", "eto-hourly"),
        new("kc-climate-adjust-eq62", "kc-climate-adjust"), new("kc-curve-eq66", "kc-curve"), new("taw-raw-eq82-83", "taw-raw"), new("daily-balance-eq85-88", "soil-water-day"),
        new("water-stress-day-eq84-85", "water-stress-day"), new("total-evaporable-water-eq73", "total-evaporable-water"), new("kc-max-eq72", "kc-max"),
        new("crop-table-12-17-22", "crop-coefficients"), new("stage-lengths-table-11", "crop-stages"), new("soil-table-19", "soil-texture"), new("basic-intake-rate", "intake-rate"),
        new("water-content", "produce-moisture"), new("storage-limit", "drying-safety"), new("saturated-salt-rh", "salt-humidity"), new("effective-diffusivity-range", "moisture-diffusivity"),
        new("precipitation-rate-total-area", "precipitation-rate"), new("precipitation-rate-spacing", "precipitation-rate"),
        new("spa-zenith-azimuth", "sun") { Results = new() { ["azimuth_from_north_deg"] = "azimuth_deg" } }, new("sunrise-noon-sunset", "sun"),
        new("incidence-angle", "sun-angles"), new("sun-position", "sun-angles"), new("beam-ratio-rb", "sun-angles"),
        new("extraterrestrial-daily-h0", "extraterrestrial-radiation"), new("extraterrestrial-hourly-i0", "extraterrestrial-radiation"),
        new("tilt-isotropic-hour", "tilted-plane-hour"), new("tilt-hdkr-hour", "tilted-plane-hour-hdkr"), new("tilt-models-instant", "tilted-plane"), new("erbs-split", "beam-and-diffuse"),
        new("clear-sky-instant", "clear-sky"), new("clear-sky-hottel-beam", "clear-sky-beam"),
        new("state-from-dry-bulb-rh", "air"), new("state-from-dry-and-wet-bulb", "air"), new("state-from-dry-bulb-and-dew-point", "air"), new("wet-bulb-from-rh", "air"), new("moist-air-enthalpy", "air"),
        new("saturation-pressure-table3", "saturation-pressure"), new("saturation-humidity-ratio-table2", "saturated-air"), new("saturated-enthalpy-table2", "saturated-air"),
        new("dry-air-volume-table2", "dry-air"), new("dry-air-enthalpy-table2", "dry-air"),
        new("effective-rain-fao-tm3", "effective-rain"), new("effective-rain-scs-tr21", "effective-rain-storage"), new("scs-curve-number-runoff", "runoff"),
        new("effective-rain-usda-scs-monthly", "effective-rain-two-branch"), new("effective-rain-fao-dependable", "effective-rain-dependable"),
        new("rainwater-yield", "rain-catch"), new("rainwater-yield-first-flush", "rain-catch"), new("rainwater-yield-martin-month", "rain-catch-month"), new("rainwater-yield-us", "rain-catch-us"),
        new("wet-to-dry-basis", "moisture-basis"), new("dry-to-wet-basis", "moisture-basis"), new("drying-air-per-kg-water", "drying-air"), new("thin-layer-time-to-ratio", "thin-layer-time"),
        new("fick-slab-moisture-ratio", "fick-slab"), new("bet-isotherm", "gab-isotherm") { Columns = new() { ["bet_c"] = "gab_c" }, Says = new() { ["gab_k"] = "1" } }, new("gab-inverse-water-activity", "gab-inverse"),
        new("stack-draught-and-flow", "stack-draught"),
        new("pvwatts-dc", "panel-power"), new("module-power-temperature", "panel-power") { Columns = new() { ["power_coefficient_per_c"] = "gamma_per_c" }, Says = new() { ["irradiance_w_m2"] = "1000" } },
        new("pvwatts-inverter", "inverter-power"), new("module-voc-temperature", "panel-voltage"), new("cell-temperature-noct", "cell-temperature"), new("cell-temperature-noct-sam", "cell-temperature-noct-wind"),
        new("cell-temperature-faiman", "cell-temperature-wind"), new("cell-temperature-sapm", "cell-temperature-mounting"), new("blower-power-adiabatic", "blower-power"),
        new("tank-evaporation-ashrae", "tank-evaporation"), new("greenhouse-eto-almeria-radiation", "greenhouse-eto"), new("shade-net-effect", "shade-net"),
        new("open-water-shuttleworth-wind", "open-water-shuttleworth"), new("open-water-penman-1956-wind", "open-water-evaporation"), new("hargreaves-samani-variable-c", "hargreaves-samani"),
    ];
}
