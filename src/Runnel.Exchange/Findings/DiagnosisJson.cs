using System.Text;
using System.Text.Encodings.Web;
using System.Text.Json;
using NodaTime;
using NodaTime.Text;
using Runnel.Place.Findings;

namespace Runnel.Exchange.Findings;

/// <summary>Writes findings as the JSON that scripts rely on: names, order and nulls are a promise (see docs/readings.md).</summary>
public static class DiagnosisJson
{
    // Times hold a plus sign and texts a degree sign, which the default encoder would spell out.
    internal static readonly JsonWriterOptions Form = new() { Indented = true, Encoder = JavaScriptEncoder.UnsafeRelaxedJsonEscaping };

    private static readonly LocalDatePattern DateForm = LocalDatePattern.Iso;
    private static readonly OffsetDateTimePattern TimeForm = OffsetDateTimePattern.Rfc3339;

    /// <summary>The findings as indented JSON text. Not for pasting into HTML: angle brackets stay as they are.</summary>
    public static string Write(Diagnosis diagnosis)
    {
        using var stream = new MemoryStream();
        Write(diagnosis, stream);
        return Encoding.UTF8.GetString(stream.GetBuffer(), 0, (int)stream.Length);
    }

    /// <summary>Writes the findings as UTF-8 without a byte-order mark.</summary>
    public static void Write(Diagnosis diagnosis, Stream stream)
    {
        ArgumentNullException.ThrowIfNull(diagnosis);
        using var json = new Utf8JsonWriter(stream, Form);
        json.WriteStartObject();
        json.WriteString("place", diagnosis.PlaceName);
        json.WriteString("from", Time(diagnosis.From, diagnosis.Zone));
        json.WriteString("to", Time(diagnosis.To, diagnosis.Zone));
        json.WriteNumber("readings", diagnosis.ReadingCount);
        WriteSkipped(json, diagnosis);
        WriteTexts(json, "kit", diagnosis.Kit);
        WriteCycles(json, diagnosis.Cycles);
        WriteLedger(json, diagnosis.Ledger);
        WriteEstimates(json, diagnosis);
        WriteNotices(json, diagnosis);
        WriteOwnRule(json, diagnosis.OwnRule);
        json.WriteString("verdict", diagnosis.Verdict);
        WriteTexts(json, "remarks", diagnosis.Remarks);
        json.WriteEndObject();
    }

    /// <summary>The name of an urgency in scripts.</summary>
    public static string NameOf(Urgency urgency) => urgency switch
    {
        Urgency.ActNow => "act-now",
        Urgency.Today => "today",
        Urgency.Soon => "soon",
        Urgency.Record => "record",
        _ => throw new ArgumentOutOfRangeException(nameof(urgency), urgency, "no such urgency"),
    };

    private static void WriteSkipped(Utf8JsonWriter json, Diagnosis diagnosis)
    {
        json.WriteStartArray("skipped");
        foreach (var skipped in diagnosis.Skipped)
        {
            json.WriteStartObject();
            json.WriteString("reason", skipped.Reason);
            json.WriteNumber("count", skipped.Count);
            json.WriteNumber("first_line", skipped.FirstLine);
            json.WriteEndObject();
        }

        json.WriteEndArray();
    }

    private static void WriteCycles(Utf8JsonWriter json, CycleSummary cycles)
    {
        json.WriteStartObject("cycles");
        json.WriteNumber("count", cycles.Count);
        WriteNumber(json, "median_fill_s", cycles.MedianFillS, 1);
        WriteNumber(json, "median_run_s", cycles.MedianRunS, 1);
        json.WriteStartArray("days");
        foreach (var day in cycles.Days)
        {
            json.WriteStartObject();
            json.WriteString("date", DateForm.Format(day.Date));
            json.WriteNumber("count", day.Count);
            WriteNumber(json, "median_fill_s", day.MedianFillS, 1);
            WriteNumber(json, "median_run_s", day.MedianRunS, 1);
            json.WriteEndObject();
        }

        json.WriteEndArray();
        json.WriteEndObject();
    }

    private static void WriteLedger(Utf8JsonWriter json, IReadOnlyList<LedgerDay> ledger)
    {
        json.WriteStartArray("ledger");
        foreach (var day in ledger) WriteDay(json, day);
        json.WriteEndArray();
    }

    internal static void WriteDay(Utf8JsonWriter json, LedgerDay day)
    {
        json.WriteStartObject();
        json.WriteString("date", DateForm.Format(day.Date));
        WriteLitres("topup", day.TopUp);
        WriteLitres("bleed", day.Bleed);
        WriteLitres("rain", day.Rain);
        WriteLitres("evaporation", day.Evaporation);
        WriteLitres("plant_use", day.PlantUse);
        WriteLitres("drawn", day.Drawn);
        WriteLitres("stored", day.Stored);
        WriteLitres("unexplained", day.Unexplained);
        json.WriteEndObject();

        void WriteLitres(string name, Litres litres)
        {
            WriteNumber(json, name + "_l", litres.L, 2);
            WriteNumber(json, name + "_l_pm", litres.PlusMinusL, 2);
        }
    }

    private static void WriteEstimates(Utf8JsonWriter json, Diagnosis diagnosis)
    {
        json.WriteStartArray("estimates");
        foreach (var estimate in diagnosis.Estimates) WriteEstimate(json, estimate, diagnosis.Zone);
        json.WriteEndArray();
    }

    internal static void WriteEstimate(Utf8JsonWriter json, Estimate estimate, DateTimeZone zone)
    {
        json.WriteStartObject();
        json.WriteString("name", estimate.Name);
        json.WriteString("time", Time(estimate.Time, zone));
        WriteNumber(json, "value", estimate.Value, 4);
        WriteNumber(json, "low", estimate.Low, 4);
        WriteNumber(json, "high", estimate.High, 4);
        json.WriteString("unit", estimate.Unit);
        json.WriteEndObject();
    }

    private static void WriteNotices(Utf8JsonWriter json, Diagnosis diagnosis)
    {
        json.WriteStartArray("notices");
        foreach (var notice in diagnosis.Notices)
        {
            json.WriteStartObject();
            WriteNotice(json, notice, diagnosis.Zone);
            json.WriteEndObject();
        }

        json.WriteEndArray();
    }

    /// <summary>The members of a notice, inside an object that may hold more.</summary>
    internal static void WriteNotice(Utf8JsonWriter json, Notice notice, DateTimeZone zone)
    {
        json.WriteString("cause", notice.Cause);
        json.WriteStartArray("causes");
        foreach (var cause in notice.Causes)
        {
            json.WriteStartObject();
            json.WriteString("cause", cause.Name);
            WriteNumber(json, "probability", cause.Probability, 3);
            json.WriteEndObject();
        }

        json.WriteEndArray();
        json.WriteString("urgency", NameOf(notice.Urgency));
        json.WriteString("since", Time(notice.Since, zone));
        json.WriteString("first_noticed", Time(notice.FirstNoticed, zone));
        if (notice.Cleared is { } cleared) json.WriteString("cleared", Time(cleared, zone));
        else json.WriteNull("cleared");

        // The cautious end: rounded down.
        if (notice.TimeLeft is { } left) json.WriteNumber("time_left_s", (long)Math.Floor(left.TotalSeconds));
        else json.WriteNull("time_left_s");
        json.WriteString("evidence", notice.Evidence);
        json.WriteString("first_act", notice.FirstAct);
    }

    private static void WriteOwnRule(Utf8JsonWriter json, OwnRuleFinding? own)
    {
        if (own is null)
        {
            json.WriteNull("own_rule");
            return;
        }

        json.WriteStartObject("own_rule");
        json.WriteNumber("topups", own.TopUps);
        WriteNumber(json, "litres", own.Litres, 2);
        json.WriteNumber("not_needed", own.NotNeeded);
        json.WriteNumber("late", own.Late);
        WriteNumber(json, "too_much_l", own.TooMuchL, 2);
        WriteTexts(json, "why", own.Why);
        json.WriteEndObject();
    }

    private static void WriteTexts(Utf8JsonWriter json, string name, IReadOnlyList<string> texts)
    {
        json.WriteStartArray(name);
        foreach (string text in texts) json.WriteStringValue(text);
        json.WriteEndArray();
    }

    /// <summary>A rounded number; null for one that is not known or not finite. Minus zero becomes zero.</summary>
    private static void WriteNumber(Utf8JsonWriter json, string name, double? value, int decimals)
    {
        if (value is { } known && double.IsFinite(known))
            json.WriteNumber(name, Math.Abs(known) < 1e12 ? Math.Round(known, decimals, MidpointRounding.AwayFromZero) + 0.0 : known);
        else json.WriteNull(name);
    }

    /// <summary>RFC 3339 to the second, with the offset of the place.</summary>
    internal static string Time(Instant time, DateTimeZone zone) =>
        TimeForm.Format(Instant.FromUnixTimeSeconds(time.ToUnixTimeSeconds()).InZone(zone).ToOffsetDateTime());
}
