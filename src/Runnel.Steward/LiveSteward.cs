using NodaTime;
using Runnel.Place;
using Runnel.Place.Findings;
using Runnel.Steward.Notices;

namespace Runnel.Steward;

/// <summary>
/// The reading core for a log that is still being written: the same reader and watches as <see cref="Diagnose"/>, fed one event at a time.
/// Events come in order of their times; at equal times readings in the order of the place's channels, then daybook entries.
/// </summary>
public sealed class LiveSteward
{
    private readonly LoopReader _reader;
    private readonly IReadOnlyList<IWatch> _watches;
    private bool _began;

    /// <exception cref="NotYetReadableException">The place has no channel that shows the pump or the sump.</exception>
    public LiveSteward(PlaceDescription place)
    {
        Diagnose.CheckReadable(place);
        _watches = AllWatches.For(place);
        _reader = new LoopReader(place, _watches);
    }

    /// <summary>Notices raised so far, open or cleared.</summary>
    public int NoticeCount => _reader.Notices.Notices.Count;

    public void Take(in Reading reading)
    {
        _began = true;
        _reader.Take(reading);
    }

    /// <summary>An entry before the first reading begins nothing: there is no loop to read yet.</summary>
    public void Take(DaybookEntry entry)
    {
        if (_began) _reader.Take(entry);
    }

    /// <summary>Lets time pass without an event: what falls silent is noticed too.</summary>
    public void AdvanceTo(Instant time)
    {
        if (_began) _reader.AdvanceTo(time);
    }

    /// <summary>What is understood now; null before the first reading. It does not change when more is read.</summary>
    public Diagnosis? Report()
    {
        if (!_began) return null;
        var findings = Steward.Report.Of(_reader, _watches, new ReadingLog([], [], [], []));
        return findings with
        {
            Notices = [.. findings.Notices],
            Evidence = findings.Evidence with
            {
                RunDeparturePercent = [.. findings.Evidence.RunDeparturePercent],
                LitresShort = [.. findings.Evidence.LitresShort],
                Pulses = [.. findings.Evidence.Pulses],
                Gaps = [.. findings.Evidence.Gaps],
            },
        };
    }
}
