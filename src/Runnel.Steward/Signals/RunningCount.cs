namespace Runnel.Steward.Signals;

/// <summary>Turns a running count (of litres, of millimetres of rain) into what came since the last reading, over resets and rollovers.</summary>
/// <param name="unitsPerCount">The channel's scale: what one count of the meter is.</param>
internal sealed class RunningCount(double unitsPerCount)
{
    /// <summary>Share of the full dial within which a count may stand before and after it rolls over.</summary>
    private const double NearTheEnd = 0.02;

    /// <summary>A count that begins again may hold so many times what ever came at once; more is another meter's history.</summary>
    private const double MostTimesAtOnce = 3;

    /// <summary>A meter may run back by so many times what usually comes at once: a valve that lets a little back, or an unsteady last digit.</summary>
    private const double MostBack = 1;

    private static readonly double[] FullDials = [1e3, 1e4, 1e5, 1e6, 1e7, 1e8, 1e9, 65_536, 16_777_216, 4_294_967_296];

    private double? _highest;
    private double _mostAtOnce;

    /// <summary>What came since the last reading; a first reading gives nothing, since nobody knows how long it counted.</summary>
    public double Take(double count)
    {
        if (_highest is not { } before)
        {
            _highest = count;
            return 0;
        }

        double came = count >= before ? count - before : AfterFall(before, count);
        // Running back a little and forth again must not count twice: the highest reading stays.
        if (count < before && came == 0 && before - count <= Math.Max(MostBack * _mostAtOnce, Math.Abs(unitsPerCount))) return 0;
        _highest = count;
        _mostAtOnce = Math.Max(_mostAtOnce, came);
        return came;
    }

    private double AfterFall(double before, double count)
    {
        double fall = before - count;
        foreach (double counts in FullDials)
        {
            double dial = counts * Math.Abs(unitsPerCount);
            if (before < dial * (1 + 1e-9) && before >= dial * (1 - NearTheEnd) && count >= 0 && count <= dial * NearTheEnd)
            {
                double over = dial - before + count;
                if (over <= MostPlausible) return over;
            }
        }

        bool slippedBack = fall <= Math.Max(MostBack * _mostAtOnce, Math.Abs(unitsPerCount)) && count > MostBack * _mostAtOnce;
        if (slippedBack) return 0;

        // It began again from nought: what it shows has come since.
        return count >= 0 && count <= MostPlausible ? count : 0;
    }

    private double MostPlausible => MostTimesAtOnce * Math.Max(_mostAtOnce, Math.Abs(unitsPerCount));
}
