using System.Text;

namespace Runnel.Place.PlaceFiles;

/// <summary>One thing that is wrong with a place file, and what to do about it.</summary>
/// <param name="File">Name of the file as given.</param>
/// <param name="Line">From 1.</param>
/// <param name="Column">From 1.</param>
/// <param name="KeyPath">The key it is about, e.g. <c>vessel.sump.band</c>; empty where the text is not TOML at all.</param>
/// <param name="Found">What stands there, cut short; empty where something is missing.</param>
/// <param name="Expected">What may stand there.</param>
/// <param name="Nearest">The known name that comes nearest to what was found, or null.</param>
/// <param name="What">The problem, without a full stop.</param>
/// <param name="Remedy">What to do, without a full stop.</param>
public sealed record PlaceProblem(
    string File, int Line, int Column, string KeyPath, string Found, string Expected, string? Nearest, string What, string Remedy)
{
    /// <summary>In one line, as commands print it.</summary>
    public override string ToString() => $"runnel: {File}:{Line}:{Column}: {What}. {Remedy}.";

    /// <summary>What users wrote, fit for one line: control characters shown as blanks, cut to a readable length.</summary>
    internal static string Quoted(string written)
    {
        const int longest = 40;
        var text = new StringBuilder();
        foreach (char c in written)
        {
            if (text.Length == longest) return text.Append('…').ToString();
            text.Append(char.IsControl(c) || char.IsSurrogate(c) ? ' ' : c);
        }

        return text.ToString();
    }
}
