using System.Text;
using System.Text.Json;
using System.Text.Unicode;
using NodaTime;
using Runnel.Place;

namespace Runnel.Exchange.Intake;

/// <summary>
/// Reads messages: a plain value, JSON by pointer, our own short JSON (<c>{"value": 1.2, "time": "..."}</c>, or one member a channel), or a
/// pack of SenML. Nothing that comes in can make it throw.
/// </summary>
public sealed class PayloadReader(ChannelValues values)
{
    /// <summary>Larger messages are refused unread: a reading takes a few bytes.</summary>
    public const int MostBytes = 256 * 1024;

    private static readonly JsonDocumentOptions Json = new() { MaxDepth = 32, AllowTrailingCommas = true };

    /// <summary>A message that feeds these channels.</summary>
    /// <param name="payload">As it came.</param>
    /// <param name="feeds">What it feeds, all by this topic or URL.</param>
    /// <param name="at">When it came.</param>
    /// <param name="from">Topic or URL, for people.</param>
    public Received Read(ReadOnlySpan<byte> payload, IReadOnlyList<ChannelFeed> feeds, Instant at, string from)
    {
        var tray = new Tray(from);
        if (!IsText(payload, tray)) return tray.Take();
        JsonDocument? document = null;
        bool tried = false;
        try
        {
            foreach (var feed in feeds)
            {
                if (feed.ValueAt is null && !LooksLikeJson(payload))
                {
                    values.Take(feed.Channel, Encoding.UTF8.GetString(payload).Trim(), null, at, tray);
                    continue;
                }

                if (!tried) (document, tried) = (Parse(payload, tray), true);
                if (document is not null) TakeJson(document.RootElement, feed, at, tray);
            }
        }
        catch (InvalidOperationException)
        {
            RefuseNoText(tray);
        }
        finally
        {
            document?.Dispose();
        }

        return tray.Take();
    }

    /// <summary>A message that names its channels itself: SenML, one member a channel, or a list of {"channel", "value", "time"}.</summary>
    public Received ReadNamed(ReadOnlySpan<byte> payload, Instant at, string from)
    {
        var tray = new Tray(from);
        if (!IsText(payload, tray) || Parse(payload, tray) is not { } document) return tray.Take();
        using (document)
        {
            var root = document.RootElement;
            try
            {
                if (SenmlPack.IsOne(root)) SenmlPack.Read(root, values, -1, at, tray);
                else if (root.ValueKind == JsonValueKind.Array) TakeList(root, at, tray);
                else if (root.ValueKind == JsonValueKind.Object) TakeMembers(root, at, tray);
                else tray.Refuse("JSON that is neither a list nor an object", root.ValueKind.ToString());
            }
            catch (InvalidOperationException)
            {
                RefuseNoText(tray);
            }
        }

        return tray.Take();
    }

    // Half of a pair of \u escapes is JSON, and yet no text.
    private static void RefuseNoText(Tray tray) => tray.Refuse("a message with text that is no Unicode", "half of a pair of \\u escapes");

    private static bool IsText(ReadOnlySpan<byte> payload, Tray tray)
    {
        if (payload.Length > MostBytes) tray.Refuse($"a message of more than {MostBytes / 1024} kB", $"{payload.Length} bytes");
        else if (payload.IsEmpty) return false;
        else if (!Utf8.IsValid(payload)) tray.Refuse("a message that is no UTF-8 text", Convert.ToHexString(payload[..Math.Min(payload.Length, 16)]));
        else return true;
        return false;
    }

    private static bool LooksLikeJson(ReadOnlySpan<byte> payload) => payload.TrimStart(" \t\r\n"u8) is [(byte)'{' or (byte)'[', ..];

    private static JsonDocument? Parse(ReadOnlySpan<byte> payload, Tray tray)
    {
        try
        {
            return JsonDocument.Parse(payload.ToArray(), Json);
        }
        catch (JsonException error)
        {
            tray.Refuse("a message that is no JSON", $"{error.Message.Split('.')[0]}: {Encoding.UTF8.GetString(payload[..Math.Min(payload.Length, 60)])}");
            return null;
        }
    }

    private void TakeJson(in JsonElement root, ChannelFeed feed, Instant at, Tray tray)
    {
        string id = values.Place.Channels[feed.Channel].Id;
        if (feed.ValueAt is null && SenmlPack.IsOne(root))
        {
            SenmlPack.Read(root, values, feed.Channel, at, tray);
            return;
        }

        if (JsonPointer.Find(root, feed.ValueAt ?? "/value") is not { } value)
        {
            tray.Refuse($"{id}: nothing at {feed.ValueAt ?? "/value"} in the message", root.GetRawText());
            return;
        }

        var time = at;
        if (JsonPointer.Find(root, feed.TimeAt ?? "/time") is { } told && (feed.TimeAt is not null || feed.ValueAt is null))
        {
            if (MomentText.Read(told, values.Place.Zone) is not { } read)
            {
                tray.Refuse($"{id}: time not understood", told.GetRawText());
                return;
            }

            time = read;
        }

        values.Take(feed.Channel, value, null, time, tray);
    }

    private void TakeList(in JsonElement root, Instant at, Tray tray)
    {
        foreach (var item in root.EnumerateArray()) TakeItem(item, at, tray);
    }

    private void TakeItem(in JsonElement item, Instant at, Tray tray)
    {
        if (item.ValueKind != JsonValueKind.Object || !item.TryGetProperty("channel", out var name) || name.ValueKind != JsonValueKind.String || !item.TryGetProperty("value", out var value))
            tray.Refuse("a reading without channel and value", item.GetRawText());
        else if (values.Find(name.GetString()!) is var channel && channel < 0) tray.Refuse("a name that is no channel of the place", name.GetString()!);
        else if (TimeOf(item, at, tray) is { } time) values.Take(channel, value, null, time, tray);
    }

    private void TakeMembers(in JsonElement root, Instant at, Tray tray)
    {
        if (root.TryGetProperty("channel", out var one) && one.ValueKind == JsonValueKind.String)
        {
            TakeItem(root, at, tray);
            return;
        }

        if (TimeOf(root, at, tray) is not { } time) return;
        foreach (var member in root.EnumerateObject())
        {
            if (member.Name == "time" && values.Find("time") < 0) continue;
            int channel = values.Find(member.Name);
            if (channel < 0) tray.Refuse("a name that is no channel of the place", member.Name);
            else values.Take(channel, member.Value, null, time, tray);
        }
    }

    private Instant? TimeOf(in JsonElement item, Instant at, Tray tray)
    {
        if (!item.TryGetProperty("time", out var told)) return at;
        var time = MomentText.Read(told, values.Place.Zone);
        if (time is null) tray.Refuse("time not understood", told.GetRawText());
        return time;
    }
}
