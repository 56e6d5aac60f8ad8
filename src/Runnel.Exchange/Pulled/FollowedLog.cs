using NodaTime;
using Runnel.Exchange.Intake;
using Runnel.Exchange.Logs;
using Runnel.Place;

namespace Runnel.Exchange.Pulled;

/// <summary>Follows a log that another program keeps writing, or takes in logs that are dropped into a folder.</summary>
public sealed class FollowedLog
{
    private const int MostBytesAtOnce = 4 * 1024 * 1024;
    private const int LongestUnread = 64 * 1024;
    private const int MostReadingsAtOnce = 5000;

    private readonly Source _source;
    private readonly string _path;
    private readonly PlaceDescription _place;
    private readonly IntakeLine _line;
    private readonly Dictionary<string, (long Length, DateTime Written, bool Taken)> _seen = new(StringComparer.Ordinal);
    private byte[]? _heading;
    private byte[] _unread = [];
    private Instant? _lastHeard;
    private string? _trouble;
    private bool _there;

    /// <param name="source">What to follow, and how often to look.</param>
    /// <param name="path">Where it is.</param>
    /// <param name="place">Names the channels.</param>
    /// <param name="line">Takes what comes.</param>
    public FollowedLog(Source source, string path, PlaceDescription place, IntakeLine line) => (_source, _path, _place, _line) = (source, path, place, line);

    public SourceStanding Standing() => new(
        _source.Id, _source.Kind == SourceKind.File ? $"the file {_path}" : $"the folder {_path}", _there, _lastHeard,
        _there ? _trouble : $"There is no {(_source.Kind == SourceKind.File ? "file" : "folder")} {_path}. It is taken up as soon as it is there.");

    public async Task RunAsync(CancellationToken cancel)
    {
        using var file = new GrowingFile(_path);
        using var turns = new PeriodicTimer(_source.Every.ToTimeSpan());
        do
        {
            try
            {
                if (_source.Kind == SourceKind.File) await FollowAsync(file, cancel);
                else await LookIntoFolderAsync(cancel);
            }
#pragma warning disable CA1031 // Whatever it was, it is told and tried again.
            catch (Exception error) when (!cancel.IsCancellationRequested)
#pragma warning restore CA1031
            {
                _trouble = $"{_path} cannot be read ({error.Message.TrimEnd('.')}). It is tried again.";
            }
        }
        while (await turns.WaitForNextTickAsync(cancel));
    }

    private async Task FollowAsync(GrowingFile file, CancellationToken cancel)
    {
        _there = File.Exists(_path);
        while (true)
        {
            var (lines, begins) = file.Next(MostBytesAtOnce);
            if (lines.Length == 0) return;
            if (begins) (_heading, _unread) = (null, []);
            byte[] text = [.. _heading ?? [], .. _unread, .. lines];
            if (_heading is not null)
            {
                await TakeAsync(_path, text, cancel);
            }
            else if (await TakeAsync(_path, text, cancel) || text.Length > LongestUnread)
            {
                (_heading, _unread) = (HeadingOf(text), []);
            }
            else
            {
                // A heading alone so far, or half of a first row: what follows will tell.
                _unread = text;
            }
        }
    }

    private async Task LookIntoFolderAsync(CancellationToken cancel)
    {
        _there = Directory.Exists(_path);
        if (!_there) return;
        foreach (string file in Directory.EnumerateFiles(_path).Where(f => f.EndsWith(".csv", StringComparison.OrdinalIgnoreCase)).Order(StringComparer.Ordinal))
        {
            var now = new FileInfo(file);
            bool known = _seen.TryGetValue(file, out var before) && before.Length == now.Length && before.Written == now.LastWriteTimeUtc;
            // Taken once it has stood still from one look to the next: it may still be being copied.
            if (known && !before.Taken) await TakeAsync(file, await File.ReadAllBytesAsync(file, cancel), cancel);
            _seen[file] = (now.Length, now.LastWriteTimeUtc, known);
        }
    }

    private async Task<bool> TakeAsync(string file, byte[] text, CancellationToken cancel)
    {
        try
        {
            using var stream = new MemoryStream(text);
            var log = LogReader.Read(stream, _place, LogReadOptions.Default with { Now = _line.Now }, null, cancel);
            foreach (var part in log.Readings.Chunk(MostReadingsAtOnce)) await _line.StoreAsync(new Received(part, []), cancel);
            var refused = log.Skipped.Select(s => new Refusal(s.Reason, $"{Path.GetFileName(file)}, {s.Count} rows")).ToList();
            if (refused.Count > 0) await _line.PutAsync(new Received([], refused), null, cancel);
            (_lastHeard, _trouble) = (_line.Now, null);
            return true;
        }
        catch (UnreadableFileException error)
        {
            _trouble = $"{file}: {error.What}. {error.Remedy}.";
            if (text.Length <= LongestUnread && _heading is null && _source.Kind == SourceKind.File) return false;
            await _line.PutAsync(new Received([], [new Refusal($"a log that cannot be read: {error.What}", Path.GetFileName(file))]), null, cancel);
            return false;
        }
    }

    /// <summary>The lines up to the heading, to stand before every later piece; empty where the log has none.</summary>
    private static byte[] HeadingOf(byte[] lines)
    {
        try
        {
            using var stream = new MemoryStream(lines);
            long heading = LogShape.Find(Csv.CsvText.Open(stream, null, CancellationToken.None), null).HeaderLine;
            int end = 0;
            for (long line = 0; line < heading && end < lines.Length; line++)
            {
                int next = Array.IndexOf(lines, (byte)'\n', end);
                end = next < 0 ? lines.Length : next + 1;
            }

            return lines[..end];
        }
        catch (UnreadableFileException)
        {
            return [];
        }
    }
}
