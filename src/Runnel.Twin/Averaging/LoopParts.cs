using Runnel.Place.Water;

namespace Runnel.Twin.Averaging;

/// <summary>Vessels that share their water by outlets and pumps.</summary>
/// <param name="Vessels">Which, in an order in which outlets lead forwards.</param>
/// <param name="Pumps">Pumps between them.</param>
internal sealed record LoopPart(IReadOnlyList<int> Vessels, IReadOnlyList<int> Pumps)
{
    /// <summary>Whether water moves in it by itself.</summary>
    public bool Moves => Vessels.Count > 1;
}

/// <summary>Parts a loop falls into when its valves are shut.</summary>
internal static class LoopParts
{
    /// <summary>The parts; or, where flows cannot be averaged over pump cycles, why not.</summary>
    public static (IReadOnlyList<LoopPart> Parts, string? WhyNot) Of(Hydraulics water)
    {
        int count = water.Vessels.Count;
        int[] part = [.. Enumerable.Range(0, count)], next = [.. water.Vessels.Select(v => v.Outlet is { } outlet ? water.IndexOf(outlet.To) : count)];
        for (int i = 0; i < count; i++)
        {
            if (next[i] == -1) return ([], $"{water.Vessels[i].Id} empties to the world outside");
            if (next[i] < count) Join(i, next[i]);
        }

        foreach (var pump in water.Pumps)
        {
            foreach (var end in pump.Ends)
            {
                if (water.IndexOf(end.To) < 0) return ([], $"{pump.Id} pumps to the world outside");
                Join(water.IndexOf(pump.From), water.IndexOf(end.To));
            }
        }

        List<LoopPart> parts = [];
        for (int root = 0; root < count; root++)
        {
            int[] members = [.. Enumerable.Range(0, count).Where(i => Root(i) == root)];
            if (members.Length == 0) continue;
            // Outlets lead forwards: the one without an outlet comes last.
            int[] depth = [.. members.Select(Depth)];
            if (Array.Exists(depth, d => d > count)) return ([], $"outlets lead in a ring from {water.Vessels[members[0]].Id} on");
            if (members.Length > 1 && depth.Count(d => d == 0) > 1) return ([], "two vessels that pumps or outlets join have no outlet");
            Array.Sort(depth, members, Comparer<int>.Create((a, b) => b.CompareTo(a)));
            parts.Add(new(members, [.. Enumerable.Range(0, water.Pumps.Count).Where(p => Root(water.IndexOf(water.Pumps[p].From)) == root)]));
        }

        return (parts, null);

        int Root(int i) => part[i] == i ? i : part[i] = Root(part[i]);
        void Join(int a, int b) => part[Root(b)] = Root(a);
        int Depth(int i)
        {
            int steps = 0;
            while (next[i] < count && steps <= count) (i, steps) = (next[i], steps + 1);
            return steps;
        }
    }
}
