namespace Runnel.Place;

/// <summary>The climate of a place as its file tells it: twelve values a year of each quantity, January first. Null: not told.</summary>
/// <param name="HighC">Mean of the days' highest air temperatures, °C.</param>
/// <param name="LowC">Mean of the days' lowest air temperatures, °C.</param>
/// <param name="SpreadK">Standard deviation of the days' highest temperatures about their month's mean, K.</param>
/// <param name="RelHumidity">Mean relative humidity, 0 to 1.</param>
/// <param name="DewPointC">Mean dew point, °C.</param>
/// <param name="WindMPerS">Mean wind, m/s, at <see cref="WindHeightM"/>.</param>
/// <param name="RainMm">Rain of the month, mm.</param>
/// <param name="RainDays">Days of the month with at least <see cref="RainDayFromMm"/>.</param>
/// <param name="SunshineH">Bright sunshine, h a day.</param>
/// <param name="SolarMJPerM2Day">Solar radiation on the level, MJ/m2 and day.</param>
/// <param name="WindHeightM">Height above the ground at which the wind was measured, m.</param>
/// <param name="RainDayFromMm">Rain from which on a day counts as one with rain, mm.</param>
public sealed record Climate(
    IReadOnlyList<double>? HighC = null,
    IReadOnlyList<double>? LowC = null,
    IReadOnlyList<double>? SpreadK = null,
    IReadOnlyList<double>? RelHumidity = null,
    IReadOnlyList<double>? DewPointC = null,
    IReadOnlyList<double>? WindMPerS = null,
    IReadOnlyList<double>? RainMm = null,
    IReadOnlyList<double>? RainDays = null,
    IReadOnlyList<double>? SunshineH = null,
    IReadOnlyList<double>? SolarMJPerM2Day = null,
    double WindHeightM = 2,
    double RainDayFromMm = 1);
