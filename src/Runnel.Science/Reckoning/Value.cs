namespace Runnel.Science.Reckoning;

/// <summary>One result: a number, a text (a time or a word), or nothing where there is none, as a sunrise in polar night.</summary>
/// <param name="Number">The number; NaN where the result is a text or nothing.</param>
/// <param name="Text">The text; null where the result is a number or nothing.</param>
public readonly record struct Value(double Number, string? Text)
{
    /// <summary>Whether there is no result.</summary>
    public bool IsNone => Text is null && !double.IsFinite(Number);

    /// <summary>A number; one that is not finite counts as nothing.</summary>
    /// <param name="number">The number.</param>
    public static implicit operator Value(double number) => new(number, null);

    /// <summary>A number or nothing.</summary>
    /// <param name="number">The number.</param>
    public static implicit operator Value(double? number) => new(number ?? double.NaN, null);

    /// <summary>A text or nothing.</summary>
    /// <param name="text">The text.</param>
    public static implicit operator Value(string? text) => new(double.NaN, text);
}
