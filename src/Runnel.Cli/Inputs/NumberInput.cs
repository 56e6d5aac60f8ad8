namespace Runnel.Cli.Inputs;

/// <summary>A number given by an option.</summary>
internal static class NumberInput
{
    /// <summary>The number, where it lies in the range; else wrong usage, told with the range.</summary>
    /// <param name="unit">Unit, after the range; empty: none.</param>
    public static double InRange(string option, double value, double least, double greatest, string unit = "") =>
        value >= least && value <= greatest ? value
            : throw RefusedException.WrongUsage(option, FormattableString.Invariant($"{value} is not from {least} to {greatest} {unit}").TrimEnd(), "Correct the number");
}
