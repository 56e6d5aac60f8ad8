using Runnel.Exchange.Csv;
using Runnel.Exchange.Logs;

namespace Runnel.Exchange.Survey;

/// <summary>Takes the rows of a log one by one, whatever its channels are called.</summary>
internal sealed class SurveyRows
{
    private readonly LogShape _shape;
    private readonly int _mostChannels;
    private readonly TimeText _times = new();
    private readonly List<ChannelTally> _channels = [];
    private readonly Dictionary<string, ChannelTally> _byName = new(StringComparer.Ordinal);
    private readonly Dictionary<string, ChannelTally>.AlternateLookup<ReadOnlySpan<char>> _bySpan;
    private readonly Dictionary<long, long> _days = [];
    private readonly int[] _columns;
    private long _moments;
    private long _open;
    private readonly bool _monthFirst;
    private long _sureDay;
    private long _sureMonth;
    private long _lastAsDay = long.MinValue;
    private long _lastAsMonth;
    private double _stepsAsDay;
    private double _stepsAsMonth;
    private char[] _joined = new char[64];

    /// <param name="shape">How the table is laid out.</param>
    /// <param name="mostChannels">Names past this number are passed over.</param>
    /// <param name="monthFirst">Dates that could be read either way are read month first.</param>
    public SurveyRows(LogShape shape, int mostChannels, bool monthFirst = false)
    {
        _shape = shape;
        _monthFirst = monthFirst;
        _mostChannels = mostChannels;
        _bySpan = _byName.GetAlternateLookup<ReadOnlySpan<char>>();
        _columns = shape.IsLong ? [] : [.. Enumerable.Range(0, shape.Columns.Count).Where(i => i != shape.Time && i != shape.Clock && shape.Columns[i].Length > 0)];
        foreach (int column in _columns.Take(mostChannels)) _channels.Add(new ChannelTally(shape.Columns[column]));
        TooManyChannels = _columns.Length > mostChannels;
    }

    public IReadOnlyList<ChannelTally> Channels => _channels;

    public long Count { get; private set; }

    public long TimesUnderstood { get; private set; }

    public long TimesNotUnderstood { get; private set; }

    public long FirstBadLine { get; private set; }

    public string FirstTime { get; private set; } = "";

    public string LastTime { get; private set; } = "";

    public bool TooManyChannels { get; private set; }

    public bool AllMoments => _moments == TimesUnderstood || _shape.Offset is not null;

    public bool DayMonthOpen => _open > 0 && _sureDay == 0 && _sureMonth == 0 && Math.Abs(_stepsAsDay - _stepsAsMonth) < 2;

    /// <summary>Whether the dates that can be read either way must be read month first, by other rows or by how the days follow one another.</summary>
    public bool SaysMonthFirst => _open > 0 && (_sureMonth > _sureDay || (_sureMonth == _sureDay && _stepsAsMonth + 2 <= _stepsAsDay));

    /// <summary>Days on which nearly all rows lie: those of a clock that was not set are left out.</summary>
    public double Days
    {
        get
        {
            var groups = new List<(long From, long To, long Count)>();
            foreach (var (day, count) in _days.OrderBy(d => d.Key))
            {
                if (groups.Count > 0 && day - groups[^1].To < 100) groups[^1] = (groups[^1].From, day, groups[^1].Count + count);
                else groups.Add((day, day, count));
            }

            var main = groups.MaxBy(g => g.Count);
            return main.To == main.From ? 1 : main.To - main.From + 0.5;
        }
    }

    public void Take(CsvRows row)
    {
        Count++;
        if (row.Fault != CsvFault.None) return;
        var written = TimeField(row);
        var time = _times.Read(written);
        if (time.Kind == TimeKind.None)
        {
            if (!written.IsWhiteSpace() && TimesNotUnderstood++ == 0) FirstBadLine = row.Line;
            return;
        }

        if (TimesUnderstood++ == 0) FirstTime = written.Trim().ToString();
        LastTime = written.Length == LastTime.Length && written.SequenceEqual(LastTime) ? LastTime : written.Trim().ToString();
        if (time.Kind == TimeKind.Moment) _moments++;
        long ticks = time.Ticks;
        if (time.DayMonth != DayMonth.Sure) ticks = Weighed(time);
        long day = ticks / WrittenTime.PerDay;
        _days[day] = _days.GetValueOrDefault(day) + 1;
        if (_shape.IsLong)
        {
            if (row.Count > _shape.Channel && row.Count > _shape.Value && Named(row[_shape.Channel].Trim()) is { } tally)
            {
                if (_shape.Unit >= 0 && _shape.Unit < row.Count && tally.Unit is null && !row[_shape.Unit].IsWhiteSpace()) tally.Unit = row[_shape.Unit].Trim().ToString();
                Add(tally, ticks, row[_shape.Value]);
            }

            return;
        }

        for (int i = 0; i < _channels.Count; i++)
        {
            if (_columns[i] < row.Count) Add(_channels[i], ticks, row[_columns[i]]);
        }
    }

    /// <summary>The ticks of a date whose order is not plain from its form; counts what it says about the order.</summary>
    private long Weighed(WrittenTime time)
    {
        bool open = time.DayMonth == DayMonth.Open;
        if (open) _open++;
        else if (time.DayMonth == DayMonth.DayFirst) _sureDay++;
        else _sureMonth++;
        long asMonth = open ? WrittenTime.SwapDayAndMonth(time.Ticks) : time.Ticks;
        (long days, long months) = (time.Ticks / WrittenTime.PerDay, asMonth / WrittenTime.PerDay);
        if (_lastAsDay != long.MinValue)
        {
            _stepsAsDay += Math.Abs(days - _lastAsDay);
            _stepsAsMonth += Math.Abs(months - _lastAsMonth);
        }

        (_lastAsDay, _lastAsMonth) = (days, months);
        return open && _monthFirst ? asMonth : time.Ticks;
    }

    public string TimeForm()
    {
        if (_shape.Offset is { } offset) return $"without an offset of their own; the heading says UTC{(offset == NodaTime.Offset.Zero ? "" : offset.ToString())}";
        bool number = !FirstTime.AsSpan().ContainsAny("-/: ") && FirstTime.Length > 0;
        if (_moments == TimesUnderstood) return number ? "a count since 1970" : "with an offset";
        if (_moments > 0) return "some with an offset, some without";
        return number && FirstTime.IndexOf('.') == FirstTime.LastIndexOf('.') && FirstTime.Length is not (8 or 12 or 14)
            ? "a spreadsheet's count of days, local time" : "local time without an offset";
    }

    private void Add(ChannelTally tally, long ticks, ReadOnlySpan<char> written)
    {
        bool comma = _shape.Separator == ',';
        var kind = ValueText.Read(written, forSwitch: true, comma, out double value);
        if (kind == ValueKind.NotUnderstood && ValueText.SplitUnit(written, out var number, out var unit) && ValueText.TryNumber(number, comma, out value))
        {
            tally.Unit ??= unit.ToString();
            tally.Add(ticks, value, isWord: false);
        }
        else if (kind == ValueKind.Number)
        {
            tally.Add(ticks, value, !char.IsAsciiDigit(written.Trim()[^1]));
        }
        else if (kind != ValueKind.Empty)
        {
            tally.AddNotUnderstood();
        }
    }

    private ChannelTally? Named(ReadOnlySpan<char> name)
    {
        if (_bySpan.TryGetValue(name, out var known)) return known;
        if (_channels.Count >= _mostChannels)
        {
            TooManyChannels = true;
            return null;
        }

        var tally = new ChannelTally(name.ToString());
        _byName[tally.Name] = tally;
        _channels.Add(tally);
        return tally;
    }

    private ReadOnlySpan<char> TimeField(CsvRows row)
    {
        if (_shape.Time >= row.Count) return [];
        if (_shape.Clock < 0 || _shape.Clock >= row.Count) return row[_shape.Time];
        var date = row[_shape.Time].Trim();
        var clock = row[_shape.Clock].Trim();
        if (_joined.Length < date.Length + clock.Length + 1) _joined = new char[date.Length + clock.Length + 1];
        date.CopyTo(_joined);
        _joined[date.Length] = ' ';
        clock.CopyTo(_joined.AsSpan(date.Length + 1));
        return _joined.AsSpan(0, date.Length + clock.Length + 1);
    }
}
