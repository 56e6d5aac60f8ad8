using Runnel.Place;
using Runnel.Place.PlaceFiles;

namespace Runnel.Exchange.Logs;

/// <summary>Finds the channel of the place that a name in a log stands for.</summary>
internal sealed class LogChannels
{
    /// <summary>The name is to be left out.</summary>
    public const int LeftOut = -1;

    /// <summary>Names that are no channel count down from here.</summary>
    public const int FirstUnknown = -2;

    private readonly Dictionary<string, int> _byName = new(StringComparer.Ordinal);
    private readonly Dictionary<string, int>.AlternateLookup<ReadOnlySpan<char>> _bySpan;
    private readonly Dictionary<string, int> _told = new(StringComparer.OrdinalIgnoreCase);
    private int _unknown;

    public LogChannels(PlaceDescription place, IReadOnlyDictionary<string, string> names)
    {
        Place = place;
        Ranges = [.. place.Channels.Select(PlausibleRange.Of)];
        foreach (var (name, id) in names)
        {
            int channel = id.Length == 0 ? LeftOut : place.ChannelIndex(id);
            if (channel < 0 && id.Length > 0)
                throw new ArgumentException($"\"{name}\" is to stand for \"{id}\", which is no channel of the place", nameof(names));
            _told[name.Trim()] = channel;
        }

        _bySpan = _byName.GetAlternateLookup<ReadOnlySpan<char>>();
    }

    public PlaceDescription Place { get; }

    public PlausibleRange[] Ranges { get; }

    /// <summary>Position of the channel; <see cref="LeftOut"/>; or a number of its own from <see cref="FirstUnknown"/> down for an unknown name.</summary>
    public int Find(ReadOnlySpan<char> name)
    {
        if (_bySpan.TryGetValue(name, out int known)) return known;
        string text = name.ToString();
        int found = Search(text);

        // A log that is no log of this place may have a new name in every row.
        if (found == FirstUnknown) found = _unknown < 1000 ? FirstUnknown - _unknown++ : FirstUnknown - 1000;
        if (_byName.Count < 100_000) _byName[text] = found;
        return found;
    }

    private int Search(string name)
    {
        string trimmed = name.Trim();
        if (_told.TryGetValue(trimmed, out int told)) return told;
        var channels = Place.Channels;
        for (int i = 0; i < channels.Count; i++)
        {
            if (channels[i].Column == trimmed) return i;
        }

        int exact = Place.ChannelIndex(trimmed);
        if (exact >= 0) return exact;
        string plain = LettersAndFigures(trimmed);
        if (plain.Length == 0) return FirstUnknown;
        for (int i = 0; i < channels.Count; i++)
        {
            if (LettersAndFigures(channels[i].Id) == plain || (channels[i].Column is { } column && LettersAndFigures(column) == plain)) return i;
        }

        return FirstUnknown;
    }

    /// <summary>What is left when capitals, blanks, marks and a unit in brackets do not matter.</summary>
    private static string LettersAndFigures(string name) => string.Concat(Headings.Plain(name).Where(char.IsLetterOrDigit));

    /// <summary>The reason for people why a name was not taken.</summary>
    public string UnknownReason(string name)
    {
        string shown = name.Length > 60 ? name[..57] + "..." : name;
        if (shown.Length == 0) return "no channel is named";
        return NearestName.To(name, Place.Channels.Select(c => c.Id)) is { } near
            ? $"\"{shown}\" is no channel of the place (nearest: {near})"
            : $"\"{shown}\" is no channel of the place";
    }
}
