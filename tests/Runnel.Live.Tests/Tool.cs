using System.Diagnostics;

namespace Runnel.Live.Tests;

/// <summary>Programs of the system, as a household would use them.</summary>
internal static class Tool
{
    public static async Task<(int Code, string Out)> RunAsync(string name, params string[] args)
    {
        using var process = Start(name, args);
        string output = await process.StandardOutput.ReadToEndAsync(TestPlace.Cancel);
        output += await process.StandardError.ReadToEndAsync(TestPlace.Cancel);
        await process.WaitForExitAsync(TestPlace.Cancel);
        return (process.ExitCode, output);
    }

    public static Process Start(string name, params string[] args)
    {
        var start = new ProcessStartInfo(Find(name) ?? throw new InvalidOperationException($"{name} is not installed; ./check installs it"))
        {
            RedirectStandardOutput = true,
            RedirectStandardError = true,
        };
        foreach (string arg in args) start.ArgumentList.Add(arg);
        return Process.Start(start)!;
    }

    private static string? Find(string name) =>
        ((string[])["/usr/bin", "/usr/sbin", "/usr/local/bin", "/bin"]).Select(f => Path.Combine(f, name)).FirstOrDefault(File.Exists);
}
