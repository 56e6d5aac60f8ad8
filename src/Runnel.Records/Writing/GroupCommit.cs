using System.Threading.Channels;
using Microsoft.Data.Sqlite;

namespace Runnel.Records.Writing;

/// <summary>
/// One task that writes. Whatever waits when it comes round goes into one transaction, and all of it is acknowledged together
/// after the commit: a lone writer waits for one commit, many share one.
/// </summary>
internal sealed class GroupCommit : IAsyncDisposable
{
    /// <summary>A commit longer than this would keep the first of the group waiting too long.</summary>
    private const int MostInOneCommit = 1000;

    /// <summary>Past this many waiting, those who hand in wait too, instead of filling the memory.</summary>
    private const int MostWaiting = 4000;

    private readonly Channel<Work> _waiting = Channel.CreateBounded<Work>(new BoundedChannelOptions(MostWaiting) { SingleReader = true });
    private readonly SqliteConnection _connection;
    private readonly string _path;
    private readonly Task _loop;

    public GroupCommit(SqliteConnection connection, string path)
    {
        _connection = connection;
        _path = path;
        _loop = Task.Run(RunAsync);
    }

    /// <summary>Runs <paramref name="write"/> inside a transaction; completes when that is on the disk.</summary>
    public async Task<T> WriteAsync<T>(Func<T> write, CancellationToken cancel)
    {
        var work = new Work<T>(write, cancel);
        try
        {
            await _waiting.Writer.WriteAsync(work, cancel);
        }
        catch (ChannelClosedException error)
        {
            throw new ObjectDisposedException("The records are closed.", error);
        }

        return await work.Done;
    }

    /// <summary>Takes nothing more and writes what still waits.</summary>
    public async Task CompleteAsync()
    {
        _waiting.Writer.TryComplete();
        await _loop;
    }

    public async ValueTask DisposeAsync()
    {
        await CompleteAsync();
        await _connection.DisposeAsync();
    }

    private async Task RunAsync()
    {
        var group = new List<Work>();
        while (await _waiting.Reader.WaitToReadAsync())
        {
            group.Clear();
            while (group.Count < MostInOneCommit && _waiting.Reader.TryRead(out var work)) group.Add(work);
            Commit(group);
        }
    }

    private void Commit(List<Work> group)
    {
        var error = TryCommit(group);
        if (error is null)
        {
            foreach (var work in group) work.Acknowledge();
        }
        else if (group.Count == 1)
        {
            group[0].Fail(error);
        }
        else
        {
            // Nothing of the group was kept; each goes alone now, so that one bad piece of work spoils only itself.
            foreach (var work in group) Commit([work]);
        }
    }

    private Exception? TryCommit(List<Work> group)
    {
        try
        {
            // Immediate: a second process is waited for here, not in the middle.
            Execute("BEGIN IMMEDIATE");
            foreach (var work in group) work.Run();
            Execute("COMMIT");
            return null;
        }
#pragma warning disable CA1031 // Whatever went wrong belongs to those who wait; the loop must go on for the others.
        catch (Exception error)
#pragma warning restore CA1031
        {
            RollBack();
            return error is SqliteException database ? RecordsException.From(database, _path) : error;
        }
    }

    private void RollBack()
    {
        try
        {
            Execute("ROLLBACK");
        }
        catch (SqliteException)
        {
            // A full disk ends the transaction by itself; then there is nothing left to take back.
        }
    }

    private void Execute(string sql)
    {
        // Plain statements, not a transaction object: prepared commands would each have to be told of it anew.
        using var command = _connection.CreateCommand();
        command.CommandText = sql;
        command.ExecuteNonQuery();
    }

    private abstract class Work
    {
        public abstract void Run();

        public abstract void Acknowledge();

        public abstract void Fail(Exception error);
    }

    private sealed class Work<T>(Func<T> write, CancellationToken cancel) : Work
    {
        // Not on the writer's own stack: a slow caller would hold up every later commit.
        private readonly TaskCompletionSource<T> _done = new(TaskCreationOptions.RunContinuationsAsynchronously);
        private T? _result;
        private bool _ran;

        public Task<T> Done => _done.Task;

        public override void Run()
        {
            if (cancel.IsCancellationRequested) return;
            _result = write();
            _ran = true;
        }

        public override void Acknowledge()
        {
            if (_ran) _done.TrySetResult(_result!);
            else _done.TrySetCanceled(cancel);
        }

        public override void Fail(Exception error) => _done.TrySetException(error);
    }
}
