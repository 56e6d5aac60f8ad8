namespace Runnel.Science.Reckoning;

/// <summary>Why a sum was refused.</summary>
/// <param name="Input">The input it is about; empty where it is about several.</param>
/// <param name="What">What is wrong.</param>
/// <param name="Remedy">What to do about it: the unit and range are named.</param>
public sealed record Problem(string Input, string What, string Remedy)
{
    /// <summary>In one line, with the input's name first.</summary>
    public string Line => (Input.Length > 0 ? Input + ": " : "") + $"{What}. {Remedy}.";
}

/// <summary>Refusal from inside a relation, for what no single range can say.</summary>
internal sealed class RefusedInputException(Problem problem) : Exception(problem.Line)
{
    public Problem Problem { get; } = problem;
}

/// <summary>A rule between inputs, as that a minimum lies below its maximum.</summary>
/// <param name="Input">The input to name when it does not hold.</param>
/// <param name="Holds">The rule.</param>
/// <param name="What">What is wrong then.</param>
/// <param name="Remedy">What to do about it.</param>
internal sealed record Rule(string Input, Func<Given, bool> Holds, string What, string Remedy)
{
    /// <summary>One input must not lie above another; where one of them is missing there is nothing to compare.</summary>
    public static Rule NotAbove(string input, string limit) => new(
        input, g => !g.Has(input) || !g.Has(limit) || g[input] <= g[limit], $"is above {limit}", $"Give {input} no higher than {limit}");

    /// <summary>One input must lie below another.</summary>
    public static Rule Below(string input, string limit) => new(
        input, g => !g.Has(input) || !g.Has(limit) || g[input] < g[limit], $"is not below {limit}", $"Give {input} below {limit}");
}
