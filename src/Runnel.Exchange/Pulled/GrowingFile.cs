namespace Runnel.Exchange.Pulled;

/// <summary>
/// The whole lines that were added to a file since last time. It follows the file where it is rotated (another file under its name: the old
/// one is read to its end first), cut to nothing, or written anew, and waits where it is away.
/// </summary>
public sealed class GrowingFile(string path) : IDisposable
{
    /// <summary>Beginnings are compared over this many bytes to tell a file from another under its name.</summary>
    private const int HeadBytes = 4096;

    /// <summary>A line longer than this is no line.</summary>
    private const int MostPending = 1024 * 1024;

    private FileStream? _file;
    private byte[] _head = [];
    private readonly List<byte> _pending = [];

    /// <summary>Bytes read of the file that is open.</summary>
    public long Position { get; private set; }

    /// <summary>Whole lines since last time, at most about <paramref name="most"/> bytes; and whether they begin a file.</summary>
    /// <exception cref="IOException">The file cannot be read.</exception>
    public (byte[] Lines, bool Begins) Next(int most)
    {
        if (_file is null && !Open()) return ([], false);
        if (IsWrittenAnew()) Rewind();
        bool begins = Position == 0;
        byte[] added = Read(most);
        if (added.Length == 0 && IsAnother())
        {
            // What was never ended by a line break is a line all the same, now that nothing can follow it.
            byte[] rest = [.. _pending];
            Close();
            if (rest.Length > 0) return ([.. rest, (byte)'\n'], false);
            if (!Open()) return ([], false);
            begins = true;
            added = Read(most);
        }

        _pending.AddRange(added);
        int end = _pending.LastIndexOf((byte)'\n') + 1;
        if (end == 0)
        {
            if (_pending.Count > MostPending) _pending.Clear();
            // A first line that is not whole yet still begins the file.
            if (begins && _pending.Count > 0) Rewind();
            return ([], begins);
        }

        byte[] lines = [.. _pending.Take(end)];
        _pending.RemoveRange(0, end);
        return (lines, begins);
    }

    public void Dispose() => Close();

    private void Rewind()
    {
        _pending.Clear();
        _head = [];
        Position = 0;
    }

    /// <summary>The open file was cut, or begins otherwise than it did.</summary>
    private bool IsWrittenAnew()
    {
        if (_file!.Length < Position) return true;
        byte[] head = new byte[_head.Length];
        _file.Position = 0;
        _file.ReadAtLeast(head, head.Length, throwOnEndOfStream: false);
        return !head.AsSpan().SequenceEqual(_head);
    }

    private bool Open()
    {
        if (!File.Exists(path)) return false;
        _file = new FileStream(path, FileMode.Open, FileAccess.Read, FileShare.ReadWrite | FileShare.Delete, bufferSize: 0);
        Position = 0;
        _head = [];
        _pending.Clear();
        return true;
    }

    private void Close()
    {
        _file?.Dispose();
        _file = null;
        _pending.Clear();
    }

    private byte[] Read(int most)
    {
        byte[] buffer = new byte[Math.Clamp(_file!.Length - Position, 0, most)];
        _file.Position = Position;
        int read = _file.ReadAtLeast(buffer, buffer.Length, throwOnEndOfStream: false);
        if (_head.Length < HeadBytes && Position == _head.Length) _head = [.. _head, .. buffer.AsSpan(0, Math.Min(read, HeadBytes - _head.Length))];
        Position += read;
        return read == buffer.Length ? buffer : buffer[..read];
    }

    /// <summary>The name now stands for another file, or this one was cut.</summary>
    private bool IsAnother()
    {
        try
        {
            using var now = new FileStream(path, FileMode.Open, FileAccess.Read, FileShare.ReadWrite | FileShare.Delete, bufferSize: 0);
            if (now.Length < Position) return true;
            byte[] head = new byte[_head.Length];
            now.ReadAtLeast(head, head.Length, throwOnEndOfStream: false);
            return !head.AsSpan().SequenceEqual(_head);
        }
        catch (FileNotFoundException)
        {
            // Moved away, and the new one is not there yet: the old one may still grow.
            return false;
        }
    }
}
