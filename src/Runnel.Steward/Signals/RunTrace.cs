using NodaTime;

namespace Runnel.Steward.Signals;

/// <summary>One stretch during which a pump ran or a valve stood open.</summary>
internal readonly record struct Run(Instant Start, Instant End)
{
    public double Seconds => (End - Start).TotalSeconds;
}

/// <summary>On and off of one thing, from readings that may repeat or drop edges.</summary>
/// <param name="lostOffs">Tells lost "off"s from long runs; null where each state is believed.</param>
internal sealed class RunTrace(LostOffs? lostOffs = null)
{
    private readonly List<Run> _runs = [];
    private readonly List<Run> _rests = [];

    /// <summary>Finished runs, oldest first.</summary>
    public IReadOnlyList<Run> Runs => _runs;

    /// <summary>Finished rests between runs, both ends seen, oldest first.</summary>
    public IReadOnlyList<Run> Rests => _rests;

    /// <summary>Null until the first reading.</summary>
    public bool? IsOn { get; private set; }

    /// <summary>When the present state began; the first reading where its beginning was not seen.</summary>
    public Instant Since { get; private set; }

    /// <summary>The beginning of the present state was seen as an edge.</summary>
    public bool SinceSeen { get; private set; }

    /// <summary>Time of the last reading, edge or repeat.</summary>
    public Instant LastReading { get; private set; }

    /// <summary>Takes a state at a time; true when it was an edge (or the first state ever).</summary>
    public bool Take(Instant time, bool on)
    {
        LastReading = time;
        if (IsOn == on)
        {
            lostOffs?.Repeat(time);
            if (!on || !SinceSeen || lostOffs?.TrueEnd(_runs, Since, time, on) is not { } lost) return false;
            _runs.Add(new Run(Since, lost));
            Since = time;
            return true;
        }

        lostOffs?.Edge();
        if (SinceSeen && time > Since)
        {
            if (IsOn == true) _runs.Add(new Run(Since, lostOffs?.TrueEnd(_runs, Since, time, on) ?? time));
            else _rests.Add(new Run(Since, time));
        }

        SinceSeen = IsOn is not null;
        IsOn = on;
        Since = time;
        return true;
    }

    /// <summary>After a gap in the log nothing is known of edges that fell into it.</summary>
    public void ForgetEdge() => SinceSeen = false;
}
