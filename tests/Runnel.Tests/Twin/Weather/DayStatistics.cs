using Runnel.Twin.Weather;

namespace Runnel.Tests.Twin.Weather;

/// <summary>Days counted up from a made series: calendar days of mean solar time.</summary>
internal sealed record Day(DateTime Date, double HighC, double LowC, double RelHumidity, double WindMPerS, double RainMm, double SolarMJPerM2)
{
    public static List<Day> Of(WeatherSeries series, double longitudeDeg)
    {
        List<Day> days = [];
        int perDay = 86_400 / series.EveryS;
        double solarS = series.Start.ToUnixTimeSeconds() + (longitudeDeg * 240), first = Math.Ceiling((solarS / 86_400) - 1e-3);
        int from = (int)Math.Round(((first * 86_400) - solarS) / series.EveryS);
        for (int at = from; at + perDay <= series.Steps.Count; at += perDay, first++)
        {
            double high = double.MinValue, low = double.MaxValue, humidity = 0, wind = 0, rain = 0, sun = 0;
            for (int k = at; k < at + perDay; k++)
            {
                var step = series.Steps[k];
                high = Math.Max(high, step.AirTempC);
                low = Math.Min(low, step.AirTempC);
                humidity += step.RelHumidity / perDay;
                wind += step.WindAt2MMPerS / perDay;
                rain += step.RainMm;
                sun += step.SunWPerM2 * series.EveryS / 1e6;
            }

            days.Add(new(DateTime.UnixEpoch.AddDays(first), high, low, humidity, wind, rain, sun));
        }

        return days;
    }

    public static double Mean(IEnumerable<Day> days, Func<Day, double> of) => days.Average(of);

    public static double Sd(IEnumerable<double> values)
    {
        double[] all = [.. values];
        double mean = all.Average();
        return Math.Sqrt(all.Sum(v => (v - mean) * (v - mean)) / (all.Length - 1));
    }

    public static double Correlation(IReadOnlyList<double> a, IReadOnlyList<double> b)
    {
        double ma = a.Average(), mb = b.Average(), ab = 0, aa = 0, bb = 0;
        for (int i = 0; i < a.Count; i++)
        {
            ab += (a[i] - ma) * (b[i] - mb);
            aa += (a[i] - ma) * (a[i] - ma);
            bb += (b[i] - mb) * (b[i] - mb);
        }

        return ab / Math.Sqrt(aa * bb);
    }

    /// <summary>What remains of a quantity when each month's mean over all years is taken away.</summary>
    public static double[] Anomalies(IReadOnlyList<Day> days, Func<Day, double> of)
    {
        double[] means = [.. Enumerable.Range(1, 12).Select(m => days.Where(d => d.Date.Month == m).Average(of))];
        return [.. days.Select(d => of(d) - means[d.Date.Month - 1])];
    }

    public static double LagOne(double[] values) => Correlation(values[..^1], values[1..]);
}
