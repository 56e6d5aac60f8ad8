using System.Text.Json;
using NodaTime;
using Runnel.Place;

namespace Runnel.Exchange.Intake;

/// <summary>Packs of SenML in JSON (RFC 8428): base name, time, unit and value; numbers, booleans and texts. Sums and data are not taken.</summary>
internal static class SenmlPack
{
    /// <summary>Below this a time counts from the present (RFC 8428, 4.5.3).</summary>
    private const double RelativeBelow = 268_435_456;

    public static bool IsOne(in JsonElement root) =>
        root.ValueKind == JsonValueKind.Array && root.GetArrayLength() > 0 && root[0] is { ValueKind: JsonValueKind.Object } first
        && (first.TryGetProperty("n", out _) || first.TryGetProperty("bn", out _));

    /// <param name="root">The pack.</param>
    /// <param name="values">Knows the channels.</param>
    /// <param name="only">The channel that every record is of, whatever its name; -1: by its name.</param>
    /// <param name="now">The present.</param>
    /// <param name="into">Takes what it gives.</param>
    public static void Read(in JsonElement root, ChannelValues values, int only, Instant now, Tray into)
    {
        var (name, unit, time, value) = ("", (string?)null, 0.0, 0.0);
        foreach (var record in root.EnumerateArray())
        {
            if (record.ValueKind != JsonValueKind.Object)
            {
                into.Refuse("SenML: a record is no object", record.ValueKind.ToString());
                continue;
            }

            if (Text(record, "bn") is { } baseName) name = baseName;
            if (Text(record, "bu") is { } baseUnit) unit = baseUnit;
            if (Number(record, "bt") is { } baseTime) time = baseTime;
            if (Number(record, "bv") is { } baseValue) value = baseValue;
            TakeRecord(record, name + Text(record, "n"), Text(record, "u") ?? unit, time + (Number(record, "t") ?? 0), value, values, only, now, into);
        }
    }

    private static void TakeRecord(
        in JsonElement record, string name, string? unit, double time, double baseValue, ChannelValues values, int only, Instant now, Tray into)
    {
        int channel = only >= 0 ? only : FindChannel(values, name);
        bool holds = record.TryGetProperty("v", out var v) || record.TryGetProperty("vb", out v) || record.TryGetProperty("vs", out v);
        if (!holds) return;
        if (channel < 0)
        {
            into.Refuse("SenML: a name that is no channel of the place", name);
            return;
        }

        var at = time < RelativeBelow ? Relative(now, time) : MomentText.OfNumber(time);
        if (at is not { } taken)
        {
            into.Refuse("SenML: time not understood", name);
        }
        else if (v.ValueKind == JsonValueKind.Number && v.TryGetDouble(out double number) && baseValue != 0)
        {
            values.TakeNumber(channel, number + baseValue, unit, taken, into);
        }
        else
        {
            values.Take(channel, v, unit, taken, into);
        }
    }

    /// <summary>The name, or its last part: devices put their own in front ("urn:dev:ow:10e2073a01080063:temperature").</summary>
    private static int FindChannel(ChannelValues values, string name) =>
        values.Find(name) is >= 0 and var whole ? whole : values.Find(name[(name.LastIndexOfAny(['/', ':']) + 1)..]);

    private static Instant? Relative(Instant now, double seconds) =>
        double.IsFinite(seconds) && seconds > -4e9 ? now + Duration.FromTicks((long)(seconds * 1e7)) : null;

    private static string? Text(in JsonElement record, string key) =>
        record.TryGetProperty(key, out var value) && value.ValueKind == JsonValueKind.String ? value.GetString() : null;

    private static double? Number(in JsonElement record, string key) =>
        record.TryGetProperty(key, out var value) && value.ValueKind == JsonValueKind.Number && value.TryGetDouble(out double number) ? number : null;
}
