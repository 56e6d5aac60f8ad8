using System.Collections.Concurrent;
using System.Diagnostics;
using System.Globalization;
using NodaTime;
using Runnel.Exchange.Logs;
using Runnel.Place;
using Runnel.Place.Findings;
using Runnel.Place.PlaceFiles;
using Runnel.Steward;
using Runnel.Twin.Faults;
using Runnel.Twin.Invented;
using Runnel.Twin.Playing;
using Runnel.Twin.Solving;

namespace Runnel.Benchmarks;

/// <summary>Plays drawn places with the twin, each with one fault, and scores what the reading core says of the kit's readings.</summary>
/// <remarks>The reading core is given a place as its household would know it: no pipe, no height, rates and areas measured with bucket and tape.</remarks>
internal static class TwinDetection
{
    private static readonly (string Name, string Fault, double? Rate, bool IsFault, string[] Fair)[] Cases =
    [
        ("healthy", "", null, false, []),
        ("pump-weakening 3 %/d", "pump-weakening", 0.03, true, [CauseNames.Overfull]),
        ("pump-stopped", "pump-stopped", null, true, []),
        ("pump-dry", "pump-dry", null, true, [CauseNames.PumpStopped]),
        ("pump-stuck-on", "pump-stuck-on", null, true, [CauseNames.PumpDry, CauseNames.Overfull]),
        ("pump-short-cycling", "pump-short-cycling", null, true, [CauseNames.LoopChanged]),
        ("drain-fouling, all 4 %/d", "drain-fouling", 0.04, true, [CauseNames.TankOverflow]),
        ("healthy", "", null, false, []),
        ("drain-fouling, one 8 %/d", "drain-fouling:trough-1", 0.08, true, [CauseNames.TankOverflow]),
        ("screen-blocking 30 %/d", "screen-blocking:tank", null, true, []),
        ("leak 6 L/h", "leak:tank", 6, true, []),
        ("leak 20 L/h", "leak:trough-1", 20, true, []),
        ("leak 8 L/h by night", "leak:sump", 8, true, []),
        ("check-valve-leaking", "check-valve-leaking", null, true, [CauseNames.LoopChanged]),
        ("healthy", "", null, false, []),
        ("top-up-stuck-open", "top-up-stuck-open", null, true, [CauseNames.Overfull, CauseNames.PumpStuckOn]),
        ("top-up-weeping 8 L/h", "top-up-weeping", 8, true, [CauseNames.Overfull]),
        ("top-up-without-effect", "top-up-without-effect", null, true, []),
        ("siphon-stuck", "siphon-stuck", null, true, [CauseNames.LoopChanged]),
        ("sensor-silent", "sensor-silent:air-temperature", null, true, []),
        ("sensor-frozen", "sensor-frozen:water-temperature", null, true, []),
        ("sensor-jumping", "sensor-jumping:air-temperature", null, true, []),
        ("pump-left-off", "pump-left-off", null, true, []),
        ("hose-left-running", "hose-left-running:sump", null, true, [CauseNames.PumpStuckOn]),
        ("switch-shifted 15 mm", "switch-shifted", 15, false, [CauseNames.LoopChanged]),
        ("valve-moved to 70 %", "valve-moved", 0.7, false, [CauseNames.LoopChanged]),
        ("sludge-drained 40 L", "sludge-drained:swirl", 40, false, [CauseNames.UnloggedDraw, CauseNames.LoopChanged]),
        ("power-cut 1 h", "power-cut", null, false, [CauseNames.PumpStopped, CauseNames.SensorSilent]),
        ("healthy", "", null, false, []),
    ];

    public static int Run(Options options)
    {
        var watch = Stopwatch.StartNew();
        var scores = new ConcurrentBag<Score>();
        int places = options.Seeds;
        Parallel.For(0, places, new ParallelOptions { MaxDegreeOfParallelism = options.Threads }, i => scores.Add(Of(options.FirstSeed + i, options)));
        var all = scores.OrderBy(s => s.Seed).ToList();
        if (options.Verbose)
        {
            foreach (var s in all)
            {
                Console.WriteLine($"seed {s.Seed}: {s.Case} ({s.Kit}): {s.Failure ?? (s.First is { } h ? $"right after {Hours(h)}" : s.Set is { } g ? $"in set after {Hours(g)}" : s.IsFault ? "MISSED" : "-")}, wrong {s.Wrong}, false {s.FalseAlarms}/{s.FalseSoon}");
                foreach (string line in s.Lines) Console.WriteLine($"      {line}");
            }
        }

        Console.WriteLine($"{"what",-26} {"places",6} {"first",6} {"set",5} {"missed",6} {"wrong",6} {"median delay",13} {"worst",8} {"false act-now, today / soon",28}");
        foreach (var of in all.Where(s => s.Failure is null).GroupBy(s => s.Case).OrderBy(g => g.Min(s => Array.FindIndex(Cases, c => c.Name == s.Case)))) Row(of.Key, [.. of]);
        var played = all.Where(s => s.Failure is null).ToList();
        Row("all faults", [.. played.Where(s => s.IsFault)]);
        double quiet = played.Sum(s => s.QuietDays);
        Console.WriteLine(string.Create(CultureInfo.InvariantCulture,
            $"false in {quiet:0} quiet days, per 100: act-now and today {100 * played.Sum(s => s.FalseAlarms) / quiet:0.00}, soon {100 * played.Sum(s => s.FalseSoon) / quiet:0.00}"));
        foreach (var failure in all.Where(s => s.Failure is not null).GroupBy(s => s.Failure)) Console.WriteLine($"not played: {failure.Count()} ({string.Join(", ", failure.Select(f => f.Seed).Take(8))}): {failure.Key}");
        Console.WriteLine($"{all.Count} places of {options.Days} days in {watch.Elapsed.TotalSeconds:0} s");
        return 0;
    }

    private static Score Of(int seed, Options options)
    {
        var drawn = DrawnPlace.Draw(seed);
        var (name, faultText, rate, isFault, fair) = Cases[seed % Cases.Length];
        var score = new Score(seed, name, drawn.Kit, isFault);
        var read = PlaceFile.Read(drawn.Toml, "drawn.toml", PlaceNeeds.Forecast);
        if (read.Place is not { } place || read.Problems.Count > 0) return score with { Failure = $"the file: {read.Problems[0]}" };
        PlayedPlace world;
        try
        {
            world = new PlayedPlace(place, drawn.Start, seed);
        }
        catch (ArgumentException e)
        {
            return score with { Failure = e.Message };
        }

        string[] parts = faultText.Split(':');
        double onsetDay = Math.Min(16, options.Days * 0.45) + new Seeded(seed, "onset").Between(0, 1.5);
        var onset = drawn.Start + Duration.FromSeconds(onsetDay * 86_400);
        IReadOnlyList<string> right = [];
        if (faultText.Length > 0)
        {
            var kind = FaultCatalogue.Find(parts[0])!;
            if (kind.Fits(place).Count == 0) return score with { Failure = $"{parts[0]} does not fit" };
            var hours = name.EndsWith("by night", StringComparison.Ordinal) ? new DailyHours(new LocalTime(20, 0), new LocalTime(6, 0)) : (DailyHours?)null;
            world.Inject(new Fault(parts[0], parts.Length > 1 ? parts[1] : null, rate) { Hours = hours }, onset);
            right = isFault ? kind.Causes : [];
        }

        List<Reading> readings = [];
        var stop = world.AdvanceTo(drawn.Start + Duration.FromDays(options.Days), readings.Add);
        if (stop != StopReason.Reached) return score with { Failure = $"the world stopped: {stop}" };
        var known = AsKnown(place, seed);
        if (options.Verbose || options.Out != "invented") Keep(options.Out, seed, drawn.Toml, known, readings, options.Out != "invented");
        try
        {
            var found = Diagnose.Log(known, new ReadingLog(readings, [], [], []), []);
            bool isPump = parts[0] is "pump-stopped" or "pump-dry" or "pump-stuck-on";
            return Judge(score, found, drawn.Start, onset, options.Days, right, fair, at => !isPump && RunsOnAndOn(readings, place.ChannelIndex("pump"), at));
        }
        catch (NotYetReadableException e)
        {
            return score with { Failure = e.Message };
        }
    }

    private static Score Judge(Score score, Diagnosis found, Instant start, Instant onset, int days, IReadOnlyList<string> right, string[] fair, Func<Instant, bool> isOverfull)
    {
        double? first = null, set = null;
        int wrong = 0, alarms = 0, soon = 0;
        List<string> lines = [];
        foreach (var n in found.Notices)
        {
            bool isRight = n.Causes.Any(c => right.Contains(c.Name)), isFair = isRight || n.Causes.Any(c => fair.Contains(c.Name));
            // What weather does is true as well: cold water, or more rain than the pump can bring back up.
            isFair |= n.Cause is CauseNames.WaterTooCold or CauseNames.WaterTooWarm || (n.Causes.Any(c => c.Name == CauseNames.Overfull) && isOverfull(n.FirstNoticed));
            bool speaks = n.Urgency != Urgency.Record, later = score.Case != "healthy" && n.FirstNoticed >= onset;
            string mark = "";
            if (later)
            {
                double hours = (n.FirstNoticed - onset).TotalHours;
                if (speaks && right.Contains(n.Cause)) first ??= hours;
                if (speaks && isRight) set ??= hours;
                if (speaks && !isFair)
                {
                    wrong++;
                    mark = "WRONG";
                }
            }
            else if (speaks && !isFair)
            {
                mark = "FALSE";
                if (n.Urgency == Urgency.Soon) soon++;
                else alarms++;
            }

            lines.Add(string.Create(CultureInfo.InvariantCulture,
                $"{n.Urgency} {string.Join(' ', n.Causes.Select(c => $"{c.Name}:{c.Probability:0.00}"))} day {(n.FirstNoticed - start).TotalDays:0.00} (fault at {(onset - start).TotalDays:0.00}) {mark} | {n.Evidence}"));
        }

        return score with
        {
            First = first,
            Set = set,
            Wrong = wrong,
            FalseAlarms = alarms,
            FalseSoon = soon,
            Lines = lines,
            QuietDays = score.Case == "healthy" ? days : (onset - start).TotalDays,
        };
    }

    // With a pump that is well, a run without end shows a loop that holds more than its pump can bring back up.
    private static bool RunsOnAndOn(List<Reading> readings, int pump, Instant at)
    {
        Instant? since = null;
        foreach (var r in readings)
        {
            if (r.Time > at) break;
            if (r.Channel == pump) since = r.Value == 1 ? r.Time : null;
        }

        return since is { } began && at - began > Duration.FromMinutes(15);
    }

    // The place as a household knows it: what stands where, a band measured with a bucket, rates by a stopwatch, areas by a tape.
    private static PlaceDescription AsKnown(PlaceDescription place, int seed)
    {
        var tape = new Seeded(seed, "tape");
        double Near(double value, double spread) => value * (1 + (spread * tape.Normal()));
        return place with
        {
            Hydraulics = null,
            Loop = new(Near(place.Loop.OpenWaterM2 ?? 0, 0.06), Near(place.Loop.CanopyM2 ?? 0, 0.1), Near(place.Loop.RainCatchM2 ?? 0, 0.05)),
            Vessels =
            [
                .. place.Vessels.Select(v => v.Kind == VesselKind.Sump
                    ? new Vessel(v.Id, v.Kind, BandL: Near(v.BandL!.Value, 0.03), FootprintM2: Near(v.FootprintM2!.Value, 0.03))
                    : new Vessel(v.Id, v.Kind, FootprintM2: Near(v.FootprintM2!.Value, 0.03), Outlet: v.Outlet)),
            ],
            Equipment = [.. place.Equipment.Select(e => e.RateLPerMin is { } rate ? e with { RateLPerMin = Near(rate, 0.01) } : e)],
        };
    }

    private static void Keep(string folder, int seed, string toml, PlaceDescription place, List<Reading> readings, bool wanted)
    {
        if (!wanted) return;
        Directory.CreateDirectory(folder);
        File.WriteAllText(Path.Combine(folder, $"{seed}.toml"), toml);
        using var csv = new StreamWriter(Path.Combine(folder, $"{seed}.csv"));
        var writer = new LogWriter(csv, place);
        foreach (var r in readings) writer.Write(r.Time, place.Channels[r.Channel].Id, r.Value);
    }

    private static void Row(string name, List<Score> of)
    {
        bool fault = of.Any(s => s.IsFault);
        var delays = of.Select(s => s.Set).OfType<double>().ToList();
        string Number(int n) => fault ? n.ToString(CultureInfo.InvariantCulture) : "-";
        Console.WriteLine($"{name,-26} {of.Count,6} {Number(of.Count(s => s.First is not null)),6} {Number(delays.Count),5} {Number(of.Count - delays.Count),6} {of.Sum(s => s.Wrong),6}"
            + $" {(delays.Count > 0 ? Hours(LogScore.Median(delays)) : "-"),13} {(delays.Count > 0 ? Hours(delays.Max()) : "-"),8} {$"{of.Sum(s => s.FalseAlarms)} / {of.Sum(s => s.FalseSoon)}",28}");
    }

    private static string Hours(double h) => string.Create(CultureInfo.InvariantCulture, $"{(h < 1.5 ? h * 60 : h < 36 ? h : h / 24):0.#} {(h < 1.5 ? "min" : h < 36 ? "h" : "d")}");

    private sealed record Score(int Seed, string Case, string Kit, bool IsFault)
    {
        public string? Failure { get; init; }

        public double? First { get; init; }

        public double? Set { get; init; }

        public int Wrong { get; init; }

        public int FalseAlarms { get; init; }

        public int FalseSoon { get; init; }

        public double QuietDays { get; init; }

        public IReadOnlyList<string> Lines { get; init; } = [];
    }
}
