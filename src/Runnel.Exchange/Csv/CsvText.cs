using System.Text;

namespace Runnel.Exchange.Csv;

/// <summary>The characters of a text file, whatever its encoding, with its beginning at hand for a first look.</summary>
public sealed class CsvText
{
    private const int HeadBytes = 1 << 18;
    private const int BlockBytes = 1 << 16;
    private const long ReportEvery = 1 << 20;

    private readonly Stream _stream;
    private readonly Decoder _decoder;
    private readonly IProgress<long>? _progress;
    private readonly CancellationToken _cancel;
    private byte[] _block = [];
    private readonly char[] _head;
    private int _headTaken;
    private int _blockStart;
    private int _blockEnd;
    private bool _ended;
    private long _reported;

    private CsvText(
        Stream stream, Encoding encoding, byte[] head, int headStart, int headEnd, bool ended, IProgress<long>? progress, CancellationToken cancel)
    {
        _stream = stream;
        _decoder = encoding.GetDecoder();
        EncodingName = encoding.WebName;
        _progress = progress;
        _cancel = cancel;
        _ended = ended;
        BytesRead = headEnd;
        var chars = new char[encoding.GetMaxCharCount(headEnd - headStart)];
        int count = _decoder.GetChars(head.AsSpan(headStart, headEnd - headStart), chars, flush: ended);
        _head = chars[..count];
    }

    /// <summary>Up to the first quarter of a megabyte, as text.</summary>
    public ReadOnlyMemory<char> Head => _head;

    /// <summary>Whether <see cref="Head"/> is the whole file.</summary>
    public bool HeadIsAll => _ended && _blockStart == _blockEnd;

    /// <summary>Name of the encoding that was found.</summary>
    public string EncodingName { get; }

    /// <summary>Bytes taken from the stream so far.</summary>
    public long BytesRead { get; private set; }

    /// <summary>Looks at the beginning of a stream and finds its encoding.</summary>
    /// <exception cref="UnreadableFileException">The stream is empty or is no text.</exception>
    public static CsvText Open(Stream stream, IProgress<long>? progress, CancellationToken cancel)
    {
        ArgumentNullException.ThrowIfNull(stream);
        var head = new byte[1 << 14];
        int length = 0;
        bool ended = false;
        while (length < HeadBytes)
        {
            cancel.ThrowIfCancellationRequested();
            if (length == head.Length) Array.Resize(ref head, head.Length * 2);
            int got = stream.Read(head, length, head.Length - length);
            if (got == 0)
            {
                ended = true;
                break;
            }

            length += got;
        }

        FileKind.RefuseWhatIsNoText(head.AsSpan(0, length));
        var (encoding, start) = TextEncoding.Find(head.AsSpan(0, length), ended);
        var text = new CsvText(stream, encoding, head, start, length, ended, progress, cancel);
        progress?.Report(length);
        if (text.Head.Span.IsWhiteSpace() && ended)
            throw new UnreadableFileException(1, 1, "the file is empty", "Give a file with a header line and readings");
        return text;
    }

    /// <summary>Fills <paramref name="into"/> from the start of the file on; 0 at the end.</summary>
    public int Read(Span<char> into)
    {
        if (_headTaken < _head.Length)
        {
            int count = Math.Min(into.Length, _head.Length - _headTaken);
            _head.AsSpan(_headTaken, count).CopyTo(into);
            _headTaken += count;
            return count;
        }

        while (true)
        {
            if (_blockStart == _blockEnd && !_ended) Refill();
            _decoder.Convert(_block.AsSpan(_blockStart, _blockEnd - _blockStart), into, flush: _ended, out int bytes, out int chars, out bool done);
            _blockStart += bytes;
            if (chars > 0) return chars;
            if (_ended && done) return 0;
        }
    }

    private void Refill()
    {
        _cancel.ThrowIfCancellationRequested();
        if (_block.Length == 0) _block = new byte[BlockBytes];
        _blockStart = 0;
        _blockEnd = _stream.Read(_block, 0, _block.Length);
        _ended = _blockEnd == 0;
        BytesRead += _blockEnd;
        if (BytesRead - _reported < ReportEvery && !_ended) return;
        _reported = BytesRead;
        _progress?.Report(BytesRead);
    }
}
