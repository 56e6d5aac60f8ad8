using System.Collections;
using NodaTime;
using Runnel.Place;

namespace Runnel.Exchange.Logs;

/// <summary>Readings in little memory: 18 bytes each.</summary>
internal sealed class PackedReadings : IReadOnlyList<Reading>
{
    private readonly long[] _ticks;
    private readonly double[] _values;
    private readonly ushort[] _channels;

    /// <summary>Takes the readings of <paramref name="raw"/> in the order of <paramref name="order"/>, whose ticks are moments.</summary>
    public PackedReadings(RawReadings raw, ReadOnlySpan<int> order)
    {
        _ticks = new long[order.Length];
        _values = new double[order.Length];
        _channels = new ushort[order.Length];
        for (int i = 0; i < order.Length; i++)
        {
            _ticks[i] = raw.Ticks(order[i]);
            _values[i] = raw.Value(order[i]);
            _channels[i] = (ushort)raw.Channel(order[i]);
        }
    }

    public int Count => _ticks.Length;

    public Reading this[int index] => new(_channels[index], Instant.FromUnixTimeTicks(_ticks[index]), _values[index]);

    public IEnumerator<Reading> GetEnumerator()
    {
        for (int i = 0; i < _ticks.Length; i++) yield return this[i];
    }

    IEnumerator IEnumerable.GetEnumerator() => GetEnumerator();
}
