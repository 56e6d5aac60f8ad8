using System.Text;
using CsCheck;
using Runnel.Exchange;
using Runnel.Exchange.Logs;

namespace Runnel.Tests.Exchange;

public sealed class RefusedLogTests
{
    [Theory]
    [InlineData("", "1:1: the file is empty")]
    [InlineData("\n \n\n", "1:1: the file is empty")]
    [InlineData("time,channel,value\n", "1:1: there is a header but no readings below it")]
    [InlineData("just some words\nand more\n", "1:1: the lines have no separators (found: just some words)")]
    [InlineData("a,b,c\n1,2,3\n4,5,6\n", "1:1: no column holds times (found: a, b, c)")]
    [InlineData("time,door,light\n2026-02-01 10:00,1,2\n", "1:1: no column is a channel of the place (columns: time, door, light; channels: sump-pump, top-up-valve, air-temp, humidity, sun)")]
    [InlineData("time,channel,value\nx,sump-pump,1\n2026-02-01 10:00,pmp,1\n2026-02-01 10:00,air-temp,warm\n2026-02-01 10:00,sun,bright\n",
        "2:1: no row could be read (line 2: time not understood (first: \"x\"); line 3: \"pmp\" is no channel of the place; line 4: air-temp: value not understood (first: \"warm\"))")]
    public void A_log_that_cannot_be_read_says_where_and_why(string text, string start)
    {
        var error = Logs.Refused(text);
        Assert.StartsWith(start, error.Message, StringComparison.Ordinal);
        Assert.EndsWith(".", error.Message, StringComparison.Ordinal);
        Assert.NotEmpty(error.Remedy);
    }

    [Theory]
    [InlineData(new byte[] { 0x89, (byte)'P', (byte)'N', (byte)'G', 13, 10, 26, 10, 0, 0 }, "a PNG picture")]
    [InlineData(new byte[] { 0xFF, 0xD8, 0xFF, 0xE0, 0, 16 }, "a JPEG picture")]
    [InlineData(new byte[] { (byte)'P', (byte)'K', 3, 4, 20, 0 }, "a spreadsheet (xlsx, ods) or zip archive")]
    [InlineData(new byte[] { 0, 1, 2, 3, 4, 5, 6, 7, 8, 200, 201, 0, 0, 1, 99 }, "a binary file")]
    public void Files_of_other_kinds_are_recognised(byte[] bytes, string what)
    {
        var error = Assert.Throws<UnreadableFileException>(() => Logs.Read(bytes));
        Assert.Equal($"1:1: this is {what}, not comma-separated text. Save or export the readings as CSV.", error.Message);
    }

    [Fact]
    public void A_named_time_column_must_be_there()
    {
        var error = Logs.Refused("a,b\n1,2\n", options: LogReadOptions.Default with { TimeColumn = "when" });
        Assert.Equal("there is no column \"when\" (columns: a, b)", error.What);
    }

    [Fact]
    public void More_readings_than_fit_are_refused_with_the_remedy()
    {
        string text = "time,channel,value\n" + string.Join('\n', Enumerable.Range(0, 100).Select(i => $"{1_769_900_400 + i},air-temp,20"));
        var error = Logs.Refused(text, options: LogReadOptions.Default with { MostReadings = 50 });
        Assert.Equal((52L, "the log holds more than 50 readings"), (error.Line, error.What));
    }

    [Fact]
    public void A_log_far_too_long_is_refused_at_once()
    {
        // Forty bytes a row: two gigabytes would be some fifty million rows.
        using var huge = new EndlessLog(2_000_000_000);
        var error = Assert.Throws<UnreadableFileException>(() => LogReader.Read(
            huge, Logs.Place, LogReadOptions.Default with { MostReadings = 3_000_000 }, null, TestContext.Current.CancellationToken));
        Assert.Matches("^the log holds about [0-9]+ million readings, more than the 3 million that fit$", error.What);
        Assert.True(huge.Position < 100_000_000);
    }

    [Fact]
    public void Too_many_columns_are_refused()
    {
        string header = "time," + string.Join(',', Enumerable.Range(0, 6000).Select(i => $"c{i}"));
        Assert.Equal("there are more than 5000 columns", Logs.Refused(header + "\n2026-02-01 10:00\n").What);
    }

    [Fact]
    public void Any_bytes_are_read_or_refused_but_never_crash() =>
        Gen.Byte.Array[0, 400].Sample(bytes => ReadsOrRefuses(bytes), iter: 2000);

    [Fact]
    public void Any_text_of_the_usual_characters_is_read_or_refused()
    {
        var text = Gen.String[Gen.Char["time,channelvue0123456789-:.TZ+\n\r\"; \tsump-airé"], 0, 300];
        string[] heads = ["", "time,channel,value\n", "time,air-temp\n", "date;time;channel;value\n"];
        Gen.Select(Gen.Int[0, heads.Length - 1], text)
            .Sample((head, rest) => ReadsOrRefuses(Encoding.UTF8.GetBytes(heads[head] + rest)), iter: 3000);
    }

    [Fact]
    public void A_damaged_log_is_read_or_refused_but_never_crashes()
    {
        byte[] good = Encoding.UTF8.GetBytes("time,channel,value\n" + string.Join('\n', Enumerable.Range(0, 30).Select(i =>
            $"2026-0{1 + (i % 9)}-0{1 + (i % 9)}T10:{i:00}:00,{(i % 2 == 0 ? "sump-pump" : "air-temp")},{i % 2}")));
        Gen.Select(Gen.Int[0, good.Length - 1], Gen.Byte, Gen.Int[0, 3]).Array[1, 12].Sample(damage =>
        {
            var bytes = new List<byte>(good);
            foreach (var (at, value, how) in damage)
            {
                int place = at % bytes.Count;
                if (how == 0) bytes[place] = value;
                else if (how == 1) bytes.RemoveAt(place);
                else if (how == 2) bytes.Insert(place, value);
                else bytes.InsertRange(place, bytes.Skip(place).Take(20).ToArray());
            }

            return ReadsOrRefuses([.. bytes]);
        }, iter: 3000);
    }

    private static bool ReadsOrRefuses(byte[] bytes)
    {
        try
        {
            var log = Logs.Read(bytes);
            return log.Readings.Count > 0 && log.Readings.All(r => double.IsFinite(r.Value)) &&
                log.Readings.Zip(log.Readings.Skip(1)).All(p => p.First.Time <= p.Second.Time);
        }
        catch (UnreadableFileException error)
        {
            return error.Line >= 1 && error.Column >= 1 && error.Message.Length < 900;
        }
    }
}
