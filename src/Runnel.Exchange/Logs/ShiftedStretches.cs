using NodaTime;
using Runnel.Place;

namespace Runnel.Exchange.Logs;

/// <summary>
/// Finds stretches that were written while the clock stood wrong by a whole number of hours or days: a step one way, and after a while the same
/// step back. Such rows are moved to where they belong; every other fault of a clock leaves doubt, and its rows are left out.
/// </summary>
internal static class ShiftedStretches
{
    /// <summary>Shorter stretches could be rows that came late.</summary>
    private const long LeastLength = WrittenTime.PerHour;
    private const int LeastRows = 10;

    /// <summary>How far a step may be from a whole number of hours, the usual time between rows aside.</summary>
    private const long Slack = 2 * WrittenTime.PerMinute;
    private const int MostSteps = 10_000;
    private const int MostPauses = 12;

    private readonly record struct Step(int At, long Ticks);

    /// <summary>Moves the stretches, says so in the remarks, and gives the steps of the clock.</summary>
    public static IReadOnlyList<ClockStep> MoveBack(RawReadings raw, FileOrder order, List<string> remarks, CancellationToken cancel)
    {
        var steps = StepsOf(raw, order, out long usual);
        cancel.ThrowIfCancellationRequested();
        if (steps.Count is < 2 or > MostSteps) return [];
        long slack = Math.Min(Slack + (2 * usual), 15 * WrittenTime.PerMinute);
        var found = new List<ClockStep>();
        for (int i = 0; i + 1 < steps.Count; i++)
        {
            if (BackFrom(raw, order, steps, i, slack) is not var (j, shift)) continue;
            found.Add(Move(raw, order, steps[i].At, steps[j].At, shift, remarks));
            i = j;
        }

        return found;
    }

    /// <summary>The step that undoes step <paramref name="i"/>, and by how much the clock stood wrong between them. Pauses may lie between, other steps back may not.</summary>
    private static (int J, long Shift)? BackFrom(RawReadings raw, FileOrder order, List<Step> steps, int i, long slack)
    {
        for (int j = i + 1; j < steps.Count && j <= i + MostPauses; j++)
        {
            if (ShiftOf(steps[i].Ticks, steps[j].Ticks, slack) is { } shift && IsStretch(raw, order, steps[i].At, steps[j].At, shift)) return (j, shift);
            if (steps[j].Ticks < 0) return null;
        }

        return null;
    }

    /// <summary>Where the time between two rows, one written after the other, is no pace of a logger: half an hour on, or any way back.</summary>
    private static List<Step> StepsOf(RawReadings raw, FileOrder order, out long usual)
    {
        var steps = new List<Step>();
        var paces = new List<long>();
        long? last = null;
        for (int k = 0; k < order.Count; k++)
        {
            int i = order.At(k);
            if (raw.Form(i).Kind == TimeKind.None) continue;
            long ticks = raw.Ticks(i);
            if (last is { } before)
            {
                long step = ticks - before;
                if (Math.Abs(step) >= WrittenTime.PerHour / 2 && steps.Count <= MostSteps) steps.Add(new(k, step));
                else if (step > 0 && paces.Count < 10_000) paces.Add(step);
            }

            last = ticks;
        }

        paces.Sort();
        usual = paces.Count == 0 ? 0 : paces[paces.Count / 2];
        return steps;
    }

    /// <summary>The whole hours by which the clock stood wrong between two steps, in ticks, or null where they are not there and back.</summary>
    private static long? ShiftOf(long there, long back, long slack)
    {
        if (Math.Sign(there) == Math.Sign(back)) return null;
        double hours = Math.Round((there - back) / 2.0 / WrittenTime.PerHour);
        long shift = (long)hours * WrittenTime.PerHour;
        // A row comes later than the one before it, whatever the clock says: both steps lie on the late side of the shift.
        bool fits = shift != 0 && there - shift >= -Slack && there - shift <= slack && back + shift >= -Slack && back + shift <= slack;
        return fits ? shift : null;
    }

    private static bool IsStretch(RawReadings raw, FileOrder order, int from, int to, long shift)
    {
        if (to - from < LeastRows) return false;
        long first = raw.Ticks(order.At(from)), last = raw.Ticks(order.At(PastOf(raw, order, to)));
        return last - first >= LeastLength && last - first <= Math.Max(Math.Abs(shift) * 50, 30 * WrittenTime.PerDay);
    }

    /// <summary>The last row before a position whose time was understood.</summary>
    private static int PastOf(RawReadings raw, FileOrder order, int to)
    {
        int k = to - 1;
        while (raw.Form(order.At(k)).Kind == TimeKind.None) k--;
        return k;
    }

    private static ClockStep Move(RawReadings raw, FileOrder order, int from, int to, long shift, List<string> remarks)
    {
        long before = raw.Ticks(order.At(PastOf(raw, order, from))), after = raw.Ticks(order.At(from));
        int rows = 0;
        long lastLine = -1, firstLine = long.MaxValue, greatestLine = 0;
        for (int k = from; k < to; k++)
        {
            int i = order.At(k);
            if (raw.Form(i).Kind == TimeKind.None) continue;
            raw.Ticks(i) -= shift;
            long line = raw.Line(i);
            if (line != lastLine) rows++;
            lastLine = line;
            (firstLine, greatestLine) = (Math.Min(firstLine, line), Math.Max(greatestLine, line));
        }

        remarks.Add(FormattableString.Invariant(
            $"In lines {firstLine} to {greatestLine} ({rows:#,0} rows) the log's clock stood {InWords(Math.Abs(shift))} {(shift > 0 ? "ahead" : "behind")}: their times were put right."));
        return new(raw.Line(order.At(from)), Instant.FromUnixTimeTicks(before), Instant.FromUnixTimeTicks(after));
    }

    private static string InWords(long shift)
    {
        long hours = shift / WrittenTime.PerHour;
        return hours % 24 == 0 ? Counted(hours / 24, "day") : Counted(hours, "hour");
    }

    private static string Counted(long n, string one) => FormattableString.Invariant($"{n:#,0} {one}{(n == 1 ? "" : "s")}");
}
