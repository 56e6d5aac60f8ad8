using NodaTime;

namespace Runnel.Live.Demo;

/// <summary>A clock that runs so many times as fast as the one on the wall. Timers run as on the wall.</summary>
public sealed class PacedClock : TimeProvider
{
    private readonly Lock _lock = new();
    private Instant _from;
    private long _since;
    private double _pace;

    public PacedClock(Instant now, double pace)
    {
        (_from, _since, _pace) = (now, System.GetTimestamp(), pace);
    }

    /// <summary>Seconds of the place to one second on the wall; 0 while it is moved by hand.</summary>
    public double Pace
    {
        get
        {
            lock (_lock) return _pace;
        }

        set
        {
            lock (_lock) (_from, _since, _pace) = (NowLocked(), System.GetTimestamp(), value);
        }
    }

    public Instant Now
    {
        get
        {
            lock (_lock) return NowLocked();
        }
    }

    /// <summary>Moves ahead to a time; never back.</summary>
    public void MoveTo(Instant time)
    {
        lock (_lock)
        {
            if (time > NowLocked()) (_from, _since) = (time, System.GetTimestamp());
        }
    }

    public override DateTimeOffset GetUtcNow() => Now.ToDateTimeOffset();

    private Instant NowLocked() => _from + Duration.FromTicks(System.GetElapsedTime(_since).Ticks * _pace);
}
