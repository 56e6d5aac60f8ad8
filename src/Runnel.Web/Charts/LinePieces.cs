using NodaTime;
using Runnel.Place.Findings;

namespace Runnel.Web.Charts;

/// <summary>Cuts a series at its gaps and thins it to what a drawing of that width can show.</summary>
internal static class LinePieces
{
    /// <param name="points">In time order.</param>
    /// <param name="longest">Points further apart than this are not joined.</param>
    /// <param name="range">What is shown; one point on either side is kept so that lines reach the edge.</param>
    /// <param name="widthPx">Width of the drawing.</param>
    public static IEnumerable<IReadOnlyList<TimeBand>> Of(IReadOnlyList<TimeBand> points, Duration longest, Interval range, double widthPx)
    {
        Duration bucket = range.Duration / Math.Max(50, widthPx * 0.75);
        var piece = new List<TimeBand>();
        Instant? last = null;
        var gathered = new Bucket();
        Instant from = range.Start - longest, to = range.End + longest;
        foreach (TimeBand p in points)
        {
            if (p.Time < from || p.Time > to) continue;
            bool missing = !double.IsFinite(p.Value);
            if (missing || (last is { } before && p.Time - before > longest))
            {
                gathered.EmptyInto(piece);
                if (piece.Count > 0) yield return piece;
                piece = [];
                if (missing)
                {
                    last = null;
                    continue;
                }
            }

            if (gathered.Count > 0 && p.Time - gathered.Start >= bucket) gathered.EmptyInto(piece);
            gathered.Add(p);
            last = p.Time;
        }

        gathered.EmptyInto(piece);
        if (piece.Count > 0) yield return piece;
    }

    /// <summary>Points that fall on one column of the drawing: their mean, and the widest of their bands.</summary>
    private sealed class Bucket
    {
        private double _sum, _low = double.PositiveInfinity, _high = double.NegativeInfinity;
        private Instant _end;

        public int Count { get; private set; }
        public Instant Start { get; private set; }

        public void Add(TimeBand p)
        {
            if (Count == 0) Start = p.Time;
            _end = p.Time;
            _sum += p.Value;
            _low = Math.Min(_low, double.IsFinite(p.Low) ? p.Low : p.Value);
            _high = Math.Max(_high, double.IsFinite(p.High) ? p.High : p.Value);
            Count++;
        }

        public void EmptyInto(List<TimeBand> piece)
        {
            if (Count == 0) return;
            piece.Add(new(Start + ((_end - Start) / 2), _sum / Count, _low, _high));
            (_sum, _low, _high, Count) = (0, double.PositiveInfinity, double.NegativeInfinity, 0);
        }
    }
}
