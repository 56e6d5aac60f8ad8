using NodaTime;

namespace Runnel.Steward.Watches;

/// <summary>The last hour of a measured level, and how far it rises by itself within a quarter of an hour.</summary>
internal sealed class LevelNow
{
    private static readonly Duration Kept = Duration.FromMinutes(75);
    private readonly List<(Instant Time, double Mm)> _values = [];
    private readonly List<double> _dailyRise = [];
    private readonly List<double> _steps = [];
    private double? _noiseMm;
    private double _greatest;
    private Instant _dayEnds;

    /// <summary>Greatest rise of the last days in health, mm; the second greatest day, as one may hold an unseen bucket.</summary>
    public double UsualRiseMm => _dailyRise.Count == 0 ? 0 : _dailyRise.Count < 3 ? _dailyRise.Max() : _dailyRise.Order().ElementAt(_dailyRise.Count - 2);

    public int Days => _dailyRise.Count;

    /// <summary>Scatter of single readings, mm.</summary>
    public double NoiseMm => _noiseMm ??= _steps.Count < 50 ? 3 : Math.Max(0.5, Robust.Median(_steps) / 0.954);

    public IReadOnlyList<(Instant Time, double Mm)> Values => _values;

    public void Take(Instant time, double mm)
    {
        if (_values.Count > 0)
        {
            _steps.Add(Math.Abs(mm - _values[^1].Mm));
            _noiseMm = null;
            if (_steps.Count > 600) _steps.RemoveRange(0, 200);
        }

        _values.Add((time, mm));
        if (_values[0].Time < time - Kept - Kept) _values.RemoveAll(v => v.Time < time - Kept);
    }

    /// <summary>A quiet quarter of an hour shows how far the level rises by itself.</summary>
    public void LearnRise(Instant now, double riseMm)
    {
        if (now >= _dayEnds)
        {
            if (_dayEnds != default)
            {
                _dailyRise.Add(_greatest);
                if (_dailyRise.Count > 10) _dailyRise.RemoveAt(0);
            }

            _greatest = 0;
            _dayEnds = now + Duration.FromHours(24);
        }

        _greatest = Math.Max(_greatest, riseMm);
    }

    /// <summary>Median of the readings after <paramref name="from"/> up to <paramref name="to"/>, with their number.</summary>
    public (double Mm, int Count) Between(Instant from, Instant to)
    {
        var inside = new List<double>();
        for (int i = _values.Count - 1; i >= 0 && _values[i].Time > from; i--)
        {
            if (_values[i].Time <= to) inside.Add(_values[i].Mm);
        }

        return (inside.Count == 0 ? double.NaN : Robust.Median(inside), inside.Count);
    }
}
