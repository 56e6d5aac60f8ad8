using Runnel.Science.Statistics;
using Runnel.Twin.Invented;

namespace Runnel.Twin.Weather;

/// <summary>A day as drawn, before its hours.</summary>
/// <param name="DayOfYear">1 to 366.</param>
/// <param name="Month">0 to 11.</param>
/// <param name="HighC">Highest air temperature, °C.</param>
/// <param name="LowC">Lowest, °C.</param>
/// <param name="RainMm">Rain, mm; 0 on a dry day.</param>
/// <param name="Cloud">Normal number of the day's clouds: high is clear.</param>
/// <param name="RelHumidity">Mean relative humidity, 0 to 1.</param>
/// <param name="WindMPerS">Mean wind, m/s.</param>
internal readonly record struct DrawnDay(
    int DayOfYear, int Month, double HighC, double LowC, double RainMm, double Cloud, double RelHumidity, double WindMPerS);

/// <summary>Draws day after day: rain by a chain of wet and dry days, temperatures and clouds as a trio that remembers the day before.</summary>
/// <remarks>
/// Richardson (1981), Water Resources Research 17:182-190, with the matrices of Richardson and Wright (1984), WGEN, ARS-8, from memory; chance of rain and spread
/// of its amounts from the wet days and mean amount of a month by Geng, Penning de Vries and Supit (1986), Agricultural and Forest Meteorology 36:363-376.
/// </remarks>
internal sealed class DayToDay
{
    // Of a wet day following a wet one less that of one following a dry one: 1 - 0.75 (Geng et al.).
    private const double WetMemory = 0.25;

    // Wind and humidity remember the day before; common practice, and 0.37 to 0.42 for wind in two daily records.
    private const double WindMemory = 0.4, HumidityMemory = 0.5;

    // Weibull of the days' means: standard deviation 0.36 of the mean (0.37 and 0.43 in two daily records, gusts included); the gamma function of 4/3.
    private const double WindShape = 3, GammaOfWindShape = 0.892980;

    private static readonly double[,] Remembered = { { 0.567, 0.086, -0.002 }, { 0.253, 0.504, -0.050 }, { -0.006, -0.039, 0.244 } };
    private static readonly double[,] Fresh = { { 0.781, 0, 0 }, { 0.328, 0.637, 0 }, { 0.238, -0.341, 0.873 } };

    private readonly MonthWeather _climate;
    private readonly Seeded _ofRain, _ofTrio, _ofAir;
    private readonly double[] _trio = new double[3];
    private bool _wet;
    private double _windState, _humidityState;

    public DayToDay(MonthWeather climate, int seed, int firstMonth)
    {
        _climate = climate;
        (_ofRain, _ofTrio, _ofAir) = (new(seed, "weather: rain"), new(seed, "weather: heat and clouds"), new(seed, "weather: wind and moisture"));
        _wet = _ofRain.Chance(climate.WetShare[firstMonth]);
        (_windState, _humidityState) = (_ofAir.Normal(), _ofAir.Normal());
        // What came before is forgotten within weeks.
        for (int i = 0; i < 40; i++) NextTrio();
    }

    public DrawnDay Next(DateTime date)
    {
        int month = date.Month - 1, day = date.DayOfYear;
        double wetShare = _climate.WetShare[month];
        _wet = _ofRain.Chance((wetShare * (1 - WetMemory)) + (_wet ? WetMemory : 0));
        double rain = _wet ? Amount(month) : 0;
        NextTrio();
        double toWet = _wet ? -(1 - wetShare) : wetShare;
        double high = _climate.High.At(day) + (toWet * _climate.DryLessWetHighK[month]) + (_climate.ResidualHighK[month] * _trio[0]);
        double low = _climate.Low.At(day) + (toWet * MonthWeather.DryLessWetLowK) + (_climate.ResidualLowK[month] * _trio[1]);
        double least = 0.2 * (_climate.High.At(day) - _climate.Low.At(day));
        if (high - low < least) (high, low) = (((high + low) / 2) + (least / 2), ((high + low) / 2) - (least / 2));

        _windState = (WindMemory * _windState) + (Math.Sqrt(1 - (WindMemory * WindMemory)) * _ofAir.Normal());
        _humidityState = (HumidityMemory * _humidityState) + (Math.Sqrt(1 - (HumidityMemory * HumidityMemory)) * _ofAir.Normal());
        double wind = _climate.Wind.At(day) / GammaOfWindShape * Math.Pow(-Math.Log(Math.Max(1e-12, 1 - NormalDistribution.Cdf(_windState))), 1 / WindShape);
        // Moist air and clouds go together.
        double moist = (-0.6 * _trio[2]) + (0.8 * _humidityState);
        double humidity = (_wet ? _climate.WetHumidity : _climate.DryHumidity)[month].Of(moist);
        return new(day, month, high, low, rain, _trio[2], humidity, Math.Min(wind, 40));
    }

    private double Amount(int month)
    {
        double shape = _climate.RainShape[month], least = _climate.Year.RainDayFromMm;
        return least + ((_climate.RainMmOfWetDay[month] - least) * Gamma(shape) / shape);
    }

    // Marsaglia and Tsang (2000), ACM Transactions on Mathematical Software 26:363-372.
    private double Gamma(double shape)
    {
        double boost = shape < 1 ? Math.Pow(1 - _ofRain.Unit(), 1 / shape) : 1, d = (shape < 1 ? shape + 1 : shape) - (1.0 / 3), c = 1 / Math.Sqrt(9 * d);
        while (true)
        {
            double x = _ofRain.Normal(), v = 1 + (c * x);
            if (v <= 0) continue;
            v *= v * v;
            if (Math.Log(1 - _ofRain.Unit()) < (x * x / 2) + (d * (1 - v + Math.Log(v)))) return boost * d * v;
        }
    }

    private void NextTrio()
    {
        double a = _trio[0], b = _trio[1], c = _trio[2], x = _ofTrio.Normal(), y = _ofTrio.Normal(), z = _ofTrio.Normal();
        for (int i = 0; i < 3; i++)
            _trio[i] = (Remembered[i, 0] * a) + (Remembered[i, 1] * b) + (Remembered[i, 2] * c) + (Fresh[i, 0] * x) + (Fresh[i, 1] * y) + (Fresh[i, 2] * z);
    }
}
