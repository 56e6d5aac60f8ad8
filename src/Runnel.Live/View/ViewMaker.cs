using NodaTime;
using Runnel.Exchange.Intake;
using Runnel.Live.Intake;
using Runnel.Live.Loop;
using Runnel.Live.People;
using Runnel.Place;
using Runnel.Place.Findings;
using Runnel.Records;

namespace Runnel.Live.View;

/// <summary>Makes the views. Findings are worked out when they can have changed; all else is cheap and follows every second.</summary>
internal sealed class ViewMaker
{
    /// <summary>The watches look every five minutes of the place's time.</summary>
    private static readonly Duration WatchesLook = Duration.FromMinutes(5);

    /// <summary>Working out the findings may take this share of the time, no more.</summary>
    private const int ReportShare = 20;

    private static readonly Duration LongestWithoutView = Duration.FromMinutes(1);

    private readonly PlaceDescription _place;
    private readonly ReadingLoop _loop;
    private readonly IntakeTally _tally;
    private readonly NoticeWords _words;
    private readonly WorkWatch _work;
    private readonly TimeProvider _clock;
    private readonly LiveOptions _options;
    private readonly ChannelBoard _board;
    private Diagnosis? _findings;
    private object? _findingsOf;
    private int _noticesThen;
    private Instant _findingsAt = Instant.MinValue;
    private TimeSpan _reportTook;
    private long _reportedAt, _publishedAt;
    private long _number;
    private bool _news = true;
    private int _peopleSpoke;

    public ViewMaker(
        PlaceDescription place, ReadingLoop loop, IntakeTally tally, NoticeWords words, WorkWatch work, TimeProvider clock, LiveOptions options)
    {
        (_place, _loop, _tally, _words, _work, _clock, _options) = (place, loop, tally, words, work, clock, options);
        _board = new ChannelBoard(place);
        Feed = new ViewFeed(Make(Instant.FromDateTimeOffset(clock.GetUtcNow())));
    }

    public ViewFeed Feed { get; }

    public Func<IReadOnlyList<SourceStanding>> Sources { get; set; } = () => [];

    /// <summary>Readings cannot be stored: why, and what to do; null: they can.</summary>
    public string? RecordsTrouble { get; set; }

    public string? LoopTrouble { get; set; }

    /// <summary>Somebody wrote, acknowledged or answered: shown at once.</summary>
    public void PeopleSpoke() => Interlocked.Exchange(ref _peopleSpoke, 1);

    /// <summary>Shows the last stored readings from the first view on.</summary>
    public async Task BeginAsync(ReadingStore store, Instant now, CancellationToken cancel)
    {
        foreach (var count in await store.CountAsync(cancel))
        {
            int channel = _place.ChannelIndex(count.ChannelId);
            if (channel < 0 || _place.Channels[channel].Id != count.ChannelId) continue;
            var last = await store.BucketsAsync(count.ChannelId, count.Last, count.Last + Duration.FromTicks(1), 1, cancel);
            if (last.Count > 0) _board.Take(channel, count.Last, last[0].Mean);
        }

        Feed.Publish(Make(now));
    }

    public void Take(IReadOnlyList<LiveEvent> read)
    {
        foreach (var happened in read)
        {
            if (happened.Entry is null) _board.Take((int)happened.Key.Number, happened.Time, happened.Value);
        }

        _news |= read.Count > 0;
    }

    public void PublishWhenDue(Instant now)
    {
        bool asked = Interlocked.Exchange(ref _peopleSpoke, 0) == 1;
        if (!asked && _clock.GetElapsedTime(_publishedAt) < _options.BetweenViews) return;
        bool renewed = Renew();
        bool stale = now - Feed.Current.At >= LongestWithoutView;
        var current = Feed.Current;
        bool changed = current.ReadingAgain != _loop.IsReadingAgain || current.Troubles.Count != Troubles().Count
            || current.Working != _work.At(now) || current.Closing != _work.Question(now)
            || !current.Sources.SequenceEqual(Sources());
        if (!asked && !_news && !renewed && !stale && !changed) return;
        _news = false;
        _publishedAt = _clock.GetTimestamp();
        Feed.Publish(Make(now));
    }

    /// <summary>Works out the findings where they can have changed since they were last.</summary>
    private bool Renew()
    {
        if (_loop.Steward is not { } steward) return false;
        bool other = !ReferenceEquals(steward, _findingsOf);
        bool looked = _loop.Front - _findingsAt >= WatchesLook;
        if (!other && !looked && steward.NoticeCount == _noticesThen) return false;
        if (!other && _clock.GetElapsedTime(_reportedAt) < _reportTook * ReportShare) return false;
        long began = _clock.GetTimestamp();
        _findings = steward.Report();
        _reportedAt = _clock.GetTimestamp();
        _reportTook = _clock.GetElapsedTime(began, _reportedAt);
        (_findingsOf, _noticesThen, _findingsAt) = (steward, steward.NoticeCount, _loop.Front);
        return true;
    }

    private LiveView Make(Instant now)
    {
        IReadOnlyList<Notice> notices = _findings?.Notices ?? [];
        return new LiveView
        {
            Number = ++_number,
            Place = _place,
            At = now,
            Findings = _findings,
            NotYet = _findings is null ? WhyNotYet() : null,
            Notices = _words.Standings(notices),
            Channels = _board.Standings(now, _loop.Front, notices),
            Working = _work.At(now),
            Closing = _work.Question(now),
            Intake = _tally.Counts(),
            Sources = Sources(),
            Troubles = Troubles(),
            ReadingAgain = _loop.IsReadingAgain,
        };
    }

    private string WhyNotYet() => _loop switch
    {
        { CannotRead: { } why } => $"These channels do not show the loop: {why}.",
        { Steward: null } => "The stored readings are being read; findings follow in a moment.",
        _ => "No reading has come in yet. See under Place where each channel is to come from.",
    };

    private IReadOnlyList<string> Troubles() =>
        [.. ((string?[])[RecordsTrouble is { } r ? $"Readings cannot be stored: {r}" : null, _loop.Stumble, LoopTrouble]).OfType<string>()];
}
