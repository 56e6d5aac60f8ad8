using NodaTime;
using Runnel.Place.Findings;
using Runnel.Twin.Invented;

namespace Runnel.Benchmarks;

/// <summary>How one diagnosis stands against the truth.</summary>
internal sealed record LogScore
{
    public required LoopKind Kind { get; init; }
    public required string Story { get; init; }
    public required int Seed { get; init; }
    public required bool IsFault { get; init; }

    /// <summary>Why the log could not be diagnosed, or null.</summary>
    public string? Failure { get; init; }

    /// <summary>Hours from onset to the first notice with a right cause first / anywhere in its set; null: never.</summary>
    public double? FirstDelayH { get; init; }
    public double? SetDelayH { get; init; }

    /// <summary>For changes: hours until the right question; null: never asked, or none is called for.</summary>
    public double? AskedDelayH { get; init; }
    public bool QuestionWanted { get; init; }

    /// <summary>Notices (not for the record) after the onset with no fair cause in them.</summary>
    public int WrongBeside { get; init; }
    public int FalseActNow { get; init; }
    public int FalseToday { get; init; }
    public int FalseSoon { get; init; }
    public int FalseQuestions { get; init; }
    public double QuietDays { get; init; }
    public double TopUpOff { get; init; } = double.NaN;
    public double BleedOff { get; init; } = double.NaN;
    public int UnexplainedDays { get; init; }
    public int UnexplainedInBand { get; init; }

    /// <summary>The same after the first fault or change.</summary>
    public int LaterDays { get; init; }
    public int LaterInBand { get; init; }
    public IReadOnlyList<double> UnexplainedOffL { get; init; } = [];
    public int NotNeededSaid { get; init; }
    public int NotNeededTrue { get; init; }
    public double Seconds { get; init; }
    public double Megabytes { get; init; }
    public IReadOnlyList<string> Lines { get; init; } = [];

    public static LogScore Of(InventedLog log, Diagnosis d, double seconds, double megabytes, bool lines)
    {
        var faults = log.Truth.Events.Where(e => e.IsFault && e.Causes.Count > 0).ToList();
        var asked = log.Truth.Events.Where(e => !e.IsFault && e.Causes.Count > 0).ToList();
        bool isFault = faults.Count > 0;
        Instant from = log.Log.Readings[0].Time, to = log.Log.Readings[^1].Time;
        // Everything before the first fault is quiet; so is all of a log that has none.
        Instant onset = faults.Count > 0 ? faults[0].Onset : to.Plus(Duration.FromDays(1));
        string[] fairNow(Instant at) =>
        [
            .. log.Truth.Events.Where(e => e.Onset <= at.Plus(Duration.FromMinutes(5))).SelectMany(e => e.Causes.Concat(e.AlsoFair)),
        ];

        double? first = null, set = null, question = null;
        int wrong = 0, now = 0, today = 0, soon = 0, questions = 0;
        var text = new List<string>();
        foreach (var n in d.Notices)
        {
            string[] fair = fairNow(n.FirstNoticed);
            bool any = n.Causes.Any(c => fair.Contains(c.Name));
            double hours = faults.Count > 0 ? (n.FirstNoticed - onset).TotalHours : double.NaN;
            bool speaks = n.Urgency != Urgency.Record || n.Cause == CauseNames.ClockJump;
            string mark = "";
            if (faults.Count > 0 && n.FirstNoticed >= onset && speaks)
            {
                string[] right = [.. faults.SelectMany(e => e.Causes)];
                if (right.Contains(n.Cause)) first ??= hours;
                if (n.Causes.Any(c => right.Contains(c.Name))) set ??= hours;
                if (!any && n.Urgency != Urgency.Record)
                {
                    wrong++;
                    mark = "WRONG";
                }
            }
            else if (!any && (faults.Count == 0 || n.FirstNoticed < onset))
            {
                mark = "FALSE";
                if (n.Urgency == Urgency.ActNow) now++;
                else if (n.Urgency == Urgency.Today) today++;
                else if (n.Urgency == Urgency.Soon) soon++;
                else questions++;
            }
            else if (faults.Count == 0 && any && n.Urgency != Urgency.Record && asked.Count > 0 && !asked.Any(e => e.AlsoFair.Contains(n.Cause)))
            {
                // A change that people made wants a question, not an alarm.
                mark = "FALSE (alarm for a change)";
                if (n.Urgency == Urgency.ActNow) now++;
                else if (n.Urgency == Urgency.Today) today++;
                else soon++;
            }

            if (asked.Count > 0 && n.FirstNoticed >= asked[0].Onset && asked[0].Causes.Contains(n.Cause) && n.Urgency == Urgency.Record)
                question ??= (n.FirstNoticed - asked[0].Onset).TotalHours;
            if (lines)
                text.Add($"      {n.Urgency,-7} {string.Join(" ", n.Causes.Select(c => $"{c.Name}:{c.Probability:0.00}"))} since day {(n.Since - from).TotalDays:0.00} noticed day {(n.FirstNoticed - from).TotalDays:0.00}"
                    + $"{(n.Cleared is { } c2 ? $" cleared {(c2 - from).TotalDays:0.00}" : "")} {mark} | {n.Evidence}");
        }

        var score = new LogScore
        {
            Kind = log.Kind,
            Story = log.StoryName,
            Seed = log.Seed,
            IsFault = isFault,
            FirstDelayH = first,
            SetDelayH = set,
            QuestionWanted = asked.Count > 0,
            AskedDelayH = question,
            WrongBeside = wrong,
            FalseActNow = now,
            FalseToday = today,
            FalseSoon = soon,
            FalseQuestions = questions,
            QuietDays = Math.Max(0, ((faults.Count > 0 ? onset : to) - from).TotalDays),
            NotNeededSaid = d.OwnRule?.NotNeeded ?? 0,
            NotNeededTrue = log.Truth.NotNeeded,
            Seconds = seconds,
            Megabytes = megabytes,
            Lines = text,
        };
        return Ledger(score, log, d, text, lines);
    }

    private static LogScore Ledger(LogScore score, InventedLog log, Diagnosis d, List<string> text, bool lines)
    {
        var truth = log.Truth.Days.ToDictionary(t => t.Date);
        double topUpOff = 0, topUp = 0, bleedOff = 0, bleed = 0;
        int days = 0, inBand = 0, laterDays = 0, laterInBand = 0;
        LocalDate? fault = log.Truth.Events.Count > 0 ? log.Truth.Events[0].Onset.InZone(log.Place.Zone).Date : null;
        var off = new List<double>();
        // The first and the last day may be cut; while the loop is being learnt little can be said.
        var firstDate = log.Truth.Days[0].Date.PlusDays(14);
        foreach (var day in d.Ledger.Skip(1).SkipLast(1))
        {
            if (!truth.TryGetValue(day.Date, out var t) || HasGap(log, day.Date)) continue;
            // An order that lets no water in is a fault to be found, not an error of the rate.
            if (!log.Truth.Events.Any(e => e.Kind == HappeningKind.TopUpWithoutEffect) || day.Date < fault)
            {
                topUpOff += Math.Abs(day.TopUp.L - t.TopUpL);
                topUp += t.TopUpL;
            }

            bleedOff += Math.Abs(day.Bleed.L - t.BleedL);
            bleed += t.BleedL;
            if (day.Date < firstDate) continue;
            double error = day.Unexplained.L - t.UnexplainedL;
            if (day.Date >= fault)
            {
                laterDays++;
                if (Math.Abs(error) <= day.Unexplained.PlusMinusL) laterInBand++;
                continue;
            }

            days++;
            off.Add(Math.Abs(error));
            if (Math.Abs(error) <= day.Unexplained.PlusMinusL) inBand++;
        }

        if (lines) text.Add($"      unexplained in band {inBand}/{days}, later {laterInBand}/{laterDays}, median off {Median(off):0.0} L, top-ups not needed {d.OwnRule?.NotNeeded} (true {log.Truth.NotNeeded} of {log.Truth.TopUps}), verdict: {d.Verdict}");
        return score with
        {
            TopUpOff = topUp > 5 ? topUpOff / topUp : double.NaN,
            BleedOff = bleed > 5 ? bleedOff / bleed : double.NaN,
            UnexplainedDays = days,
            UnexplainedInBand = inBand,
            LaterDays = laterDays,
            LaterInBand = laterInBand,
            UnexplainedOffL = off,
        };
    }

    private static bool HasGap(InventedLog log, LocalDate date)
    {
        foreach (var e in log.Truth.Events)
        {
            if (e.Kind is not (HappeningKind.Outage or HappeningKind.ClockJump)) continue;
            if (e.Onset.InZone(log.Place.Zone).Date <= date && (e.End ?? e.Onset).InZone(log.Place.Zone).Date >= date) return true;
        }

        return false;
    }

    public static double Median(IEnumerable<double> values)
    {
        double[] sorted = [.. values.Where(double.IsFinite).Order()];
        return sorted.Length == 0 ? double.NaN : sorted.Length % 2 == 1 ? sorted[sorted.Length / 2] : (sorted[sorted.Length / 2] + sorted[(sorted.Length / 2) - 1]) / 2;
    }
}
