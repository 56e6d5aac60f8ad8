using System.Text.Json;
using NodaTime;
using Runnel.Place;
using Runnel.Twin.Weather;

namespace Runnel.Tests.Twin.Weather;

/// <summary>Weather made from the monthly means of two cities, beside what their daily records show and the means do not tell.</summary>
/// <remarks>Published/daily-weather.json names the source. Four years are a short record: the bands below are wide for that reason.</remarks>
public class DailyRecordTests
{
    private static readonly JsonElement Published = JsonDocument.Parse(File.ReadAllText(Path.Combine(AppContext.BaseDirectory, "Published", "daily-weather.json"))).RootElement;

    public static TheoryData<int> Sites => [0, 1];

    [Theory, MemberData(nameof(Sites))]
    public void Days_vary_follow_one_another_and_rain_as_in_the_record(int at)
    {
        var site = Published.GetProperty("sites")[at];
        double lon = Number("longitude");
        var climate = new Climate(Months("high_c"), Months("low_c"), WindMPerS: Months("wind_m_s"), RainMm: Months("rain_mm"), RainDays: Months("rain_days"), WindHeightM: 10);
        var year = ClimateYear.Of(climate, Number("latitude"), lon, Number("altitude_m"));
        List<Day> days = Day.Of(new WeatherGenerator(year).Make(Instant.FromUtc(2001, 1, 1, 0, 0), 30 * 365.25, 77), lon);

        // The spread of days is filled in from how far winter and summer lie apart: over the year within a fifth of the record, in no month off by more than a factor of two.
        double[] high = Spread(d => d.HighC), low = Spread(d => d.LowC);
        Assert.InRange(high.Average() / Months("sd_high_k").Average(), 0.8, 1.25);
        Assert.InRange(low.Average() / Months("sd_low_k").Average(), 0.8, 1.35);
        for (int m = 0; m < 12; m++) Assert.InRange(high[m] / Months("sd_high_k")[m], 0.5, 2);

        double[] highs = Day.Anomalies(days, d => d.HighC), lows = Day.Anomalies(days, d => d.LowC);
        Assert.Equal(Number("lag1_high"), Day.LagOne(highs), 0.12);
        Assert.Equal(Number("lag1_low"), Day.LagOne(lows), 0.15);
        Assert.Equal(Number("lag1_wind"), Day.LagOne(Day.Anomalies(days, d => d.WindMPerS)), 0.1);
        Assert.Equal(Number("correlation_high_low"), Day.Correlation(highs, lows), 0.25);

        bool[] wet = [.. days.Select(d => d.RainMm > 0)];
        double afterWet = wet.Zip(wet.Skip(1)).Where(p => p.First).Average(p => p.Second ? 1.0 : 0);
        Assert.Equal(Number("wet_share"), wet.Average(w => w ? 1.0 : 0), 0.01);
        Assert.Equal(Number("wet_after_wet"), afterWet, 0.12);
        Assert.True(afterWet > Number("wet_share") + 0.1); // wet days come in spells
        double[] amounts = [.. days.Where(d => d.RainMm > 0).Select(d => d.RainMm)];
        Assert.InRange(Day.Sd(amounts) / amounts.Average() / Number("wet_amount_sd_over_mean"), 0.75, 1.3);
        Assert.InRange(Day.Sd(days.Select(d => d.WindMPerS / year.WindAt2MMPerS[d.Date.Month - 1])) / Number("wind_sd_over_mean"), 0.8, 1.25);

        double Number(string name) => site.GetProperty(name).GetDouble();
        double[] Months(string name) => [.. site.GetProperty(name).EnumerateArray().Select(v => v.GetDouble())];
        double[] Spread(Func<Day, double> of) =>
            [.. Enumerable.Range(1, 12).Select(m => Day.Sd(days.Where(d => d.Date.Month == m).Select(of)))];
    }
}
