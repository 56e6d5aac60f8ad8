using System.Globalization;
using System.Text;
using CsCheck;
using NodaTime;
using Runnel.Exchange.Logs;
using Runnel.Place;

namespace Runnel.Tests.Exchange;

public sealed class RowOrderTests
{
    private static readonly Instant Start = Instant.FromUtc(2026, 1, 15, 0, 0);

    [Fact]
    public void Rows_out_of_order_are_sorted_and_counted()
    {
        var log = Read(Row(0, "sump-pump", 1), Row(600, "sump-pump", 0), Row(300, "air-temp", 20), Row(1200, "sump-pump", 1), Row(900, "sump-pump", 0));
        Assert.Equal([0, 300, 600, 900, 1200], Seconds(log));
        Assert.Contains("1 readings were out of order and were sorted by time.", log.Remarks);
        Assert.Empty(log.ClockSteps);
    }

    [Fact]
    public void The_order_of_rows_does_not_matter()
    {
        var gen = Gen.Select(Gen.Int[0, 40 * 86_400], Gen.Int[0, 1], (second, channel) => (second, channel)).Array[40, 300];
        Gen.Select(gen, Gen.Int[0, int.MaxValue]).Sample((rows, seed) =>
        {
            string[] sorted = [.. rows.DistinctBy(r => r).Select((r, i) => Row(r.second, r.channel == 0 ? "air-temp" : "humidity", i % 50)).Order(StringComparer.Ordinal)];
            string[] shuffled = [.. sorted];
            new Random(seed).Shuffle(shuffled);
            var a = Read(sorted);
            var b = Read(shuffled);
            return a.Readings.OrderBy(r => (r.Time, r.Channel)).SequenceEqual(b.Readings.OrderBy(r => (r.Time, r.Channel))) &&
                b.ClockSteps.Count == 0 && b.Skipped.Count == 0;
        }, iter: 200);
    }

    [Fact]
    public void A_file_with_the_newest_rows_first_is_turned_round()
    {
        string[] rows = [.. Cycles(0, 200)];
        var forward = Read(rows);
        Array.Reverse(rows);
        var backward = Read(rows);
        Assert.Equal(forward.Readings, backward.Readings);
        Assert.Empty(backward.ClockSteps);
        Assert.Contains(backward.Remarks, r => r.StartsWith("The newest rows stand first", StringComparison.Ordinal));
    }

    [Fact]
    public void A_file_sorted_by_channel_has_no_clock_steps()
    {
        string[] rows = [.. Cycles(0, 300), .. Every(0, 600, 200, "air-temp"), .. Every(0, 3600, 40, "humidity")];
        var log = Read(rows);
        Assert.Empty(log.ClockSteps);
        Assert.Empty(log.Skipped);
        Assert.Empty(log.Remarks);
        Assert.Equal(rows.Length, log.Readings.Count);
        Assert.True(log.Readings.Zip(log.Readings.Skip(1)).All(p => p.First.Time <= p.Second.Time));
    }

    [Fact]
    public void Repeated_rows_are_dropped_and_counted()
    {
        string[] rows = [.. Cycles(0, 40)];
        var log = Read([.. rows, .. rows[20..], rows[^1]]);
        Assert.Equal(Read(rows).Readings, log.Readings);
        var repeated = Assert.Single(log.Skipped);
        Assert.Equal(("repeated row", 21L), (repeated.Reason, repeated.Count));
        Assert.Empty(log.ClockSteps);
    }

    [Fact]
    public void A_switch_may_chatter_within_one_second()
    {
        var log = Read(Row(0, "sump-pump", 1), Row(0, "sump-pump", 0), Row(0, "sump-pump", 1), Row(0, "sump-pump", 1), Row(60, "sump-pump", 0));
        Assert.Equal([1, 0, 1, 0], log.Readings.Select(r => r.Value));
        Assert.Equal(("repeated row", 1L), (log.Skipped[0].Reason, log.Skipped[0].Count));
    }

    [Theory]
    [InlineData(-1_768_437_000L)] // to 1970
    [InlineData(-821_752_200L)] // to 2000
    [InlineData(-(366 * 86_400L) - 1700)] // a year lost, set by hand
    [InlineData(-(365 * 86_400L) + 1700)]
    [InlineData(1_200_001_800L)] // far ahead
    [InlineData((90 * 86_400L) + 1800)] // a season ahead
    [InlineData(-(90 * 86_400L) + 1800)]
    public void A_stretch_with_impossible_times_is_left_out_and_does_not_stretch_the_log(long wrong)
    {
        // 40 days of cycles; for one day the clock is wrong.
        string[] before = [.. Cycles(0, 1000)], bad = [.. Cycles(600_000 + wrong, 100)], after = [.. Cycles(660_000, 3000)];
        var log = Read([.. before, .. bad, .. after]);
        Assert.Equal(Start, log.Readings[0].Time);
        Assert.InRange((log.Readings[^1].Time - Start).TotalDays, 20, 60);
        var step = Assert.Single(log.ClockSteps);
        Assert.Equal(before.Length + 2, step.Line);
        Assert.Equal(Start + Duration.FromSeconds(599_520), step.Before);
        Assert.Equal(Start + Duration.FromSeconds(600_000 + wrong), step.After);
        Assert.InRange(log.Skipped.Sum(s => s.Count), bad.Length - 1, bad.Length);
        Assert.Equal(step.Line, log.Skipped[0].FirstLine);
    }

    [Theory]
    [InlineData(3600, "1 hour ahead")] // summer time, put on and off by hand
    [InlineData(-3600, "1 hour behind")]
    [InlineData(8 * 3600, "8 hours ahead")]
    [InlineData(-11 * 3600, "11 hours behind")]
    [InlineData(3 * 86_400, "3 days ahead")]
    [InlineData(-365 * 86_400, "365 days behind")]
    [InlineData(366 * 86_400, "366 days ahead")]
    public void A_clock_that_stood_wrong_by_whole_hours_for_a_while_is_put_right(long wrong, string words)
    {
        string[] before = [.. Cycles(0, 1000)], bad = [.. Cycles(600_000 + wrong, 100)], after = [.. Cycles(660_000, 3000)];
        var log = Read([.. before, .. bad, .. after]);
        Assert.Equal(Read([.. Cycles(0, 4100)]).Readings, log.Readings);
        Assert.Empty(log.Skipped);
        var step = Assert.Single(log.ClockSteps);
        Assert.Equal((before.Length + 2, Start + Duration.FromSeconds(600_000 + wrong)), (step.Line, step.After));
        Assert.Equal([$"In lines {before.Length + 2} to {before.Length + 101} (100 rows) the log's clock stood {words}: their times were put right."], log.Remarks);
    }

    [Theory]
    [InlineData(7200)]
    [InlineData(-86_400)]
    public void A_log_of_several_channels_is_put_right_as_one(long wrong)
    {
        string[] right = [.. Mixed(0, 122_400), .. Mixed(122_400, 183_600), .. Mixed(183_600, 403_200)];
        string[] log = [.. Mixed(0, 122_400), .. Mixed(122_400 + wrong, 183_600 + wrong), .. Mixed(183_600, 403_200)];
        Assert.Equal(Read(right).Readings, Read(log).Readings);
        Assert.Single(Read(log).ClockSteps);
    }

    [Fact]
    public void Local_times_of_a_clock_put_back_by_hand_the_next_morning_are_put_right()
    {
        // In Berlin summer time ended at 03:00 on 25 October 2026; the keeper saw it at 11:00.
        var place = Logs.In("Europe/Berlin");
        var summer = Offset.FromHours(2);
        var rows = new List<string>();
        var expected = new List<Instant>();
        for (int i = 0; i < 600; i++)
        {
            var time = Instant.FromUtc(2026, 10, 24, 0, 0) + Duration.FromMinutes(5 * i);
            expected.Add(time);
            bool seen = time >= Instant.FromUtc(2026, 10, 25, 10, 0);
            var local = seen ? time.InZone(place.Zone).LocalDateTime : time.WithOffset(summer).LocalDateTime;
            rows.Add($"{local.ToString("uuuu-MM-dd HH:mm", CultureInfo.InvariantCulture)},air-temp,{20 + (i % 7)}");
        }

        var log = Logs.Read("time,channel,value\n" + string.Join('\n', rows), place);
        Assert.Equal(expected, log.Readings.Select(r => r.Time));
        Assert.Contains(log.Remarks, r => r.Contains("1 hour ahead", StringComparison.Ordinal));
    }

    [Theory]
    [InlineData(-1_768_435_200L)]
    [InlineData(-366 * 86_400L)]
    public void A_clock_that_never_comes_back_is_left_out_too(long wrong)
    {
        string[] before = [.. Cycles(0, 2000)], bad = [.. Cycles(1_200_000 + wrong, 400)];
        var log = Read([.. before, .. bad]);
        Assert.Equal(before.Length + 2, Assert.Single(log.ClockSteps).Line);
        Assert.Equal(Start, log.Readings[0].Time);
        Assert.InRange(log.Readings[^1].Time - Start, Duration.FromSeconds(1_199_000), Duration.FromSeconds(1_201_000));
    }

    [Fact]
    public void A_log_that_begins_before_its_clock_was_set_begins_with_the_first_good_row()
    {
        var log = Read([Row(-1_768_435_190L, "sump-pump", 1), Row(-1_768_435_100L, "sump-pump", 0), .. Cycles(0, 100)]);
        Assert.Equal(Start, log.Readings[0].Time);
        Assert.Equal((2L, Start), (log.ClockSteps.Single().Line, log.ClockSteps.Single().Before));
    }

    [Theory]
    [InlineData(3590)]
    [InlineData(1800)]
    [InlineData(86_311)]
    public void A_clock_put_back_while_the_log_runs_on_is_a_step_and_the_covered_time_is_left_out(int back)
    {
        string[] before = [.. Cycles(0, 1000)], after = [.. Cycles(600_000 - back, 3000)];
        var log = Read([.. before, .. after]);
        var step = Assert.Single(log.ClockSteps);
        Assert.Equal(before.Length + 2, step.Line);
        Assert.Equal(Start + Duration.FromSeconds(600_000 - back), step.After);
        Assert.Contains(log.Skipped, s => s.Reason.StartsWith("the clock went back", StringComparison.Ordinal));

        // What remains is cycles without overlap: a switch never says the same twice running, save at the seam.
        int same = log.Readings.Zip(log.Readings.Skip(1)).Count(p => p.First.Value == p.Second.Value);
        Assert.InRange(same, 0, 1);
    }

    [Fact]
    public void A_clock_put_back_is_seen_even_where_only_two_rows_are_covered()
    {
        // Cycles of forty minutes; the clock goes back fifty.
        static string[] Slow(long from, int rows) => [.. Enumerable.Range(0, rows).Select(i => Row(from + (i * 1200), "sump-pump", i % 2))];
        var log = Read([.. Slow(0, 400), .. Slow(400 * 1200 - 3000, 400)]);
        Assert.Equal(402, Assert.Single(log.ClockSteps).Line);
    }

    [Fact]
    public void One_or_two_late_rows_are_sorted_in()
    {
        var log = Read([.. Cycles(0, 100), .. Every(31_000, 60, 2, "air-temp"), .. Every(0, 600, 100, "air-temp"), .. Cycles(60_000, 100)]);
        Assert.Empty(log.ClockSteps);
        Assert.Equal(302, log.Readings.Count);
    }

    [Fact]
    public void A_step_of_a_log_with_several_channels_is_told_once()
    {
        string[] before = Mixed(0, 200_000), after = Mixed(196_400, 600_000);
        var log = Read([.. before, .. after]);
        Assert.Single(log.ClockSteps);
        Assert.InRange(log.ClockSteps[0].Line, before.Length + 2, before.Length + 8);
    }

    [Fact]
    public void A_valve_shut_while_the_clock_was_wrong_does_not_stay_open()
    {
        string[] rows =
        [
            .. Cycles(0, 500), Row(299_990, "top-up-valve", 1), .. Cycles(300_000 - 40_000_000, 20), Row(300_100 - 40_000_000, "top-up-valve", 0),
            .. Cycles(312_000, 500),
        ];
        var log = Read(rows);
        var valve = log.Readings.Where(r => r.Channel == 1).ToList();
        Assert.Equal([1, 0], valve.Select(r => r.Value));
        Assert.InRange((valve[1].Time - valve[0].Time).TotalSeconds, 0, 60);
    }

    [Fact]
    public void Late_rows_that_fill_a_hole_are_sorted_in()
    {
        string[] rows = [.. Every(0, 60, 500, "air-temp"), Row(90_000, "air-temp", 25), .. Every(30_000, 60, 990, "air-temp"), .. Every(90_060, 60, 500, "air-temp")];
        var log = Read(rows);
        Assert.Empty(log.ClockSteps);
        Assert.Empty(log.Skipped);
        Assert.Equal(rows.Length, log.Readings.Count);
    }

    [Fact]
    public void Months_put_one_behind_the_other_in_any_order_are_sorted()
    {
        string[] rows = [.. Cycles(31 * 86_400, 4000), .. Cycles(0, 4000)];
        var log = Read(rows);
        Assert.Empty(log.ClockSteps);
        Assert.Equal(rows.Length, log.Readings.Count);
    }

    [Fact]
    public void Years_put_one_behind_the_other_with_their_headers_are_kept()
    {
        string[] rows = [.. Cycles(0, 4000), "time,channel,value", .. Cycles(-300 * 86_400, 1500)];
        var log = Read(rows);
        Assert.Empty(log.ClockSteps);
        Assert.Equal(rows.Length - 1, log.Readings.Count);
        Assert.Equal("the header line again", Assert.Single(log.Skipped).Reason);
    }

    [Fact]
    public void Rows_later_than_the_present_are_impossible()
    {
        var options = LogReadOptions.Default with { Now = Start + Duration.FromDays(10) };
        var log = Logs.Read(Text([.. Cycles(0, 500), Row(30 * 86_400, "sump-pump", 1)]), options: options);
        Assert.Single(log.ClockSteps);
        Assert.True(log.Readings[^1].Time < Start + Duration.FromDays(10));
    }

    [Theory]
    [InlineData("Australia/Sydney", "2026-04-04T15:00:00Z", "2026-04-05")]
    [InlineData("Europe/Berlin", "2026-10-25T00:00:00Z", "2026-10-25")]
    public void The_hour_that_occurs_twice_is_told_apart_in_a_whole_log(string zone, string midst, string date)
    {
        var place = Logs.In(zone);
        var from = NodaTime.Text.InstantPattern.ExtendedIso.Parse(midst).Value - Duration.FromHours(30);
        var expected = new List<Instant>();
        var forward = new StringBuilder("time,channel,value\n");
        var rows = new List<string>();
        for (int i = 0; i < 400; i++)
        {
            var time = from + Duration.FromMinutes(9 * i);
            expected.Add(time);
            rows.Add($"{time.InZone(place.Zone).LocalDateTime.ToString("uuuu-MM-dd'T'HH:mm:ss", CultureInfo.InvariantCulture)},sump-pump,{i % 2}");
        }

        forward.AppendJoin('\n', rows);
        var log = Logs.Read(forward.ToString(), place);
        Assert.Equal(expected, log.Readings.Select(r => r.Time));
        Assert.Empty(log.ClockSteps);
        Assert.Contains(log.Remarks, r => r.Contains($"on {date} occurs twice", StringComparison.Ordinal));
        rows.Reverse();
        var newestFirst = Logs.Read("time,channel,value\n" + string.Join('\n', rows), place);
        Assert.Equal(expected, newestFirst.Readings.Select(r => r.Time));
    }

    [Theory]
    [InlineData("Australia/Sydney", "2026-10-04T00:00:00", 10)]
    [InlineData("Europe/Berlin", "2026-03-29T00:00:00", 1)]
    public void A_logger_that_knows_no_summer_time_is_read_at_the_offset_it_kept(string zone, string midnight, int offset)
    {
        var place = Logs.In(zone);
        var local = NodaTime.Text.LocalDateTimePattern.ExtendedIso.Parse(midnight).Value;
        string[] rows = [.. Enumerable.Range(-100, 300).Select(i =>
            $"{local.PlusMinutes(10 * i).ToString("uuuu-MM-dd HH:mm", CultureInfo.InvariantCulture)},air-temp,20")];
        var log = Logs.Read("time,channel,value\n" + string.Join('\n', rows), place);
        Assert.Equal(300, log.Readings.Count);
        Assert.True(log.Readings.Zip(log.Readings.Skip(1)).All(p => p.Second.Time - p.First.Time == Duration.FromMinutes(10)));
        Assert.Equal(local.PlusMinutes(-1000).InUtc().ToInstant() - Duration.FromHours(offset), log.Readings[0].Time);
        Assert.Contains(log.Remarks, r => r.Contains("clock was not put forward", StringComparison.Ordinal));
    }

    [Theory]
    [InlineData("Australia/Sydney", "2026-10-03T14:00:00Z")]
    [InlineData("Europe/Berlin", "2026-03-28T23:00:00Z")]
    public void A_logger_that_puts_its_clock_forward_reads_straight_through(string zone, string from)
    {
        var place = Logs.In(zone);
        var start = NodaTime.Text.InstantPattern.ExtendedIso.Parse(from).Value;
        string[] rows = [.. Enumerable.Range(0, 60).Select(i =>
            $"{(start + Duration.FromMinutes(10 * i)).InZone(place.Zone).LocalDateTime.ToString("dd.MM.uuuu HH:mm", CultureInfo.InvariantCulture)},air-temp,20")];
        var log = Logs.Read("time,channel,value\n" + string.Join('\n', rows), place);
        Assert.Equal(Enumerable.Range(0, 60).Select(i => start + Duration.FromMinutes(10 * i)), log.Readings.Select(r => r.Time));
        Assert.Empty(log.Remarks);
    }

    private static ReadingLog Read(params string[] rows) => Logs.Read(Text(rows));

    private static string Text(string[] rows) => "time,channel,value\n" + string.Join('\n', rows) + "\n";

    private static string Row(long second, string channel, double value) =>
        FormattableString.Invariant($"{NodaTime.Text.InstantPattern.ExtendedIso.Format(Start + Duration.FromSeconds(second))},{channel},{value}");

    /// <summary>Pump cycles of ten minutes, eight of them filling: two rows each.</summary>
    private static IEnumerable<string> Cycles(long from, int rows) =>
        Enumerable.Range(0, rows).Select(i => Row(from + ((i / 2) * 1200) + (i % 2 * 720), "sump-pump", 1 - (i % 2)));

    private static IEnumerable<string> Every(long from, int step, int rows, string channel) =>
        Enumerable.Range(0, rows).Select(i => Row(from + ((long)i * step), channel, 20 + (i % 7)));

    private static string[] Mixed(long from, long to) =>
    [
        .. Cycles(from, (int)((to - from) / 600)).Concat(Every(from + 31, 300, (int)((to - from) / 300), "air-temp"))
            .Concat(Every(from + 62, 900, (int)((to - from) / 900), "humidity")).Order(StringComparer.Ordinal),
    ];

    private static int[] Seconds(ReadingLog log) => [.. log.Readings.Select(r => (int)(r.Time - Start).TotalSeconds)];
}
