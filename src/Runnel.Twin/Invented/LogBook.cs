using NodaTime;
using Runnel.Place;

namespace Runnel.Twin.Invented;

/// <summary>Writes the log as an imperfect logger would: polling, repeats, lost and doubled rows, noise, and sensors that fail.</summary>
internal sealed class LogBook
{
    private readonly LoggerSpec _spec;
    private readonly Instant _start;
    private readonly StoryState _story;
    private readonly Seeded _rng;
    private readonly Dictionary<string, int> _index = [];
    private readonly double[] _last;
    private readonly long[] _nextRepeat;
    private readonly List<long> _written = [];
    private readonly int _victim;
    private readonly int _sun;

    public LogBook(LoggerSpec spec, IReadOnlyList<Channel> channels, Instant start, StoryState story, int seed)
    {
        _spec = spec;
        _start = start;
        _story = story;
        _rng = new Seeded(seed, "logbook");
        for (int i = 0; i < channels.Count; i++) _index[channels[i].Id] = i;
        _last = new double[channels.Count];
        Array.Fill(_last, double.NaN);
        _nextRepeat = new long[channels.Count];
        _sun = Channel("solar-irradiance");

        // A failing sensor is one that is no switch.
        int[] sensors = [.. Enumerable.Range(0, channels.Count).Where(i => channels[i].Measures is not (Quantity.Running or Quantity.Power or Quantity.Rain))];
        _victim = sensors.Length == 0 ? -1 : sensors[_rng.Whole(0, sensors.Length - 1)];
    }

    public List<Reading> Rows { get; } = [];

    public int Channel(string id) => _index.TryGetValue(id, out int i) ? i : -1;

    /// <summary>A switch changes state.</summary>
    public void Edge(int channel, long at, bool on)
    {
        if (channel < 0) return;
        if (_spec.PollS > 1)
        {
            at = ((at / _spec.PollS) + 1) * _spec.PollS;
            // Two changes between two polls show nothing at all.
            int previous = Rows.FindLastIndex(Rows.Count - 1, Math.Min(Rows.Count, 4), r => r.Channel == channel);
            if (previous >= 0 && Rows[previous].Time == TimeOf(at))
            {
                Rows.RemoveAt(previous);
                _written.RemoveAt(previous);
                _last[channel] = on ? 1 : 0;
                return;
            }
        }

        _last[channel] = on ? 1 : 0;
        if (_spec.DropEdge > 0 && _rng.Chance(_spec.DropEdge)) return;
        Write(channel, at, on ? 1 : 0);
        if (_spec.DoubleEdge > 0 && _rng.Chance(_spec.DoubleEdge)) Write(channel, at, on ? 1 : 0);
    }

    /// <summary>Repeats switch states where the logger does so.</summary>
    public void Repeat(int channel, long at)
    {
        if (channel < 0 || _spec.RepeatS == 0 || double.IsNaN(_last[channel]) || at < _nextRepeat[channel]) return;
        _nextRepeat[channel] = at + _spec.RepeatS;
        Write(channel, at, _last[channel]);
    }

    /// <summary>A measured value, rounded to <paramref name="digits"/>.</summary>
    public void Measure(int channel, long at, double value, int digits)
    {
        if (channel < 0) return;
        double day = at / 86400.0;
        if (channel == _sun && _story.At(HappeningKind.SensorDrifting, day) is { } drift) value += drift.Size * (day - drift.OnsetDay);
        if (channel == _victim)
        {
            if (_story.On(HappeningKind.SensorSilent, day)) return;
            if (_story.On(HappeningKind.SensorFrozen, day) && !double.IsNaN(_last[channel])) value = _last[channel];
            else if (_story.At(HappeningKind.SensorJumping, day) is { } jump && _rng.Chance(jump.Size))
                value += (_rng.Chance(0.5) ? 1 : -1) * _rng.Between(0.3, 1.2) * (Math.Abs(value) + 20);
        }

        value = Math.Round(value, digits);
        _last[channel] = value;
        Write(channel, at, value);
    }

    /// <summary>Rows in the order of true time (polling and weather rows are made a little out of turn).</summary>
    public List<Reading> Sorted()
    {
        var rows = Rows.ToArray();
        long[] order = new long[rows.Length];
        // Row numbers in the low bits keep rows of one second in the order in which they were made.
        for (int i = 0; i < order.Length; i++) order[i] = (_written[i] << 24) | (uint)i;
        Array.Sort(order, rows);
        return [.. rows];
    }

    private Instant TimeOf(long at) => _start.Plus(Duration.FromSeconds(at));

    private void Write(int channel, long at, double value)
    {
        double day = at / 86400.0;
        foreach (var h in _story.All(HappeningKind.Outage))
        {
            if (day >= h.OnsetDay && day < h.OnsetDay + (h.Size / 24)) return;
        }

        Instant time = TimeOf(at);
        if (_story.At(HappeningKind.ClockJump, day) is { } wrong) time = time.Plus(Duration.FromSeconds((long)(wrong.Size * 86400)));
        _written.Add(at);
        Rows.Add(new Reading(channel, time, value));
    }
}
