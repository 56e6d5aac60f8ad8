using Runnel.Exchange.Logs;

namespace Runnel.Exchange.Survey;

/// <summary>Gathers what the values of one channel look like, in little memory, row by row.</summary>
internal sealed class ChannelTally(string name)
{
    private const int Hours = 24;
    private readonly double[] _hourSum = new double[Hours];
    private readonly long[] _hourCount = new long[Hours];
    private readonly long[] _intervals = new long[48]; // by powers of two of a second
    private long _count;
    private long _notUnderstood;
    private long _words;
    private double _least = double.MaxValue;
    private double _greatest = double.MinValue;
    private double _sum;
    private double _squares;
    private long _zeros;
    private long _rises;
    private long _falls;
    private double _state0 = double.NaN;
    private double _state1 = double.NaN;
    private bool _moreStates;
    private long _changes;
    private bool _high;
    private long _crossings;
    private long _lastTicks = long.MinValue;
    private double _lastValue;
    private double _onAfterRow;
    private double _onBeforeRow;
    private double _apart;
    private long _up;
    private long _down;

    public string Name => name;

    /// <summary>Unit that stood beside a value, or null.</summary>
    public string? Unit { get; set; }

    public void AddNotUnderstood() => _notUnderstood++;

    /// <param name="ticks">Time of the row.</param>
    /// <param name="value">The value.</param>
    /// <param name="isWord">It was a word for on or off.</param>
    public void Add(long ticks, double value, bool isWord)
    {
        _count++;
        if (isWord) _words++;
        _least = Math.Min(_least, value);
        _greatest = Math.Max(_greatest, value);
        _sum += value;
        _squares += value * value;
        if (value == 0) _zeros++;
        int hour = (int)(((ticks / WrittenTime.PerHour) % Hours + Hours) % Hours);
        _hourSum[hour] += value;
        _hourCount[hour]++;
        AddState(value);
        if (_lastTicks != long.MinValue) AddStep(ticks, value);
        _lastTicks = ticks;
        _lastValue = value;
    }

    private void AddState(double value)
    {
        if (double.IsNaN(_state0)) _state0 = value;
        else if (value != _state0 && double.IsNaN(_state1)) _state1 = value;
        else if (value != _state0 && value != _state1) _moreStates = true;

        // Low and high by thirds of the greatest so far, so that noise does not count as change.
        if (!_high && value > 0.5 * _greatest && _greatest > 0)
        {
            _high = true;
            _crossings++;
        }
        else if (_high && value < 0.25 * _greatest)
        {
            _high = false;
            _crossings++;
        }
    }

    private void AddStep(long ticks, double value)
    {
        if (value > _lastValue) _rises++;
        else if (value < _lastValue) _falls++;
        if (value != _lastValue) _changes++;
        long step = ticks - _lastTicks;
        if (step > 0) _up++;
        else if (step < 0) _down++;
        double seconds = Math.Abs(step) / (double)WrittenTime.PerSecond;
        if (seconds is > 0 and < 7 * 86_400)
        {
            _apart += seconds;
            _onAfterRow += _lastValue * seconds;
            _onBeforeRow += value * seconds;
            _intervals[Math.Clamp((int)Math.Log2(seconds) + 10, 0, _intervals.Length - 1)]++;
        }
    }

    public ChannelStatistics Statistics(double days)
    {
        if (_count == 0) return new(0, _notUnderstood, 0, 0, 0, false, 0, null, null, 0, 0, false);
        double greatest = Math.Max(_state0, double.IsNaN(_state1) ? _state0 : _state1), least = _least;
        bool twoStates = !_moreStates && (_words > 0 || (least == 0 && greatest is 1 or 100 or 255) || (least == 0 && _greatest == 0) || (least == 1 && _greatest == 1));
        bool isSwitch = twoStates && (_words == _count || _words == 0 || least >= 0);
        double on = (_down > _up ? _onBeforeRow : _onAfterRow) / Math.Max(_greatest, 1);
        double perDay = days > 0 ? (isSwitch ? _changes : _crossings) / days : 0;
        bool neverFalls = (_down > _up ? _rises : _falls) == 0 && _rises + _falls > 0 && !isSwitch;
        return new(
            _count, _notUnderstood, _least, _greatest, _sum / _count, isSwitch, perDay, isSwitch && _apart > 0 ? on / _apart : null, TypicalInterval(),
            days >= 2 ? DailyCycle() : 0, (double)_zeros / _count, neverFalls);
    }

    private double? TypicalInterval()
    {
        long all = _intervals.Sum();
        if (all == 0) return null;
        long half = 0;
        int at = 0;
        while (half * 2 < all) half += _intervals[at++];
        return Math.Pow(2, at - 1 - 10) * 1.5;
    }

    private double DailyCycle()
    {
        double mean = _sum / _count, variance = (_squares / _count) - (mean * mean);
        if (variance <= 1e-12 * Math.Max(1, mean * mean)) return 0;
        double between = 0;
        for (int hour = 0; hour < Hours; hour++)
        {
            if (_hourCount[hour] > 0) between += _hourCount[hour] * Math.Pow((_hourSum[hour] / _hourCount[hour]) - mean, 2);
        }

        return Math.Clamp(between / _count / variance, 0, 1);
    }
}
