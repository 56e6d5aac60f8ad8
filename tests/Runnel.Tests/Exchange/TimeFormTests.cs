using NodaTime;
using NodaTime.Text;
using Runnel.Exchange;

namespace Runnel.Tests.Exchange;

public sealed class TimeFormTests
{
    // Source: RFC 3339 (Klyne and Newman, 2002), sections 5.7 and 5.8, and the IANA time zone rules, as computed with python-dateutil 2.8.2.
    [Fact, Trait("source", "RFC 3339 and IANA zones")]
    public void Published_times_are_understood_and_published_bad_ones_refused()
    {
        int good = 0, bad = 0, local = 0;
        string[] lines = File.ReadAllLines(Path.Combine(AppContext.BaseDirectory, "Published", "time.csv"));
        foreach (string[] fields in lines.Skip(1).Select(l => l.Split(',')))
        {
            string name = fields[0];
            var inputs = Pairs(fields[2]);
            if (name.StartsWith("rfc3339-invalid", StringComparison.Ordinal))
            {
                Logs.Refused($"time,channel,value\n{inputs["input"]},sump-pump,1\n");
                bad++;
            }
            else if (name == "rfc3339-leap-second")
            {
                Assert.Equal(662688000, One(inputs["input"]).ToUnixTimeSeconds());
                good++;
            }
            else if (name.StartsWith("rfc3339-utc", StringComparison.Ordinal))
            {
                Assert.Equal((name, At(Pairs(fields[3])["utc"])), (name, One(inputs["input"])));
                good++;
            }
            else if (name.StartsWith("local-to-utc", StringComparison.Ordinal))
            {
                Assert.Equal((name, At(Pairs(fields[3])["utc"])), (name, One(inputs["local"], inputs["zone"])));
                local++;
            }
        }

        Assert.Equal((5, 4, 5), (good, bad, local));
    }

    // Source: the same table, cases local-ambiguous and local-missing-2.
    [Fact, Trait("source", "IANA zones")]
    public void An_hour_that_occurs_twice_is_resolved_by_order_and_one_that_never_was_is_moved()
    {
        var twice = Logs.Read(
            """
            time,channel,value
            2024-11-03T01:30:00,air-temp,10
            2024-11-03T01:30:00,air-temp,11
            """, Logs.In("America/New_York"));
        Assert.Equal([At("2024-11-03T05:30:00Z"), At("2024-11-03T05:30:00Z")], twice.Readings.Select(r => r.Time));
        var coarse = Logs.Read(
            """
            time,channel,value
            2024-11-03T01:00:00,air-temp,9
            2024-11-03T01:30:00,air-temp,10
            2024-11-03T01:00:00,air-temp,11
            2024-11-03T01:30:00,air-temp,12
            2024-11-03T02:00:00,air-temp,12
            """, Logs.In("America/New_York"));
        Assert.Equal(
            ["05:00", "05:30", "06:00", "06:30", "07:00"], coarse.Readings.Select(r => r.Time.ToString("HH:mm", null)));
        Assert.Empty(coarse.ClockSteps);
        var missing = Logs.Read("time,channel,value\n2024-03-31T00:30:00,air-temp,9\n2024-03-31T01:10:00,air-temp,9\n2024-03-31T01:20:00,air-temp,9\n" +
            "2024-03-31T01:30:00,air-temp,9\n2024-03-31T02:30:00,air-temp,9\n2024-03-31T03:40:00,air-temp,9\n", Logs.In("Europe/Berlin"));
        Assert.Equal(At("2024-03-31T01:30:00Z"), missing.Readings[4].Time);
        Assert.Contains(missing.Remarks, r => r.Contains("02:30 on 2024-03-31", StringComparison.Ordinal));
    }

    [Theory]
    [InlineData("2026-02-01T10:00:00+11:00")]
    [InlineData("2026-02-01t10:00:00+11:00")]
    [InlineData("2026-02-01 10:00:00+1100")]
    [InlineData("2026-02-01 10:00:00 +11")]
    [InlineData("2026-01-31T23:00:00Z")]
    [InlineData("2026-01-31 23:00 UTC")]
    [InlineData("2026-02-01 10:00 UTC+11:00")]
    [InlineData("2026-02-01T10:00:00")]
    [InlineData("2026-02-01 10:00")]
    [InlineData("2026/02/01 10:00:00")]
    [InlineData("2026-2-1 10:00")]
    [InlineData("20260201T100000")]
    [InlineData("20260201 10:00:00")]
    [InlineData("20260201100000")]
    [InlineData("202602011000")]
    [InlineData("01.02.2026 10:00")]
    [InlineData("1.2.2026 10:00:00")]
    [InlineData("01.02.26 10.00")]
    [InlineData("01/02/2026 10:00")]
    [InlineData("01/02/2026, 10:00:00")]
    [InlineData("1/2/26 10:00 AM")]
    [InlineData("01-02-2026 10:00")]
    [InlineData("1 Feb 2026 10:00")]
    [InlineData("01-Feb-2026 10:00:00")]
    [InlineData("Feb 1, 2026 10:00 AM")]
    [InlineData("1 February 2026, 10:00 a.m.")]
    [InlineData("Sun, 01 Feb 2026 10:00:00 +1100")]
    [InlineData("46054.4166666667")]
    [InlineData("46054,41667")]
    [InlineData("1769900400")]
    [InlineData("1769900400.0")]
    [InlineData("1769900400000")]
    [InlineData("1769900400000000")]
    [InlineData("  2026-02-01T10:00:00.000+11:00  ")]
    [InlineData("2026-02-01T10:00:00,000+11:00")]
    public void Every_usual_form_of_one_moment_is_understood(string written)
    {
        var time = One(Quoted(written));
        Assert.InRange((time - At("2026-01-31T23:00:00Z")).TotalSeconds, -0.5, 0.5);
    }

    [Theory]
    [InlineData("2026-02-01T12:00:00 PM", "2026-02-01T01:00:00Z")]
    [InlineData("2026-02-01 12:30 AM", "2026-01-31T13:30:00Z")]
    [InlineData("2026-02-01 9:05:07 pm", "2026-02-01T10:05:07Z")]
    [InlineData("2026-02-01T24:00:00", "2026-02-01T13:00:00Z")]
    [InlineData("2026-02-01", "2026-01-31T13:00:00Z")]
    [InlineData("2026-02-01T10:00:00.1234567Z", "2026-02-01T10:00:00.1234567Z")]
    [InlineData("1769900400.25", "2026-01-31T23:00:00.25Z")]
    public void Halves_of_the_day_midnight_and_fractions_are_kept(string written, string moment) =>
        Assert.Equal(At(moment), One(written));

    [Theory]
    [InlineData("yesterday")]
    [InlineData("10:00:00")]
    [InlineData("2026-02-30 10:00")]
    [InlineData("2026-02-01 25:00")]
    [InlineData("2026-02-01 10:60")]
    [InlineData("2026-02-01T10:00:00+99:00")]
    [InlineData("2026-02-01 13:00 PM")]
    [InlineData("31/31/2026 10:00")]
    [InlineData("1.76E+09")]
    [InlineData("2026-02-01T10:00:00 or so")]
    [InlineData("12")]
    public void What_is_no_time_is_not_guessed_at(string written)
    {
        var error = Logs.Refused($"time,channel,value\n{written},sump-pump,1\n");
        Assert.Contains("time not understood", error.What, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("14/02/2026 10:00", "2026-02-14T10:00:00Z", "day first")]
    [InlineData("02/14/2026 10:00", "2026-02-14T10:00:00Z", "month first")]
    public void One_date_without_doubt_decides_for_the_whole_column(string sure, string moment, string said)
    {
        var log = Logs.Read($"time,channel,value\n03/02/2026 10:00,air-temp,20\n{sure},air-temp,21\n", Logs.In("Etc/UTC"));
        Assert.Contains(At(moment), log.Readings.Select(r => r.Time));
        Assert.Contains(At(said == "day first" ? "2026-02-03T10:00:00Z" : "2026-03-02T10:00:00Z"), log.Readings.Select(r => r.Time));
        Assert.Contains(log.Remarks, r => r.Contains($"03/02/2026 were read {said}", StringComparison.Ordinal));
    }

    [Fact]
    public void Days_that_follow_one_another_decide_where_no_date_is_sure()
    {
        string[] days = [.. Enumerable.Range(1, 6).Select(d => $"{d:00}/02/2026 10:00,air-temp,20")];
        var dayFirst = Logs.Read("time,channel,value\n" + string.Join('\n', days), Logs.In("America/New_York"));
        Assert.All(dayFirst.Readings, r => Assert.Equal(2, r.Time.InUtc().Month));
        string[] months = [.. Enumerable.Range(1, 6).Select(d => $"02/{d:00}/2026 10:00,air-temp,20")];
        var monthFirst = Logs.Read("time,channel,value\n" + string.Join('\n', months), Logs.In("Europe/Berlin"));
        Assert.All(monthFirst.Readings, r => Assert.Equal(2, r.Time.InUtc().Month));
    }

    [Theory]
    [InlineData("America/New_York", 3)]
    [InlineData("Europe/Berlin", 2)]
    public void A_single_open_day_is_read_as_is_usual_in_the_zone(string zone, int month)
    {
        var log = Logs.Read("time,channel,value\n03/02/2026 10:00,air-temp,20\n03/02/2026 11:00,air-temp,20\n", Logs.In(zone));
        Assert.All(log.Readings, r => Assert.Equal(month, r.Time.InUtc().Month));
        Assert.Contains(log.Remarks, r => r.Contains("custom", StringComparison.Ordinal));
    }

    [Theory]
    [InlineData("time (UTC)", "2026-02-01T10:00:00Z")]
    [InlineData("Timestamp_UTC", "2026-02-01T10:00:00Z")]
    [InlineData("Time [UTC+10:00]", "2026-02-01T00:00:00Z")]
    [InlineData("Date/Time", "2026-01-31T23:00:00Z")]
    public void A_heading_may_name_the_offset(string heading, string moment) =>
        Assert.Equal(At(moment), Logs.Read($"{heading},channel,value\n2026-02-01 10:00,air-temp,20\n").Readings[0].Time);

    [Fact]
    public void Date_and_time_may_stand_in_two_columns()
    {
        var log = Logs.Read("Date;Time;Channel;Value\n01.02.2026;10:00:05;air-temp;20,5\n");
        Assert.Equal(["air-temp 2026-01-31T23:00:05Z 20.5"], Logs.Lines(log));
    }

    private static Instant At(string utc) => InstantPattern.ExtendedIso.Parse(utc).Value;

    private static Instant One(string written, string zone = "Australia/Sydney") =>
        Logs.Read($"time,channel,value\n{written},sump-pump,1\n", Logs.In(zone)).Readings.Single().Time;

    private static string Quoted(string field) => $"\"{field}\"";

    private static Dictionary<string, string> Pairs(string text) =>
        text.Split("; ").Select(p => p.Split('=', 2)).Where(p => p.Length == 2).ToDictionary(p => p[0], p => p[1]);
}
