using System.Diagnostics;
using Runnel.Cli;

namespace Runnel.Host.Tests.Commands;

/// <summary>What a command printed and how it ended.</summary>
public sealed record Ran(int Code, string Out, string Error)
{
    /// <summary>The error is one line in the promised form, and nothing was printed beside it.</summary>
    public string OneError(int code, string where)
    {
        Assert.Equal(code, Code);
        Assert.Equal("", Out);
        string line = Assert.Single(Error.Split('\n', StringSplitOptions.RemoveEmptyEntries));
        Assert.StartsWith($"runnel: {where}", line, StringComparison.Ordinal);
        Assert.Matches(@"^runnel: \S.*: .+\. .+\.$", line);
        NoStackTrace();
        return line;
    }

    public void NoStackTrace()
    {
        Assert.DoesNotContain("   at ", Error, StringComparison.Ordinal);
        Assert.DoesNotContain("Exception", Error, StringComparison.Ordinal);
    }
}

/// <summary>Runs the command, in this process or as one of its own.</summary>
public static class Cli
{
    public static Task<Ran> RunAsync(params string[] args) => RunAsync("", CancellationToken.None, args);

    public static async Task<Ran> RunAsync(string answers, CancellationToken cancel, params string[] args)
    {
        using var output = new StringWriter();
        using var error = new StringWriter();
        using var input = new StringReader(answers);
        int code = await RunnelCommand.RunAsync(args, new Terminal(output, error, input, CanAsk: answers.Length > 0), cancel);
        return new Ran(code, output.ToString(), error.ToString());
    }

    /// <summary>A process of its own, for what only a process shows: signals, being killed.</summary>
    public static Process Start(params string[] args)
    {
        var start = new ProcessStartInfo(Path.Combine(AppContext.BaseDirectory, "runnel"))
        {
            RedirectStandardOutput = true,
            RedirectStandardError = true,
            RedirectStandardInput = true,
        };
        foreach (string arg in args) start.ArgumentList.Add(arg);
        return Process.Start(start)!;
    }
}
