using System.Text;
using CsCheck;
using NodaTime;
using Runnel.Exchange.Intake;
using Runnel.Place;
using Runnel.Place.PlaceFiles;

namespace Runnel.Live.Tests.Payloads;

public sealed class PayloadTests
{
    private static readonly PlaceDescription Place = PlaceFile.Read(
        """
        [place]
        name = "Test Yard"
        latitude = "34.2 S"
        longitude = "150.6 E"
        altitude = "80 m"
        time-zone = "Australia/Sydney"
        [[vessel]]
        id = "sump"
        kind = "sump"
        band = "65 L"
        [[equipment]]
        id = "pump"
        kind = "pump"
        from = "sump"
        [[channel]]
        id = "pump"
        measures = "running"
        of = "pump"
        [[channel]]
        id = "temperature"
        measures = "air-temperature"
        scale = 0.1
        [[channel]]
        id = "humidity"
        measures = "relative-humidity"
        """, "place.toml", PlaceNeeds.Run).Place!;

    private static readonly PayloadReader Reader = new(new ChannelValues(Place));
    private static readonly Instant Now = Instant.FromUtc(2026, 2, 1, 0, 0);

    private static Received Read(string payload, int channel, string? valueAt = null, string? timeAt = null) =>
        Reader.Read(Encoding.UTF8.GetBytes(payload), [new ChannelFeed(channel, null, "x", valueAt, timeAt)], Now, "x");

    private static Received Named(string payload) => Reader.ReadNamed(Encoding.UTF8.GetBytes(payload), Now, "x");

    [Theory]
    [InlineData("1", 0, 1)]
    [InlineData(" ON\n", 0, 1)]
    [InlineData("false", 0, 0)]
    [InlineData("215", 1, 21.5)] // scale of the place file
    [InlineData("21.5 degC", 1, 21.5)] // with its unit it is no raw value
    [InlineData("{\"value\": 215}", 1, 21.5)]
    [InlineData("{\"value\": \"on\", \"time\": \"2026-02-01T10:59:00+11:00\"}", 0, 1)]
    public void A_plain_value_or_our_own_short_json_is_taken(string payload, int channel, double value)
    {
        var reading = Assert.Single(Read(payload, channel).Readings);
        Assert.Equal((channel, value), (reading.Channel, reading.Value));
        Assert.Equal(payload.Contains("time", StringComparison.Ordinal) ? Now - Duration.FromMinutes(1) : Now, reading.Time);
    }

    // Source: RFC 6901, section 5: the document, and what each pointer of it evaluates to; numbers only.
    [Theory, Trait("source", "RFC 6901 section 5")]
    [InlineData("/foo/1", null)]
    [InlineData("/", 0.0)]
    [InlineData("/a~1b", 1.0)]
    [InlineData("/c%d", 2.0)]
    [InlineData("/e^f", 3.0)]
    [InlineData("/g|h", 4.0)]
    [InlineData("/i\\j", 5.0)]
    [InlineData("/k\"l", 6.0)]
    [InlineData("/ ", 7.0)]
    [InlineData("/m~0n", 8.0)]
    public void Json_pointers_evaluate_as_the_standard_says(string path, double? value)
    {
        using var document = System.Text.Json.JsonDocument.Parse("""
            {"foo": ["bar", "baz"], "": 0, "a/b": 1, "c%d": 2, "e^f": 3, "g|h": 4, "i\\j": 5, "k\"l": 6, " ": 7, "m~n": 8}
            """);
        var found = JsonPointer.Find(document.RootElement, path)!.Value;
        if (value is { } number) Assert.Equal(number, found.GetDouble());
        else Assert.Equal("baz", found.GetString());
    }

    [Fact]
    public void Json_is_read_by_pointers_for_value_and_time()
    {
        const string json = """{"out": {"t": [214, 215], "at": 1769903940}}""";
        var reading = Assert.Single(Read(json, 1, "/out/t/1", "/out/at").Readings);
        Assert.Equal((21.5, Instant.FromUnixTimeSeconds(1769903940)), (reading.Value, reading.Time));
        Assert.Contains("nothing at /out/x", Assert.Single(Read(json, 1, "/out/x").Refused).Reason, StringComparison.Ordinal);
    }

    // Source: RFC 8428, section 5.1.2 and 5.1.3, the forms of the examples with base fields (values in range of our channels).
    [Fact, Trait("source", "RFC 8428 section 5.1")]
    public void Senml_resolves_base_fields_and_relative_times()
    {
        var received = Named("""
            [{"bn":"urn:dev:ow:10e2073a01080063:","bt":1.276020076001e+09,"bu":"Cel","bver":5,"n":"temperature","v":23.1},
             {"n":"temperature","t":-5,"v":23.5},
             {"n":"humidity","u":"%RH","t":-1,"v":67},
             {"n":"pump","u":"1","vb":true},
             {"n":"nobody","v":1}]
            """);
        var at = Instant.FromUnixTimeTicks(12760200760010000);
        Assert.Equal(
            [new(1, at, 23.1), new(1, at - Duration.FromSeconds(5), 23.5), new(2, at - Duration.FromSeconds(1), 67), new Reading(0, at, 1)],
            received.Readings);
        Assert.Single(received.Refused);
        var relative = Assert.Single(Named("""[{"n":"temperature","u":"Cel","t":-60,"v":20}]""").Readings);
        Assert.Equal((Now - Duration.FromMinutes(1), 20), (relative.Time, relative.Value));
    }

    [Fact]
    public void Readings_that_name_their_channels_are_taken()
    {
        Assert.Equal(2, Named("""{"time": "2026-02-01T10:00:00", "pump": 0, "humidity": 55}""").Readings.Count);
        Assert.Equal(
            Instant.FromUtc(2026, 1, 31, 23, 0), Named("""[{"channel": "humidity", "value": 50, "time": "2026-02-01T10:00:00"}]""").Readings[0].Time);
        Assert.Single(Named("""{"channel": "pump", "value": true}""").Readings);
    }

    [Theory]
    [InlineData("{", "no JSON")]
    [InlineData("7", "neither a list nor an object")]
    [InlineData("""{"pumpp": 1}""", "no channel of the place")]
    [InlineData("""{"pump": 1, "time": "yesterday"}""", "time not understood")]
    [InlineData("""{"humidity": 400}""", "out of range")]
    [InlineData("""{"humidity": {"x": 1}}""", "value not understood")]
    [InlineData("""[{"n":"humidity","u":"kg","v":4}]""", "unit \"kg\"")]
    public void What_cannot_be_taken_is_named(string payload, string reason)
    {
        var received = Named(payload);
        Assert.Empty(received.Readings);
        Assert.Contains(reason, Assert.Single(received.Refused).Reason, StringComparison.Ordinal);
    }

    [Fact]
    public void No_payload_makes_it_throw()
    {
        string[] seeds =
        [
            """[{"bn":"a","bt":1.27e9,"u":"Cel","n":"temperature","v":23.1,"t":-5},{"n":"pump","vb":true}]""",
            """{"time": "2026-02-01T10:00:00Z", "pump": 0, "humidity": 55.5e300}""", "21,5 °C", "{\"value\": null, \"time\": 1e308}", "-", "1e999", "0x10",
            """[{"n":"temperature","bv":1.7e308,"v":1.7e308}]""", """{"value":"\ud800"}""", """{"\ud800":1}""",
        ];
        Assert.All(seeds, seed => Reader.ReadNamed(Encoding.UTF8.GetBytes(seed), Now, "x"));
        Assert.All(seeds, seed => Reader.Read(Encoding.UTF8.GetBytes(seed), [new(0, null, "x", null, null)], Now, "x"));
        var mutated = Gen.Select(Gen.Int[0, seeds.Length - 1], Gen.Select(Gen.Int[0, 120], Gen.Byte).Array[0, 8], (seed, edits) =>
        {
            byte[] bytes = Encoding.UTF8.GetBytes(seeds[seed]);
            foreach (var (at, with) in edits) bytes[at % bytes.Length] = with;
            return bytes;
        });
        Gen.OneOf(mutated, Gen.Byte.Array[0, 200]).Sample(
            bytes =>
            {
                foreach (var received in (Received[])[
                    Reader.ReadNamed(bytes, Now, "x"), Reader.Read(bytes, [new(0, null, "x", null, null), new(1, null, "x", "/a/0", "/t")], Now, "x")])
                {
                    Assert.All(received.Readings, r => Assert.True(double.IsFinite(r.Value)));
                }
            },
            iter: 4000);
    }
}
