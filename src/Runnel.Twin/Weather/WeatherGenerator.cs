using NodaTime;
using Runnel.Science.Air;
using Runnel.Twin.Invented;

namespace Runnel.Twin.Weather;

/// <summary>Makes weather out of a climate: other than the weather of any year, with the climate's monthly statistics. The same seed gives the same weather.</summary>
/// <remarks>
/// Days by <see cref="DayToDay"/>. Within a day: temperature by two half cosines between sunrise and two in the afternoon (de Wit and others 1978, as compared
/// by Reicosky and others 1989, Agricultural and Forest Meteorology 46:193-209); sun as a share of the clear sky that wanders with the clouds; vapour nearly
/// steady over a day (FAO Irrigation and Drainage Paper 56), set so that the day's mean humidity is met; wind strongest in the afternoon; rain in one to three
/// storms where clouds are thick. Local statistics hold by days of mean solar time.
/// </remarks>
public sealed class WeatherGenerator
{
    private const double DayS = 86_400, HighAtH = 14, MomentMemoryPerH = 0.8, GustMemoryPerH = 0.6, GustSpread = 0.25, WindByDay = 0.4;

    private readonly MonthWeather _climate;
    private readonly ClearSkyDay _sky;
    private readonly double _latitudeRad;

    /// <summary>Takes a climate.</summary>
    /// <param name="climate">Statistics to be met.</param>
    public WeatherGenerator(ClimateYear climate)
    {
        ArgumentNullException.ThrowIfNull(climate);
        _climate = new(climate);
        _sky = new(climate.LatitudeDeg, climate.LongitudeDeg, climate.AltitudeM);
        _latitudeRad = climate.LatitudeDeg * (Math.PI / 180);
        Climate = climate;
    }

    /// <summary>The climate.</summary>
    public ClimateYear Climate { get; }

    /// <summary>Makes weather.</summary>
    /// <param name="start">From when.</param>
    /// <param name="days">For how long; the last step may end later.</param>
    /// <param name="seed">Another seed, other weather.</param>
    /// <param name="stepS">Length of a step, s: a whole part of a day, from a minute to three hours.</param>
    /// <returns>Weather in even steps from <paramref name="start"/> on.</returns>
    /// <exception cref="ArgumentOutOfRangeException">The span is not above 0, or the step is no such part of a day.</exception>
    public WeatherSeries Make(Instant start, double days, int seed, int stepS = 3600)
    {
        if (!(days > 0 && days <= 40_000)) throw new ArgumentOutOfRangeException(nameof(days), days, "must be above 0, and 40000 at most");
        if (stepS < 60 || stepS > 10_800 || DayS % stepS != 0) throw new ArgumentOutOfRangeException(nameof(stepS), stepS, "must be a whole part of a day, 60 to 10800 s");
        double startS = start.ToUnixTimeSeconds(), solarS = startS + (Climate.LongitudeDeg * 240);
        int perDay = (int)(DayS / stepS), count = (int)Math.Ceiling(days * perDay), into = (int)Math.Round((solarS - (Math.Floor(solarS / DayS) * DayS)) / stepS);
        double firstDayS = startS - (into * (double)stepS);
        var noon = DateTime.UnixEpoch.AddSeconds(firstDayS + (Climate.LongitudeDeg * 240) + (DayS / 2));
        // A day before and one after: their temperatures and vapour lead into the first and out of the last.
        int dayCount = ((count + into - 1) / perDay) + 3;
        var draws = new DayToDay(_climate, seed, noon.AddDays(-1).Month - 1);
        var drawn = new DrawnDay[dayCount];
        for (int d = 0; d < dayCount; d++) drawn[d] = draws.Next(noon.AddDays(d - 1));

        double[] vapour = new double[dayCount];
        for (int d = 0; d < dayCount; d++) vapour[d] = VapourOf(drawn, d);
        var steps = new WeatherStep[count];
        var moments = new Moments(seed, stepS);
        double[] clear = new double[perDay], clouds = new double[perDay], gusts = new double[perDay], rain = new double[perDay];
        for (int d = 1; d < dayCount - 1; d++)
        {
            moments.Next(clouds, gusts);
            moments.Storms(drawn[d].RainMm, clouds, rain);
            _sky.MeansWPerM2(firstDayS + ((d - 1) * DayS), stepS, clear);
            for (int k = 0; k < perDay; k++)
            {
                int at = ((d - 1) * perDay) + k - into;
                if (at >= 0 && at < count) steps[at] = Step(drawn, d, (k + 0.5) * 24 / perDay, vapour, clear[k], clouds[k], gusts[k], rain[k]);
            }
        }

        return new(start, stepS, steps);
    }

    private WeatherStep Step(DrawnDay[] drawn, int d, double hour, double[] vapour, double clear, double cloud, double gust, double rainMm)
    {
        var day = drawn[d];
        double temp = TempC(drawn, d, hour), toNext = hour < 12 ? (hour + 12) / 24 : (hour - 12) / 24;
        int from = hour < 12 ? d - 1 : d;
        double kPa = vapour[from] + ((vapour[from + 1] - vapour[from]) * toNext);
        double humidity = Math.Clamp(kPa / VapourPressure.SaturationKPa(Math.Clamp(temp, -60, 80)), 0.01, 1);
        var share = (day.RainMm > 0 ? _climate.WetSun : _climate.DrySun)[day.Month];
        double slope = Math.Sqrt((MonthWeather.DaySlope * MonthWeather.DaySlope) + (MonthWeather.MomentSlope * MonthWeather.MomentSlope));
        double relative = share.Of(((MonthWeather.DaySlope * day.Cloud) + (MonthWeather.MomentSlope * cloud)) / slope);
        double wind = day.WindMPerS * (1 + (WindByDay * Math.Cos(Math.PI / 12 * (hour - 15)))) * Math.Exp((GustSpread * gust) - (GustSpread * GustSpread / 2));
        return new(temp, humidity, wind, clear * _climate.SkyScale[day.Month] * relative, rainMm, relative);
    }

    private double TempC(DrawnDay[] drawn, int d, double hour)
    {
        double sunrise = SunriseH(drawn[d].DayOfYear);
        if (hour >= sunrise && hour < HighAtH) return Cosine(drawn[d].LowC, drawn[d].HighC, (hour - sunrise) / (HighAtH - sunrise));
        int from = hour < sunrise ? d - 1 : d;
        double high = from < 0 ? drawn[0].HighC : drawn[from].HighC, low = from + 1 < drawn.Length ? drawn[from + 1].LowC : drawn[^1].LowC;
        double since = hour < sunrise ? hour + 24 - HighAtH : hour - HighAtH, span = 24 - HighAtH + sunrise;
        return Cosine(high, low, Math.Min(1, since / span));
    }

    private static double Cosine(double from, double to, double share) => from + ((to - from) * (1 - Math.Cos(Math.PI * share)) / 2);

    // By solar time. Where the sun neither rises nor sets, the coldest hour is put where it would come last or first.
    private double SunriseH(int dayOfYear)
    {
        double declination = Science.Sun.SolarDay.DeclinationRad(dayOfYear), cosine = -Math.Tan(_latitudeRad) * Math.Tan(declination);
        return Math.Clamp(12 - (Math.Acos(Math.Clamp(cosine, -1, 1)) * 12 / Math.PI), 3, 9);
    }

    // The vapour pressure with which the mean humidity over the day's hours is the one drawn.
    private double VapourOf(DrawnDay[] drawn, int d)
    {
        Span<double> saturation = stackalloc double[24];
        double wanted = drawn[d].RelHumidity * 24, least = double.MaxValue, most = 0;
        for (int h = 0; h < 24; h++)
        {
            saturation[h] = VapourPressure.SaturationKPa(Math.Clamp(TempC(drawn, d, h + 0.5), -60, 80));
            (least, most) = (Math.Min(least, saturation[h]), Math.Max(most, saturation[h]));
        }

        double low = 0, high = most;
        for (int i = 0; i < 24; i++)
        {
            double middle = (low + high) / 2, sum = 0;
            for (int h = 0; h < 24; h++) sum += Math.Min(1, middle / saturation[h]);
            if (sum < wanted) low = middle;
            else high = middle;
        }

        return (low + high) / 2;
    }

    /// <summary>What wanders within days: clouds, gusts and storms.</summary>
    private sealed class Moments
    {
        private readonly Seeded _ofClouds, _ofGusts, _ofStorms;
        private readonly double _stepH, _cloudMemory, _gustMemory;
        private double _cloud, _gust;

        public Moments(int seed, int stepS)
        {
            (_ofClouds, _ofGusts, _ofStorms) = (new(seed, "weather: clouds"), new(seed, "weather: gusts"), new(seed, "weather: storms"));
            _stepH = stepS / 3600.0;
            (_cloudMemory, _gustMemory) = (Math.Pow(MomentMemoryPerH, _stepH), Math.Pow(GustMemoryPerH, _stepH));
            (_cloud, _gust) = (_ofClouds.Normal(), _ofGusts.Normal());
        }

        public void Next(double[] clouds, double[] gusts)
        {
            for (int k = 0; k < clouds.Length; k++)
            {
                clouds[k] = _cloud = (_cloudMemory * _cloud) + (Math.Sqrt(1 - (_cloudMemory * _cloudMemory)) * _ofClouds.Normal());
                gusts[k] = _gust = (_gustMemory * _gust) + (Math.Sqrt(1 - (_gustMemory * _gustMemory)) * _ofGusts.Normal());
            }
        }

        // One to three storms of some hours each, each at the cloudiest of three places; common practice.
        public void Storms(double mm, double[] clouds, double[] rain)
        {
            Array.Clear(rain);
            if (mm <= 0) return;
            int storms = 1 + (_ofStorms.Chance(0.4) ? 1 : 0) + (_ofStorms.Chance(0.15) ? 1 : 0);
            double left = mm;
            for (int s = storms; s >= 1; s--)
            {
                double part = s == 1 ? left : left * _ofStorms.Between(0.2, 0.7);
                left -= part;
                int length = Math.Clamp((int)Math.Ceiling(_ofStorms.Exponential(3) / _stepH), 1, rain.Length / 2), best = 0;
                double darkest = double.MaxValue;
                for (int tries = 0; tries < 3; tries++)
                {
                    int at = _ofStorms.Whole(0, rain.Length - length);
                    double light = 0;
                    for (int k = 0; k < length; k++) light += clouds[at + k] / length;
                    if (light < darkest) (darkest, best) = (light, at);
                }

                // Heavy in the middle, light at both ends.
                double weights = 0;
                for (int k = 0; k < length; k++) weights += Math.Sin(Math.PI * (k + 0.5) / length);
                for (int k = 0; k < length; k++) rain[best + k] += part * Math.Sin(Math.PI * (k + 0.5) / length) / weights;
            }
        }
    }
}
