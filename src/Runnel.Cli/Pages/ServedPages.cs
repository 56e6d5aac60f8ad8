using System.CommandLine;
using System.Globalization;
using System.Net;
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
        Description = "Address to listen on. 0.0.0.0 lets every machine on your network see the pages; they then ask for a key.",
        HelpName = "ADDRESS",
        DefaultValueFactory = _ => "127.0.0.1",
    };

    /// <param name="host">Address to listen on.</param>
    /// <param name="port">Port to listen on.</param>
    /// <param name="options">What the pages show.</param>
    /// <param name="keyFolder">Where the key lies that pages on other addresses than this machine's ask for.</param>
    /// <param name="started">Called once the pages are there; what it gives is ended with them.</param>
    /// <param name="terminal">Where to tell it.</param>
    /// <param name="cancel">Stops them.</param>
    public static async Task<int> RunAsync(
        string host, int port, RunnelPagesOptions options, string keyFolder, Func<IAsyncDisposable> started, Terminal terminal, CancellationToken cancel)
    {
        if (port is < 0 or > 65535) throw RefusedException.WrongUsage("--port", $"{port} is not a port", "Give a number from 0 to 65535");
        string shown = port.ToString(CultureInfo.InvariantCulture);
        MakeFolder(options.WorkFolder);
        string? key = IsThisMachine(host) ? null : Key(keyFolder);
        options = options with { Key = key };
        await using var app = RunnelPages.Build(Settings, options with { Urls = $"http://{host}:{shown}" });
        try
        {
            await app.StartAsync(cancel);
        }
        catch (Exception error) when (error is IOException or SocketException or FormatException or InvalidOperationException)
        {
            throw Refused(host, shown, error);
        }

        foreach (string address in app.Urls)
            await terminal.TellAsync($"the pages are at {address}{(key is null ? "" : $"/enter?key={key}")} (Ctrl-C stops them).");
        await using var running = started();
        await WaitAsync(app.Lifetime.ApplicationStopping, cancel);
        await app.StopAsync(CancellationToken.None);
        // Being stopped is how the pages end: nothing was cut short.
        return ExitCodes.Done;
    }

    private static bool IsThisMachine(string host) => host == "localhost" || (IPAddress.TryParse(host.Trim('[', ']'), out var address) && IPAddress.IsLoopback(address));

    private static string Key(string folder)
    {
        string path = Path.Combine(folder, "access-key");
        try
        {
            return AccessKey.ReadOrMake(path);
        }
        catch (Exception error) when (error is IOException or UnauthorizedAccessException)
        {
            throw new RefusedException(path, $"the key cannot be read or made ({error.Message.TrimEnd('.')})", "Let only yourself read it; at least 12 characters");
        }
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
