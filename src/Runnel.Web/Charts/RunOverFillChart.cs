using Runnel.Place.Findings;

namespace Runnel.Web.Charts;

/// <summary>Run time against fill time: what this loop does in health, and what it did since.</summary>
/// <remarks>All in the unit that <see cref="Unit"/> names, so that the drawing need not convert.</remarks>
public sealed record RunOverFillChart
{
    public required string Id { get; init; }
    public required string Title { get; init; }
    public required string Description { get; init; }

    /// <summary>min, or s where fills are short.</summary>
    public required string Unit { get; init; }

    /// <summary>The curve learnt in health with its band; may be empty.</summary>
    public required IReadOnlyList<BandPoint> Expected { get; init; }

    /// <summary>Half-day medians before the change, or all of them where nothing changed.</summary>
    public required IReadOnlyList<FillAndRun> Before { get; init; }

    /// <summary>Half-day medians since.</summary>
    public required IReadOnlyList<FillAndRun> Since { get; init; }

    /// <summary>Single cycles, thinned: how wide one cycle scatters.</summary>
    public required IReadOnlyList<FillAndRun> Scatter { get; init; }

    /// <summary>Words beside the marks, e.g. "before 11 Jan".</summary>
    public required string BeforeName { get; init; }
    public required string SinceName { get; init; }

    /// <summary>Style class that gives the marks since the colour of the notice's urgency.</summary>
    public required string SinceStyle { get; init; }

    /// <summary>The last day's median, to be set against the curve; null where nothing changed.</summary>
    public FillAndRun? Last { get; init; }
    public required ChartTable Table { get; init; }

    /// <summary>Expected run at that fill by linear interpolation, or null outside the curve.</summary>
    public BandPoint? ExpectedAt(double fill)
    {
        for (int i = 1; i < Expected.Count; i++)
        {
            (BandPoint a, BandPoint b) = (Expected[i - 1], Expected[i]);
            if (fill < a.X || fill > b.X || b.X == a.X) continue;
            double t = (fill - a.X) / (b.X - a.X);
            return new(fill, a.Value + (t * (b.Value - a.Value)), a.Low + (t * (b.Low - a.Low)), a.High + (t * (b.High - a.High)));
        }

        return null;
    }
}

/// <summary>A fill and the run that followed it.</summary>
public readonly record struct FillAndRun(double Fill, double Run);
