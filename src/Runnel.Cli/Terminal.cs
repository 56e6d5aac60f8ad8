namespace Runnel.Cli;

/// <summary>Where a command reads and writes: the process's own streams, or a test's.</summary>
/// <param name="Out">What was asked for, and nothing else.</param>
/// <param name="Error">Messages, questions and progress.</param>
/// <param name="In">Answers.</param>
/// <param name="CanAsk">A person sits at it, so questions will be answered.</param>
public sealed record Terminal(TextWriter Out, TextWriter Error, TextReader In, bool CanAsk)
{
    public static Terminal OfThisProcess() =>
        new(Console.Out, Console.Error, Console.In, !Console.IsInputRedirected && !Console.IsErrorRedirected);
}
