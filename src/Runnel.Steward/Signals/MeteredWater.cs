using NodaTime;
using Runnel.Place;

namespace Runnel.Steward.Signals;

/// <summary>Litres (or millimetres of rain) that came by a channel that measures water itself: amounts, a running count, or a flow.</summary>
internal sealed class MeteredWater(Channel channel)
{
    /// <summary>A flow is believed to have gone on for so long after its last reading, and not longer.</summary>
    private static readonly Duration LongestFlow = Duration.FromMinutes(15);

    private readonly RunningCount _count = new(channel.Scale);
    private Instant? _last;
    private double _lastFlow;

    /// <summary>What came since the last reading, never less than nothing.</summary>
    public double Take(Instant time, double value)
    {
        switch (channel.Measures)
        {
            case Quantity.VolumeTotal or Quantity.RainTotal:
                return _count.Take(value);
            case Quantity.Flow:
                var span = _last is { } last ? Duration.Min(time - last, LongestFlow) : Duration.Zero;
                double litres = Math.Max(0, (_lastFlow + value) / 2) * span.TotalMinutes;
                (_last, _lastFlow) = (time, value);
                return litres;
            default:
                return Math.Max(0, value);
        }
    }
}
