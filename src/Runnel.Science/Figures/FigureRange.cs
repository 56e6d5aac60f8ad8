namespace Runnel.Science.Figures;

/// <summary>A range of a figure; both ends equal where one value is printed.</summary>
/// <param name="Least">Lower end.</param>
/// <param name="Greatest">Upper end.</param>
public readonly record struct FigureRange(double Least, double Greatest)
{
    /// <summary>Middle of the range.</summary>
    public double Middle => (Least + Greatest) / 2;

    /// <summary>Whether a value lies in it, ends included.</summary>
    /// <param name="value">Value.</param>
    /// <returns>True inside; false outside and for NaN.</returns>
    public bool Holds(double value) => value >= Least && value <= Greatest;
}
