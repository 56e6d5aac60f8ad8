using Runnel.Exchange.Csv;
using Runnel.Place;

namespace Runnel.Exchange.Logs;

/// <summary>Takes the rows of a log one by one into readings in file order.</summary>
internal sealed class LogRows
{
    private const string TimeKindOfSkip = "time not understood";
    private readonly LogShape _shape;
    private readonly LogChannels _channels;
    private readonly SkipTally _tally;
    private readonly LogReadOptions _options;
    private readonly TimeText _times = new();
    private readonly (int Column, int Channel, (double Scale, double Offset)? Unit)[] _wide;
    private readonly LogUnits _units = new();
    private readonly bool _commaSeparates;
    private readonly List<long> _headerAgain = [];
    private char[] _joined = new char[64];

    /// <exception cref="UnreadableFileException">No column is a channel of the place.</exception>
    public LogRows(LogShape shape, LogChannels channels, SkipTally tally, LogReadOptions options, List<string> remarks)
    {
        _shape = shape;
        _channels = channels;
        _tally = tally;
        _options = options;
        _commaSeparates = shape.Separator == ',';
        _wide = WideColumns.Bind(shape, channels, _units, remarks);
        if (shape.HeaderLine == 0) remarks.Add("The log has no header line; its columns were taken by what they hold.");
    }

    public RawReadings Readings { get; } = new();

    /// <summary>Lines on which the header stands again, as where files were put one behind the other.</summary>
    public IReadOnlyList<long> HeaderAgain => _headerAgain;

    /// <param name="rows">Rows of the file, from its first.</param>
    /// <param name="shareRead">Share of the file that was read so far, or null where its length is not known.</param>
    /// <param name="cancel">Stops the reading.</param>
    public void ReadAll(CsvRows rows, Func<double?> shareRead, CancellationToken cancel)
    {
        int most = _options.MostReadings, nextLook = Math.Min(1_000_000, most + 1);
        while (rows.Next())
        {
            if (rows.Line <= _shape.HeaderLine) continue;
            if ((rows.Line & 0xFFFF) == 0) cancel.ThrowIfCancellationRequested();
            if (rows.Fault != CsvFault.None) _tally.Add(Reason(rows.Fault), rows.Line);
            else if (!IsBlank(rows)) Take(rows);
            if (Readings.Count < nextLook) continue;
            nextLook = Math.Min(nextLook + 1_000_000, Math.Max(most + 1, nextLook + 1));

            // A file that will come to far too many is refused at once, not after a minute.
            double expected = shareRead() is { } share and > 0 ? Readings.Count / share : 0;
            if (Readings.Count > most || expected > 1.5 * most) throw TooMany(rows.Line, most, expected);
        }
    }

    private void Take(CsvRows rows)
    {
        var written = TimeField(rows);
        var time = _times.Read(written);
        if (time.Kind == TimeKind.None)
        {
            SkipTime(rows, written);
            return;
        }

        if (_shape.Offset is { } offset && time.Kind == TimeKind.Local)
            time = time with { Kind = TimeKind.Moment, Ticks = time.Ticks - offset.Ticks };
        if (_shape.IsLong) TakeLong(rows, time);
        else TakeWide(rows, time);
    }

    private void TakeLong(CsvRows rows, in WrittenTime time)
    {
        if (rows.Count <= _shape.Channel || rows.Count <= _shape.Value)
        {
            _tally.Add("fewer fields than the header", rows.Line);
            return;
        }

        var name = rows[_shape.Channel];
        int channel = _channels.Find(name);
        if (channel == LogChannels.LeftOut) return;
        if (channel < 0)
        {
            if (!_tally.Again("no channel of the place", channel, rows.Line))
                _tally.First("no channel of the place", channel, rows.Line, _channels.UnknownReason(name.Trim().ToString()));
            return;
        }

        // A value that comes with its unit is no raw value any more: the place's scale is for those that do not say.
        var told = _shape.Unit >= 0 && _shape.Unit < rows.Count ? _units.To(Measures(channel), rows[_shape.Unit].Trim().ToString()) : null;
        TakeValue(channel, ValueField(rows), time, rows.Line, told);
    }

    /// <summary>The value; two fields where an unquoted decimal comma has split it.</summary>
    private ReadOnlySpan<char> ValueField(CsvRows rows)
    {
        var value = rows[_shape.Value];
        bool split = _commaSeparates && _shape.Columns.Count == 3 && rows.Count == 4 && _shape.Value == 2 && _shape.HeaderLine > 0;
        if (!split || value.IsEmpty || !char.IsAsciiDigit(value[^1]) || !TimeText.Digits(rows[3].TrimEnd(), out _)) return value;
        return Join(value, ',', rows[3].TrimEnd());
    }

    private void TakeWide(CsvRows rows, in WrittenTime time)
    {
        if (rows.Count > _shape.Columns.Count)
        {
            // A trailing separator is no harm; unquoted decimal commas would shift every value.
            for (int i = _shape.Columns.Count; i < rows.Count; i++)
            {
                if (rows[i].IsWhiteSpace()) continue;
                _tally.Add("more fields than the header (decimal commas need quotes or another separator)", rows.Line);
                return;
            }
        }

        foreach (var (column, channel, unit) in _wide)
        {
            if (column < rows.Count) TakeValue(channel, rows[column], time, rows.Line, unit);
        }
    }

    private Quantity Measures(int channel) => _channels.Place.Channels[channel].Measures;

    /// <param name="index">Position of the channel.</param>
    /// <param name="written">The value as written.</param>
    /// <param name="time">Its time.</param>
    /// <param name="line">Line of the row.</param>
    /// <param name="told">Scale and offset of a unit told beside the value or in the heading; null: the place's own apply.</param>
    private void TakeValue(int index, ReadOnlySpan<char> written, in WrittenTime time, long line, (double Scale, double Offset)? told)
    {
        var channel = _channels.Place.Channels[index];
        bool isSwitch = channel.Measures == Quantity.Running;
        var kind = ValueText.Read(written, isSwitch, _commaSeparates, out double value);
        if (kind == ValueKind.NotUnderstood && _units.TryMeasure(channel.Measures, written, _commaSeparates, out value)) (kind, told) = (ValueKind.Number, (1, 0));
        if (kind != ValueKind.Number)
        {
            if (kind != ValueKind.Empty) SkipValue(kind, index, written, line);
            return;
        }

        var (scale, offset) = told ?? (channel.Scale, channel.Offset);
        value = (value * scale) + offset;
        var range = _channels.Ranges[index];
        if (!range.Holds(value))
        {
            if (!_tally.Again("out of range", index, line)) _tally.First("out of range", index, line, range.Reason(channel, value));
            return;
        }

        value = isSwitch ? (value >= 0.5 ? 1 : 0) : range.Clip(value);
        Readings.Add(index, time, value, line);
    }

    private void SkipValue(ValueKind kind, int index, ReadOnlySpan<char> written, long line)
    {
        string reason = kind == ValueKind.Unavailable ? "no value" : "value not understood";
        if (_tally.Again(reason, index, line)) return;
        string first = kind == ValueKind.Unavailable ? $"(\"{written.Trim()}\")" : $"(first: \"{Shown(written)}\")";
        _tally.First(reason, index, line, $"{_channels.Place.Channels[index].Id}: {reason} {first}");
    }

    private ReadOnlySpan<char> TimeField(CsvRows rows)
    {
        if (_shape.Time >= rows.Count) return [];
        var date = rows[_shape.Time];
        return _shape.Clock >= 0 && _shape.Clock < rows.Count ? Join(date.Trim(), ' ', rows[_shape.Clock].Trim()) : date;
    }

    private ReadOnlySpan<char> Join(ReadOnlySpan<char> a, char between, ReadOnlySpan<char> b)
    {
        int length = a.Length + 1 + b.Length;
        if (_joined.Length < length) _joined = new char[length];
        a.CopyTo(_joined);
        _joined[a.Length] = between;
        b.CopyTo(_joined.AsSpan(a.Length + 1));
        return _joined.AsSpan(0, length);
    }

    private void SkipTime(CsvRows rows, ReadOnlySpan<char> written)
    {
        if (written.IsWhiteSpace())
        {
            _tally.Add("no time", rows.Line);
            return;
        }

        bool isHeading = _shape.HeaderLine > 0 && _shape.Time < rows.Count && rows[_shape.Time].Trim().SequenceEqual(_shape.Columns[_shape.Time]);
        if (isHeading)
        {
            _tally.Add("the header line again", rows.Line);
            if (_headerAgain.Count < 10_000) _headerAgain.Add(rows.Line);
        }
        else if (!_tally.Again(TimeKindOfSkip, 0, rows.Line))
            _tally.First(TimeKindOfSkip, 0, rows.Line, $"{TimeKindOfSkip} (first: \"{Shown(written)}\")");
    }

    private static string Shown(ReadOnlySpan<char> text)
    {
        text = text.Trim();
        return text.Length > 40 ? $"{text[..37]}..." : text.ToString();
    }

    private static bool IsBlank(CsvRows rows)
    {
        for (int i = 0; i < rows.Count; i++)
        {
            if (!rows[i].IsWhiteSpace()) return false;
        }

        return true;
    }

    private static string Reason(CsvFault fault) => fault switch
    {
        CsvFault.TextAfterQuote => "text after the closing quote",
        CsvFault.UnclosedQuote => "a quote that is never closed",
        _ => "a line longer than a million characters",
    };

    private static UnreadableFileException TooMany(long line, int most, double expected) => new(
        line, 1,
        expected > 1.5 * most
            ? FormattableString.Invariant($"the log holds about {expected / 1e6:0} million readings, more than the {most / 1e6:0.##} million that fit")
            : FormattableString.Invariant($"the log holds more than {most:#,0} readings"),
        "Split it, for instance by month, and read the parts one by one");
}
