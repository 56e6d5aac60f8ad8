using NodaTime;
using Runnel.Live.Intake;
using Runnel.Place;
using Runnel.Steward;

namespace Runnel.Live.Loop;

/// <summary>
/// The one place where the steward is fed. Events wait a moment, so that those of several sources fall into the order of their times, and
/// are then read once each. What comes later than that moment (or changes what was read) makes the whole stored log be read again, beside
/// the running loop; the new state takes the place of the old when it has caught up.
/// </summary>
internal sealed class ReadingLoop
{
    private readonly StoredLog _log;
    private readonly LiveOptions _options;
    private readonly IntakeTally _tally;
    private readonly System.Threading.Channels.Channel<IReadOnlyList<LiveEvent>> _incoming =
        System.Threading.Channels.Channel.CreateUnbounded<IReadOnlyList<LiveEvent>>(new() { SingleReader = true });
    private readonly SortedDictionary<EventKey, LiveEvent> _waiting = [];
    private readonly List<LiveEvent> _readMeanwhile = [];
    private LiveSteward? _steward;
    private Task<LiveSteward>? _again;
    private long _againEnded;
    private volatile bool _mustReadAgain;
    private bool _first = true;

    public ReadingLoop(PlaceDescription place, StoredLog log, LiveOptions options, IntakeTally tally)
    {
        (_log, _options, _tally) = (log, options, tally);
        try
        {
            _steward = new LiveSteward(place);
        }
        catch (NotYetReadableException error)
        {
            CannotRead = error.Message;
        }
    }

    /// <summary>Why this place cannot be read at all; null: it can.</summary>
    public string? CannotRead { get; }

    /// <summary>Up to here everything has been read.</summary>
    public Instant Front { get; private set; } = Instant.MinValue;

    /// <summary>The state in force; null while the stored log is first read.</summary>
    public LiveSteward? Steward => CannotRead is null && !_first ? _steward : null;

    /// <summary>The log is being read again, or waits for it.</summary>
    public bool IsReadingAgain => _again is not null || _mustReadAgain;

    /// <summary>What went wrong inside the steward, and when; null: nothing.</summary>
    public string? Stumble { get; private set; }

    /// <summary>Hands in what has been stored.</summary>
    public void Take(IReadOnlyList<LiveEvent> events) => _incoming.Writer.TryWrite(events);

    /// <summary>An entry was changed or taken back: what was read from it no longer holds.</summary>
    public void ReadAgain()
    {
        _mustReadAgain = true;
        _incoming.Writer.TryWrite([]);
    }

    /// <summary>Begins with what is stored: all up to <paramref name="front"/> is read beside the loop, the few events after it wait here.</summary>
    public async Task BeginAsync(Instant front, CancellationToken stopping)
    {
        Front = front;
        await foreach (var happened in _log.EventsAsync(front + Duration.FromTicks(1), Instant.MaxValue, stopping)) _waiting[happened.Key] = happened;
        if (CannotRead is null) StartAgain(stopping);
        else _first = false;
    }

    /// <summary>Reads what is due at <paramref name="now"/>; returns the events read, in order, and behind them those that came late.</summary>
    public async Task<IReadOnlyList<LiveEvent>> StepAsync(Instant now, TimeProvider clock, CancellationToken cancel)
    {
        var late = Gather();
        var due = now - _options.Settling();
        var read = Read(due);
        await SwapAsync(clock);
        if (due > Front) Front = due;
        if (CannotRead is null) Guarded(s => s.AdvanceTo(Front));
        if (_mustReadAgain && _again is null && CannotRead is null && clock.GetElapsedTime(_againEnded) >= _options.BetweenReadings) StartAgain(cancel);
        read.AddRange(late);
        return read;
    }

    private List<LiveEvent> Gather()
    {
        var late = new List<LiveEvent>();
        while (_incoming.Reader.TryRead(out var events))
        {
            foreach (var happened in events)
            {
                if (happened.Time > Front) _waiting[happened.Key] = happened;
                else late.Add(happened);
            }
        }

        if (late.Count == 0) return late;
        _tally.AddLate(late.Count);
        _mustReadAgain = true;
        return late;
    }

    private List<LiveEvent> Read(Instant due)
    {
        var read = new List<LiveEvent>();
        foreach (var (key, happened) in _waiting)
        {
            if (key.Time > due) break;
            read.Add(happened);
        }

        foreach (var happened in read) _waiting.Remove(happened.Key);
        if (CannotRead is not null) return read;
        if (_again is not null) _readMeanwhile.AddRange(read);
        if (!_first) FeedAll(_steward!, read);
        return read;
    }

    private void FeedAll(LiveSteward steward, List<LiveEvent> events)
    {
        foreach (var happened in events)
        {
            try
            {
                StoredLog.Feed(steward, happened);
            }
#pragma warning disable CA1031 // One event that the steward cannot digest must not end the reading of all that follow.
            catch (Exception error)
#pragma warning restore CA1031
            {
                Stumble = $"An event of {happened.Time} could not be read ({error.GetType().Name}: {error.Message.TrimEnd('.')}); it is stored, and left out of the findings.";
            }
        }
    }

    private void Guarded(Action<LiveSteward> act)
    {
        if (_steward is not { } steward || _first) return;
        try
        {
            act(steward);
        }
#pragma warning disable CA1031 // As above.
        catch (Exception error)
#pragma warning restore CA1031
        {
            Stumble = $"The watches stumbled ({error.GetType().Name}: {error.Message.TrimEnd('.')}); readings are stored all the same.";
        }
    }

    private void StartAgain(CancellationToken cancel)
    {
        _mustReadAgain = false;
        _readMeanwhile.Clear();
        var until = Front;
        _again = Task.Run(() => _log.ReadAsync(until, cancel), cancel);
    }

    private async Task SwapAsync(TimeProvider clock)
    {
        if (_again is not { IsCompleted: true } done) return;
        _again = null;
        _againEnded = clock.GetTimestamp();
        try
        {
            var steward = await done;
            FeedAll(steward, _readMeanwhile);
            _steward = steward;
            _first = false;
        }
#pragma warning disable CA1031 // A log that cannot be read now (a damaged page, a full disk) is tried again; the loop goes on with what it has.
        catch (Exception error) when (error is not OperationCanceledException)
#pragma warning restore CA1031
        {
            Stumble = $"The stored log could not be read again: {error.Message}";
            _mustReadAgain = true;
        }

        _readMeanwhile.Clear();
    }
}
