using System.Diagnostics;
using System.Globalization;
using Runnel.Records;

namespace Runnel.Host.Tests.Commands;

/// <summary>An import that is stopped, killed, or refused by the disk loses nothing that it had told as stored.</summary>
public sealed class ImportStoppedTests(LargeLog log) : IClassFixture<LargeLog>
{
    private static CancellationToken Cancel => TestContext.Current.CancellationToken;

    [Theory]
    [InlineData(1)]
    [InlineData(2)]
    [InlineData(3)]
    public async Task Killed_at_any_moment_all_that_was_acknowledged_is_there(int seed)
    {
        string records = log.At($"killed-{seed}.sqlite");
        long acknowledged = 0;
        var random = new Random(seed);
        // Twice on the same file, so that a kill meets records that hold something already.
        for (int round = 0; round < 2; round++)
        {
            using var import = Import(records);
            int lines = random.Next(1, 9);
            acknowledged = Math.Max(acknowledged, await ReadAcknowledgementsAsync(import, lines));
            await Task.Delay(random.Next(0, 60), Cancel);
            import.Kill();
            acknowledged = Math.Max(acknowledged, await ReadAcknowledgementsAsync(import, int.MaxValue));
            await import.WaitForExitAsync(Cancel);
            Assert.InRange(await CountAsync(records), acknowledged, LargeLog.Rows);
        }

        Assert.True(acknowledged > 0);
        var again = await Cli.RunAsync("import", "--place", log.Place, log.Log, "--records", records);
        Assert.Equal(0, again.Code);
        Assert.Equal(LargeLog.Rows, await CountAsync(records));
    }

    [Fact]
    public async Task Interrupted_it_ends_with_3_and_goes_on_where_it_stopped()
    {
        // On a busy machine an import may be over before the signal reaches it: then another is interrupted.
        string records = log.At("interrupted-1.sqlite");
        for (int attempt = 2; !await InterruptAsync(records) && attempt < 8; attempt++) records = log.At($"interrupted-{attempt}.sqlite");
        Assert.InRange(await CountAsync(records), 1, LargeLog.Rows - 1);
        Assert.Equal(0, (await Cli.RunAsync("import", "--place", log.Place, log.Log, "--records", records)).Code);
        Assert.Equal(LargeLog.Rows, await CountAsync(records));
    }

    /// <summary>Starts an import and interrupts it; false where it was over before the signal came.</summary>
    private async Task<bool> InterruptAsync(string records)
    {
        using var import = Import(records);
        long acknowledged = await ReadAcknowledgementsAsync(import, 1);
        using (var signal = Process.Start("kill", ["-INT", import.Id.ToString(CultureInfo.InvariantCulture)])) await signal.WaitForExitAsync(Cancel);
        string rest = await import.StandardError.ReadToEndAsync(Cancel);
        await import.WaitForExitAsync(Cancel);
        Assert.DoesNotContain("   at ", rest, StringComparison.Ordinal);
        if (import.ExitCode == 0) return false;
        Assert.Equal(3, import.ExitCode);
        Assert.Contains("runnel: stopped: ", rest, StringComparison.Ordinal);
        Assert.InRange(await CountAsync(records), acknowledged, LargeLog.Rows - 1);
        return true;
    }

    [Fact]
    public async Task A_full_disk_is_told_and_what_was_stored_stays()
    {
        // A file system of its own, too small for the log; the records are read back before it is gone.
        var ran = await InPrivateMountAsync(
            "size=400k",
            $"{Runnel} import --place {log.Place} {log.Log} --records $M/r.sqlite; echo rc $? >&2; {Runnel} export --records $M/r.sqlite | wc -l");
        Assert.Contains("the disk is full", ran.Error, StringComparison.Ordinal);
        Assert.Contains("\nrc 1\n", ran.Error, StringComparison.Ordinal);
        ran.NoStackTrace();
        long acknowledged = ran.Error.Split('\n').Max(l => LargeLog.Acknowledged(l) ?? 0);
        Assert.InRange(long.Parse(ran.Out, CultureInfo.InvariantCulture) - 1, acknowledged, LargeLog.Rows - 1);
    }

    [Fact]
    public async Task A_read_only_disk_is_told()
    {
        string command = $"{Runnel} import --place {log.Place} {log.Log} --records $M/r.sqlite";
        var ran = await InPrivateMountAsync("size=9m", $"{command} >/dev/null 2>&1; mount -o remount,ro $M; {command}");
        Assert.Equal(1, ran.Code);
        string line = Assert.Single(ran.Error.Split('\n'), l => l.StartsWith("runnel: ", StringComparison.Ordinal));
        Assert.Contains("r.sqlite: ", line, StringComparison.Ordinal);
        ran.NoStackTrace();
    }

    [Fact]
    public async Task A_disk_that_refuses_to_write_is_told()
    {
        // A limit on the size of files stands for a disk that fails; it needs no rights. (The runtime's own doubly mapped
        // code would run into the limit too, hence the setting.)
        var ran = await ShellAsync($"export DOTNET_EnableWriteXorExecute=0; trap '' XFSZ; ulimit -f 200; exec {Runnel} import --place {log.Place} {log.Log} --records {log.At("limited.sqlite")}");
        Assert.Equal(1, ran.Code);
        Assert.Contains(log.At("limited.sqlite") + ": ", ran.Error, StringComparison.Ordinal);
        ran.NoStackTrace();
    }

    [Fact]
    public async Task Damaged_records_are_told_and_left_alone()
    {
        string records = log.At("damaged.sqlite");
        await File.WriteAllTextAsync(records, new string('x', 9000), Cancel);
        (await Cli.RunAsync("import", "--place", log.Place, log.Log, "--records", records)).OneError(1, records);
        Assert.Equal(new string('x', 9000), await File.ReadAllTextAsync(records, Cancel));
    }

    private static string Runnel => Path.Combine(AppContext.BaseDirectory, "runnel");

    private Process Import(string records) => Cli.Start("import", "--place", log.Place, log.Log, "--records", records);

    private static async Task<long> CountAsync(string records)
    {
        await using var store = await ReadingStore.OpenAsync(records, Cancel);
        return (await store.CountAsync(Cancel)).Sum(c => c.Count);
    }

    private static async Task<long> ReadAcknowledgementsAsync(Process import, int lines)
    {
        long acknowledged = 0;
        while (lines > 0 && await import.StandardError.ReadLineAsync(Cancel) is { } line)
        {
            if (LargeLog.Acknowledged(line) is not { } count) continue;
            acknowledged = count;
            lines--;
        }

        return acknowledged;
    }

    private static async Task<Ran> InPrivateMountAsync(string options, string script)
    {
        const string mount = "M=$(mktemp -d) && mount -t tmpfs -o ";
        if ((await ShellAsync($"unshare -rm sh -c '{mount}size=1m tmpfs $M'")).Code != 0) Assert.Skip("This machine allows no private mounts.");
        return await ShellAsync($"unshare -rm sh -c '{mount}{options} tmpfs $M; {script}'");
    }

    private static async Task<Ran> ShellAsync(string script)
    {
        using var shell = Process.Start(new ProcessStartInfo("sh", ["-c", script]) { RedirectStandardOutput = true, RedirectStandardError = true })!;
        var output = shell.StandardOutput.ReadToEndAsync(Cancel);
        string error = await shell.StandardError.ReadToEndAsync(Cancel);
        await shell.WaitForExitAsync(Cancel);
        return new Ran(shell.ExitCode, await output, error);
    }
}
