namespace Runnel.Web.Charts;

/// <summary>How far a layer reaches on the value axis.</summary>
internal static class LayerExtent
{
    public static IEnumerable<(double From, double To)> Of(TimeLayer layer) => layer switch
    {
        // Bands that grow without end where little is known would flatten all else: lines are shown whole, bands to a bound.
        BandLine line => line.Points.Select(p => (p.Value, p.Value)).Concat(Bounded(line.Points.Select(p => (p.Low, p.High)))),
        BandMarks marks => marks.Points.Select(p => (p.Value, p.Value)).Concat(Bounded(marks.Points.Select(p => (p.Low, p.High)))),
        // One run that never ended must not flatten all the others.
        Dots dots => Bounded(dots.Points.Select(p => (p.Value, p.Value))),
        DayBars bars => bars.Bars.Select(b => (b.From, b.To)),
        _ => [],
    };

    private static IEnumerable<(double From, double To)> Bounded(IEnumerable<(double Low, double High)> bands)
    {
        double[] lows = [.. bands.Select(b => b.Low).Where(double.IsFinite).Order()];
        double[] highs = [.. bands.Select(b => b.High).Where(double.IsFinite).Order()];
        if (lows.Length == 0 || highs.Length == 0) yield break;
        yield return (lows[lows.Length / 50], highs[highs.Length - 1 - (highs.Length / 50)]);
    }
}
