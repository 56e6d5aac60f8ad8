using System.Text.Json;
using NodaTime;
using Runnel.Exchange.Findings;
using Runnel.Place;
using Runnel.Place.Findings;

namespace Runnel.Tests.Exchange;

/// <summary>The names, their order and the nulls are a promise to scripts: the whole text is compared.</summary>
public sealed class DiagnosisJsonTests
{
    private static readonly Instant Noon = Instant.FromUtc(2026, 2, 1, 1, 0);

    private static Diagnosis Findings() => new()
    {
        PlaceName = "Test \"Reach\"",
        Zone = DateTimeZoneProviders.Tzdb["Australia/Sydney"],
        From = Noon,
        To = Noon + Duration.FromDays(90) + Duration.FromMilliseconds(400),
        ReadingCount = 12345,
        Skipped = [new SkippedRows("time not understood (first: \"soon\")", 2, 17)],
        Kit = ["pump-running", "weather"],
        Cycles = new CycleSummary(2, 480.04, null, [new CycleDay(new LocalDate(2026, 2, 1), 2, 480.06, 125)]),
        Ledger =
        [
            new LedgerDay(
                new LocalDate(2026, 2, 1), new(38.126, 1), new(0, 0), new(0, 0), new(12.5, 3), new(20, 5), new(0, 0), new(-1.004, 2),
                new(-0.001, double.NaN)),
        ],
        Estimates = [new Estimate("litres-short", Noon, 41.23456, 30, 52, "L")],
        Notices =
        [
            new Notice
            {
                Causes = [new Cause("drain-fouling", 0.8999), new Cause("leak", 0.05)],
                Urgency = Urgency.ActNow,
                Since = Noon,
                FirstNoticed = Noon + Duration.FromHours(1),
                TimeLeft = Duration.FromSeconds(4199.9),
                Evidence = "Fills lengthen by 2 % a day at 31 °C.",
                FirstAct = "Look at the screens.",
            },
            new Notice
            {
                Causes = [new Cause("clock-jump", 1)],
                Urgency = Urgency.Record,
                Since = Noon,
                FirstNoticed = Noon,
                Cleared = Noon + Duration.FromDays(80),
                Evidence = "e",
                FirstAct = "f",
            },
        ],
        OwnRule = new OwnRuleFinding(31, 1000.5, 12, 3, 222.22, ["Twelve were not needed."]),
        Verdict = "The drains are fouling.",
        Remarks = ["Still learning."],
        Evidence = new Evidence { Cycles = [], RunOverFill = [], LitresShort = [], RunDeparturePercent = [], LevelMm = [], Pulses = [], Gaps = [] },
    };

    [Fact]
    public void Findings_are_written_as_promised() => Assert.Equal(
        """
        {"place":"Test \"Reach\"","from":"2026-02-01T12:00:00+11:00","to":"2026-05-02T11:00:00+10:00","readings":12345,
        "skipped":[{"reason":"time not understood (first: \"soon\")","count":2,"first_line":17}],
        "kit":["pump-running","weather"],
        "cycles":{"count":2,"median_fill_s":480,"median_run_s":null,"days":[{"date":"2026-02-01","count":2,"median_fill_s":480.1,"median_run_s":125}]},
        "ledger":[{"date":"2026-02-01","topup_l":38.13,"topup_l_pm":1,"bleed_l":0,"bleed_l_pm":0,"rain_l":0,"rain_l_pm":0,
        "evaporation_l":12.5,"evaporation_l_pm":3,"plant_use_l":20,"plant_use_l_pm":5,"drawn_l":0,"drawn_l_pm":0,
        "stored_l":-1,"stored_l_pm":2,"unexplained_l":0,"unexplained_l_pm":null}],
        "estimates":[{"name":"litres-short","time":"2026-02-01T12:00:00+11:00","value":41.2346,"low":30,"high":52,"unit":"L"}],
        "notices":[{"cause":"drain-fouling","causes":[{"cause":"drain-fouling","probability":0.9},{"cause":"leak","probability":0.05}],
        "urgency":"act-now","since":"2026-02-01T12:00:00+11:00","first_noticed":"2026-02-01T13:00:00+11:00","cleared":null,
        "time_left_s":4199,"evidence":"Fills lengthen by 2 % a day at 31 °C.","first_act":"Look at the screens."},
        {"cause":"clock-jump","causes":[{"cause":"clock-jump","probability":1}],
        "urgency":"record","since":"2026-02-01T12:00:00+11:00","first_noticed":"2026-02-01T12:00:00+11:00","cleared":"2026-04-22T11:00:00+10:00",
        "time_left_s":null,"evidence":"e","first_act":"f"}],
        "own_rule":{"topups":31,"litres":1000.5,"not_needed":12,"late":3,"too_much_l":222.22,"why":["Twelve were not needed."]},
        "verdict":"The drains are fouling.","remarks":["Still learning."]}
        """.Replace("\n", "", StringComparison.Ordinal),
        Compact(DiagnosisJson.Write(Findings())));

    [Fact]
    public void Without_a_logged_top_up_the_own_rule_is_null()
    {
        using var json = JsonDocument.Parse(DiagnosisJson.Write(Findings() with { OwnRule = null }));
        Assert.Equal(JsonValueKind.Null, json.RootElement.GetProperty("own_rule").ValueKind);
    }

    [Theory]
    [InlineData(Urgency.ActNow, "act-now")]
    [InlineData(Urgency.Today, "today")]
    [InlineData(Urgency.Soon, "soon")]
    [InlineData(Urgency.Record, "record")]
    public void Urgencies_have_their_names(Urgency urgency, string name) => Assert.Equal(name, DiagnosisJson.NameOf(urgency));

    [Fact]
    public void The_stream_holds_plain_UTF_8_without_a_mark()
    {
        using var stream = new MemoryStream();
        DiagnosisJson.Write(Findings(), stream);
        Assert.Equal((byte)'{', stream.ToArray()[0]);
    }

    private static string Compact(string json)
    {
        using var document = JsonDocument.Parse(json);
        using var stream = new MemoryStream();
        using (var writer = new Utf8JsonWriter(stream, new JsonWriterOptions { Encoder = System.Text.Encodings.Web.JavaScriptEncoder.UnsafeRelaxedJsonEscaping }))
            document.WriteTo(writer);
        return System.Text.Encoding.UTF8.GetString(stream.ToArray());
    }
}
