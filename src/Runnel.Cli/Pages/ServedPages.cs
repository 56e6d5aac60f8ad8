using System.CommandLine;
using System.Globalization;
using System.Net.Sockets;
using Microsoft.AspNetCore.Connections;
using Runnel.Web.Hosting;

namespace Runnel.Cli.Pages;

/// <summary>Serves the pages until the user stops them.</summary>
internal static class ServedPages
{
    public const int UsualPort = 4870;

    /// <summary>The host would tell of its start on the output, and of a taken port with a stack trace; both are told here in words.</summary>
    private static readonly string[] Settings =
        ["--Logging:LogLevel:Microsoft.Hosting.Lifetime=Warning", "--Logging:LogLevel:Microsoft.Extensions.Hosting=None"];

    public static Option<int> PortOption() => new("--port")
    {
        Description = "Port to listen on; 0 takes a free one.",
        HelpName = "N",
        DefaultValueFactory = _ => UsualPort,
    };

    public static Option<string> HostOption() => new("--host")
    {
        Description = "Address to listen on. 0.0.0.0 lets every machine on your network see the pages.",
        HelpName = "ADDRESS",
        DefaultValueFactory = _ => "127.0.0.1",
    };

    public static async Task<int> RunAsync(string host, int port, RunnelPagesOptions options, Terminal terminal, CancellationToken cancel)
    {
        if (port is < 0 or > 65535) throw RefusedException.WrongUsage("--port", $"{port} is not a port", "Give a number from 0 to 65535");
        string shown = port.ToString(CultureInfo.InvariantCulture);
        MakeFolder(options.WorkFolder);
        await using var app = RunnelPages.Build(Settings, options with { Urls = $"http://{host}:{shown}" });
        try
        {
            await app.StartAsync(cancel);
        }
        catch (Exception error) when (error is IOException or SocketException or FormatException or InvalidOperationException)
        {
            throw Refused(host, shown, error);
        }

        foreach (string address in app.Urls) await terminal.TellAsync($"the pages are at {address} (Ctrl-C stops them).");
        await WaitAsync(app.Lifetime.ApplicationStopping, cancel);
        await app.StopAsync(CancellationToken.None);
        // Being stopped is how the pages end: nothing was cut short.
        return ExitCodes.Done;
    }

    private static RefusedException Refused(string host, string port, Exception error) => error switch
    {
        IOException { InnerException: AddressInUseException } => new(
            $"--port {port}", "another program is listening there", "Stop it, or take another port, for example --port 0"),
        _ when (error as SocketException ?? error.InnerException as SocketException) is { SocketErrorCode: SocketError.AccessDenied } => new(
            $"--port {port}", "this port is kept for the system", "Take one from 1024 on"),
        _ => new($"--host {host}", $"cannot listen there ({error.Message.TrimEnd('.')})", "Give an address of this machine, for example 127.0.0.1"),
    };

    private static void MakeFolder(string folder)
    {
        try
        {
            Directory.CreateDirectory(folder);
        }
        catch (Exception error) when (error is IOException or UnauthorizedAccessException)
        {
            throw new RefusedException(folder, $"the folder for dropped logs cannot be made ({error.Message.TrimEnd('.')})", "Name another with --folder");
        }
    }

    private static async Task WaitAsync(CancellationToken stopping, CancellationToken cancel)
    {
        var done = new TaskCompletionSource(TaskCreationOptions.RunContinuationsAsynchronously);
        await using var a = stopping.Register(() => done.TrySetResult());
        await using var b = cancel.Register(() => done.TrySetResult());
        await done.Task;
    }
}
