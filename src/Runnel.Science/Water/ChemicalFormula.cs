using System.Globalization;

namespace Runnel.Science.Water;

/// <summary>Masses from a chemical formula such as <c>Ca(OH)2</c> or <c>MgSO4.7H2O</c>.</summary>
/// <remarks>IUPAC abridged atomic weights of the elements met in water treatment and plant feeding.</remarks>
public static class ChemicalFormula
{
    private static readonly (string Symbol, double Weight)[] Weights =
    [
        ("H", 1.00794), ("B", 10.811), ("C", 12.0107), ("N", 14.0067), ("O", 15.9994), ("F", 18.9984), ("Na", 22.98977), ("Mg", 24.3050),
        ("Al", 26.98154), ("Si", 28.0855), ("P", 30.97376), ("S", 32.065), ("Cl", 35.453), ("K", 39.0983), ("Ca", 40.078), ("Mn", 54.93805),
        ("Fe", 55.845), ("Co", 58.9332), ("Cu", 63.546), ("Zn", 65.38), ("Mo", 95.96), ("I", 126.90447),
    ];

    /// <summary>Mass of a mole, g.</summary>
    /// <param name="formula">Formula: symbols, counts, round brackets, and a dot before water of crystallisation.</param>
    /// <returns>g/mol.</returns>
    /// <exception cref="FormatException">The formula cannot be read; the message says where.</exception>
    public static double MolarMass(string formula) => Sum(formula, null);

    /// <summary>Share of an element in the mass.</summary>
    /// <param name="element">Symbol.</param>
    /// <param name="formula">Formula, as in <see cref="MolarMass"/>.</param>
    /// <returns>0 to 1.</returns>
    /// <exception cref="FormatException">The formula cannot be read; the message says where.</exception>
    public static double MassFraction(string element, string formula) => Sum(formula, element) / Sum(formula, null);

    private static double Sum(string formula, string? only)
    {
        ArgumentException.ThrowIfNullOrEmpty(formula);
        double total = 0;
        foreach (string part in formula.Split('.', '·'))
        {
            int at = 0;
            double times = Count(part, ref at);
            total += times * Group(part, ref at, only, nested: false);
        }

        return total;
    }

    private static double Group(string text, ref int at, string? only, bool nested)
    {
        double sum = 0;
        while (at < text.Length && text[at] != ')')
        {
            double mass;
            if (text[at] == '(')
            {
                at++;
                mass = Group(text, ref at, only, nested: true);
                if (at >= text.Length) throw new FormatException($"{text}: a bracket is not closed");
                at++;
            }
            else
            {
                int start = at++;
                while (at < text.Length && char.IsAsciiLetterLower(text[at])) at++;
                string symbol = text[start..at];
                mass = Array.Find(Weights, w => w.Symbol == symbol).Weight;
                if (mass == 0) throw new FormatException($"{text}: {symbol} at place {start + 1} is not an element known here");
                if (only is not null && symbol != only) mass = 0;
            }

            sum += mass * Count(text, ref at);
        }

        if (!nested && at < text.Length) throw new FormatException($"{text}: a bracket closes at place {at + 1} that never opened");
        return sum;
    }

    private static double Count(string text, ref int at)
    {
        int start = at;
        while (at < text.Length && char.IsAsciiDigit(text[at])) at++;
        return at == start ? 1 : double.Parse(text.AsSpan(start, at - start), CultureInfo.InvariantCulture);
    }
}
