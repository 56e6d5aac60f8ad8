using CsCheck;
using NodaTime;
using Runnel.Exchange.Logs;
using Runnel.Place;

namespace Runnel.Tests.Exchange;

public sealed class LogWriterTests
{
    private static readonly PlaceDescription Scaled = Logs.In(
        "Europe/Berlin", new Channel("gauge", Quantity.Rain, Scale: 0.2), new Channel("contact", Quantity.Running, "sump-pump", Scale: -1, Offset: 1));

    [Fact]
    public void Readings_are_written_in_the_long_form_in_UTC()
    {
        var time = Instant.FromUtc(2026, 1, 31, 23, 0);
        Assert.Equal(
            "time,channel,value\r\n2026-01-31T23:00:00Z,sump-pump,1\r\n2026-01-31T23:00:00.25Z,air-temp,21.5\r\n",
            Written(Logs.Place, [new(0, time, 1), new(2, time + Duration.FromMilliseconds(250), 21.5)]));
    }

    [Fact]
    public void Where_a_channel_is_scaled_the_unit_is_named_so_that_it_is_not_scaled_twice()
    {
        string text = Written(Scaled, [new(5, Instant.FromUtc(2026, 1, 31, 23, 0), 0.6), new(6, Instant.FromUtc(2026, 1, 31, 23, 0), 1)]);
        Assert.Equal("time,channel,value,unit\r\n2026-01-31T23:00:00Z,gauge,0.6,mm\r\n2026-01-31T23:00:00Z,contact,1,1\r\n", text);
        Assert.Equal([0.6, 1], Logs.Read(text, Scaled).Readings.Select(r => r.Value));
    }

    [Fact]
    public void Reading_what_was_written_gives_the_same()
    {
        // A year around both clock changes, to the tick; any finite value inside the channel's range.
        var reading = Gen.Select(
            Gen.Int[0, 6], Gen.Long[0, 365L * 86_400 * 10_000_000], Gen.Double[0, 60],
            (channel, ticks, value) => new Reading(channel, Instant.FromUtc(2026, 1, 1, 0, 0) + Duration.FromTicks(ticks),
                Scaled.Channels[channel].Measures == Quantity.Running ? Math.Round(value) % 2 : value));
        reading.Array[1, 60].Sample(readings =>
        {
            Reading[] sorted = [.. readings.DistinctBy(r => (r.Time, r.Channel)).OrderBy(r => r.Time)];
            var log = Logs.Read(Written(Scaled, sorted), Scaled);
            return log.Readings.SequenceEqual(sorted) && log.Skipped.Count == 0 && log.ClockSteps.Count == 0;
        }, iter: 500);
    }

    private static string Written(PlaceDescription place, IEnumerable<Reading> readings)
    {
        var text = new StringWriter();
        var writer = new LogWriter(text, place);
        foreach (var reading in readings) writer.Write(reading.Time, place.Channels[reading.Channel].Id, reading.Value);
        return text.ToString();
    }
}
