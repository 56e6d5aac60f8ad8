using System.Collections;
using NodaTime;
using Runnel.Place;

namespace Runnel.Exchange.Logs;

/// <summary>Readings in little memory: 18 bytes each.</summary>
internal sealed class PackedReadings : IReadOnlyList<Reading>
{
    private readonly RawReadings _packed;

    private PackedReadings(RawReadings packed) => _packed = packed;

    public int Count => _packed.Count;

    public Reading this[int index]
    {
        get
        {
            ArgumentOutOfRangeException.ThrowIfGreaterThanOrEqual((uint)index, (uint)_packed.Count, nameof(index));
            return new(_packed.Channel(index), Instant.FromUnixTimeTicks(_packed.Ticks(index)), _packed.Value(index));
        }
    }

    /// <summary>Takes the readings of <paramref name="raw"/> that the index holds, in its order. Their ticks are moments.</summary>
    public static PackedReadings Of(RawReadings raw, in ReadingIndex index)
    {
        if (index.IsFileOrder)
        {
            raw.ForgetLines();
            return new PackedReadings(raw);
        }

        var packed = new RawReadings();
        for (int n = 0; n < index.Count; n++)
        {
            int i = index[n];
            packed.Add(raw.Channel(i), new WrittenTime(TimeKind.Moment, raw.Ticks(i)), raw.Value(i), 0);
        }

        packed.ForgetLines();
        return new PackedReadings(packed);
    }

    public IEnumerator<Reading> GetEnumerator()
    {
        for (int i = 0; i < _packed.Count; i++) yield return this[i];
    }

    IEnumerator IEnumerable.GetEnumerator() => GetEnumerator();
}
