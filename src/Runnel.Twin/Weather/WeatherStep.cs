namespace Runnel.Twin.Weather;

/// <summary>The weather over one step: means, and for rain the sum.</summary>
/// <param name="AirTempC">Air temperature, °C.</param>
/// <param name="RelHumidity">Relative humidity, 0 to 1.</param>
/// <param name="WindAt2MMPerS">Wind 2 m above the ground, m/s.</param>
/// <param name="SunWPerM2">Solar irradiance on the level, W/m2.</param>
/// <param name="RainMm">Rain in the step, mm.</param>
/// <param name="RelativeSolar">How clear the sky is by day and by night: solar over clear-sky irradiance, 0 to 1.</param>
public readonly record struct WeatherStep(
    double AirTempC, double RelHumidity, double WindAt2MMPerS, double SunWPerM2, double RainMm, double RelativeSolar);
