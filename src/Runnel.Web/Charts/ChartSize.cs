namespace Runnel.Web.Charts;

/// <summary>The sizes a chart is drawn in. A phone gets a drawing of its own, so that its words never shrink under 12 px.</summary>
/// <param name="Name">Also the style class that shows it.</param>
/// <param name="WidthPx">Width of the drawing in its own units.</param>
/// <param name="PlotHeightPx">Height of the plot, without axis and names.</param>
/// <param name="LabelGapPx">Least distance between the middles of two labels on the time axis.</param>
public sealed record ChartSize(string Name, double WidthPx, double PlotHeightPx, double LabelGapPx)
{
    public static readonly ChartSize Phone = new("phone", 358, 176, 56);
    public static readonly ChartSize Wide = new("wide", 760, 190, 74);

    /// <summary>The size of that name, or null.</summary>
    public static ChartSize? Find(string? name) => name switch
    {
        "phone" => Phone,
        "wide" => Wide,
        _ => null,
    };
}
