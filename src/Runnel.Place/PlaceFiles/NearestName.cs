namespace Runnel.Place.PlaceFiles;

/// <summary>Finds the known name that someone most likely meant.</summary>
public static class NearestName
{
    /// <summary>The nearest of <paramref name="known"/>, or null where none is near.</summary>
    public static string? To(string written, IEnumerable<string> known)
    {
        if (written.Length is 0 or > 60) return null;
        string wanted = Folded(written);
        string? best = null;
        int least = 1 + (wanted.Length / 4);
        string? part = null;
        foreach (string name in known)
        {
            string candidate = Folded(name);
            int distance = Distance(wanted, candidate, least);
            if (distance < least || (distance == least && best is null))
            {
                best = name;
                least = distance;
            }

            // "temperature" for "water-temperature", "Sydney" for "Australia/Sydney"
            bool partly = wanted.Length >= 4 && candidate.Length >= 4
                && (candidate.Contains(wanted, StringComparison.Ordinal) || wanted.Contains(candidate, StringComparison.Ordinal));
            if (partly && (part is null || name.Length < part.Length)) part = name;
        }

        return best ?? part;
    }

    private static string Folded(string name) => name.ToLowerInvariant().Replace('_', '-').Replace(' ', '-');

    /// <summary>Edits (insert, drop, change, swap of neighbours) from one to the other; where the lengths alone differ by more than
    /// <paramref name="limit"/>, just more than that.</summary>
    public static int Distance(string a, string b, int limit)
    {
        if (Math.Abs(a.Length - b.Length) > limit) return limit + 1;
        int[] before = new int[b.Length + 1];
        int[] last = [.. Enumerable.Range(0, b.Length + 1)];
        int[] row = new int[b.Length + 1];
        for (int i = 1; i <= a.Length; i++)
        {
            row[0] = i;
            for (int j = 1; j <= b.Length; j++)
            {
                int change = a[i - 1] == b[j - 1] ? 0 : 1;
                row[j] = Math.Min(Math.Min(last[j] + 1, row[j - 1] + 1), last[j - 1] + change);
                if (i > 1 && j > 1 && a[i - 1] == b[j - 2] && a[i - 2] == b[j - 1]) row[j] = Math.Min(row[j], before[j - 2] + 1);
            }

            (before, last, row) = (last, row, before);
        }

        return last[b.Length];
    }
}
