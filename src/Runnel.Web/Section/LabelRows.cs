namespace Runnel.Web.Section;

/// <summary>Words that belong to a part, before they have a place.</summary>
/// <param name="AnchorPx">Where the part stands, px from the left of its strip.</param>
/// <param name="Lines">What is written, line under line.</param>
/// <param name="WidthPx">Of the longest.</param>
/// <param name="HeightPx">Of all.</param>
/// <param name="FromPx">Where its leader begins, px from the top of the paper.</param>
internal sealed record LabelItem(double AnchorPx, IReadOnlyList<(PartLine Line, string Style)> Lines, double WidthPx, double HeightPx, double FromPx);

/// <summary>Words with their place: middle and top, and where their leader passes the rows above.</summary>
internal sealed record PlacedLabel(LabelItem Item, double MiddlePx, double TopPx, IReadOnlyList<(double X, double Y)> Leader);

/// <summary>
/// Sets labels in rows below a drawing, in the order of their parts. In each row the labels of other rows take the width of their leader,
/// so that neither words nor leaders ever meet.
/// </summary>
internal static class LabelRows
{
    private const double LeaderPx = 8, ApartPx = 8, RowPx = 12;

    /// <returns>Labels with their places, and the height of all rows.</returns>
    public static (IReadOnlyList<PlacedLabel> Labels, double HeightPx) Place(IReadOnlyList<LabelItem> items, double leftPx, double rightPx, double topPx)
    {
        if (items.Count == 0) return ([], 0);
        LabelItem[] ordered = [.. items.OrderBy(i => i.AnchorPx)];
        for (int rows = 1; ; rows++)
        {
            bool last = rows >= ordered.Length;
            if (!last && !Enumerable.Range(0, rows).All(r => Enumerable.Range(0, ordered.Length).Where(i => RowOf(i, rows) >= r).Sum(i => Width(ordered, i, r, rows)) <= rightPx - leftPx)) continue;
            return Set(ordered, rows, leftPx, rightPx, topPx);
        }
    }

    private static int RowOf(int i, int rows) => i % rows;

    /// <summary>A label in its own row; in a row above its own only its leader; below nothing.</summary>
    private static double Width(LabelItem[] items, int i, int row, int rows) => ApartPx + (RowOf(i, rows) == row ? items[i].WidthPx : LeaderPx);

    private static (IReadOnlyList<PlacedLabel> Labels, double HeightPx) Set(LabelItem[] items, int rows, double leftPx, double rightPx, double topPx)
    {
        var leaders = items.Select(i => new List<(double X, double Y)> { (i.AnchorPx, i.FromPx), (i.AnchorPx, topPx) }).ToList();
        var placed = new PlacedLabel[items.Length];
        double y = topPx;
        for (int row = 0; row < rows; row++)
        {
            int[] present = [.. Enumerable.Range(0, items.Length).Where(i => RowOf(i, rows) >= row)];
            double[] middles = Spread([.. present.Select(i => leaders[i][^1].X)], [.. present.Select(i => Width(items, i, row, rows))], leftPx, rightPx);
            double height = present.Where(i => RowOf(i, rows) == row).Max(i => items[i].HeightPx);
            for (int k = 0; k < present.Length; k++)
            {
                int i = present[k];
                leaders[i].Add((middles[k], y + RowPx - 3));
                if (RowOf(i, rows) == row) placed[i] = new(items[i], middles[k], y + RowPx, leaders[i]);
                else leaders[i].Add((middles[k], y + RowPx + height));
            }

            y += RowPx + height;
        }

        return (placed, y - topPx);
    }

    /// <summary>Middles as near to where they are wanted as fits, in order and without meeting.</summary>
    private static double[] Spread(double[] wanted, double[] widths, double leftPx, double rightPx)
    {
        double[] starts = new double[wanted.Length];
        double least = leftPx;
        for (int i = 0; i < wanted.Length; i++)
        {
            starts[i] = Math.Max(wanted[i] - (widths[i] / 2), least);
            least = starts[i] + widths[i];
        }

        double most = rightPx;
        for (int i = wanted.Length - 1; i >= 0; i--)
        {
            starts[i] = Math.Min(starts[i], most - widths[i]);
            most = starts[i];
        }

        return [.. starts.Select((s, i) => s + (widths[i] / 2))];
    }
}
