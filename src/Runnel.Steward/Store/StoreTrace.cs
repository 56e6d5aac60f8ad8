using NodaTime;
using Runnel.Steward.Cycles;
using Runnel.Steward.Ledger;

namespace Runnel.Steward.Store;

/// <summary>What the loop's store of water is read from. The reading g rises with the water in the loop, and near enough in
/// proportion to it: the inflow to the sump, as usual fill over fill, where the pump cycles; the sump's level in mm where the pump
/// always runs.</summary>
internal sealed class StoreTrace
{
    private readonly List<Instant> _times = [];
    private readonly List<double> _values = [];
    private readonly List<double> _hourValues = [];
    private Instant _hour;
    private double _usualFillS;
    private readonly List<double> _schooling = [];

    /// <summary>Readings of undisturbed fills or levels, oldest first.</summary>
    public IReadOnlyList<Instant> Times => _times;
    public IReadOnlyList<double> Values => _values;

    /// <summary>The fill that counts as g = 1, s; 0 before it is known.</summary>
    public double UsualFillS => _usualFillS;

    /// <summary>Takes a finished cycle.</summary>
    public void Take(Cycle cycle)
    {
        if (_usualFillS == 0)
        {
            _schooling.Add(cycle.FillS);
            if (_schooling.Count < 12) return;
            _schooling.Sort();
            _usualFillS = _schooling[_schooling.Count / 2];
            _schooling.Clear();
            return;
        }

        if (cycle.Disturbed) return;
        double g = _usualFillS / cycle.FillS;

        // A dropped edge joins two cycles, chatter splits one: neither is a fill.
        if (g is < 0.12 or > 6) return;
        Add(cycle.FillStart + ((cycle.RunStart - cycle.FillStart) / 2), g);
    }

    /// <summary>Takes a level of the always-pumped sump, mm; kept as one median a quarter of an hour.</summary>
    public void TakeLevel(Instant time, double levelMm)
    {
        var quarter = Instant.FromUnixTimeSeconds(time.ToUnixTimeSeconds() / 900 * 900);
        if (quarter != _hour && _hourValues.Count > 0)
        {
            _hourValues.Sort();
            Add(_hour + Duration.FromMinutes(7.5), _hourValues[_hourValues.Count / 2]);
            _hourValues.Clear();
        }

        _hour = quarter;
        _hourValues.Add(levelMm);
    }

    /// <summary>Centre and count of the readings from <paramref name="from"/> up to <paramref name="to"/>: the mean without the outer fifth
    /// at each end, which forgives a joined cycle and yet does not stick to the steps of a log polled by the minute.</summary>
    public (double Centre, int Count) Between(Instant from, Instant to)
    {
        int end = FirstAt(to), start = FirstAt(from);
        int n = end - start;
        if (n <= 0) return (double.NaN, 0);
        var slice = _values.GetRange(start, n);
        slice.Sort();
        int cut = n >= 5 ? n / 5 : n >= 3 ? 1 : 0;
        double sum = 0;
        for (int i = cut; i < n - cut; i++) sum += slice[i];
        return (sum / (n - (2 * cut)), n);
    }

    /// <summary>Mean time of the readings in a stretch that has some.</summary>
    public Instant MeanTime(Instant from, Instant to)
    {
        int end = FirstAt(to), start = FirstAt(from);
        double sum = 0;
        for (int i = start; i < end; i++) sum += (_times[i] - from).TotalSeconds;
        return from + Duration.FromSeconds(sum / Math.Max(1, end - start));
    }

    private void Add(Instant time, double g)
    {
        _times.Add(time);
        _values.Add(g);
    }

    private int FirstAt(Instant time)
    {
        int low = 0, high = _times.Count;
        while (low < high)
        {
            int middle = (low + high) / 2;
            if (_times[middle] < time) low = middle + 1;
            else high = middle;
        }

        return low;
    }
}
