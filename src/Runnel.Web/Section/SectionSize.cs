namespace Runnel.Web.Section;

/// <summary>For what width a drawing is made; it folds into as many strips as its vessels need to stay readable.</summary>
/// <param name="Name">Style class.</param>
/// <param name="WidthPx">Width of a strip.</param>
/// <param name="PlotPx">Height from the lowest floor to the highest rim.</param>
/// <param name="NamePx">Size of names.</param>
/// <param name="FigurePx">Size of figures.</param>
/// <param name="GapPx">Least room between vessels.</param>
/// <param name="LeastUnitPx">A vessel of middle width is never narrower.</param>
/// <param name="MostUnitPx">Nor wider.</param>
public sealed record SectionSize(
    string Name, double WidthPx, double PlotPx, double NamePx, double FigurePx, double GapPx, double LeastUnitPx, double MostUnitPx)
{
    public static readonly SectionSize Wide = new("wide", 840, 236, 14, 17, 30, 28, 96);
    public static readonly SectionSize Phone = new("phone", 358, 190, 14, 17, 18, 26, 84);
    public static readonly SectionSize Wall = new("wall", 900, 214, 20, 32, 32, 30, 104);

    public double LineOf(PartLine line) => line.IsFigure ? FigurePx * 1.25 : NamePx * 1.22;

    /// <summary>About how wide words are, on the wide side: enough to keep them apart whatever font the device has.</summary>
    public double WidthOf(PartLine line) => line.Text.Length * (line.IsFigure ? FigurePx * 0.58 : NamePx * 0.55);
}
