using System.Globalization;
using System.Text;
using Runnel.Exchange;
using Runnel.Exchange.Survey;
using Runnel.Place;

namespace Runnel.Tests.Exchange;

public sealed class LogSurveyTests
{
    [Fact]
    public void A_long_log_is_seen_with_its_channels_form_and_span()
    {
        var survey = Look(Invented("pump", "topup", "air_temp"));
        Assert.Equal(("comma", LogForm.LongForm, "time", true), (survey.Separator, survey.Form, survey.TimeColumn, survey.TimesHaveOffset));
        Assert.InRange(survey.Days, 9, 11);
        Assert.True(survey.IsWhole);
        Assert.Equal(["time", "channel", "value"], survey.Columns);
        Assert.Equal(12, survey.Preview.Count);
        Assert.Equal(["pump", "air_temp", "topup"], survey.Channels.Select(c => c.Name));
        Assert.Equal("2026-02-01T00:00:00+00:00", survey.FirstTime);
    }

    [Fact]
    public void Names_and_values_that_agree_are_sure()
    {
        var survey = Look(Invented("Sump pump", "Top-up valve", "Air temp"));
        AssertGuess(survey, "Sump pump", Quantity.Running, EquipmentKind.Pump, Certainty.Sure);
        AssertGuess(survey, "Top-up valve", Quantity.Running, EquipmentKind.TopUpValve, Certainty.Sure);
        AssertGuess(survey, "Air temp", Quantity.AirTemperature, null, Certainty.Sure);
        var pump = survey.Channels[0].Statistics;
        Assert.True(pump.IsSwitch);
        Assert.InRange(pump.ChangesPerDay, 120, 160);
        Assert.InRange(pump.ShareOn!.Value, 0.18, 0.22);
        Assert.Contains("is on 20 % of the time", survey.Channels[0].Guess!.Reason, StringComparison.Ordinal);
    }

    [Fact]
    public void Names_that_say_nothing_leave_the_values_to_speak()
    {
        var survey = Look(Invented("ch1", "ch2", "ch3"));
        AssertGuess(survey, "ch1", Quantity.Running, EquipmentKind.Pump, Certainty.Likely);
        AssertGuess(survey, "ch2", Quantity.Running, EquipmentKind.TopUpValve, Certainty.Guess);
        AssertGuess(survey, "ch3", Quantity.AirTemperature, null, Certainty.Guess);
    }

    [Fact]
    public void A_name_that_its_values_contradict_is_only_a_guess()
    {
        var survey = Look(Invented("top up", "pump", "humidity"));
        Assert.Equal(Certainty.Guess, survey.Channels.Single(c => c.Name == "pump").Guess!.Certainty);
        var humidity = Look("time,humidity\n" + string.Join('\n', Enumerable.Range(0, 100).Select(i => $"{1_769_900_400 + (i * 600)},{900 + i}")));
        Assert.Equal(Certainty.Guess, humidity.Channels[0].Guess!.Certainty);
        Assert.Contains("odd for it", humidity.Channels[0].Guess!.Reason, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("Air temp (°F)", 70, Quantity.AirTemperature, 1 / 1.8, -32 / 1.8)]
    [InlineData("barometer", 1013, Quantity.AirPressure, 0.1, 0.0)]
    [InlineData("Pressure [hPa]", 1013, Quantity.AirPressure, 0.1, 0.0)]
    [InlineData("Wind (km/h)", 12, Quantity.WindSpeed, 1 / 3.6, 0.0)]
    [InlineData("RH", 0.55, Quantity.RelativeHumidity, 100.0, 0.0)]
    [InlineData("Sump level (cm)", 40, Quantity.Level, 10.0, 0.0)]
    [InlineData("PumpPower_kW", 0.09, Quantity.Power, 1000.0, 0.0)]
    [InlineData("water-temperature", 19, Quantity.WaterTemperature, 1.0, 0.0)]
    [InlineData("pH", 6.8, Quantity.Ph, 1.0, 0.0)]
    [InlineData("battery_voltage", 12.6, Quantity.BatteryVoltage, 1.0, 0.0)]
    [InlineData("Rain tank level", 800, Quantity.Level, 1.0, 0.0)]
    public void Units_in_headings_and_values_give_the_scale(string heading, double value, Quantity quantity, double scale, double offset)
    {
        var survey = Look($"time;{heading};other\n" + string.Join('\n', Enumerable.Range(0, 60).Select(i =>
            string.Create(CultureInfo.InvariantCulture, $"{1_769_900_400 + (i * 600)};{value + (i % 3 * 0.01 * value)};x"))));
        var guess = survey.Channels[0].Guess!;
        Assert.Equal((quantity, Math.Round(scale, 9), Math.Round(offset, 9)), (guess.Measures, Math.Round(guess.Scale, 9), Math.Round(guess.Offset, 9)));
        Assert.NotEqual(Certainty.Guess, guess.Certainty);
    }

    [Fact]
    public void Power_sun_rain_and_humidity_are_told_by_their_values()
    {
        var text = new StringBuilder("t,a,b,c,d\n");
        var random = new Random(3);
        for (int i = 0; i < 12 * 288; i++)
        {
            double hour = i % 288 / 12.0, day = Math.Max(0, Math.Sin((hour - 6) * Math.PI / 12));
            double power = i % 6 < 2 ? 84 + random.NextDouble() : 0.4;
            double rain = i % 700 < 5 ? 0.6 : 0;
            text.Append(CultureInfo.InvariantCulture, $"{1_769_900_400 + (i * 300)},{power:0.0},{850 * day * (0.6 + (0.4 * random.NextDouble())):0},{rain},{92 - (50 * day) + random.NextDouble():0.0}\n");
        }

        var survey = Look(text.ToString());
        Assert.Equal(
            [Quantity.Power, Quantity.SolarIrradiance, Quantity.Rain, Quantity.RelativeHumidity], survey.Channels.Select(c => c.Guess!.Measures));
        Assert.All(survey.Channels, c => Assert.Equal(Certainty.Guess, c.Guess!.Certainty));
        Assert.Equal("a count since 1970", survey.TimeForm);
    }

    [Fact]
    public void A_log_with_the_newest_rows_first_has_the_same_share_of_time_on()
    {
        string[] lines = Invented("pump", "topup", "air").Split('\n', StringSplitOptions.RemoveEmptyEntries);
        Array.Reverse(lines, 1, lines.Length - 1);
        Assert.InRange(Look(string.Join('\n', lines)).Channels.Single(c => c.Name == "pump").Statistics.ShareOn!.Value, 0.18, 0.22);
    }

    [Fact]
    public void What_is_no_log_is_refused_as_when_reading()
    {
        Assert.Equal("the file is empty", Assert.Throws<UnreadableFileException>(() => Look("")).What);
        Assert.StartsWith("no column holds times", Assert.Throws<UnreadableFileException>(() => Look("a,b\n1,2\n")).What, StringComparison.Ordinal);
    }

    [Fact]
    public void Days_written_month_first_do_not_stretch_the_log()
    {
        var start = new DateTime(2026, 1, 28);
        var survey = Look("when,name,state\n" + string.Join('\n', Enumerable.Range(0, 1500).Select(i =>
            string.Create(CultureInfo.InvariantCulture, $"{start.AddMinutes(12 * i):MM/dd/yyyy hh:mm tt},pump,{i % 2}"))));
        Assert.InRange(survey.Days, 12, 14);
        Assert.InRange(survey.Channels[0].Statistics.ChangesPerDay, 110, 125);
        Assert.Equal(Certainty.Sure, survey.Channels[0].Guess!.Certainty);
    }

    [Fact]
    public void A_plug_that_gives_watts_and_cycles_is_the_pumps()
    {
        var survey = Look("time,Plug 2 W,Plug 7 W\n" + string.Join('\n', Enumerable.Range(0, 2000).Select(i =>
            $"{1_769_900_400 + (i * 60)},{40 + (i % 2)},{(i % 20 < 6 ? 91 : 3)}")));
        AssertGuess(survey, "Plug 7 W", Quantity.Power, EquipmentKind.Pump, Certainty.Sure);
        Assert.Null(survey.Channels[0].Guess?.Equipment);
    }

    [Fact]
    public void A_float_switch_is_the_pumps_also_where_it_hardly_ever_stops()
    {
        var rows = Enumerable.Range(0, 40).SelectMany(i => new[] { $"{1_769_900_400 + (i * 86_400)},1", $"{1_769_900_400 + (i * 86_400) + 84_000},0" });
        var survey = Look("time,float switch\n" + string.Join('\n', rows));
        Assert.Equal((Quantity.Running, EquipmentKind.Pump), (survey.Channels[0].Guess!.Measures, survey.Channels[0].Guess!.Equipment));
        var unnamed = Look("time,ch 1\n" + string.Join('\n', rows));
        Assert.Equal((EquipmentKind.Pump, Certainty.Guess), (unnamed.Channels[0].Guess!.Equipment!.Value, unnamed.Channels[0].Guess!.Certainty));
    }

    private static void AssertGuess(LogSurvey survey, string name, Quantity quantity, EquipmentKind? equipment, Certainty certainty)
    {
        var guess = survey.Channels.Single(c => c.Name == name).Guess;
        Assert.NotNull(guess);
        Assert.Equal((name, quantity, equipment, certainty), (name, guess.Measures, guess.Equipment, guess.Certainty));
        Assert.NotEmpty(guess.Reason);
    }

    /// <summary>Ten invented days: a pump on for 4 of every 20 minutes, a top-up twice a day, air temperature by the quarter hour.</summary>
    private static string Invented(string pump, string topUp, string air)
    {
        var rows = new List<(int Second, string Name, double Value)>();
        for (int second = 0; second < 10 * 86_400; second += 1200)
        {
            rows.Add((second, pump, 1));
            rows.Add((second + 240, pump, 0));
        }

        for (int second = 30_000; second < 10 * 86_400; second += 43_200)
        {
            rows.Add((second, topUp, 1));
            rows.Add((second + 180, topUp, 0));
        }

        for (int second = 450; second < 10 * 86_400; second += 900)
            rows.Add((second, air, Math.Round(20 + (7 * Math.Sin(second / 86_400.0 * 2 * Math.PI)), 1)));
        var start = new DateTimeOffset(2026, 2, 1, 0, 0, 0, TimeSpan.Zero);
        return "time,channel,value\n" + string.Join('\n', rows.OrderBy(r => r.Second).Select(r =>
            string.Create(CultureInfo.InvariantCulture, $"{start.AddSeconds(r.Second):yyyy-MM-ddTHH:mm:sszzz},{r.Name},{r.Value}"))) + "\n";
    }

    private static LogSurvey Look(string text) =>
        LogSurveyor.Look(new MemoryStream(Encoding.UTF8.GetBytes(text)), null, TestContext.Current.CancellationToken);
}
