using NodaTime;
using NodaTime.TimeZones;

namespace Runnel.Exchange.Logs;

/// <summary>
/// Turns times of the wall clock into moments. An hour that occurs twice is told apart by the order of writing: the second begins where the
/// clock falls back. Rows in an hour that the zone leaves out show a logger whose clock is not put forward; all its times are then taken at
/// the offset it kept.
/// </summary>
internal sealed class WallClock
{
    private readonly RawReadings _raw;
    private readonly DateTimeZone _zone;

    // Local times between these surely have one offset: looking up the zone for each row would take most of the time.
    private long _plainFrom = 1;
    private long _plainTo;
    private long _plainOffset;

    private WallClock(RawReadings raw, DateTimeZone zone)
    {
        _raw = raw;
        _zone = zone;
    }

    public static void Settle(RawReadings raw, FileOrder order, DateTimeZone zone, int channels, List<string> remarks)
    {
        var clock = new WallClock(raw, zone);
        var (anyLocal, missing) = clock.FindMissing();
        if (!anyLocal) return;
        if (missing.Count > 0 && clock.OffsetKept(missing, remarks) is { } kept) clock.ConvertAt(kept);
        else clock.Convert(order, channels, missing.Count, remarks);
    }

    private static long TicksOf(LocalDateTime local) => local.ToDateTimeUnspecified().Ticks - DateTime.UnixEpoch.Ticks;

    private static LocalDateTime LocalOf(long ticks) => LocalDateTime.FromDateTime(new DateTime(ticks + DateTime.UnixEpoch.Ticks));

    private bool IsPlain(long ticks) => ticks >= _plainFrom && ticks < _plainTo;

    /// <summary>The zone's word on a local time; also widens what is plain.</summary>
    private ZoneLocalMapping Map(long ticks)
    {
        var mapping = _zone.MapLocal(LocalOf(ticks));
        if (mapping.Count != 1) return mapping;
        var interval = mapping.EarlyInterval;
        _plainOffset = interval.WallOffset.Ticks;
        _plainFrom = interval.HasStart ? TicksOf(interval.IsoLocalStart) + WrittenTime.PerDay : long.MinValue;
        _plainTo = interval.HasEnd ? TicksOf(interval.IsoLocalEnd) - WrittenTime.PerDay : long.MaxValue;
        return mapping;
    }

    private (bool AnyLocal, List<int> Missing) FindMissing()
    {
        bool any = false;
        var missing = new List<int>();
        for (int i = 0; i < _raw.Count; i++)
        {
            if (_raw.Form(i).Kind != TimeKind.Local) continue;
            any = true;
            long ticks = _raw.Ticks(i);
            if (!IsPlain(ticks) && Map(ticks).Count == 0) missing.Add(i);
        }

        return (any, missing);
    }

    /// <summary>
    /// The offset of a logger whose clock is not put forward, or null. Such a logger writes through the hour that is left out about as often as
    /// through the hour before; a clock that is put forward never writes in it.
    /// </summary>
    private long? OffsetKept(List<int> missing, List<string> remarks)
    {
        var gap = Map(_raw.Ticks(missing[0]));
        long start = TicksOf(gap.EarlyInterval.IsoLocalEnd), end = TicksOf(gap.LateInterval.IsoLocalStart);
        var inGap = new HashSet<long>();
        var before = new HashSet<long>();
        for (int i = 0; i < _raw.Count; i++)
        {
            if (_raw.Form(i).Kind != TimeKind.Local) continue;
            long ticks = _raw.Ticks(i);
            if (ticks >= start && ticks < end) inGap.Add(ticks);
            else if (ticks >= start - (end - start) && ticks < start) before.Add(ticks);
        }

        if (inGap.Count * 2 < before.Count) return null;
        var offset = gap.EarlyInterval.WallOffset;
        remarks.Add(
            $"The logger's clock was not put forward: it has rows between {Clock(start)} and {Clock(end)} on {Date(start)}, an hour that was left out. " +
            $"All its times were taken at UTC{offset}.");
        return offset.Ticks;
    }

    private void ConvertAt(long offset)
    {
        for (int i = 0; i < _raw.Count; i++)
        {
            ref var form = ref _raw.Form(i);
            if (form.Kind != TimeKind.Local) continue;
            _raw.Ticks(i) -= offset;
            form.Kind = TimeKind.Moment;
        }
    }

    private void Convert(FileOrder order, int channels, int missing, List<string> remarks)
    {
        var passes = new RepeatedHour(channels);
        long firstMissing = 0;
        for (int k = 0; k < order.Count; k++)
        {
            int i = order.At(k);
            ref var form = ref _raw.Form(i);
            if (form.Kind != TimeKind.Local) continue;
            form.Kind = TimeKind.Moment;
            long local = _raw.Ticks(i);
            if (IsPlain(local))
            {
                passes.See(_raw.Channel(i), local);
                _raw.Ticks(i) = local - _plainOffset;
                continue;
            }

            var mapping = Map(local);
            Offset offset;
            if (mapping.Count == 2)
            {
                long from = TicksOf(mapping.LateInterval.IsoLocalStart), to = TicksOf(mapping.EarlyInterval.IsoLocalEnd);
                bool second = passes.IsSecond(_raw.Channel(i), local, from, to);
                offset = (second ? mapping.LateInterval : mapping.EarlyInterval).WallOffset;
            }
            else
            {
                if (mapping.Count == 0 && firstMissing == 0) firstMissing = local;
                offset = mapping.EarlyInterval.WallOffset; // in an hour left out: moved forward by it
            }

            passes.See(_raw.Channel(i), local);
            _raw.Ticks(i) = local - offset.Ticks;
        }

        if (missing > 0)
            remarks.Add($"{Counted(missing)} in an hour that was left out when the clock was put forward ({Clock(firstMissing)} on {Date(firstMissing)}): moved forward by that hour.");
        foreach (var hour in passes.Hours)
        {
            string when = $"The hour from {Clock(hour.From)} to {Clock(hour.To)} on {Date(hour.From)} occurs twice";
            remarks.Add(hour.Second > 0
                ? $"{when}: by the order of the rows, {Counted(hour.First)} went to its first pass and {hour.Second} to its second."
                : $"{when}, but the log runs through it once: taken as the first pass.");
        }
    }

    private static string Counted(int count) => count == 1 ? "1 reading" : FormattableString.Invariant($"{count:#,0} readings");

    private static string Clock(long ticks) => LocalOf(ticks).ToString("HH:mm", System.Globalization.CultureInfo.InvariantCulture);

    private static string Date(long ticks) => LocalOf(ticks).ToString("yyyy-MM-dd", System.Globalization.CultureInfo.InvariantCulture);
}
