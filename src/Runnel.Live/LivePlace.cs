using NodaTime;
using Runnel.Exchange.Intake;
using Runnel.Live.Intake;
using Runnel.Live.Loop;
using Runnel.Live.People;
using Runnel.Live.View;
using Runnel.Place;
using Runnel.Records;

namespace Runnel.Live;

/// <summary>
/// The running place. Readings and entries come in from anywhere, are stored, and are acknowledged only then; one loop reads them in the
/// order of their times, and what it understands is shown as an unchanging <see cref="LiveView"/>, at most once a second.
/// </summary>
public sealed class LivePlace : IAsyncDisposable
{
    /// <summary>Clocks that lost their setting start at 1970, 1980 or 2000 (common practice).</summary>
    private static readonly Instant NoClockBefore = Instant.FromUtc(2001, 1, 2, 0, 0);

    private readonly ReadingStore _store;
    private readonly TimeProvider _clock;
    private readonly LiveOptions _options;
    private readonly IntakeTally _tally = new();
    private readonly NoticeWords _words = new();
    private readonly ReadingLoop _loop;
    private readonly ViewMaker _views;
    private readonly CancellationTokenSource _stopping = new();
    private Task _running = Task.CompletedTask;
    private int _disposed;
    private long _turnedAt = TimeProvider.System.GetTimestamp();

    private LivePlace(PlaceDescription place, ReadingStore store, TimeProvider clock, LiveOptions options)
    {
        (Place, _store, _clock, _options) = (place, store, clock, options);
        _loop = new ReadingLoop(place, new StoredLog(place, store), options, _tally);
        Work = new WorkWatch(_words);
        _views = new ViewMaker(place, _loop, _tally, _words, Work, clock, options);
    }

    public PlaceDescription Place { get; }

    /// <summary>The view in force.</summary>
    public LiveView View => _views.Feed.Current;

    /// <summary>The present of this place.</summary>
    public Instant Now => Instant.FromDateTimeOffset(_clock.GetUtcNow());

    /// <summary>What is stored: for charts and lists.</summary>
    public ReadingStore Records => _store;

    /// <summary>The loop has turned lately: what a watchdog wants to know.</summary>
    public bool IsTurning => TimeProvider.System.GetElapsedTime(Interlocked.Read(ref _turnedAt)) < TimeSpan.FromSeconds(20);

    internal WorkWatch Work { get; }

    /// <summary>Starts with what is stored; the store stays the caller's.</summary>
    public static async Task<LivePlace> StartAsync(
        PlaceDescription place, ReadingStore store, TimeProvider clock, LiveOptions? options, CancellationToken cancel)
    {
        var live = new LivePlace(place, store, clock, options ?? new LiveOptions());
        foreach (var saying in await store.Said.ReadAllAsync(cancel)) live._words.Take(saying);
        live.Work.Read(await store.Daybook.ListAsync(cancel));
        await live.EndOverdueWorkAsync(live.Now, handIn: false, cancel);
        await live._views.BeginAsync(store, live.Now, cancel);
        await live._loop.BeginAsync(live.Now - live._options.Settling(), live._stopping.Token);
        live._running = Task.Run(() => live.RunAsync(live._stopping.Token), CancellationToken.None);
        return live;
    }

    /// <summary>The present view, then each that follows.</summary>
    public IAsyncEnumerable<LiveView> ChangesAsync(CancellationToken cancel) => _views.Feed.ChangesAsync(cancel);

    /// <summary>Where readings come from, for the view; asked anew for each.</summary>
    public void ShowSources(Func<IReadOnlyList<SourceStanding>> sources) => _views.Sources = sources;

    /// <summary>Takes what came in; completes when its readings are on the disk.</summary>
    /// <exception cref="RecordsException">Nothing of it was stored.</exception>
    public async Task TakeAsync(Received received, CancellationToken cancel)
    {
        var now = Now;
        var taken = new List<ChannelReading>(received.Readings.Count);
        var events = new List<LiveEvent>(received.Readings.Count);
        foreach (var reading in received.Readings)
        {
            string id = Place.Channels[reading.Channel].Id;
            if (!double.IsFinite(reading.Value))
            {
                _tally.Refuse([new("no finite number", id)], now);
            }
            else if (reading.Time > now + _options.MostAhead)
            {
                _tally.Refuse([new("a time ahead of the clock here: set the clock of the sender", $"{id} at {reading.Time}")], now);
            }
            else if (reading.Time < NoClockBefore)
            {
                _tally.Refuse([new("a time long before any reading: the clock of the sender is not set", $"{id} at {reading.Time}")], now);
            }
            else
            {
                taken.Add(new ChannelReading(id, reading.Time, reading.Value));
                events.Add(LiveEvent.Of(reading));
            }
        }

        if (received.Refused.Count > 0) _tally.Refuse(received.Refused, now);
        if (taken.Count == 0) return;
        try
        {
            var stored = await _store.AddAsync(taken, cancel);
            _views.RecordsTrouble = null;
            _tally.Add(stored, now);
            if (stored.New + stored.Changed > 0) _loop.Take(events);
        }
        catch (RecordsException error)
        {
            _views.RecordsTrouble = error.Message;
            throw;
        }
    }

    /// <summary>Writes what a person did or saw into the daybook; null where the same entry stands already.</summary>
    /// <param name="entry">What happened.</param>
    /// <param name="until">Of work: when it is meant to end; it ends then by itself, and after two hours at the latest.</param>
    /// <param name="cancel">Stops the waiting.</param>
    public async Task<long?> WriteAsync(DaybookEntry entry, Instant? until, CancellationToken cancel)
    {
        long? number = await _store.Daybook.WriteAsync(entry, Now, until, cancel);
        if (number is not { } written) return null;
        if (entry.Entry.StartsWith("work-", StringComparison.Ordinal)) Work.Read(await _store.Daybook.ListAsync(cancel));
        _loop.Take([LiveEvent.Of(written, entry)]);
        _views.PeopleSpoke();
        return number;
    }

    /// <summary>Gives an entry another reading; the old one is kept, and the log is read again. False where there is no such entry.</summary>
    public async Task<bool> CorrectAsync(long number, DaybookEntry entry, string? by, CancellationToken cancel) =>
        await ChangedAsync(_store.Daybook.CorrectAsync(number, entry, Now, by, cancel), cancel);

    /// <summary>Takes an entry back; it stays to be seen, and the log is read again. False where there is no such entry.</summary>
    public async Task<bool> StrikeAsync(long number, string? by, CancellationToken cancel) =>
        await ChangedAsync(_store.Daybook.StrikeAsync(number, Now, by, cancel), cancel);

    /// <summary>All entries with their earlier readings, in time order.</summary>
    public Task<IReadOnlyList<DaybookRow>> DaybookAsync(CancellationToken cancel) => _store.Daybook.ListAsync(cancel);

    /// <summary>Somebody's hands are in the loop from now on.</summary>
    public Task<long?> BeginWorkAsync(Instant until, string? by, string? note, CancellationToken cancel) =>
        WriteAsync(new DaybookEntry(Now, "work-began", null, null, by, note), until, cancel);

    /// <summary>Hands are out of the loop again; the closing question is asked until it is answered.</summary>
    public Task<long?> EndWorkAsync(string? by, string? note, CancellationToken cancel) =>
        WriteAsync(new DaybookEntry(Now, "work-ended", null, null, by, note), null, cancel);

    /// <summary>Somebody has seen that notice.</summary>
    public Task AcknowledgeAsync(string key, string? by, CancellationToken cancel) =>
        SayAsync(new Saying(key, Now, NoticeWords.Acknowledged, "", by, null), cancel);

    /// <summary>What a notice was, or the answer to a closing question (<c>as-before</c>, or in the note what is not).</summary>
    public Task AnswerAsync(string key, string was, string? by, string? note, CancellationToken cancel) =>
        SayAsync(new Saying(key, Now, NoticeWords.Answered, was, by, note), cancel);

    public async ValueTask DisposeAsync()
    {
        if (Interlocked.Exchange(ref _disposed, 1) == 1) return;
        await _stopping.CancelAsync();
        await _running;
        _stopping.Dispose();
    }

    private async Task<bool> ChangedAsync(Task<bool> change, CancellationToken cancel)
    {
        if (!await change) return false;
        Work.Read(await _store.Daybook.ListAsync(cancel));
        _loop.ReadAgain();
        _views.PeopleSpoke();
        return true;
    }

    private async Task SayAsync(Saying saying, CancellationToken cancel)
    {
        await _store.Said.AddAsync(saying, cancel);
        _words.Take(saying);
        _views.PeopleSpoke();
    }

    /// <summary>Work whose time is up ends by itself, at the time that was told.</summary>
    private async Task EndOverdueWorkAsync(Instant now, bool handIn, CancellationToken cancel)
    {
        if (Work.Overdue(now) is not { } work) return;
        var ended = new DaybookEntry(work.Until, "work-ended", null, null, work.By, "at the time told");
        long? number = await _store.Daybook.WriteAsync(ended, now, null, cancel);
        Work.Read(await _store.Daybook.ListAsync(cancel));
        if (handIn && number is { } written) _loop.Take([LiveEvent.Of(written, ended)]);
    }

    private async Task RunAsync(CancellationToken cancel)
    {
        // A turn every quarter of a second of the clock on the wall: quick enough for eyes, and nothing to a processor.
        using var turns = new PeriodicTimer(TimeSpan.FromMilliseconds(250), _clock);
        while (await NextAsync(turns, cancel))
        {
            try
            {
                // The present is read before what came in is gathered: nothing handed in before it can then be late.
                var now = Now;
                await EndOverdueWorkAsync(now, handIn: true, cancel);
                _views.Take(await _loop.StepAsync(now, _clock, cancel));
                _views.PublishWhenDue(now);
                Interlocked.Exchange(ref _turnedAt, TimeProvider.System.GetTimestamp());
            }
            catch (OperationCanceledException) when (cancel.IsCancellationRequested)
            {
                return;
            }
#pragma warning disable CA1031 // One bad turn is told and never ends the loop.
            catch (Exception error)
#pragma warning restore CA1031
            {
                _views.LoopTrouble = $"The running place stumbled: {error.Message}";
            }
        }
    }

    private static async Task<bool> NextAsync(PeriodicTimer turns, CancellationToken cancel)
    {
        try
        {
            return await turns.WaitForNextTickAsync(cancel);
        }
        catch (OperationCanceledException)
        {
            return false;
        }
    }
}
