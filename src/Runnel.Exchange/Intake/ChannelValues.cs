using System.Text.Json;
using NodaTime;
using Runnel.Exchange.Logs;
using Runnel.Place;

namespace Runnel.Exchange.Intake;

/// <summary>Turns what is written for a channel into a reading, by the same rules as rows of a log: words for on and off, units behind a value,
/// scale and offset of the place file, plausible range. For any thread.</summary>
public sealed class ChannelValues
{
    private readonly PlausibleRange[] _ranges;
    private readonly Dictionary<string, int> _byName = new(StringComparer.Ordinal);
    private readonly LogUnits _units = new();
    private readonly Lock _unitsLock = new();

    public ChannelValues(PlaceDescription place)
    {
        Place = place;
        _ranges = [.. place.Channels.Select(PlausibleRange.Of)];
        for (int i = 0; i < place.Channels.Count; i++) _byName[place.Channels[i].Id] = i;
        for (int i = 0; i < place.Channels.Count; i++)
        {
            if (place.Channels[i].Column is { } column) _byName.TryAdd(column, i);
        }
    }

    public PlaceDescription Place { get; }

    /// <summary>Position of the channel of that name, or -1.</summary>
    public int Find(string name) => _byName.GetValueOrDefault(name, -1);

    /// <summary>Takes a value as JSON has it: number, true or false, or text.</summary>
    public void Take(int channel, in JsonElement value, string? unit, Instant time, Tray into)
    {
        switch (value.ValueKind)
        {
            case JsonValueKind.Number when value.TryGetDouble(out double number) && double.IsFinite(number):
                TakeNumber(channel, number, unit, time, into);
                break;
            case JsonValueKind.True or JsonValueKind.False:
                TakeNumber(channel, value.ValueKind == JsonValueKind.True ? 1 : 0, unit, time, into);
                break;
            case JsonValueKind.String:
                Take(channel, value.GetString(), unit, time, into);
                break;
            case JsonValueKind.Null:
                break;
            default:
                into.Refuse($"{Place.Channels[channel].Id}: value not understood", value.ValueKind.ToString());
                break;
        }
    }

    /// <summary>Takes a value as text.</summary>
    public void Take(int channel, ReadOnlySpan<char> written, string? unit, Instant time, Tray into)
    {
        var described = Place.Channels[channel];
        var kind = ValueText.Read(written, described.Measures == Quantity.Running, commaSeparates: false, out double value);
        if (kind == ValueKind.NotUnderstood && unit is null && TryMeasure(described.Measures, written, out value))
        {
            TakeScaled(channel, value, time, into);
        }
        else if (kind == ValueKind.Number)
        {
            TakeNumber(channel, value, unit, time, into);
        }
        else if (kind != ValueKind.Empty)
        {
            into.Refuse(kind == ValueKind.Unavailable ? $"{described.Id}: no value" : $"{described.Id}: value not understood", written.ToString());
        }
    }

    /// <summary>Takes a value as a number; what is none is refused.</summary>
    internal void TakeNumber(int channel, double raw, string? unit, Instant time, Tray into)
    {
        var described = Place.Channels[channel];
        if (unit is null)
        {
            TakeScaled(channel, (raw * described.Scale) + described.Offset, time, into);
            return;
        }

        // A value that comes with its unit is no raw value any more.
        var (scale, offset) = (1.0, 0.0);
        if (unit == "/" && Quantities.UnitOf(described.Measures) == "%") scale = 100;
        else if (ScaleOf(described.Measures, unit) is { } told) (scale, offset) = told;
        else if (unit is not ("/" or "1" or "count" or "pH"))
        {
            into.Refuse($"{described.Id}: unit \"{(unit.Length > 20 ? unit[..20] : unit)}\" is none of {Quantities.NameOf(described.Measures)}", raw.ToString(System.Globalization.CultureInfo.InvariantCulture));
            return;
        }

        TakeScaled(channel, (raw * scale) + offset, time, into);
    }

    private void TakeScaled(int channel, double value, Instant time, Tray into)
    {
        var described = Place.Channels[channel];
        var range = _ranges[channel];
        if (!double.IsFinite(value) || !range.Holds(value))
        {
            into.Refuse($"{described.Id}: value out of range", double.IsFinite(value) ? range.Reason(described, value) : "no finite number");
            return;
        }

        into.Add(new Reading(channel, time, described.Measures == Quantity.Running ? (value >= 0.5 ? 1 : 0) : range.Clip(value)));
    }

    private (double Scale, double Offset)? ScaleOf(Quantity measures, string unit)
    {
        lock (_unitsLock) return _units.To(measures, unit);
    }

    private bool TryMeasure(Quantity measures, ReadOnlySpan<char> written, out double value)
    {
        lock (_unitsLock) return _units.TryMeasure(measures, written, commaSeparates: false, out value);
    }
}

/// <summary>Gathers what one message gave.</summary>
/// <param name="from">Where it came from, for examples of refusals.</param>
public sealed class Tray(string from)
{
    private const int LongestExample = 80;
    private const int MostRefusals = 100;
    private readonly List<Reading> _readings = [];
    private readonly List<Refusal> _refused = [];

    public void Add(in Reading reading) => _readings.Add(reading);

    public void Refuse(string reason, string found)
    {
        if (_refused.Count >= MostRefusals) return;
        string text = found.Length > LongestExample ? found[..LongestExample] + "..." : found;
        _refused.Add(new Refusal(reason, $"{from}: {new string([.. text.Select(c => char.IsControl(c) || char.IsSurrogate(c) ? ' ' : c)])}"));
    }

    public Received Take() => new(_readings, _refused);
}
