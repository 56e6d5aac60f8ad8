namespace Runnel.Exchange;

/// <summary>A file cannot be read at all. Says where, what is wrong and what helps; fit to be shown to people.</summary>
/// <param name="line">Line number from 1.</param>
/// <param name="column">Character position in the line, from 1.</param>
/// <param name="what">What is wrong, without a final stop.</param>
/// <param name="remedy">What helps, without a final stop.</param>
public sealed class UnreadableFileException(long line, int column, string what, string remedy)
    : Exception($"{line}:{column}: {what}. {remedy}.")
{
    public long Line { get; } = line;
    public int Column { get; } = column;
    public string What { get; } = what;
    public string Remedy { get; } = remedy;
}
