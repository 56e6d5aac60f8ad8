using NodaTime;
using Runnel.Place;
using Runnel.Place.Findings;

namespace Runnel.Live.View;

/// <summary>The last reading of each channel. Only the reading loop touches it.</summary>
internal sealed class ChannelBoard(PlaceDescription place)
{
    /// <summary>A channel is quiet after this many of its intervals.</summary>
    private const int QuietAfter = 4;

    private readonly (double Value, Instant Time)?[] _last = new (double, Instant)?[place.Channels.Count];

    public void Take(int channel, Instant time, double value)
    {
        if (_last[channel] is { } known && known.Time > time) return;
        _last[channel] = (value, time);
    }

    /// <param name="now">The present.</param>
    /// <param name="front">Up to here all has been read: what came after it is not missing yet.</param>
    /// <param name="notices">Those of sensors tell what is doubted.</param>
    public IReadOnlyList<ChannelStanding> Standings(Instant now, Instant front, IReadOnlyList<Notice> notices)
    {
        var doubted = notices.Where(n => n.Cleared is null && n.Cause.StartsWith("sensor-", StringComparison.Ordinal)).ToList();
        var standings = new ChannelStanding[place.Channels.Count];
        for (int i = 0; i < standings.Length; i++)
        {
            var channel = place.Channels[i];
            var (health, words) = Health(channel, _last[i]?.Time, now, front, doubted);
            standings[i] = new(channel, _last[i]?.Value, _last[i]?.Time, health, words);
        }

        return standings;
    }

    private static (ChannelHealth Health, string Words) Health(Channel channel, Instant? last, Instant now, Instant front, List<Notice> doubted)
    {
        if (last is not { } time) return (ChannelHealth.NotHeard, "no reading yet");
        // The notice names its channel in what it says; a sensor watch has no other place for it.
        if (doubted.Find(n => n.Evidence.Contains($"\"{channel.Id}\"", StringComparison.Ordinal)) is { } notice)
            return (ChannelHealth.Doubted, notice.Cause switch { CauseNames.SensorFrozen => "stands still", CauseNames.SensorJumping => "jumps", CauseNames.SensorSilent => "silent", _ => "drifts" });
        var age = now - time;
        if (channel.Every is { } every && front - time > every * QuietAfter)
            return (ChannelHealth.Quiet, $"no reading for {Age(age)}; one every {Age(every)} is expected");
        return (ChannelHealth.Fresh, age < Duration.FromMinutes(1) ? "just now" : $"{Age(age)} ago");
    }

    private static string Age(Duration age) => age switch
    {
        _ when age < Duration.FromMinutes(2) => FormattableString.Invariant($"{Math.Max(1, (long)age.TotalSeconds)} s"),
        _ when age < Duration.FromHours(2) => FormattableString.Invariant($"{(long)age.TotalMinutes} min"),
        _ when age < Duration.FromDays(2) => FormattableString.Invariant($"{(long)age.TotalHours} h"),
        _ => FormattableString.Invariant($"{(long)age.TotalDays} days"),
    };
}
