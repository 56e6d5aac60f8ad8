namespace Runnel.Twin.Invented;

/// <summary>Which happenings are at work at a moment, with their sizes; the plant's slow factors follow from it.</summary>
internal sealed class StoryState(IReadOnlyList<Happening> story)
{
    /// <summary>The first happening of that kind at work, or null.</summary>
    public Happening? At(HappeningKind kind, double day)
    {
        foreach (var h in story)
        {
            if (h.Kind == kind && day >= h.OnsetDay && !(day >= h.EndDay)) return h;
        }

        return null;
    }

    public bool On(HappeningKind kind, double day) => At(kind, day) is not null;

    public double Size(HappeningKind kind, double day) => At(kind, day)?.Size ?? 0;

    /// <summary>(1 - rate)^days since the onset, never below <paramref name="floor"/>.</summary>
    public double Decay(HappeningKind kind, double day, double floor)
    {
        if (At(kind, day) is not { } h) return 1;
        return Math.Max(floor, Math.Pow(1 - h.Size, day - h.OnsetDay));
    }

    /// <summary>Factor that holds from the onset on.</summary>
    public double Step(HappeningKind kind, double day) => At(kind, day)?.Size ?? 1;

    public bool Has(HappeningKind kind) => story.Any(h => h.Kind == kind);

    public IEnumerable<Happening> All(HappeningKind kind) => story.Where(h => h.Kind == kind);
}
