using System.Runtime.CompilerServices;
using Microsoft.Data.Sqlite;
using NodaTime;
using Runnel.Records.Opening;
using Runnel.Records.Packing;
using Runnel.Records.Reading;
using Runnel.Records.Writing;

namespace Runnel.Records;

/// <summary>
/// Everything that was ever read, in one file. What <see cref="AddAsync"/> has acknowledged is on the disk. A channel has one
/// value at a time: the same reading again changes nothing, another value at that time replaces the first.
/// </summary>
public sealed class ReadingStore : IAsyncDisposable
{
    private readonly string _path;
    private readonly GroupCommit _commits;
    private readonly ReadingWriter _writer;

    private ReadingStore(string path, SqliteConnection connection)
    {
        _path = path;
        _writer = new ReadingWriter(connection);
        _commits = new GroupCommit(connection, path);
        Daybook = new DaybookTable(connection, _commits, path);
        PlaceTexts = new PlaceTextTable(connection, _commits, path);
        Said = new SaidTable(connection, _commits, path);
    }

    /// <summary>What people wrote down.</summary>
    public DaybookTable Daybook { get; }

    /// <summary>The texts of the place file that were in force.</summary>
    public PlaceTextTable PlaceTexts { get; }

    /// <summary>What people said about notices and questions.</summary>
    public SaidTable Said { get; }

    /// <summary>Opens the file, or makes it; brings an older one to today's form after setting a copy aside.</summary>
    /// <exception cref="RecordsException">It cannot be opened, is damaged, or is not ours.</exception>
    public static async Task<ReadingStore> OpenAsync(string path, CancellationToken cancel)
    {
        cancel.ThrowIfCancellationRequested();
        string full = Path.GetFullPath(path);
        if (Directory.Exists(full)) throw new RecordsException(path, "is a folder", "Name a file");
        // A migration copies the whole file first: not on the caller's thread.
        return await Task.Run(() => Open(full), cancel);
    }

    /// <summary>Stores readings; completes when they are on the disk.</summary>
    /// <exception cref="ArgumentException">A value is not finite, or a channel has no name.</exception>
    /// <exception cref="RecordsException">Nothing of this call was stored.</exception>
    public async Task<Stored> AddAsync(IReadOnlyList<ChannelReading> readings, CancellationToken cancel)
    {
        foreach (var reading in readings)
        {
            if (!double.IsFinite(reading.Value)) throw new ArgumentException($"{reading.ChannelId} at {reading.Time}: not a finite value", nameof(readings));
            ArgumentException.ThrowIfNullOrEmpty(reading.ChannelId);
        }

        try
        {
            return await _commits.WriteAsync(() => _writer.Add(readings), cancel);
        }
        catch (InvalidDataException error)
        {
            throw RecordsException.Corrupt(_path, error);
        }
    }

    /// <summary>Every reading, in time order over all channels (equal times in order of the channels' first appearance).</summary>
    public IAsyncEnumerable<ChannelReading> ReadAllAsync(CancellationToken cancel) =>
        ReadAsync(Instant.MinValue, Instant.MaxValue, cancel);

    /// <summary>Readings from <paramref name="from"/> up to but without <paramref name="to"/>, in time order over all channels.</summary>
    /// <remarks>Seen at one state of the file, whatever is added meanwhile.</remarks>
    public async IAsyncEnumerable<ChannelReading> ReadAsync(Instant from, Instant to, [EnumeratorCancellation] CancellationToken cancel)
    {
        using var snapshot = await Task.Run(() => Guarded(() => new Snapshot(_path)), cancel);
        using var merged = Guarded(() => new MergedCursor(snapshot.Connection, from.ToUnixTimeTicks(), to.ToUnixTimeTicks()));
        for (int n = 1; Guarded(merged.MoveNext); n++)
        {
            if (n % 4096 == 0) cancel.ThrowIfCancellationRequested();
            yield return merged.Current;
        }
    }

    /// <summary>A channel's readings in a stretch of time, summed up in at most <paramref name="count"/> equal buckets.</summary>
    public Task<IReadOnlyList<Bucket>> BucketsAsync(string channelId, Instant from, Instant to, int count, CancellationToken cancel)
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(count, 1);
        ArgumentOutOfRangeException.ThrowIfLessThanOrEqual(to, from);
        return Task.Run(
            () => Guarded(() =>
            {
                using var snapshot = new Snapshot(_path);
                var channel = BlockQueries.Channels(snapshot.Connection).FirstOrDefault(c => c.Id == channelId);
                return channel.Id is null
                    ? []
                    : new BucketReader(snapshot.Connection, channel.Number, from.ToUnixTimeTicks(), to.ToUnixTimeTicks(), count).Read();
            }),
            cancel);
    }

    /// <summary>How many readings each channel has, in order of first appearance.</summary>
    public Task<IReadOnlyList<ChannelCount>> CountAsync(CancellationToken cancel) =>
        Task.Run(
            () => Guarded(() =>
            {
                using var snapshot = new Snapshot(_path);
                return CountReader.Read(snapshot.Connection);
            }),
            cancel);

    public async ValueTask DisposeAsync()
    {
        await _commits.CompleteAsync();
        _writer.Dispose();
        await _commits.DisposeAsync();
    }

    private static ReadingStore Open(string path)
    {
        SqliteConnection? connection = null;
        try
        {
            connection = RecordsFile.OpenWriter(path);
            Migrations.Run(connection, path);
            return new ReadingStore(path, connection);
        }
        catch (Exception error)
        {
            connection?.Dispose();
            throw error switch
            {
                SqliteException database => RecordsException.From(database, path),
                IOException or UnauthorizedAccessException => new RecordsException(path, error.Message.TrimEnd('.'), "Check the disk and the rights on the folder", error),
                _ => error,
            };
        }
    }

    private T Guarded<T>(Func<T> read)
    {
        try
        {
            return read();
        }
        catch (SqliteException error)
        {
            throw RecordsException.From(error, _path);
        }
        catch (InvalidDataException error)
        {
            throw RecordsException.Corrupt(_path, error);
        }
    }
}
