using NodaTime;

namespace Runnel.Live.Tests;

/// <summary>A clock that stands where it is put; timers run as on the wall, so that the loop turns.</summary>
public sealed class SetClock(Instant now) : TimeProvider
{
    private long _ticks = now.ToUnixTimeTicks();

    public Instant Now
    {
        get => Instant.FromUnixTimeTicks(Interlocked.Read(ref _ticks));
        set => Interlocked.Exchange(ref _ticks, value.ToUnixTimeTicks());
    }

    public override DateTimeOffset GetUtcNow() => Now.ToDateTimeOffset();
}
