using NodaTime;
using Runnel.Steward.Store;

namespace Runnel.Steward.Drift;

/// <summary>Rate at which water went missing (positive) or came unasked (negative) over windows of several lengths, each against its own
/// spread in this loop's healthy past.</summary>
internal sealed class LossWindows(LoopState state)
{
    /// <summary>Window lengths, h.</summary>
    public static readonly int[] Lengths = [4, 8, 12, 24, 48, 96];

    /// <summary>Fewer readings than this tell no slope: long cycles need longer windows.</summary>
    private const int LeastReadings = 7;

    private readonly double[] _spread = [.. Lengths.Select(_ => double.NaN)];

    /// <summary>A rate with the standard deviation it has in health, L/h; NaN where the window holds too few readings.</summary>
    public readonly record struct Rate(double LPerH, double SpreadLPerH)
    {
        public double Z => LPerH / SpreadLPerH;
    }

    /// <summary>The longest window waits for more of the past than the others do.</summary>
    public bool Learnt => !double.IsNaN(_spread[^2]);

    /// <summary>Learns the spreads from the past that a slow loss, going on unnoticed by now, has not touched: a day and a half of a young
    /// log are left out, ten days of a log of a month.</summary>
    public void Learn(int now)
    {
        int firstHour = Math.Max(48, now - (24 * 30)), lastHour = now - Math.Clamp(36 + ((now - 240) / 2), 36, 240);
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

            if (off.Count < Math.Max(48, length)) continue;
            off.Sort();

            // Few windows of four days are independent: their spread is taken for half of that of two days at least, as of a steady wander.
            double least = k > 0 && length > 48 ? Math.Max(0.02, 0.5 * _spread[k - 1]) : 0.02;
            _spread[k] = Math.Max(HealthySpread.Of(off, 0.95, 1.96), least);
        }
    }

    /// <summary>The rates over the windows that end with <paramref name="lastHour"/>, in the order of <see cref="Lengths"/>.</summary>
    public Rate[] All(int lastHour)
    {
        var (litres, counts) = state.Balance.Unexplained(Math.Max(0, lastHour - Lengths[^1] + 1), lastHour);
        return [.. Lengths.Select((_, k) => At(k, lastHour, litres, counts))];
    }

    /// <summary>The rate over the window of that length that ends with <paramref name="lastHour"/>, as do the hours given.</summary>
    private Rate At(int lengthIndex, int lastHour, double[] litres, int[] counts)
    {
        int length = Lengths[lengthIndex], first = lastHour - length + 1;
        if (first < 0 || double.IsNaN(_spread[lengthIndex])) return new Rate(double.NaN, double.NaN);
        double rate = RateOf(litres, counts, litres.Length - length, length);
        double pulses = 0, rain = 0, drawn = 0, use = 0, net = 0;
        for (int hour = first; hour <= lastHour; hour++)
        {
            pulses += Math.Abs(state.Hours.Hours[hour].TopUpL) + state.Hours.Hours[hour].BleedL;
            rain += state.Balance.RainL(hour);
            use += state.Balance.UseL(hour);
            net += state.Balance.KnownL(hour) - state.Balance.UseL(hour);
            drawn += Math.Abs(state.Hours.Hours[hour].DrawnL);
        }

        // Litres written down are guessed to a fifth, and the time of day to an hour or so: short windows cannot bear that.
        if (drawn > 0 && length <= 8) return new Rate(double.NaN, double.NaN);
        double spread = _spread[lengthIndex];

        // A wrong gauge misreads what the store had to change. Within hours that is every pulse; over two days and more what goes in and what is
        // used make up for one another, and only the rest of them changes the store.
        double misread = length >= 48 ? Math.Abs(net) : pulses + drawn + rain;
        double gaugeError = state.Balance.Gauge.RelativeSpread * misread / length, rainError = 0.4 * rain / length, drawnError = 0.2 * drawn / length;

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
