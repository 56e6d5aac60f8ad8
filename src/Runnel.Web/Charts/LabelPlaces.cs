namespace Runnel.Web.Charts;

/// <summary>Finds room for words among marks and other words: of several places, the one that covers least.</summary>
internal sealed class LabelPlaces(double leftPx, double topPx, double rightPx, double bottomPx)
{
    private const double AscentPx = 11, DescentPx = 4;

    private readonly List<(double X, double Y)> _marks = [];
    private readonly List<Box> _words = [];

    /// <summary>A mark that words should keep clear of.</summary>
    public void AddMark(double x, double y) => _marks.Add((x, y));

    /// <summary>A stroke that words should keep clear of.</summary>
    public void AddStroke(double x1, double y1, double x2, double y2)
    {
        for (int i = 0; i <= 12; i++) AddMark(x1 + ((x2 - x1) * i / 12), y1 + ((y2 - y1) * i / 12));
    }

    /// <summary>Start and base line of the best place; earlier candidates win ties.</summary>
    /// <param name="words">What is to be written.</param>
    /// <param name="candidates">Middles of the words on their base line.</param>
    public (double X, double Y) Place(string words, IEnumerable<(double X, double Y)> candidates)
    {
        double width = TimeChartDrawing.TextWidth(words);
        var best = (Cost: double.PositiveInfinity, Box: default(Box));
        foreach ((double middle, double baseLine) in candidates)
        {
            double x = Math.Clamp(middle - (width / 2), leftPx, Math.Max(leftPx, rightPx - width));
            double y = Math.Clamp(baseLine, topPx + AscentPx, bottomPx - DescentPx);
            var box = new Box(x - 3, y - AscentPx - 2, x + width + 3, y + DescentPx + 2);
            double cost = _marks.Count(m => box.Holds(m.X, m.Y)) + (100 * _words.Count(box.Meets));
            if (cost < best.Cost) best = (cost, box);
        }

        _words.Add(best.Box);
        return (best.Box.Left + 3, best.Box.Bottom - DescentPx - 2);
    }

    private readonly record struct Box(double Left, double Top, double Right, double Bottom)
    {
        public bool Holds(double x, double y) => x >= Left && x <= Right && y >= Top && y <= Bottom;

        public bool Meets(Box other) => Left < other.Right && other.Left < Right && Top < other.Bottom && other.Top < Bottom;
    }
}
