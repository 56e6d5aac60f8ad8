using NodaTime;
using Runnel.Place;
using Runnel.Place.Findings;
using Runnel.Steward.Cycles;
using Runnel.Steward.Ledger;
using Runnel.Steward.Signals;
using Runnel.Steward.Store;

namespace Runnel.Steward;

/// <summary>What has been read of the loop up to <see cref="Now"/>; what every watch looks at.</summary>
internal sealed class LoopState(PlaceDescription place)
{
    private Balance? _balance;

    public PlaceDescription Place { get; } = place;
    public Kit Kit { get; } = Kit.Of(place);

    /// <summary>Time of the tick or event in hand.</summary>
    public Instant Now { get; set; }

    /// <summary>The tick in hand ends an hour: what looks at the balance by the hour looks now.</summary>
    public bool OnTheHour => Now.ToUnixTimeSeconds() % 3600 == 0;

    /// <summary>First reading of the log.</summary>
    public Instant Began { get; set; }

    /// <summary>Last reading of any channel.</summary>
    public Instant LastReading { get; set; }

    public RunTrace Pump { get; } = new(new LostOffs(runsAreAlike: false));
    public RunTrace TopUp { get; } = new(new LostOffs(runsAreAlike: true));
    public RunTrace Bleed { get; } = new(new LostOffs(runsAreAlike: true));
    public CycleTracker Cycles { get; } = new();
    public ChannelTrace[] Channels { get; } = [.. place.Channels.Select(_ => new ChannelTrace())];
    public HourBook Hours { get; } = new();
    public StoreTrace Store { get; } = new();

    /// <summary>The loop's water by the hour; learns as hours close.</summary>
    public Balance Balance => _balance ??= new Balance(this);

    /// <summary>Stretches from which the healthy loop is not learnt.</summary>
    public LearningHolds Holds { get; } = new();

    /// <summary>Finished top-ups (positive litres) and bleeds (negative).</summary>
    public List<WaterPulse> Pulses { get; } = [];

    /// <summary>Times without any reading, longer than this log's habit.</summary>
    public List<Interval> Gaps { get; } = [];

    /// <summary>Daybook entries so far.</summary>
    public List<DaybookEntry> Daybook { get; } = [];

    /// <summary>Hands are, or were lately, in the loop: notices held, learning paused.</summary>
    public Instant WorkUntil { get; set; } = Instant.MinValue;

    /// <summary>Power of the running pump, smoothed, where a power channel shows it.</summary>
    public double? PumpPowerLevel { get; set; }

    /// <summary>No reading of any channel for longer than this log's habit: nothing can be concluded.</summary>
    public bool Silent => Now - LastReading > GapLimit;

    /// <summary>Silence longer than this is a gap in the log: six of its usual intervals, 20 min to 12 h.</summary>
    public Duration GapLimit
    {
        get
        {
            double least = double.MaxValue;
            foreach (var channel in Channels)
            {
                if (channel.UsualIntervalS is { } usual) least = Math.Min(least, usual);
            }

            return least == double.MaxValue ? Duration.FromHours(12) : Duration.FromSeconds(Math.Clamp(6 * least, 1200, 43200));
        }
    }

    /// <summary>Since then the log has had no hole: what was not read since did not happen. A hole is shorter than a gap.</summary>
    public Instant ObservedSince { get; set; }

    /// <summary>Silence longer than this is a hole: 2.2 of the shortest interval that some channel keeps to, at least 3 min; endless
    /// where every channel speaks only of changes.</summary>
    public Duration HoleLimit
    {
        get
        {
            double least = double.MaxValue;
            for (int i = 0; i < Channels.Length; i++)
            {
                // One that has fallen silent by itself tells nothing of the log.
                if (IsRegular(i) && Channels[i].UsualIntervalS is { } usual && (LastReading - Channels[i].LastTime).TotalSeconds < 5 * usual) least = Math.Min(least, usual);
            }

            return least == double.MaxValue ? Duration.MaxValue : Duration.FromSeconds(Math.Max(180, 2.2 * least));
        }
    }

    /// <summary>Some channel speaks at a steady interval, so that silence tells of the log and not of the loop.</summary>
    public bool HasRegularChannel => Enumerable.Range(0, Channels.Length).Any(IsRegular);

    /// <summary>Even cycles make the edges of a switch look steady; they still come from the loop and not from a timer.</summary>
    private bool IsRegular(int channel) => Channels[channel].Regular && Place.Channels[channel].Measures != Quantity.Running;

    public bool Working => Now < WorkUntil || Now < ClockDoubtfulUntil;

    /// <summary>The log's clock stepped: rows of two times lie over one another until then, and nothing is concluded from them.</summary>
    public Instant ClockDoubtfulUntil { get; set; } = Instant.MinValue;

    /// <summary>Something stands in that stretch, or readings are missing there: it must not teach the healthy loop.</summary>
    public bool LearningHeld(Instant from, Instant to)
    {
        if (Holds.Touch(from, to)) return true;
        foreach (var gap in Gaps)
        {
            if (gap.Start < to && gap.End > from) return true;
        }

        return false;
    }

    /// <summary>Litres a second through the top-up valve while open, or null where its rate is not told.</summary>
    public double? TopUpLPerS => Kit.TopUp?.RateLPerMin / 60;

    /// <summary>Litres a second through the bleed valve while open, or null where its rate is not told.</summary>
    public double? BleedLPerS => Kit.Bleed?.RateLPerMin / 60;
}
