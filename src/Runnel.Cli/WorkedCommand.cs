using System.CommandLine;
using System.CommandLine.Help;
using System.CommandLine.Invocation;

namespace Runnel.Cli;

/// <summary>A command whose help ends with one example that can be typed as it stands.</summary>
internal sealed class WorkedCommand(string name, string description, string example) : Command(name, description)
{
    public string Example { get; } = example;
}

/// <summary>Prints the usual help, then the command's example.</summary>
internal sealed class HelpWithExample(HelpAction usual) : SynchronousCommandLineAction
{
    public override bool ClearsParseErrors => true;

    /// <summary>Puts this in the place of the usual help of <paramref name="root"/> and everything below it.</summary>
    public static void Install(RootCommand root)
    {
        foreach (var option in root.Options.OfType<HelpOption>())
        {
            if (option.Action is HelpAction usual) option.Action = new HelpWithExample(usual);
        }
    }

    public override int Invoke(ParseResult parseResult)
    {
        // A fixed width: the same page on every terminal, and testable.
        usual.MaxWidth = 100;
        int code = usual.Invoke(parseResult);
        string? example = parseResult.CommandResult.Command switch
        {
            WorkedCommand worked => worked.Example,
            RootCommand => RunnelCommand.FirstExample,
            _ => null,
        };
        if (example is not null)
        {
            var output = parseResult.InvocationConfiguration.Output;
            output.WriteLine("Example:");
            output.WriteLine("  " + example.ReplaceLineEndings("\n  "));
        }

        return code;
    }
}
