using System.CommandLine;
using Runnel.Exchange;
using Runnel.Exchange.Logs;
using Runnel.Place;

namespace Runnel.Cli.Inputs;

/// <summary>The log a command is given.</summary>
internal static class LogInput
{
    /// <summary>Shorter logs are read in a few seconds.</summary>
    private const long LongLogBytes = 32 * 1024 * 1024;

    public static Argument<string> Argument() => new("LOG.csv")
    {
        Description = "The log: time,channel,value, or time and one column a channel.",
    };

    public static Option<bool> ScaledOption() => new("--scaled")
    {
        Description = "The values are in each channel's unit already, as 'runnel export' writes them: scale and offset are not applied.",
    };

    public static Option<int?> MostReadingsOption() => new("--most-readings")
    {
        Description = $"Refuse a log with more readings than this (memory: about 60 bytes each). [default: {LogReadOptions.Default.MostReadings}]",
        HelpName = "N",
    };

    public static Task<ReadingLog> ReadAsync(
        string path, PlaceDescription place, int? mostReadings, Terminal terminal, CancellationToken cancel)
    {
        if (mostReadings < 1) throw RefusedException.WrongUsage("--most-readings", "is less than 1", "Give a whole number from 1 on");
        var options = mostReadings is { } most ? LogReadOptions.Default with { MostReadings = most } : LogReadOptions.Default;
        return WithFileAsync(path, "reading", terminal, (file, progress) => LogReader.Read(file, place, options, progress, cancel), cancel);
    }

    /// <summary>Does something with a log's file, showing how far it has come; what is wrong with the file is told in one line.</summary>
    public static Task<T> WithFileAsync<T>(
        string path, string what, Terminal terminal, Func<Stream, IProgress<long>, T> read, CancellationToken cancel)
    {
        bool isLong = File.Exists(path) && new FileInfo(path).Length >= LongLogBytes;
        return new WorkProgress(terminal, what, isLong).RunAsync(report => Task.Run(() => WithFile(path, read, report), cancel));
    }

    /// <summary>The same place for values to which scale and offset have been applied before.</summary>
    public static PlaceDescription AsScaled(PlaceDescription place) =>
        place with { Channels = [.. place.Channels.Select(c => c with { Scale = 1, Offset = 0 })] };

    private static T WithFile<T>(string path, Func<Stream, IProgress<long>, T> read, Action<double, string> report)
    {
        using var file = InputFile.Open(path);
        // A pipe has no length; then there is no share to tell.
        double length = file.CanSeek ? Math.Max(1, file.Length) : double.PositiveInfinity;
        try
        {
            return read(file, new Reports(bytes => report(bytes / length, $"{bytes / (1024 * 1024)} MB")));
        }
        catch (UnreadableFileException error)
        {
            throw new RefusedException($"{path}:{error.Line}:{error.Column}", error.What, error.Remedy);
        }
        catch (IOException error)
        {
            throw InputFile.Refused(path, error);
        }
    }

    /// <summary>Reports on the calling thread: the usual one posts, so that lines could come after the end.</summary>
    private sealed class Reports(Action<long> report) : IProgress<long>
    {
        public void Report(long value) => report(value);
    }
}
