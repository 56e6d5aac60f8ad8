using System.Text;
using System.Text.Json;
using NodaTime;
using Runnel.Place.Findings;

namespace Runnel.Exchange.Findings;

/// <summary>Single findings as one line of JSON, in the very form they have in <see cref="DiagnosisJson"/>.</summary>
public static class FindingJson
{
    private static readonly JsonWriterOptions OneLine = DiagnosisJson.Form with { Indented = false };

    public static string Of(Estimate estimate, DateTimeZone zone) => Write(json => DiagnosisJson.WriteEstimate(json, estimate, zone));

    public static string Of(LedgerDay day) => Write(json => DiagnosisJson.WriteDay(json, day));

    /// <summary>A notice with its key; what people said to it is told beside it.</summary>
    /// <param name="key">Names it in addresses and answers.</param>
    /// <param name="notice">As told.</param>
    /// <param name="acknowledgedBy">Who has seen it; null: nobody yet.</param>
    /// <param name="answer">What it was; null: not told yet.</param>
    /// <param name="zone">Civil time of the place.</param>
    public static string Of(string key, Notice notice, string? acknowledgedBy, string? answer, DateTimeZone zone) => Write(json =>
    {
        json.WriteStartObject();
        json.WriteString("key", key);
        DiagnosisJson.WriteNotice(json, notice, zone);
        json.WriteString("acknowledged_by", acknowledgedBy);
        json.WriteString("answer", answer);
        json.WriteEndObject();
    });

    /// <summary>RFC 3339 to the second, with the offset of the place.</summary>
    public static string Time(Instant time, DateTimeZone zone) => DiagnosisJson.Time(time, zone);

    private static string Write(Action<Utf8JsonWriter> write)
    {
        using var stream = new MemoryStream();
        using (var json = new Utf8JsonWriter(stream, OneLine)) write(json);
        return Encoding.UTF8.GetString(stream.GetBuffer(), 0, (int)stream.Length);
    }
}
