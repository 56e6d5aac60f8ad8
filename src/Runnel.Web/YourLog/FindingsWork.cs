using Runnel.Exchange;
using Runnel.Exchange.Daybook;
using Runnel.Exchange.Logs;
using Runnel.Place;
using Runnel.Place.Findings;
using Runnel.Place.PlaceFiles;
using Runnel.Steward;

namespace Runnel.Web.YourLog;

/// <summary>Reads one dropped log to its findings, and says how far it has come.</summary>
public sealed class FindingsWork
{
    private long _bytesRead;
    private readonly long _bytes;

    public FindingsWork(DroppedLog log, SemaphoreSlim turn, CancellationToken cancel)
    {
        _bytes = Math.Max(1, new FileInfo(log.LogPath).Length);
        Outcome = Task.Run(() => ReadAsync(log, turn, cancel), cancel);
    }

    public Task<FindingsOutcome> Outcome { get; }

    /// <summary>0 to 1: share of the log read; the thinking after it is short.</summary>
    public double ReadShare => Math.Min(1, (double)Interlocked.Read(ref _bytesRead) / _bytes);

    private async Task<FindingsOutcome> ReadAsync(DroppedLog log, SemaphoreSlim turn, CancellationToken cancel)
    {
        await turn.WaitAsync(cancel);
        try
        {
            return Read(log, cancel);
        }
        catch (UnreadableFileException fault)
        {
            return new NotReadable([$"{log.FileName}, line {fault.Line}: {fault.What}. {fault.Remedy}."]);
        }
        catch (NotYetReadableException fault)
        {
            return new NotReadable([fault.Message]);
        }
        finally
        {
            turn.Release();
        }
    }

    private FindingsOutcome Read(DroppedLog log, CancellationToken cancel)
    {
        PlaceFileResult file = PlaceFile.Read(File.ReadAllText(log.PlacePath), "place.toml");
        if (file.Place is not { } place) return new NotReadable([.. file.Problems.Select(p => $"place.toml, line {p.Line}: {p.What}. {p.Remedy}.")]);

        ReadingLog readings;
        using (FileStream stream = File.OpenRead(log.LogPath))
            readings = LogReader.Read(stream, place, LogReadOptions.Default, new Progress(this), cancel);
        IReadOnlyList<DaybookEntry> daybook = [];
        IReadOnlyList<string> remarks = file.Remarks;
        if (File.Exists(log.DaybookPath))
        {
            using FileStream stream = File.OpenRead(log.DaybookPath);
            DaybookFile book = DaybookReader.Read(stream, place, cancel);
            daybook = book.Entries;
            remarks = [.. remarks, .. book.Remarks, .. book.Skipped.Select(s => $"Daybook: {s.Count} rows left out: {s.Reason} (first in line {s.FirstLine}).")];
        }

        Diagnosis found = Diagnose.Log(place, readings, daybook);
        return new Found(new(found with { Remarks = [.. found.Remarks, .. remarks.Where(r => !found.Remarks.Contains(r))] }));
    }

    /// <summary>Reports at once on the reading thread; the framework's own class would post each step elsewhere.</summary>
    private sealed class Progress(FindingsWork work) : IProgress<long>
    {
        public void Report(long value) => Interlocked.Exchange(ref work._bytesRead, value);
    }
}
