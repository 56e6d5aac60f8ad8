using System.Text;
using NodaTime;
using NodaTime.Text;
using Runnel.Exchange;
using Runnel.Exchange.Logs;
using Runnel.Place;

namespace Runnel.Tests.Exchange;

/// <summary>An invented place and short ways to read a log of it.</summary>
internal static class Logs
{
    public static readonly PlaceDescription Place = In("Australia/Sydney");

    public static PlaceDescription In(string zone, params Channel[] more) => new(
        "Test Reach", -34.2, 150.6, 80, DateTimeZoneProviders.Tzdb[zone], new LoopTotals(2.5, 6.5, 0), [],
        [],
        [
            new Channel("sump-pump", Quantity.Running, "sump-pump"),
            new Channel("top-up-valve", Quantity.Running, "top-up"),
            new Channel("air-temp", Quantity.AirTemperature),
            new Channel("humidity", Quantity.RelativeHumidity),
            new Channel("sun", Quantity.SolarIrradiance),
            .. more,
        ]);

    public static ReadingLog Read(string text, PlaceDescription? place = null, LogReadOptions? options = null) =>
        Read(Encoding.UTF8.GetBytes(text), place, options);

    public static ReadingLog Read(byte[] bytes, PlaceDescription? place = null, LogReadOptions? options = null) =>
        LogReader.Read(new MemoryStream(bytes), place ?? Place, options ?? LogReadOptions.Default, null, TestContext.Current.CancellationToken);

    public static UnreadableFileException Refused(string text, PlaceDescription? place = null, LogReadOptions? options = null) =>
        Assert.Throws<UnreadableFileException>(() => Read(text, place, options));

    /// <summary>One line a reading: channel, moment in UTC, value.</summary>
    public static string[] Lines(ReadingLog log, PlaceDescription? place = null) =>
        [.. log.Readings.Select(r => FormattableString.Invariant(
            $"{(place ?? Place).Channels[r.Channel].Id} {InstantPattern.ExtendedIso.Format(r.Time)} {r.Value}"))];
}
