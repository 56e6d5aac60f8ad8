using Runnel.Records.Packing;

namespace Runnel.Records.Writing;

/// <summary>Lists of points in time order, each time once.</summary>
internal static class SortedPoints
{
    /// <summary>Sorts; of several values at one time the one handed in last holds.</summary>
    public static List<Point> From(List<Point> points)
    {
        bool inOrder = true;
        for (int i = 1; i < points.Count && inOrder; i++) inOrder = points[i - 1].Time < points[i].Time;
        if (inOrder) return points;

        var sorted = new List<Point>(points.Count);
        // OrderBy keeps the order of equal times.
        foreach (var point in points.OrderBy(p => p.Time))
        {
            if (sorted.Count > 0 && sorted[^1].Time == point.Time) sorted[^1] = point;
            else sorted.Add(point);
        }

        return sorted;
    }

    /// <summary>How many lie before that time.</summary>
    public static int CountBefore(List<Point> points, long time)
    {
        int from = 0;
        int to = points.Count;
        while (from < to)
        {
            int middle = (from + to) / 2;
            if (points[middle].Time < time) from = middle + 1;
            else to = middle;
        }

        return from;
    }

    /// <summary>Both lists as one; at equal times the value of <paramref name="added"/> holds.</summary>
    public static List<Point> Merge(IReadOnlyList<Point> known, List<Point> added, out Stored stored)
    {
        var merged = new List<Point>(known.Count + added.Count);
        long changed = 0;
        long same = 0;
        int i = 0;
        foreach (var point in added)
        {
            while (i < known.Count && known[i].Time < point.Time) merged.Add(known[i++]);
            if (i < known.Count && known[i].Time == point.Time)
            {
                if (SameValue(known[i++].Value, point.Value)) same++;
                else changed++;
            }

            merged.Add(point);
        }

        while (i < known.Count) merged.Add(known[i++]);
        stored = new Stored(added.Count - changed - same, changed, same);
        return merged;
    }

    /// <summary>By bits: what was stored must come back as it was.</summary>
    public static bool SameValue(double a, double b) => BitConverter.DoubleToInt64Bits(a) == BitConverter.DoubleToInt64Bits(b);
}
