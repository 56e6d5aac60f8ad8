namespace Runnel.Cli;

/// <summary>The command cannot go on; one or more lines tell the user where, what and what to do about it.</summary>
public sealed class RefusedException(int exitCode, IReadOnlyList<string> lines) : Exception(string.Join('\n', lines))
{
    public RefusedException(string where, string what, string remedy, int exitCode = ExitCodes.CouldNot)
        : this(exitCode, [Line(where, what, remedy)])
    {
    }

    public int ExitCode { get; } = exitCode;

    /// <summary>Each is <c>WHERE: WHAT. REMEDY.</c>, without the leading program name.</summary>
    public IReadOnlyList<string> Lines { get; } = lines;

    public static RefusedException WrongUsage(string where, string what, string remedy) => new(where, what, remedy, ExitCodes.WrongUsage);

    /// <summary>The one form of every error. File names may hold line breaks, which must not break the line.</summary>
    public static string Line(string where, string what, string remedy) =>
        $"{where}: {what.TrimEnd('.')}. {remedy.TrimEnd('.')}.".ReplaceLineEndings(" ");
}
