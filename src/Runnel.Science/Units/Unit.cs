using System.Diagnostics.CodeAnalysis;
using System.Globalization;

namespace Runnel.Science.Units;

/// <summary>A unit of measure: value in SI base units = value in this unit x <paramref name="Factor"/> + <paramref name="Offset"/>.</summary>
/// <param name="Symbol">As it was written, e.g. <c>m3/h</c>.</param>
/// <param name="Dimension">What it measures.</param>
/// <param name="Factor">SI base units in one of it.</param>
/// <param name="Offset">Zero but for temperatures counted from the freezing point.</param>
/// <remarks>Spellings are those of UCUM (case-sensitive, <c>L/min</c>, <c>kW.h</c>, <c>m3</c>, <c>uS/cm</c>, <c>[psi]</c>) with the
/// plain spellings of the trade beside them (<c>degC</c>, <c>kWh</c>, <c>psi</c>, <c>m²</c>, <c>W/(m2 K)</c>).</remarks>
public sealed record Unit(string Symbol, Dimension Dimension, double Factor, double Offset)
{
    /// <summary>Reads a unit.</summary>
    /// <param name="text">The unit alone, without a number.</param>
    /// <param name="unit">The unit, or null where the text is none.</param>
    /// <returns>Whether the text is a unit.</returns>
    public static bool TryParse(string text, [NotNullWhen(true)] out Unit? unit)
    {
        ArgumentNullException.ThrowIfNull(text);
        unit = new UnitText(text).Read();
        return unit is not null;
    }

    /// <summary>A unit that is known to be well written.</summary>
    /// <param name="text">The unit alone.</param>
    /// <exception cref="ArgumentException">The text is no unit.</exception>
    public static Unit Of(string text) =>
        TryParse(text, out var unit) ? unit : throw new ArgumentException($"\"{text}\" is not a unit", nameof(text));

    /// <summary>Carries a value from one unit to another.</summary>
    /// <param name="value">In <paramref name="from"/>.</param>
    /// <param name="from">Unit of the value, e.g. <c>m3/h</c>.</param>
    /// <param name="to">Unit of the answer, e.g. <c>L/min</c>.</param>
    /// <exception cref="ArgumentException">One is no unit, or they measure different things.</exception>
    public static double Convert(double value, string from, string to) => Of(from).To(Of(to), value);

    /// <summary>Carries a value in this unit to another.</summary>
    /// <param name="other">Unit of the answer.</param>
    /// <param name="value">In this unit.</param>
    /// <exception cref="ArgumentException">The units measure different things.</exception>
    public double To(Unit other, double value)
    {
        var (scale, offset) = LinearTo(other);
        return (value * scale) + offset;
    }

    /// <summary>The straight line from this unit to another: value there = value here x scale + offset.</summary>
    /// <param name="other">The unit to go to.</param>
    /// <exception cref="ArgumentException">The units measure different things.</exception>
    public (double Scale, double Offset) LinearTo(Unit other)
    {
        ArgumentNullException.ThrowIfNull(other);
        if (other.Dimension != Dimension)
        {
            throw new ArgumentException(string.Create(
                CultureInfo.InvariantCulture,
                $"{Symbol} ({Dimension.Name}) does not convert to {other.Symbol} ({other.Dimension.Name})"), nameof(other));
        }

        return (Factor / other.Factor, (Offset - other.Offset) / other.Factor);
    }
}
