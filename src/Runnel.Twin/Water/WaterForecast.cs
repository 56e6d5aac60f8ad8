using NodaTime;
using Runnel.Twin.Faults;
using Runnel.Twin.Heat;
using Runnel.Twin.Solving;
using Runnel.Twin.Weather;

namespace Runnel.Twin.Water;

/// <summary>What a forecast assumes.</summary>
public sealed record ForecastOptions
{
    /// <summary>How far ahead, days.</summary>
    public double Days { get; init; } = 1;

    /// <summary>What the air takes from open water and the plants from under their canopy, mm a day.</summary>
    /// <remarks>FAO Irrigation and Drainage Paper 56 (Allen and others 1998), table 2: 3 to 5 mm a day at a daily mean of about 20 degrees, humid to dry; from memory.</remarks>
    public double EvaporationMmPerDay { get; init; } = 4;

    /// <summary>Rain on the open water, mm a day, spread evenly.</summary>
    public double RainMmPerDay { get; init; }

    /// <summary>Weather from the beginning on; evaporation, what plants use and rain then follow it, and temperatures are reckoned. Null: steady, as above.</summary>
    /// <remarks>The forecast begins with its first step.</remarks>
    public WeatherSeries? Weather { get; init; }

    /// <summary>Temperature of all water at the beginning, °C; null: mean of the first days' air.</summary>
    public double? WaterTempC { get; init; }

    /// <summary>Added to the temperature at the beginning where it is not told, K.</summary>
    public double WaterTempOffK { get; init; }

    /// <summary>Whether flows are averaged over pump cycles; null: where the span is longer than <see cref="AverageFromDays"/>, nothing fails, and the loop allows it.</summary>
    public bool? Averaged { get; init; }

    /// <summary>Span from which on flows are averaged unless told otherwise, days.</summary>
    public const double AverageFromDays = 45;

    /// <summary>What plants take, as a share of the usual.</summary>
    public double PlantUseFactor { get; init; } = 1;

    /// <summary>What open water gives to the air, as a share of the usual: shelter from wind.</summary>
    public double EvaporationFactor { get; init; } = 1;

    /// <summary>Time between the levels that are kept, s.</summary>
    public double EveryS { get; init; } = 3600;

    /// <summary>What goes wrong, and when.</summary>
    public IReadOnlyList<PlannedFault> Faults { get; init; } = [];

    /// <summary>Time of the day at the beginning, for what comes at certain hours.</summary>
    public LocalTime BeginsAt { get; init; }

    /// <summary>After so long all pumps stand for good, s; null: never.</summary>
    public double? PumpsDieAtS { get; init; }

    /// <summary>The pumps die at the first stop by a switch after <see cref="PumpsDieAtS"/>, when most water is on its way.</summary>
    public bool DieAtAStop { get; init; }
}

/// <summary>What the water of a place will do.</summary>
/// <param name="Stop">Why the reckoning ended: reached where all went well.</param>
/// <param name="ReachedS">How far it came, s.</param>
/// <param name="Vessels">In the order of the file.</param>
/// <param name="Pumps">In the order of the file.</param>
/// <param name="Valves">In the order of the file.</param>
/// <param name="Totals">Water in and out.</param>
/// <param name="Samples">Levels at even times.</param>
/// <param name="Statistics">Work of the solver.</param>
public sealed record WaterForecast(
    StopReason Stop, double ReachedS, IReadOnlyList<VesselForecast> Vessels, IReadOnlyList<PumpForecast> Pumps, IReadOnlyList<ValveForecast> Valves,
    WaterTotals Totals, IReadOnlyList<WaterSample> Samples, SolverStatistics Statistics)
{
    /// <summary>Heat in and out; null without weather.</summary>
    public HeatTotals? Heat { get; init; }

    /// <summary>Whether flows and levels are means over pump cycles.</summary>
    public bool IsAveraged { get; init; }

    /// <summary>Why they are not although the span is long; null: they are, or none asked for it.</summary>
    public string? WhyNotAveraged { get; init; }
}

/// <summary>A vessel over the time of a forecast.</summary>
/// <param name="Id">Its id.</param>
/// <param name="RimM">Its rim, m above its floor; null: not told.</param>
/// <param name="StartM">Level at the start, m.</param>
/// <param name="EndM">Level at the end, m.</param>
/// <param name="LowM">Lowest level, m.</param>
/// <param name="HighM">Highest level, m.</param>
/// <param name="HighAtS">When it was highest, s.</param>
/// <param name="MeanOutL">Mean flow through its outlet, L/min.</param>
/// <param name="VolumeL">Water in it at the end, L.</param>
/// <param name="SpilledL">What ran over its rim, L.</param>
/// <param name="SpillsTo">Where that went.</param>
/// <param name="FirstSpillS">When it first ran over, s; null: never.</param>
/// <param name="SpillS">For how long in all, s.</param>
public sealed record VesselForecast(
    string Id, double? RimM, double StartM, double EndM, double LowM, double HighM, double HighAtS, double MeanOutL, double VolumeL, double SpilledL, string SpillsTo,
    double? FirstSpillS, double SpillS)
{
    /// <summary>Temperatures of its water at the hours' ends; null without weather.</summary>
    public VesselTemperatures? Temperatures { get; init; }
}

/// <summary>A vessel's temperatures over the time of a forecast, °C.</summary>
/// <param name="StartC">At the start.</param>
/// <param name="LowC">Lowest.</param>
/// <param name="HighC">Highest.</param>
/// <param name="MeanC">Mean.</param>
/// <param name="EndC">At the end.</param>
public sealed record VesselTemperatures(double StartC, double LowC, double HighC, double MeanC, double EndC);

/// <summary>A pump over the time of a forecast.</summary>
/// <param name="Id">Its id.</param>
/// <param name="Starts">How often it started.</param>
/// <param name="MostStartsPerH">Most starts within an hour.</param>
/// <param name="RunS">How long it ran in all, s.</param>
/// <param name="DeliveredL">What came out at its ends, L.</param>
/// <param name="FlowLPerMin">Mean flow while it ran, L/min.</param>
/// <param name="MeanFillS">Mean pause between two runs, s; null: fewer than two.</param>
/// <param name="MeanRunS">Mean run, s; null: no whole one.</param>
public sealed record PumpForecast(
    string Id, long Starts, int MostStartsPerH, double RunS, double DeliveredL, double FlowLPerMin, double? MeanFillS, double? MeanRunS);

/// <summary>A valve over the time of a forecast.</summary>
/// <param name="Id">Its id.</param>
/// <param name="Openings">How often it opened.</param>
/// <param name="LetL">What it let through, L.</param>
public sealed record ValveForecast(string Id, long Openings, double LetL);

/// <summary>Water in and out over the time of a forecast, L.</summary>
/// <param name="CameL">From outside through valves.</param>
/// <param name="RainL">As rain.</param>
/// <param name="LostL">To air and plants.</param>
/// <param name="SpilledL">Over rims to the world outside.</param>
/// <param name="LeftL">Through outlets, pumps and valves to the world outside.</param>
/// <param name="StoredL">Change in all vessels and lines.</param>
/// <param name="BalanceL">What does not add up: rounding.</param>
/// <param name="WaterL">All water at the end.</param>
public sealed record WaterTotals(
    double CameL, double RainL, double LostL, double SpilledL, double LeftL, double StoredL, double BalanceL, double WaterL)
{
    /// <summary>Through leaks, L.</summary>
    public double LeakedL { get; init; }

    /// <summary>Taken out by people, L.</summary>
    public double DrawnL { get; init; }
}

/// <summary>Levels at a time.</summary>
/// <param name="TimeS">s from the start.</param>
/// <param name="LevelM">One for each vessel, m above its floor.</param>
/// <param name="OutLPerMin">Mean outflow since the sample before, one for each vessel, L/min.</param>
/// <param name="PumpedLPerMin">Mean delivery since the sample before, one for each pump, L/min.</param>
public sealed record WaterSample(double TimeS, IReadOnlyList<double> LevelM, IReadOnlyList<double> OutLPerMin, IReadOnlyList<double> PumpedLPerMin)
{
    /// <summary>Temperature of each vessel's water, °C; empty without weather.</summary>
    public IReadOnlyList<double> TempC { get; init; } = [];
}
