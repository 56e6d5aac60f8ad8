namespace Runnel.Steward.Store;

/// <summary>What a row of hourly cumulated litres shows: how fast they fall, and how much of that at one go. NaN stands where the store was
/// not read.</summary>
internal static class HourSeries
{
    /// <summary>Weighted least-squares slope of the cumulated litres over hours; NaN where fewer than half the hours were read.</summary>
    public static double Slope(double[] litres, int[] counts, int from, int length)
    {
        double sw = 0, sx = 0, sy = 0;
        int read = 0;
        for (int i = from; i < from + length; i++)
        {
            if (double.IsNaN(litres[i])) continue;
            double w = Math.Min(counts[i], 8);
            read++;
            sw += w;
            sx += w * i;
            sy += w * litres[i];
        }

        if (read * 2 < length || read < 3) return double.NaN;
        double mx = sx / sw, my = sy / sw, sxx = 0, sxy = 0;
        for (int i = from; i < from + length; i++)
        {
            if (double.IsNaN(litres[i])) continue;
            double w = Math.Min(counts[i], 8);
            sxx += w * (i - mx) * (i - mx);
            sxy += w * (i - mx) * (litres[i] - my);
        }

        return sxy / sxx;
    }

    /// <summary>Greatest fall (sign +1) or rise (-1) of the litres from one read hour to another at most <paramref name="reach"/> hours on, less
    /// what the scatter of the two readings alone may make of it (two and a half of its standard deviations).</summary>
    /// <param name="scatter">Standard deviation of one reading, litres; 0 takes the readings as they are.</param>
    public static double Steepest(double[] litres, int[] counts, int reach, int sign, double scatter)
    {
        double steepest = 0;
        for (int i = 0; i < litres.Length; i++)
        {
            if (double.IsNaN(litres[i])) continue;
            for (int j = i + 1; j < Math.Min(litres.Length, i + reach + 1); j++)
            {
                if (double.IsNaN(litres[j])) continue;
                double own = 2.5 * scatter * Math.Sqrt((1.0 / counts[i]) + (1.0 / counts[j]));
                steepest = Math.Max(steepest, (sign * (litres[i] - litres[j])) - own);
            }
        }

        return steepest;
    }
}
