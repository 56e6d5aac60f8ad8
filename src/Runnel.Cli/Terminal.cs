namespace Runnel.Cli;

/// <summary>Where a command reads and writes: the process's own streams, or a test's.</summary>
/// <param name="Out">What was asked for, and nothing else.</param>
/// <param name="Error">Messages, questions and progress.</param>
/// <param name="In">Answers.</param>
/// <param name="CanAsk">A person sits at it, so questions will be answered.</param>
/// <param name="ShowsBars">Error is a screen, so a moving bar may be drawn on it.</param>
public sealed record Terminal(TextWriter Out, TextWriter Error, TextReader In, bool CanAsk = false, bool ShowsBars = false)
{
    public static Terminal OfThisProcess() => new(
        Console.Out, Console.Error, Console.In,
        CanAsk: !Console.IsInputRedirected && !Console.IsErrorRedirected,
        ShowsBars: !Console.IsErrorRedirected);

    /// <summary>One message to people; never part of what was asked for.</summary>
    public Task TellAsync(string message) => Error.WriteLineAsync("runnel: " + message);
}
