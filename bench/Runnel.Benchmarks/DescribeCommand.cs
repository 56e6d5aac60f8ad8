using System.Diagnostics;
using NodaTime;
using Runnel.Place;
using Runnel.Twin.Invented;

namespace Runnel.Benchmarks;

/// <summary>Says what invented places are like, without any diagnosis: a check on the generator itself.</summary>
internal static class DescribeCommand
{
    public static int Run(Options options)
    {
        if (options.Story == "demo")
        {
            var demo = InventedDemo.Make();
            Console.WriteLine($"{demo.Place.Name}: {demo.Rows.Count} rows, {demo.Daybook.Count} daybook entries, {demo.Truth.TopUps} top-ups, {demo.Truth.NotNeeded} not needed");
            foreach (var e in demo.Truth.Events) Console.WriteLine($"    {e.Kind} at day {(e.Onset - demo.Rows[0].Time).TotalDays:0.00} size {e.Size:0.###}");
            ByDay(demo);
            return 0;
        }

        foreach (var (kind, story, seed) in (options.Story == "all" ? options with { Story = "healthy" } : options).Logs())
        {
            var watch = Stopwatch.StartNew();
            var log = InventedLogs.Make(kind, story, seed, options.Days);
            double made = watch.Elapsed.TotalSeconds;
            var (fill, run, count) = Cycles(log);
            var days = log.Truth.Days;
            double Mean(Func<TrueDay, double> of) => days.Average(of);
            Console.WriteLine($"{kind} {story.Name} {seed}: {log.Rows.Count} rows in {made:0.00} s; cycles {count / (double)days.Count:0.0}/day fill {fill / 60:0.0} (target {log.Truth.TargetFillS / 60:0.0}) run {run / 60:0.0} min;"
                + $" topup {Mean(d => d.TopUpL):0.0} bleed {Mean(d => d.BleedL):0.0} rain {Mean(d => d.RainL):0.0} evap {Mean(d => d.EvaporationL):0.0} plants {Mean(d => d.PlantUseL):0.0}"
                + $" drawn {Mean(d => d.DrawnL):0.0} unexpl {Mean(d => d.UnexplainedL):0.0} spilled {days.Sum(d => d.SpilledL):0} stored {days.Sum(d => d.StoredL):0} topups {log.Truth.TopUps} not needed {log.Truth.NotNeeded} off {days.Max(d => Math.Abs(d.BalanceL)):0.0e0}");
            foreach (var e in log.Truth.Events) Console.WriteLine($"    {e.Kind} at day {(e.Onset - log.Rows[0].Time).TotalDays:0.00} size {e.Size:0.###}");
            if (kind != LoopKind.AlwaysOn) SameFill(log);
            if (options.Verbose) ByDay(log);
        }

        return 0;
    }

    /// <summary>Run at the same fill before the first event and a week after it.</summary>
    private static void SameFill(InventedLog log)
    {
        if (log.Truth.Events.Count == 0) return;
        var onset = log.Truth.Events[0].Onset;
        var all = Pairs(log);
        var after = all.Where(c => c.At > onset.Plus(Duration.FromDays(5)) && c.At < onset.Plus(Duration.FromDays(7))).ToList();
        if (after.Count < 10) return;
        double fill = after.Select(c => c.Fill).Order().ElementAt(after.Count / 2);
        double Run(IEnumerable<(Instant At, double Fill, double Run)> of)
        {
            double[] near = [.. of.Where(c => Math.Abs(c.Fill - fill) < 0.06 * fill).Select(c => c.Run).Order()];
            return near.Length == 0 ? double.NaN : near[near.Length / 2];
        }

        double was = Run(all.Where(c => c.At < onset)), now = Run(after);
        Console.WriteLine($"    at a fill of {fill:0} s: run {was:0} s before, {now:0} s after 5 to 7 days: {100 * ((now / was) - 1):+0.0;-0.0} %");
    }

    private static List<(Instant At, double Fill, double Run)> Pairs(InventedLog log)
    {
        var pairs = new List<(Instant At, double Fill, double Run)>();
        double above = log.Place.Channels[0].Measures == Quantity.Power ? (log.Place.Equipment[0].RatedPowerW ?? 20) * 0.3 : 0.5;
        Instant? on = null, off = null, before = null;
        bool running = false;
        foreach (var r in log.Log.Readings)
        {
            if (r.Channel != 0 || r.Value > above == running) continue;
            running = !running;
            if (running) (on, before) = (r.Time, off);
            else
            {
                if (on is { } s && before is { } b) pairs.Add((s, (s - b).TotalSeconds, (r.Time - s).TotalSeconds));
                off = r.Time;
            }
        }

        return pairs;
    }

    private static void ByDay(InventedLog log)
    {
        foreach (var d in log.Truth.Days)
        {
            var from = log.Place.Zone.AtStartOfDay(d.Date).ToInstant();
            var (fill, run, count) = Cycles(log, from, from.Plus(Duration.FromHours(24)));
            Console.WriteLine($"    {d.Date:yyyy-MM-dd} {count,4} cycles fill {fill,6:0} run {run,6:0} s top {d.TopUpL,5:0.0}+{d.StrayTopUpL:0} bleed {d.BleedL,5:0.0}+{d.StrayBleedL:0} rain {d.RainL,5:0.0} evap {d.EvaporationL,5:0.0} plants {d.PlantUseL,5:0.0} drawn {d.DrawnL,5:0.0} unlogged {d.UnloggedL,4:0.0} leak {d.LeakL,5:0.0} spill {d.SpilledL,5:0.0} stored {d.StoredL,6:0.0}");
        }
    }

    private static (double Fill, double Run, int Count) Cycles(InventedLog log, Instant? from = null, Instant? to = null)
    {
        List<double> fills = [], runs = [];
        Instant on = default, off = default;
        bool running = false, known = false;
        bool power = log.Place.Channels[0].Measures == Quantity.Power;
        double threshold = power ? (log.Place.Equipment[0].RatedPowerW ?? 20) * 0.3 : 0.5;
        foreach (var r in log.Log.Readings)
        {
            if (r.Channel != 0) continue;
            bool now = r.Value > threshold;
            if (known && now == running) continue;
            bool counts = (from is null || r.Time >= from) && (to is null || r.Time < to);
            if (now)
            {
                if (off != default && counts) fills.Add((r.Time - off).TotalSeconds);
                on = r.Time;
            }
            else
            {
                if (on != default && counts) runs.Add((r.Time - on).TotalSeconds);
                off = r.Time;
            }

            (running, known) = (now, true);
        }

        static double Median(List<double> x)
        {
            if (x.Count == 0) return double.NaN;
            x.Sort();
            return x[x.Count / 2];
        }

        return (Median(fills), Median(runs), runs.Count);
    }
}
