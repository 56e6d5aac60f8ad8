using System.Collections.Concurrent;
using System.Diagnostics;
using Runnel.Steward;
using Runnel.Twin.Invented;

namespace Runnel.Benchmarks;

/// <summary>Runs the reading core over invented logs and prints how it did against the truth.</summary>
internal static class DetectionCommand
{
    public static int Run(Options options)
    {
        var scores = new ConcurrentBag<LogScore>();
        var watch = Stopwatch.StartNew();
        Parallel.ForEach(options.Logs().ToList(), new ParallelOptions { MaxDegreeOfParallelism = options.Threads }, job => scores.Add(Score(job.Kind, job.Story, job.Seed, options)));
        var all = scores.OrderBy(s => s.Kind).ThenBy(s => IndexOf(s.Story)).ThenBy(s => s.Seed).ToList();
        if (options.Verbose)
        {
            foreach (var s in all)
            {
                Console.WriteLine($"{Letter(s.Kind)} {s.Story} seed {s.Seed}: {s.Failure ?? Outcome(s)}");
                foreach (string line in s.Lines) Console.WriteLine(line);
            }

            Console.WriteLine();
        }

        Table(all);
        Console.WriteLine($"{all.Count} logs of {options.Days} days in {watch.Elapsed.TotalSeconds:0} s; process peak {Process.GetCurrentProcess().PeakWorkingSet64 / 1e6:0} MB");
        return 0;
    }

    private static LogScore Score(LoopKind kind, Story story, int seed, Options options)
    {
        var log = InventedLogs.Make(kind, story, seed, options.Days);
        LogScore Failed(string why) => new() { Kind = kind, Story = story.Name, Seed = seed, IsFault = story.IsFault, Failure = why };
        long before = GC.GetAllocatedBytesForCurrentThread();
        var watch = Stopwatch.StartNew();
        try
        {
            var found = Diagnose.Log(log.Place, log.Log, log.Daybook);
            return LogScore.Of(log, found, watch.Elapsed.TotalSeconds, (GC.GetAllocatedBytesForCurrentThread() - before) / 1e6, options.Verbose);
        }
        catch (NotYetReadableException e)
        {
            return Failed($"not readable: {e.Message}");
        }
#pragma warning disable CA1031 // One log that breaks the reading core must not hide the score of the others.
        catch (Exception e)
#pragma warning restore CA1031
        {
            return Failed($"THREW {e.GetType().Name}: {e.Message} {e.StackTrace?.Split('\n').FirstOrDefault()?.Trim()}");
        }
    }

    private static char Letter(LoopKind kind) => "ABCD"[(int)kind];

    private static int IndexOf(string story) => Stories.All.TakeWhile(s => s.Name != story).Count();

    private static string Outcome(LogScore s) =>
        s.IsFault ? $"{(s.FirstDelayH is { } h ? $"found after {Hours(h)}" : s.SetDelayH is { } g ? $"in set after {Hours(g)}" : "MISSED")}, {s.WrongBeside} wrong beside it, {False(s)} false before"
        : s.QuestionWanted ? $"{(s.AskedDelayH is { } q ? $"asked after {Hours(q)}" : "NOT ASKED")}, {False(s)} false" : $"{False(s)} false";

    private static string False(LogScore s) => $"{s.FalseActNow}/{s.FalseToday}/{s.FalseSoon}";

    private static string Hours(double h) => double.IsNaN(h) ? "-" : h < 1.5 ? $"{h * 60:0} min" : h < 36 ? $"{h:0.0} h" : $"{h / 24:0.0} d";

    private static void Table(List<LogScore> all)
    {
        Console.WriteLine("kind story                  logs  first  set  median delay   worst  asked<2d  wrong  false now/today/soon  quiet d  top-up%  bleed%  band%  later  off L  not needed said/true    s    MB");
        foreach (var kind in all.GroupBy(s => s.Kind))
        {
            foreach (var story in kind.GroupBy(s => s.Story)) Row($"{Letter(kind.Key)}    {story.Key}", [.. story]);
            Row($"{Letter(kind.Key)}    = all", [.. kind]);
        }

        Row("=    all", all);
        double quiet = all.Sum(s => s.QuietDays);
        if (quiet > 0)
        {
            Console.WriteLine($"false in {quiet:0} quiet days, per 100 days: act-now {100 * all.Sum(s => s.FalseActNow) / quiet:0.00}, today {100 * all.Sum(s => s.FalseToday) / quiet:0.00},"
                + $" soon {100 * all.Sum(s => s.FalseSoon) / quiet:0.00}, questions {100 * all.Sum(s => s.FalseQuestions) / quiet:0.00}");
        }

        foreach (var failure in all.Where(s => s.Failure is not null).GroupBy(s => s.Failure))
            Console.WriteLine($"failed {failure.Count()} logs ({string.Join(", ", failure.Take(3).Select(s => $"{Letter(s.Kind)} {s.Story} {s.Seed}"))}): {failure.Key}");
    }

    private static void Row(string name, List<LogScore> of)
    {
        var faults = of.Where(s => s.IsFault && s.Failure is null).ToList();
        var asked = of.Where(s => s.QuestionWanted && s.Failure is null).ToList();
        var delays = faults.Select(s => s.SetDelayH).OfType<double>().ToList();
        int failed = of.Count(s => s.Failure is not null);
        int days = of.Sum(s => s.UnexplainedDays), later = of.Sum(s => s.LaterDays);
        string Percent(Func<LogScore, double> what) => $"{100 * LogScore.Median(of.Select(what)):0.0}".Replace("NaN", "-", StringComparison.Ordinal);
        Console.WriteLine($"{name,-27} {of.Count,4} {(faults.Count == 0 ? "-" : $"{faults.Count(s => s.FirstDelayH is not null)}"),6} {(faults.Count == 0 ? "-" : $"{delays.Count}"),4}"
            + $" {(delays.Count == 0 ? "-" : Hours(LogScore.Median(delays))),13} {(delays.Count == 0 ? "-" : Hours(delays.Max())),7} {(asked.Count == 0 ? "-" : $"{asked.Count(s => s.AskedDelayH <= 48)}/{asked.Count}"),9}"
            + $" {of.Sum(s => s.WrongBeside),6} {of.Sum(s => s.FalseActNow),10}/{of.Sum(s => s.FalseToday)}/{of.Sum(s => s.FalseSoon),-7} {of.Sum(s => s.QuietDays),9:0}"
            + $" {Percent(s => s.TopUpOff),8} {Percent(s => s.BleedOff),7} {(days == 0 ? "-" : $"{100.0 * of.Sum(s => s.UnexplainedInBand) / days:0}"),6} {(later == 0 ? "-" : $"{100.0 * of.Sum(s => s.LaterInBand) / later:0}"),6} {LogScore.Median(of.SelectMany(s => s.UnexplainedOffL)),6:0.0}"
            + $" {$"{of.Sum(s => s.NotNeededSaid)}/{of.Sum(s => s.NotNeededTrue)}",21}"
            + $" {LogScore.Median(of.Select(s => s.Seconds)),5:0.00} {(of.Count == 0 ? 0 : of.Max(s => s.Megabytes)),5:0}{(failed > 0 ? $"  {failed} FAILED" : "")}");
    }
}
