namespace Runnel.Tests.Exchange;

public sealed class LongFormTests
{
    [Fact]
    public void Rows_of_time_channel_value_become_readings()
    {
        var log = Logs.Read(
            """
            time,channel,value
            2026-02-01T00:00:00+11:00,sump-pump,1
            2026-02-01T00:02:10+11:00,sump-pump,0
            2026-02-01T00:05:00Z,air-temp,21.5

            """);
        Assert.Equal(
            ["sump-pump 2026-01-31T13:00:00Z 1", "sump-pump 2026-01-31T13:02:10Z 0", "air-temp 2026-02-01T00:05:00Z 21.5"], Logs.Lines(log));
        Assert.Empty(log.Skipped);
        Assert.Empty(log.Remarks);
    }

    [Fact]
    public void Rows_that_cannot_be_taken_are_counted_with_reason_and_first_line()
    {
        var log = Logs.Read(
            """
            time,channel,value
            2026-02-01T00:00:00+11:00,sump-pump,1
            2026-02-01T00:00:10+11:00,sump-pmp,1
            2026-02-01T00:00:20+11:00,air-temp,unavailable
            soon,air-temp,21
            2026-02-01T00:00:40+11:00,air-temp,
            2026-02-01T00:00:50+11:00,sump-pmp,0
            """);
        Assert.Single(log.Readings);
        Assert.Equal(
            [
                "3 2 \"sump-pmp\" is no channel of the place (nearest: sump-pump)",
                "4 1 air-temp: no value (\"unavailable\")",
                "5 1 time not understood (first: \"soon\")",
            ],
            log.Skipped.Select(s => $"{s.FirstLine} {s.Count} {s.Reason}"));
    }
}
