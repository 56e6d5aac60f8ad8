using System.Diagnostics.CodeAnalysis;
using System.Globalization;
using System.Runtime.CompilerServices;

namespace Runnel.Science;

/// <summary>Guards of the relations. Each test is written so that NaN fails it.</summary>
internal static class Require
{
    public static void InRange(double value, double least, double greatest, [CallerArgumentExpression(nameof(value))] string name = "")
    {
        if (!(value >= least && value <= greatest)) Refuse(value, $"from {Text(least)} to {Text(greatest)}", name);
    }

    public static void InRange(int value, int least, int greatest, [CallerArgumentExpression(nameof(value))] string name = "")
    {
        if (value < least || value > greatest) Refuse(value, $"from {least} to {greatest}", name);
    }

    public static void Finite(double value, [CallerArgumentExpression(nameof(value))] string name = "")
    {
        if (!double.IsFinite(value)) Refuse(value, "a finite number", name);
    }

    public static void Positive(double value, [CallerArgumentExpression(nameof(value))] string name = "")
    {
        if (!(value > 0 && value < double.PositiveInfinity)) Refuse(value, "above 0 and finite", name);
    }

    public static void NotNegative(double value, [CallerArgumentExpression(nameof(value))] string name = "")
    {
        if (!(value >= 0 && value < double.PositiveInfinity)) Refuse(value, "0 or more and finite", name);
    }

    /// <summary>A series of at least so many finite values.</summary>
    public static void Series(ReadOnlySpan<double> values, int least, [CallerArgumentExpression(nameof(values))] string name = "")
    {
        if (values.Length < least) RefuseCount(values.Length, least, name);
        for (int i = 0; i < values.Length; i++)
        {
            if (!double.IsFinite(values[i])) Refuse(values[i], string.Create(CultureInfo.InvariantCulture, $"finite at place {i}"), name);
        }
    }

    public static void SameLength(ReadOnlySpan<double> values, int length, [CallerArgumentExpression(nameof(values))] string name = "")
    {
        if (values.Length != length) throw new ArgumentException($"{name} has {values.Length} values and must have {length}", name);
    }

    [DoesNotReturn]
    private static void Refuse<T>(T value, string range, string name) =>
        throw new ArgumentOutOfRangeException(name, value, $"{name} must be {range}");

    [DoesNotReturn]
    private static void RefuseCount(int count, int least, string name) =>
        throw new ArgumentException($"{name} has {count} values and must have {least} or more", name);

    private static string Text(double value) => value.ToString("R", CultureInfo.InvariantCulture);
}
