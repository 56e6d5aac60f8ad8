using Runnel.Science.Figures;

namespace Runnel.Science.Water;

/// <summary>A substance that keepers put into the water. The label and its safety sheet rule over the words here.</summary>
/// <param name="Name">Name.</param>
/// <param name="Formula">Chemical formula.</param>
/// <param name="Gives">What it is dosed for: <c>alkalinity</c>, <c>dechlorination</c>, or symbols of elements.</param>
/// <param name="Hazard">What it does to people, or empty.</param>
/// <param name="Note">What else to know, or empty.</param>
/// <param name="Source">Where it is printed.</param>
/// <param name="Provenance">How it was come by, see <see cref="ReferenceData"/>.</param>
public sealed record DosingSubstance(string Name, string Formula, IReadOnlyList<string> Gives, string Hazard, string Note, string Source, string Provenance)
{
    /// <summary>All substances listed.</summary>
    public static IReadOnlyList<DosingSubstance> All { get; } = ReferenceData.Read("dosing-substances.csv", r => new DosingSubstance(
        r.Text("substance"), r.Text("formula"), r.Text("gives").Split(' '), r.Optional("hazard") ?? "", r.Optional("note") ?? "", r.Source, r.Provenance));

    /// <summary>The alkaline base that it is, for <see cref="AlkalinityDose"/>; null where it is none.</summary>
    public AlkalineBase? Base => AlkalinityDose.Find(Formula);

    /// <summary>A substance.</summary>
    /// <param name="nameOrFormula">Name, its beginning, or formula.</param>
    /// <returns>The substance, or null where it is not listed.</returns>
    public static DosingSubstance? Find(string nameOrFormula) =>
        All.FirstOrDefault(s => s.Formula == nameOrFormula) ?? All.FirstOrDefault(s => s.Name.StartsWith(nameOrFormula, StringComparison.OrdinalIgnoreCase));

    /// <summary>Substances that give something.</summary>
    /// <param name="what">As in <see cref="Gives"/>.</param>
    /// <returns>None where nothing listed gives it.</returns>
    public static IEnumerable<DosingSubstance> Giving(string what) => All.Where(s => s.Gives.Contains(what));
}

/// <summary>An iron product of the trade.</summary>
/// <param name="Product">Chelate.</param>
/// <param name="IronFraction">Iron over the product's mass, 0 to 1; read your label.</param>
/// <param name="GreatestPh">pH up to which it holds its iron.</param>
/// <param name="Source">Where it is printed.</param>
/// <param name="Provenance">How it was come by, see <see cref="ReferenceData"/>.</param>
public sealed record IronProduct(string Product, double IronFraction, double GreatestPh, string Source, string Provenance)
{
    /// <summary>All products listed.</summary>
    public static IReadOnlyList<IronProduct> All { get; } = ReferenceData.Read("iron-products.csv", r => new IronProduct(
        r.Text("product"), r.Number("iron_fraction"), r.Number("ph_greatest"), r.Source, r.Provenance));
}
