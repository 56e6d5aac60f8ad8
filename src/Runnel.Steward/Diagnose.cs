using NodaTime;
using Runnel.Place;
using Runnel.Place.Findings;

namespace Runnel.Steward;

/// <summary>Reads a whole log through the reading core, in time order, and reports what was understood.</summary>
public static class Diagnose
{
    /// <summary>The findings of <paramref name="log"/> up to <paramref name="until"/> (null: its last reading).</summary>
    /// <exception cref="NotYetReadableException">The place file or the log lacks what the reading core cannot do without.</exception>
    public static Diagnosis Log(PlaceDescription place, ReadingLog log, IReadOnlyList<DaybookEntry> daybook, Instant? until = null) =>
        throw new NotYetReadableException("not built yet");
}

/// <summary>A log cannot be diagnosed; the message names what is missing and the remedy.</summary>
public sealed class NotYetReadableException(string message) : Exception(message);
