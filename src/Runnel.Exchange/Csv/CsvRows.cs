using System.Buffers;

namespace Runnel.Exchange.Csv;

/// <summary>What is wrong with a row's quoting.</summary>
public enum CsvFault { None, TextAfterQuote, UnclosedQuote, TooLong }

/// <summary>
/// Splits text into rows of fields after RFC 4180, one row at a time without copies. Also takes line ends of any kind, any separator,
/// blank lines (passed over and counted) and blanks before an opening quote. A row with a fault is given with its line and the reading
/// goes on with the next line, so that one bad quote does not swallow the file.
/// </summary>
public sealed class CsvRows
{
    /// <summary>A row longer than this is a fault: some quote was never closed, or it is no table.</summary>
    public const int GreatestRowLength = 1 << 20;

    private static readonly SearchValues<char> QuoteOnly = SearchValues.Create('"');

    private readonly Func<Span<char>, int> _read;
    private readonly SearchValues<char> _stops;
    private readonly char _separator;
    private char[] _buffer = new char[1 << 14];
    private int _end;
    private int _next;
    private bool _ended;
    private long _nextLine = 1;
    private Field[] _fields = new Field[16];

    private record struct Field(int Start, int Length, bool Doubled);

    /// <summary>Reads the whole of <paramref name="text"/>.</summary>
    public CsvRows(CsvText text, char separator)
        : this(text.Read, separator)
    {
    }

    /// <summary>Reads a text in memory.</summary>
    public CsvRows(ReadOnlyMemory<char> text, char separator)
        : this(ReadFrom(text), separator)
    {
    }

    private CsvRows(Func<Span<char>, int> read, char separator)
    {
        _read = read;
        _separator = separator;
        _stops = SearchValues.Create(separator, '\n', '\r');
    }

    /// <summary>Number of fields of the row.</summary>
    public int Count { get; private set; }

    /// <summary>Line on which the row begins, from 1.</summary>
    public long Line { get; private set; }

    /// <summary>What is wrong with the row; its fields are then those before the fault.</summary>
    public CsvFault Fault { get; private set; }

    /// <summary>Blank lines passed over so far.</summary>
    public long BlankLines { get; private set; }

    /// <summary>A field as written between separators, quotes taken off; good until the next row.</summary>
    public ReadOnlySpan<char> this[int index] => _buffer.AsSpan(_fields[index].Start, _fields[index].Length);

    /// <summary>Steps to the next row; false at the end.</summary>
    public bool Next()
    {
        while (true)
        {
            if (_next == _end && !Fill()) return false;
            if (_buffer[_next] is '\n' or '\r')
            {
                if (!TakeBreak(ref _next)) continue;
                _nextLine++;
                BlankLines++;
                continue;
            }

            Line = _nextLine;
            while (true)
            {
                int after = Split(out long lines);
                if (after >= 0)
                {
                    _next = after;
                    _nextLine += lines;
                    Unescape();
                    return true;
                }

                if (_end - _next >= GreatestRowLength && !_ended)
                {
                    Fault = CsvFault.TooLong;
                    SkipLine();
                    return true;
                }

                if (!Fill() && Fault == CsvFault.UnclosedQuote)
                {
                    SkipLine();
                    return true;
                }
            }
        }
    }

    /// <summary>Splits from <see cref="_next"/> on. Gives where the following row begins, or -1 where more text is needed.</summary>
    private int Split(out long lines)
    {
        lines = 0;
        Count = 0;
        Fault = CsvFault.None;
        int at = _next;
        while (true)
        {
            int start = at;
            int quote = OpeningQuote(start);
            if (quote >= 0)
            {
                int close = ClosingQuote(quote + 1, ref lines, out bool doubled);
                if (close < 0)
                {
                    if (_ended) Fault = CsvFault.UnclosedQuote;
                    return -1;
                }

                Add(new Field(quote + 1, close - quote - 1, doubled));
                at = close + 1;
                while (at < _end && _buffer[at] == ' ' && _separator != ' ') at++;
                if (at == _end)
                {
                    if (!_ended) return -1;
                    lines++;
                    return at;
                }

                if (_buffer[at] != _separator && _buffer[at] is not ('\n' or '\r'))
                {
                    Fault = CsvFault.TextAfterQuote;
                    int skip = _buffer.AsSpan(at, _end - at).IndexOfAny('\n', '\r');
                    if (skip < 0)
                    {
                        if (!_ended) return -1;
                        at = _end;
                        lines++;
                        return at;
                    }

                    at += skip;
                }
            }
            else
            {
                int length = _buffer.AsSpan(start, _end - start).IndexOfAny(_stops);
                if (length < 0)
                {
                    if (!_ended) return -1;
                    Add(new Field(start, _end - start, false));
                    lines++;
                    return _end;
                }

                Add(new Field(start, length, false));
                at = start + length;
            }

            if (_buffer[at] == _separator)
            {
                at++;
                continue;
            }

            if (!TakeBreak(ref at)) return -1;
            lines++;
            return at;
        }
    }

    /// <summary>Steps over one line end. False where a CR is the last character so far and an LF may follow.</summary>
    private bool TakeBreak(ref int at)
    {
        if (_buffer[at] == '\r')
        {
            if (at + 1 == _end && !_ended)
            {
                // Only Next() comes here with _next itself; then more text is fetched and the same place looked at again.
                if (at == _next) Fill();
                return false;
            }

            if (at + 1 < _end && _buffer[at + 1] == '\n') at++;
        }

        at++;
        return true;
    }

    private int OpeningQuote(int at)
    {
        while (at < _end && _buffer[at] == ' ' && _separator != ' ') at++;
        return at < _end && _buffer[at] == '"' ? at : -1;
    }

    private int ClosingQuote(int from, ref long lines, out bool doubled)
    {
        doubled = false;
        int at = from;
        while (true)
        {
            int step = _buffer.AsSpan(at, _end - at).IndexOfAny(QuoteOnly);
            if (step < 0) return -1;
            int quote = at + step;
            if (quote + 1 == _end && !_ended) return -1;
            if (quote + 1 < _end && _buffer[quote + 1] == '"')
            {
                doubled = true;
                at = quote + 2;
                continue;
            }

            lines += CountBreaks(_buffer.AsSpan(from, quote - from));
            return quote;
        }
    }

    private static long CountBreaks(ReadOnlySpan<char> text)
    {
        long breaks = 0;
        for (int i = 0; i < text.Length; i++)
        {
            if (text[i] == '\n' || (text[i] == '\r' && !(i + 1 < text.Length && text[i + 1] == '\n'))) breaks++;
        }

        return breaks;
    }

    private void Unescape()
    {
        for (int i = 0; i < Count; i++)
        {
            if (!_fields[i].Doubled) continue;
            int to = _fields[i].Start, from = to, end = to + _fields[i].Length;
            while (from < end)
            {
                _buffer[to++] = _buffer[from];
                from += _buffer[from] == '"' ? 2 : 1;
            }

            _fields[i].Length = to - _fields[i].Start;
        }
    }

    private void Add(Field field)
    {
        if (Count == _fields.Length) Array.Resize(ref _fields, _fields.Length * 2);
        _fields[Count++] = field;
    }

    /// <summary>Goes to the line after the one the row began on, whatever its quotes.</summary>
    private void SkipLine()
    {
        while (true)
        {
            int length = _buffer.AsSpan(_next, _end - _next).IndexOfAny('\n', '\r');
            if (length >= 0)
            {
                _next += length;
                while (!TakeBreak(ref _next))
                {
                }

                break;
            }

            _next = _end;
            if (!Fill()) break;
        }

        _nextLine++;
        Count = 0;
    }

    /// <summary>Brings in more text after what is not yet split; false at the end.</summary>
    private bool Fill()
    {
        if (_ended) return false;
        int kept = _end - _next;
        if (_next > 0)
        {
            _buffer.AsSpan(_next, kept).CopyTo(_buffer);
            _next = 0;
            _end = kept;
        }

        if (_buffer.Length - _end < 1024) Array.Resize(ref _buffer, _buffer.Length * 2);
        int got = _read(_buffer.AsSpan(_end));
        if (got == 0) _ended = true;
        _end += got;
        return got > 0;
    }

    private static Func<Span<char>, int> ReadFrom(ReadOnlyMemory<char> text)
    {
        int taken = 0;
        return into =>
        {
            int count = Math.Min(into.Length, text.Length - taken);
            text.Span.Slice(taken, count).CopyTo(into);
            taken += count;
            return count;
        };
    }
}
