using NodaTime;
using Runnel.Steward.Store;

namespace Runnel.Steward.Drift;

/// <summary>Rate at which water went missing (positive) or came unasked (negative) over windows of several lengths, each against its own
/// spread in this loop's healthy past.</summary>
internal sealed class LossWindows(LoopState state)
{
    /// <summary>Window lengths, h.</summary>
    public static readonly int[] Lengths = [4, 8, 12, 24, 48];

    /// <summary>Fewer readings than this tell no slope: long cycles need longer windows.</summary>
    private const int LeastReadings = 12;

    private readonly double[] _spread = [.. Lengths.Select(_ => double.NaN)];

    /// <summary>A rate with the standard deviation it has in health, L/h; NaN where the window holds too few readings.</summary>
    public readonly record struct Rate(double LPerH, double SpreadLPerH)
    {
        public double Z => LPerH / SpreadLPerH;
    }

    public bool Learnt => !double.IsNaN(_spread[^1]);

    /// <summary>Learns the spreads from the past up to <paramref name="lastHour"/>.</summary>
    public void Learn(int firstHour, int lastHour)
    {
        if (lastHour - firstHour < 120) return;
        var balance = state.Balance;
        var (litres, counts) = balance.Unexplained(firstHour, lastHour);
        for (int k = 0; k < Lengths.Length; k++)
        {
            int length = Lengths[k];
            var off = new List<double>(litres.Length);
            for (int end = length - 1; end < litres.Length; end++)
            {
                var from = balance.Start(firstHour + end - length + 1);
                if (state.LearningHeld(from, from + Duration.FromHours(length))) continue;
                double rate = RateOf(litres, counts, end - length + 1, length);
                if (!double.IsNaN(rate)) off.Add(Math.Abs(rate));
            }

            if (off.Count < 48) continue;
            off.Sort();

            _spread[k] = Math.Max(HealthySpread.Of(off, 0.95, 1.96), 0.02);
        }
    }

    /// <summary>The rates over the windows that end with <paramref name="lastHour"/>, in the order of <see cref="Lengths"/>.</summary>
    public Rate[] All(int lastHour) => [.. Lengths.Select((_, k) => At(k, lastHour))];

    /// <summary>The rate over the window of that length that ends with <paramref name="lastHour"/>.</summary>
    private Rate At(int lengthIndex, int lastHour)
    {
        int length = Lengths[lengthIndex], first = lastHour - length + 1;
        if (first < 0 || double.IsNaN(_spread[lengthIndex])) return new Rate(double.NaN, double.NaN);
        var (litres, counts) = state.Balance.Unexplained(first, lastHour);
        double rate = RateOf(litres, counts, 0, length);
        double pulses = 0, rain = 0, drawn = 0, use = 0;
        for (int hour = first; hour <= lastHour; hour++)
        {
            pulses += Math.Abs(state.Hours.Hours[hour].TopUpL) + state.Hours.Hours[hour].BleedL;
            rain += state.Balance.RainL(hour);
            use += state.Balance.UseL(hour);
            drawn += Math.Abs(state.Hours.Hours[hour].DrawnL);
        }

        // Litres written down are guessed to a fifth, and the time of day to an hour or so: short windows cannot bear that.
        if (drawn > 0 && length <= 8) return new Rate(double.NaN, double.NaN);
        double spread = _spread[lengthIndex];
        double gaugeError = state.Balance.Gauge.RelativeSpread * pulses / length, rainError = 0.4 * rain / length, drawnError = 0.2 * drawn / length;

        // A hot spell may take an eighth more or less than the weather relations say, on top of this loop's usual scatter (common practice).
        double weatherError = 0.12 * use / length;
        return new Rate(rate, Math.Sqrt((spread * spread) + (gaugeError * gaugeError) + (rainError * rainError)
            + (drawnError * drawnError) + (weatherError * weatherError)));
    }

    /// <summary>Litres lost an hour over a window; NaN where it holds too few readings.</summary>
    private static double RateOf(double[] litres, int[] counts, int from, int length)
    {
        int readings = 0;
        for (int i = from; i < from + length; i++) readings += counts[i];
        return readings < LeastReadings ? double.NaN : -HourSeries.Slope(litres, counts, from, length);
    }
}
