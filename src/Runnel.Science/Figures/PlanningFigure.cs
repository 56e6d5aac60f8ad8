namespace Runnel.Science.Figures;

/// <summary>A figure that keepers plan by: a target, a rate, a rule of print or practice. Several sources on one quantity stand side by side.</summary>
/// <param name="Subject">What it is about.</param>
/// <param name="Quantity">What is given.</param>
/// <param name="Unit">Unit, as in UCUM; 1 for a ratio.</param>
/// <param name="Range">Least and greatest.</param>
/// <param name="Note">What else to know, or empty.</param>
/// <param name="Source">Where it is printed.</param>
/// <param name="Provenance">How it was come by, see <see cref="ReferenceData"/>.</param>
public sealed record PlanningFigure(string Subject, string Quantity, string Unit, FigureRange Range, string Note, string Source, string Provenance)
{
    /// <summary>All figures.</summary>
    public static IReadOnlyList<PlanningFigure> All { get; } = ReferenceData.Read("planning-figures.csv", r => new PlanningFigure(
        r.Text("subject"), r.Text("quantity"), r.Text("unit"), r.Range("least", "greatest") ?? throw r.Wrong("no figure"), r.Optional("note") ?? "", r.Source, r.Provenance));

    /// <summary>Figures on a quantity.</summary>
    /// <param name="quantity">Quantity, as in the table.</param>
    /// <returns>All that are given, whatever their subject; none where the quantity is not listed.</returns>
    public static IEnumerable<PlanningFigure> Of(string quantity) => All.Where(f => string.Equals(f.Quantity, quantity, StringComparison.OrdinalIgnoreCase));
}
