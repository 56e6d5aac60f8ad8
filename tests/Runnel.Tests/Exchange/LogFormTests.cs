using System.Text;
using NodaTime;
using Runnel.Exchange;
using Runnel.Exchange.Logs;
using Runnel.Place;

namespace Runnel.Tests.Exchange;

public sealed class LogFormTests
{
    private static readonly string[] Expected =
    [
        "sump-pump 2026-01-31T23:00:00Z 1", "air-temp 2026-01-31T23:00:00Z 21.5", "sump-pump 2026-01-31T23:01:00Z 0", "air-temp 2026-01-31T23:01:00Z 21.75",
    ];

    [Fact]
    public void A_column_a_channel_is_read_by_the_names_of_the_channels()
    {
        Assert.Equal(Expected, Logs.Lines(Logs.Read("time,sump-pump,air-temp\n2026-02-01 10:00,1,21.5\n2026-02-01 10:01,0,21.75\n")));
        Assert.Equal(Expected, Logs.Lines(Logs.Read("Timestamp;Sump Pump;AIR_TEMP (°C)\r\n01.02.2026 10:00;ein;21,5\r\n01.02.2026 10:01;aus;21,75\r\n")));
    }

    [Fact]
    public void Columns_may_be_told_by_a_mapping_and_others_are_passed_over_with_a_remark()
    {
        var options = LogReadOptions.Default with { Names = new Dictionary<string, string> { ["P1"] = "sump-pump", ["T"] = "air-temp", ["door"] = "" } };
        var log = Logs.Read("when,P1,T,door,battery,humidty\n2026-02-01 10:00,1,21.5,0,3.1,\n2026-02-01 10:01,0,21.75,1,3.1,\n", options: options);
        Assert.Equal(Expected, Logs.Lines(log));
        Assert.Equal(["Columns passed over, being no channels of the place: battery, humidty (nearest channel: humidity)."], log.Remarks);
    }

    [Fact]
    public void Names_in_a_long_log_may_be_mapped_too()
    {
        var options = LogReadOptions.Default with { Names = new Dictionary<string, string> { ["relay 3"] = "sump-pump", ["outside"] = "air-temp" } };
        var log = Logs.Read(
            "time,name,state\n2026-02-01 10:00,Relay 3,on\n2026-02-01 10:00,outside,21.5\n2026-02-01 10:01,relay 3,off\n2026-02-01 10:01,Outside,21.75\n", options: options);
        Assert.Equal(Expected, Logs.Lines(log));
    }

    [Fact]
    public void A_channel_may_have_another_name_in_the_log()
    {
        var place = Logs.In("Australia/Sydney", new Channel("lift", Quantity.Power, Column: "Relay 3 / pump (W)"));
        Assert.Equal(["lift 2026-01-31T23:00:00Z 85"], Logs.Lines(Logs.Read("time,Relay 3 / pump (W)\n2026-02-01 10:00,85\n", place), place));
        Assert.Equal(["lift 2026-01-31T23:00:00Z 85"], Logs.Lines(Logs.Read("time,name,value\n2026-02-01 10:00,relay 3/pump,85\n", place), place));
        Assert.Equal(["lift 2026-01-31T23:00:00Z 85"], Logs.Lines(Logs.Read("time,channel,value\n2026-02-01 10:00,lift,85\n", place), place));
    }

    [Theory]
    [InlineData("time\tchannel\tvalue\n2026-02-01 10:00\tsump-pump\t1\n2026-02-01 10:00\tair-temp\t21,5\n2026-02-01 10:01\tsump-pump\t0\n2026-02-01 10:01\tair-temp\t21,75")]
    [InlineData("TIME;CHANNEL;VALUE\r\n2026-02-01 10:00;sump-pump;1\r\n2026-02-01 10:00;air-temp;21,5\r\n2026-02-01 10:01;sump-pump;0\r\n2026-02-01 10:01;air-temp;21,75\r\n")]
    [InlineData("sep=;\r\nTime;Channel;Value\r\n2026-02-01 10:00;sump-pump;1\r\n2026-02-01 10:00;air-temp;21,5\r\n2026-02-01 10:01;sump-pump;0\r\n2026-02-01 10:01;air-temp;21,75\r\n")]
    [InlineData("time,channel,value\n2026-02-01 10:00,sump-pump,1\n2026-02-01 10:00,air-temp,\"21,5\"\n2026-02-01 10:01,sump-pump,0\n2026-02-01 10:01,air-temp,\"21,75\"")]
    [InlineData("time,channel,value\n2026-02-01 10:00,sump-pump,1\n2026-02-01 10:00,air-temp,21,5\n2026-02-01 10:01,sump-pump,0\n2026-02-01 10:01,air-temp,21,75")]
    [InlineData("Export of logger 7\n# made on a rainy day\n\ntime,channel,value\n\n2026-02-01 10:00,sump-pump,1\n,,\n2026-02-01 10:00,air-temp,21.5\n   \n2026-02-01 10:01,sump-pump,0\n2026-02-01 10:01,air-temp,21.75\n\n\n")]
    [InlineData("Site,Backyard\nDate,2026-03-01\ntime,channel,value\n2026-02-01 10:00,sump-pump,1\n2026-02-01 10:00,air-temp,21.5\n2026-02-01 10:01,sump-pump,0\n2026-02-01 10:01,air-temp,21.75\n")]
    [InlineData("value,unit,channel,time,quality\n1,,sump-pump,2026-02-01 10:00,good\n21.5,degC,air-temp,2026-02-01 10:00,good\n0,,sump-pump,2026-02-01 10:01,good\n21.75,°C,air-temp,2026-02-01 10:01,good")]
    [InlineData("\"time\",\"channel\",\"value\"\n\"2026-02-01 10:00\",\"sump-pump\",\"on\"\n\"2026-02-01 10:00\",\"air-temp\",\"21.5 °C\"\n\"2026-02-01 10:01\",\"sump-pump\",\"off\"\n\"2026-02-01 10:01\",\"air-temp\",\"21.75°C\"")]
    [InlineData("time | channel | value\r2026-02-01 10:00 | sump-pump | true\r2026-02-01 10:00 | air-temp | 21.5\r2026-02-01 10:01 | sump-pump | false\r2026-02-01 10:01 | air-temp | 21.75\r")]
    [InlineData("2026-02-01 10:00,sump-pump,1\n2026-02-01 10:00,air-temp,21.5\n2026-02-01 10:01,sump-pump,0\n2026-02-01 10:01,air-temp,21.75\n")]
    [InlineData("moment,channel,value\n2026-02-01 10:00,sump-pump,1\n2026-02-01 10:00,air-temp,21.5\n2026-02-01 10:01,sump-pump,0\n2026-02-01 10:01,air-temp,21.75\n")]
    public void The_same_log_reads_the_same_in_every_dress(string text) => Assert.Equal(Expected, Logs.Lines(Logs.Read(text)));

    [Fact]
    public void Byte_order_marks_and_encodings_do_not_matter()
    {
        string text = "time;channel;value\n2026-02-01 10:00;sump-pump;1\n2026-02-01 10:00;air-temp;21,5 °C\n2026-02-01 10:01;sump-pump;0\n2026-02-01 10:01;air-temp;21,75 °C\n";
        foreach (var encoding in new[] { new UTF8Encoding(false), new UTF8Encoding(true), Encoding.Unicode, Encoding.BigEndianUnicode, Encoding.Latin1 })
            Assert.Equal(Expected, Logs.Lines(Logs.Read([.. encoding.GetPreamble(), .. encoding.GetBytes(text)])));
        foreach (var encoding in new[] { Encoding.Unicode, Encoding.BigEndianUnicode })
            Assert.Equal(Expected, Logs.Lines(Logs.Read(encoding.GetBytes(text))));
    }

    [Fact]
    public void A_log_of_one_channel_needs_no_channel_column()
    {
        var place = Logs.Place with { Channels = [Logs.Place.Channels[0]] };
        Assert.Equal(["sump-pump 2026-01-31T23:00:00Z 1"], Logs.Lines(Logs.Read("time,state\n2026-02-01 10:00,on\n", place), place));
    }

    [Theory]
    [InlineData("1", 1)]
    [InlineData("0", 0)]
    [InlineData("ON", 1)]
    [InlineData("off", 0)]
    [InlineData("True", 1)]
    [InlineData("FALSE", 0)]
    [InlineData("open", 1)]
    [InlineData("Closed", 0)]
    [InlineData("running", 1)]
    [InlineData("Stopped", 0)]
    [InlineData("1.0", 1)]
    [InlineData("100", 1)]
    public void Switches_are_read_in_words_and_numbers(string written, double value) =>
        Assert.Equal(value, Logs.Read($"time,channel,value\n2026-02-01 10:00,sump-pump,{written}\n").Readings[0].Value);

    [Theory]
    [InlineData("1234.5", 1234.5)]
    [InlineData("\"1,234.5\"", 1234.5)]
    [InlineData("\"1.234,5\"", 1234.5)]
    [InlineData("\"1,234\"", 1234)]
    [InlineData("\"12,34\"", 12.34)]
    [InlineData("1 234.5", 1234.5)]
    [InlineData("1.2345e3", 1234.5)]
    [InlineData("+7", 7)]
    [InlineData(".5", 0.5)]
    [InlineData("850 W", 850)]
    public void Numbers_are_read_as_people_write_them(string written, double value)
    {
        var place = Logs.In("Australia/Sydney", new Channel("power", Quantity.Power));
        Assert.Equal(value, Logs.Read($"time,channel,value\n2026-02-01 10:00,power,{written}\n", place).Readings[0].Value);
    }

    [Theory]
    [InlineData("unavailable", "no value")]
    [InlineData("NaN", "no value")]
    [InlineData("unknown", "no value")]
    [InlineData("-inf", "no value")]
    [InlineData("#N/A", "no value")]
    [InlineData("1e999", "value not understood")]
    [InlineData("warm", "value not understood")]
    [InlineData("21.5 kg", "value not understood")]
    [InlineData("-127", "value outside -70 to 70 degC")]
    [InlineData("on", "value not understood")]
    public void A_value_that_is_none_is_skipped_with_its_reason(string written, string reason)
    {
        var log = Logs.Read($"time,channel,value\n2026-02-01 10:00,air-temp,20\n2026-02-01 10:01,air-temp,{written}\n");
        Assert.Single(log.Readings);
        Assert.Contains(reason, Assert.Single(log.Skipped).Reason, StringComparison.Ordinal);
    }

    [Fact]
    public void Scale_and_offset_give_the_unit_and_the_range_is_checked_in_it()
    {
        var place = Logs.In(
            "Australia/Sydney", new Channel("gauge", Quantity.Rain, Scale: 0.2), new Channel("contact", Quantity.Running, "sump-pump", Scale: -1, Offset: 1),
            new Channel("level", Quantity.Level, Least: 0, Greatest: 900));
        var log = Logs.Read(
            "time,gauge,contact,level\n2026-02-01 10:00,3,on,950\n2026-02-01 10:01,0,0,120\n2026-02-01 10:02,,,-5\n", place);
        Assert.Equal(
            ["gauge 0.6", "contact 0", "gauge 0", "contact 1", "level 120"],
            log.Readings.Select(r => FormattableString.Invariant($"{place.Channels[r.Channel].Id} {Math.Round(r.Value, 9)}")));
        Assert.Equal(("level: value outside 0 to 900 mm (first: 950)", 2L, 2L), (log.Skipped[0].Reason, log.Skipped[0].Count, log.Skipped[0].FirstLine));
    }

    [Theory]
    [InlineData("air-temp", "70.7 °F", 21.5)]
    [InlineData("air-temp", "70.7F", 21.5)]
    [InlineData("power", "1.2 kW", 1200)]
    [InlineData("power", "1200 w", 1200)]
    [InlineData("level", "35.5 cm", 355)]
    [InlineData("level", "3.55 dm", 355)]
    [InlineData("humidity", "55 %RH", 55)]
    [InlineData("sun", "800 W/m²", 800)]
    public void A_unit_behind_the_value_or_beside_it_is_turned_into_that_of_the_channel(string channel, string written, double value)
    {
        // A scale in the place file is for values that do not say their unit.
        var place = Logs.In("Australia/Sydney", new Channel("power", Quantity.Power, Scale: 1000), new Channel("level", Quantity.Level));
        int gap = written.AsSpan().IndexOfAnyExceptInRange('.', '9');
        foreach (string row in (string[])[$"{channel},{written},", $"{channel},{written[..gap]},{written[gap..].Trim()}"])
            Assert.Equal(value, Logs.Read($"time,channel,value,unit\n2026-02-01 10:00,{row}\n", place).Readings[0].Value, 9);
    }

    [Fact]
    public void A_unit_in_the_heading_counts_unless_the_place_file_has_its_own_scale()
    {
        var log = Logs.Read("time,Air temp (°F)\n2026-02-01 10:00,70.7\n");
        Assert.Equal(21.5, log.Readings[0].Value, 9);
        Assert.Equal(["Column \"Air temp (°F)\" was turned into degC."], log.Remarks);
        var place = Logs.In("Australia/Sydney", new Channel("outside", Quantity.AirTemperature, Scale: 0.5, Offset: -10));
        Assert.Equal(25, Logs.Read("time,Outside (°F)\n2026-02-01 10:00,70\n", place).Readings[0].Value);
    }

    [Fact]
    public void Small_offsets_of_healthy_sensors_are_clipped_not_lost()
    {
        var log = Logs.Read("time,humidity,sun\n2026-02-01 10:00,100.4,-3\n2026-02-01 10:01,101.9,-0.2\n2026-02-01 10:02,99,800\n");
        Assert.Equal([100, 0, 100, 0, 99, 800], log.Readings.Select(r => r.Value));
        Assert.Empty(log.Skipped);
    }

    [Fact]
    public void A_jumping_or_stuck_sensor_is_left_to_the_watches()
    {
        string[] rows = [.. Enumerable.Range(0, 200).Select(i => $"{1_769_900_400 + (i * 60)},air-temp,{(i < 100 ? "21.3" : i % 2 == 0 ? "-12" : "58")}")];
        Assert.Equal(200, Logs.Read("time,channel,value\n" + string.Join('\n', rows)).Readings.Count);
    }

    [Fact]
    public void Hectopascals_are_recognised_and_the_remedy_named()
    {
        var place = Logs.In("Australia/Sydney", new Channel("barometer", Quantity.AirPressure));
        var error = Logs.Refused("time,barometer\n2026-02-01 10:00,1013.2\n", place);
        Assert.Contains("for hPa give scale = 0.1", error.What, StringComparison.Ordinal);
    }

    [Fact]
    public void Rows_too_short_or_too_long_are_counted()
    {
        var log = Logs.Read("time,channel,value\n2026-02-01 10:00,air-temp,20\n2026-02-01 10:01,air-temp\n2026-02-01 10:02\n");
        Assert.Equal(("fewer fields than the header", 2L, 3L), (log.Skipped[0].Reason, log.Skipped[0].Count, log.Skipped[0].FirstLine));
        var wide = Logs.Read("time,air-temp,humidity\n2026-02-01 10:00,20,50,\n2026-02-01 10:01,20,5,50,1\n2026-02-01 10:02,20\n");
        Assert.Equal(3, wide.Readings.Count);
        Assert.Contains("more fields than the header", Assert.Single(wide.Skipped).Reason, StringComparison.Ordinal);
    }

    [Fact]
    public void A_note_with_a_line_break_in_quotes_does_not_shift_line_numbers()
    {
        var log = Logs.Read("time,channel,value,note\n2026-02-01 10:00,air-temp,20,\"warm,\nand \"\"still\"\"\"\n2026-02-01 10:01,air-temp,hot,\n");
        Assert.Equal(4, Assert.Single(log.Skipped).FirstLine);
    }

    [Fact]
    public void Unknown_channels_are_named_with_the_nearest()
    {
        var log = Logs.Read("time,channel,value\n2026-02-01 10:00,air-temp,20\n2026-02-01 10:01,air-tmp,20\n2026-02-01 10:02,greenhouse,20\n");
        Assert.Equal(
            ["\"air-tmp\" is no channel of the place (nearest: air-temp)", "\"greenhouse\" is no channel of the place"], log.Skipped.Select(s => s.Reason));
    }

    [Fact]
    public void Progress_ends_at_the_length_of_the_file()
    {
        byte[] bytes = Encoding.UTF8.GetBytes("time,channel,value\n" + string.Concat(Enumerable.Repeat("2026-02-01 10:00,air-temp,20\n", 100_000)));
        var seen = new List<long>();
        LogReader.Read(new MemoryStream(bytes), Logs.Place, LogReadOptions.Default, new Direct(seen), TestContext.Current.CancellationToken);
        Assert.Equal(bytes.Length, seen[^1]);
        Assert.True(seen.Count > 2 && seen.Zip(seen.Skip(1)).All(p => p.First <= p.Second));
    }

    [Fact]
    public void Reading_can_be_stopped()
    {
        using var stop = new CancellationTokenSource();
        stop.Cancel();
        Assert.Throws<OperationCanceledException>(() =>
            LogReader.Read(new MemoryStream("time,channel,value\n"u8.ToArray()), Logs.Place, LogReadOptions.Default, null, stop.Token));
    }

    private sealed class Direct(List<long> seen) : IProgress<long>
    {
        public void Report(long value) => seen.Add(value);
    }
}
