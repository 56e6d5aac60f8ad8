using System.Text;
using System.Text.Encodings.Web;
using System.Text.Json;
using NodaTime;
using Runnel.Exchange.Findings;
using Runnel.Live.Outward;
using Runnel.Live.View;

namespace Runnel.Web.Api;

/// <summary>The running place as one line of JSON. Names and nulls are a promise to scripts (docs/live.md).</summary>
public static class NowJson
{
    private static readonly JsonWriterOptions Form = new() { Encoder = JavaScriptEncoder.UnsafeRelaxedJsonEscaping };

    public static string Write(LiveView view)
    {
        var zone = view.Place.Zone;
        return Text(json =>
        {
            json.WriteStartObject();
            json.WriteNumber("number", view.Number);
            json.WriteString("place", view.Place.Name);
            json.WriteString("at", FindingJson.Time(view.At, zone));
            json.WriteString("verdict", view.Findings?.Verdict);
            json.WriteString("not_yet", view.NotYet);
            json.WriteBoolean("reading_again", view.ReadingAgain);
            json.WritePropertyName("standing_notices");
            WriteNotices(json, view, view.Notices.Where(n => n.Stands));
            WriteWork(json, view, zone);
            WriteChannels(json, view, zone);
            WriteIntake(json, view, zone);
            WriteSources(json, view, zone);
            json.WriteStartArray("troubles");
            foreach (string trouble in view.Troubles) json.WriteStringValue(trouble);
            json.WriteEndArray();
            json.WriteEndObject();
        });
    }

    public static string Notices(LiveView view) => Text(json => WriteNotices(json, view, view.Notices));

    public static string Estimates(LiveView view) => Text(json => WriteRaw(json, view.Findings?.Estimates.Select(e => FindingJson.Of(e, view.Place.Zone)) ?? []));

    public static string Ledger(LiveView view) => Text(json => WriteRaw(json, view.Findings?.Ledger.Select(FindingJson.Of) ?? []));

    internal static string Text(Action<Utf8JsonWriter> write)
    {
        using var stream = new MemoryStream();
        using (var json = new Utf8JsonWriter(stream, Form)) write(json);
        return Encoding.UTF8.GetString(stream.GetBuffer(), 0, (int)stream.Length);
    }

    private static void WriteNotices(Utf8JsonWriter json, LiveView view, IEnumerable<NoticeStanding> notices) =>
        WriteRaw(json, view.Findings is { } findings ? notices.Select(n => Announcements.JsonOf(n, findings)) : []);

    private static void WriteRaw(Utf8JsonWriter json, IEnumerable<string> items)
    {
        json.WriteStartArray();
        foreach (string item in items) json.WriteRawValue(item, skipInputValidation: true);
        json.WriteEndArray();
    }

    private static void WriteWork(Utf8JsonWriter json, LiveView view, DateTimeZone zone)
    {
        if (view.Working is { } work)
        {
            json.WriteStartObject("working");
            json.WriteString("since", FindingJson.Time(work.Since, zone));
            json.WriteString("until", FindingJson.Time(work.Until, zone));
            json.WriteString("by", work.By);
            json.WriteString("note", work.Note);
            json.WriteEndObject();
        }
        else
        {
            json.WriteNull("working");
        }

        if (view.Closing is { } closing)
        {
            json.WriteStartObject("closing");
            json.WriteString("key", closing.Key);
            json.WriteString("began", FindingJson.Time(closing.Began, zone));
            json.WriteString("ended", FindingJson.Time(closing.Ended, zone));
            json.WriteString("by", closing.By);
            json.WriteEndObject();
        }
        else
        {
            json.WriteNull("closing");
        }
    }

    private static void WriteChannels(Utf8JsonWriter json, LiveView view, DateTimeZone zone)
    {
        json.WriteStartArray("channels");
        foreach (var channel in view.Channels)
        {
            json.WriteStartObject();
            json.WriteString("id", channel.Id);
            if (channel.Value is { } value && double.IsFinite(value)) json.WriteNumber("value", value);
            else json.WriteNull("value");
            json.WriteString("unit", channel.Unit);
            json.WriteString("time", channel.Time is { } time ? FindingJson.Time(time, zone) : null);
            json.WriteString("health", channel.Health switch
            {
                ChannelHealth.Fresh => "fresh",
                ChannelHealth.Quiet => "quiet",
                ChannelHealth.Doubted => "doubted",
                _ => "not-heard",
            });
            json.WriteString("words", channel.Words);
            json.WriteEndObject();
        }

        json.WriteEndArray();
    }

    private static void WriteIntake(Utf8JsonWriter json, LiveView view, DateTimeZone zone)
    {
        var intake = view.Intake;
        json.WriteStartObject("intake");
        json.WriteNumber("taken", intake.Taken);
        json.WriteNumber("changed", intake.Changed);
        json.WriteNumber("known", intake.Known);
        json.WriteNumber("late", intake.Late);
        json.WriteString("last_at", intake.LastAt is { } last ? FindingJson.Time(last, zone) : null);
        json.WriteStartArray("refused");
        foreach (var refused in intake.Refused)
        {
            json.WriteStartObject();
            json.WriteString("reason", refused.Reason);
            json.WriteNumber("count", refused.Count);
            json.WriteString("example", refused.Last.Example);
            json.WriteString("last_at", FindingJson.Time(refused.LastAt, zone));
            json.WriteEndObject();
        }

        json.WriteEndArray();
        json.WriteEndObject();
    }

    private static void WriteSources(Utf8JsonWriter json, LiveView view, DateTimeZone zone)
    {
        json.WriteStartArray("sources");
        foreach (var source in view.Sources)
        {
            json.WriteStartObject();
            json.WriteString("id", source.Id);
            json.WriteString("what", source.What);
            json.WriteBoolean("connected", source.Connected);
            json.WriteString("last_heard", source.LastHeard is { } heard ? FindingJson.Time(heard, zone) : null);
            json.WriteString("trouble", source.Trouble);
            json.WriteEndObject();
        }

        json.WriteEndArray();
    }
}
