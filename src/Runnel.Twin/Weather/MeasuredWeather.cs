using NodaTime;
using Runnel.Place;
using Runnel.Science.Air;

namespace Runnel.Twin.Weather;

/// <summary>Weather as measured, by the hour; what is missing, and what comes after, is made by a generator.</summary>
/// <remarks>
/// Hours are means of their readings, rain their sum. Up to three hours without a reading are bridged straight; longer gaps and quantities that were never
/// measured are made. Where measured temperatures end, the made ones begin from the last one and forget it with a day-to-day memory of 0.6 (Richardson 1981 has 0.62 for
/// highs). At night the sky is as clear as it was in the afternoon before, as FAO Irrigation and Drainage Paper 56 has it.
/// </remarks>
public sealed class MeasuredWeather
{
    private const int HourS = 3600, BridgedH = 3;
    private const double MemoryPerDay = 0.6;

    private readonly double[][] _hours;
    private readonly List<string> _notes = [];

    private MeasuredWeather(Instant start, double[][] hours) => (Start, _hours) = (start, hours);

    /// <summary>What may be measured, in the order of <see cref="Quantity"/> names used in logs.</summary>
    public static IReadOnlyList<Quantity> Kinds { get; } =
        [Quantity.AirTemperature, Quantity.RelativeHumidity, Quantity.WindSpeed, Quantity.SolarIrradiance, Quantity.Rain];

    /// <summary>Beginning of the first hour with a reading.</summary>
    public Instant Start { get; }

    /// <summary>Hours from the first reading to the last.</summary>
    public int Hours => _hours[0].Length;

    /// <summary>What was missing and how it is made up, in words for people.</summary>
    public IReadOnlyList<string> Notes => _notes;

    /// <summary>Takes readings.</summary>
    /// <param name="channels">The channels that the readings name by position.</param>
    /// <param name="readings">Readings in time order; those of other quantities are passed over.</param>
    /// <returns>The weather, or null where none of the readings is of weather.</returns>
    public static MeasuredWeather? From(IReadOnlyList<Channel> channels, IReadOnlyList<Reading> readings)
    {
        ArgumentNullException.ThrowIfNull(channels);
        ArgumentNullException.ThrowIfNull(readings);
        int[] kinds = [.. channels.Select(c => KindOf(c.Measures))];
        long first = long.MaxValue, last = long.MinValue;
        foreach (var reading in readings)
        {
            if (kinds[reading.Channel] < 0) continue;
            long hour = Floor(reading.Time.ToUnixTimeSeconds());
            (first, last) = (Math.Min(first, hour), Math.Max(last, hour));
        }

        if (last < first) return null;
        int count = (int)(last - first) + 1;
        double[][] sums = [.. Kinds.Select(_ => new double[count])], counts = [.. Kinds.Select(_ => new double[count])];
        double?[] total = new double?[channels.Count];
        foreach (var reading in readings)
        {
            int kind = kinds[reading.Channel], hour = (int)(Floor(reading.Time.ToUnixTimeSeconds()) - first);
            if (kind < 0) continue;
            var channel = channels[reading.Channel];
            double value = channel.Measures switch
            {
                Quantity.RelativeHumidity => Math.Clamp(reading.Value / 100, 0.01, 1),
                Quantity.WindSpeed => Wind.At2MMPerS(Math.Clamp(reading.Value, 0, 100), Math.Clamp(channel.HeightM ?? 2, 0.5, 100)),
                Quantity.SolarIrradiance => Math.Clamp(reading.Value, 0, 1500),
                Quantity.AirTemperature => Math.Clamp(reading.Value, -60, 60),
                // Of a running count the steps are taken; one that fell began again.
                Quantity.RainTotal => total[reading.Channel] is { } before ? reading.Value >= before ? reading.Value - before : reading.Value : 0,
                _ => Math.Max(0, reading.Value),
            };
            if (channel.Measures == Quantity.RainTotal) total[reading.Channel] = reading.Value;
            sums[kind][hour] += value;
            counts[kind][hour]++;
        }

        var weather = new MeasuredWeather(Instant.FromUnixTimeSeconds(first * HourS), sums);
        weather.Settle(counts);
        return weather;
    }

    /// <summary>Weather for a span, measured where it was and made where it was not.</summary>
    /// <param name="generator">Makes what is missing.</param>
    /// <param name="start">From when, on a whole hour.</param>
    /// <param name="days">For how long.</param>
    /// <param name="seed">Of the generator.</param>
    /// <returns>Weather by the hour.</returns>
    public WeatherSeries Continue(WeatherGenerator generator, Instant start, double days, int seed)
    {
        ArgumentNullException.ThrowIfNull(generator);
        var made = generator.Make(start, days, seed);
        var steps = made.Steps.ToArray();
        int offset = (int)((start - Start).TotalSeconds / HourS);
        double[] clear = new double[24];
        var sky = new ClearSkyDay(generator.Climate.LatitudeDeg, generator.Climate.LongitudeDeg, generator.Climate.AltitudeM);
        double night = 0.5, lead = 0;
        for (int i = 0; i < steps.Length; i++)
        {
            if (i % 24 == 0) sky.MeansWPerM2(start.ToUnixTimeSeconds() + (i * (double)HourS), HourS, clear);
            int at = i + offset;
            double temp = Known(0, at), humidity = Known(1, at), wind = Known(2, at), sun = Known(3, at), rain = Known(4, at);
            if (double.IsNaN(temp)) temp = steps[i].AirTempC + (lead *= Math.Pow(MemoryPerDay, 1 / 24.0));
            else lead = temp - steps[i].AirTempC;
            double relative = steps[i].RelativeSolar;
            if (!double.IsNaN(sun))
            {
                if (clear[i % 24] > 50) night = Math.Clamp(sun / clear[i % 24], 0, 1);
                relative = night;
            }

            steps[i] = new(
                temp, double.IsNaN(humidity) ? steps[i].RelHumidity : humidity, double.IsNaN(wind) ? steps[i].WindAt2MMPerS : wind, double.IsNaN(sun) ? steps[i].SunWPerM2 : sun,
                double.IsNaN(rain) ? steps[i].RainMm : rain, relative);
        }

        return new(start, HourS, steps);

        double Known(int kind, int hour) => hour >= 0 && hour < _hours[kind].Length ? _hours[kind][hour] : double.NaN;
    }

    private static int KindOf(Quantity quantity)
    {
        if (quantity == Quantity.RainTotal) quantity = Quantity.Rain;
        for (int i = 0; i < Kinds.Count; i++)
        {
            if (Kinds[i] == quantity) return i;
        }

        return -1;
    }

    private static long Floor(long seconds) => (long)Math.Floor(seconds / (double)HourS);

    private void Settle(double[][] counts)
    {
        for (int kind = 0; kind < Kinds.Count; kind++)
        {
            string name = Quantities.NameOf(Kinds[kind]);
            bool isRain = Kinds[kind] == Quantity.Rain;
            double[] values = _hours[kind], count = counts[kind];
            if (Array.TrueForAll(count, c => c == 0))
            {
                Array.Fill(values, double.NaN);
                _notes.Add($"no {name} measured: made from the climate");
                continue;
            }

            // A rain gauge may speak only when it rains: its silence is taken for no rain.
            if (isRain) continue;
            for (int i = 0; i < values.Length; i++) values[i] = count[i] > 0 ? values[i] / count[i] : double.NaN;
            (int gaps, int hours) = Bridge(values);
            if (hours > 0) _notes.Add($"{name} missing for {hours} h in {gaps} {(gaps == 1 ? "gap" : "gaps")}: made from the climate");
        }
    }

    private static (int Gaps, int Hours) Bridge(double[] values)
    {
        int gaps = 0, hours = 0;
        for (int i = 0; i < values.Length; i++)
        {
            if (!double.IsNaN(values[i])) continue;
            int end = i;
            while (end < values.Length && double.IsNaN(values[end])) end++;
            int length = end - i;
            if (length <= BridgedH && i > 0 && end < values.Length)
            {
                for (int k = i; k < end; k++) values[k] = values[i - 1] + ((values[end] - values[i - 1]) * (k - i + 1) / (length + 1));
            }
            else
            {
                (gaps, hours) = (gaps + 1, hours + length);
            }

            i = end;
        }

        return (gaps, hours);
    }
}
