namespace Runnel.Exchange.Logs;

/// <summary>The known name that someone most likely meant.</summary>
internal static class Nearest
{
    /// <summary>The nearest of <paramref name="known"/> by number of changed letters, or null where none is near.</summary>
    public static string? Of(string name, IEnumerable<string> known)
    {
        if (name.Length > 80) return null;
        string plain = Headings.Plain(name);
        string? best = null;
        int least = Math.Max(1, plain.Length / 3) + 1;
        foreach (string other in known)
        {
            string candidate = Headings.Plain(other);
            int distance = candidate.Contains(plain, StringComparison.Ordinal) && plain.Length >= 4 ? 1 : Distance(plain, candidate);
            if (distance >= least) continue;
            least = distance;
            best = other;
        }

        return best;
    }

    private static int Distance(string a, string b)
    {
        var row = new int[b.Length + 1];
        for (int j = 0; j <= b.Length; j++) row[j] = j;
        for (int i = 1; i <= a.Length; i++)
        {
            int diagonal = row[0];
            row[0] = i;
            for (int j = 1; j <= b.Length; j++)
            {
                int above = row[j];
                row[j] = Math.Min(Math.Min(above, row[j - 1]) + 1, diagonal + (a[i - 1] == b[j - 1] ? 0 : 1));
                diagonal = above;
            }
        }

        return row[b.Length];
    }
}
