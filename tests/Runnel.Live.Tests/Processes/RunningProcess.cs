using System.Diagnostics;

namespace Runnel.Live.Tests.Processes;

/// <summary><c>runnel run</c> as a process of its own, which can be killed.</summary>
internal sealed class RunningProcess : IAsyncDisposable
{
    private readonly Process _process;

    private RunningProcess(Process process, int mqttPort, Uri pages)
    {
        (_process, MqttPort) = (process, mqttPort);
        Http = new HttpClient { BaseAddress = pages };
    }

    public int MqttPort { get; }

    public HttpClient Http { get; }

    public static async Task<RunningProcess> StartAsync(string folder, string placeFile, params string[] more)
    {
        int mqtt = TestPlace.FreePort();
        var start = new ProcessStartInfo(Path.Combine(AppContext.BaseDirectory, "runnel")) { RedirectStandardError = true, RedirectStandardOutput = true };
        foreach (string arg in (string[])["run", placeFile, "--port", "0", "--mqtt-port", $"{mqtt}", "--folder", folder, .. more]) start.ArgumentList.Add(arg);
        var process = Process.Start(start)!;
        const string mark = "the pages are at ";
        var said = new List<string>();
        while (await process.StandardError.ReadLineAsync(TestPlace.Cancel) is { } line)
        {
            said.Add(line);
            if (line.IndexOf(mark, StringComparison.Ordinal) is >= 0 and var at)
            {
                string address = line[(at + mark.Length)..].Split(' ')[0];
                return new RunningProcess(process, mqtt, new Uri(address.Replace("0.0.0.0", "127.0.0.1", StringComparison.Ordinal)));
            }
        }

        throw new InvalidOperationException(string.Join('\n', said));
    }

    public async Task KillAsync()
    {
        _process.Kill(); // SIGKILL
        await _process.WaitForExitAsync(TestPlace.Cancel);
    }

    /// <summary>Ctrl-C; returns the exit code.</summary>
    public async Task<int> StopAsync()
    {
        await Tool.RunAsync("kill", "-INT", $"{_process.Id}");
        await _process.WaitForExitAsync(TestPlace.Cancel);
        return _process.ExitCode;
    }

    public async ValueTask DisposeAsync()
    {
        if (!_process.HasExited)
        {
            _process.Kill();
            await _process.WaitForExitAsync(CancellationToken.None);
        }

        _process.Dispose();
        Http.Dispose();
    }
}
