using System.Buffers.Binary;
using System.Numerics;

namespace Runnel.Records.Packing;

/// <summary>A value at a stored time (100 ns since 1970).</summary>
internal readonly record struct Point(long Time, double Value);

/// <summary>Packs readings of one channel into bytes and back, each value to its last bit.</summary>
/// <remarks>
/// Layout: CRC-32C of the rest (4 bytes), form of the values, unit of time, count; first time; then the change of each time
/// step; then the values. Sensors report short decimals at steady intervals, so both columns are mostly one byte a reading.
/// </remarks>
internal static class ReadingBlock
{
    private const byte Dictionary = 0xFE;
    private const byte Raw = 0xFF;
    private const int MostDecimals = 9;
    private const int CheckBytes = 4;
    private const int MostWords = 256;

    // A double holds every whole number up to 2^53, so scaling within it loses nothing.
    private const double GreatestWhole = 9007199254740992.0;

    private static readonly double[] PowersOfTen = [1, 1e1, 1e2, 1e3, 1e4, 1e5, 1e6, 1e7, 1e8, 1e9];
    private static readonly long[] TimeUnits = [Times.PerSecond, Times.PerSecond / 1000, 1];

    public static byte[] Pack(ReadOnlySpan<Point> points)
    {
        byte[] bytes = new byte[CheckBytes + 3 + (MostWords * sizeof(double)) + ((points.Length + 1) * 2 * Varint.MostBytes)];
        int unitIndex = TimeUnit(points);
        int? decimals = Decimals(points);
        double[]? words = decimals is null ? Words(points) : null;
        int at = CheckBytes;
        bytes[at++] = decimals is { } d ? (byte)d : words is not null ? Dictionary : Raw;
        bytes[at++] = (byte)unitIndex;
        at += Varint.Write(bytes.AsSpan(at), (ulong)points.Length);
        at = WriteTimes(points, TimeUnits[unitIndex], bytes, at);
        at = decimals is { } places ? WriteDecimals(points, PowersOfTen[places], bytes, at)
            : words is not null ? WriteWords(points, words, bytes, at)
            : WriteRaw(points, bytes, at);
        BinaryPrimitives.WriteUInt32LittleEndian(bytes, Check(bytes.AsSpan(CheckBytes, at - CheckBytes)));
        return bytes[..at];
    }

    /// <exception cref="InvalidDataException">The bytes are not those that were packed.</exception>
    public static Point[] Unpack(ReadOnlySpan<byte> bytes)
    {
        if (bytes.Length < CheckBytes + 3 || BinaryPrimitives.ReadUInt32LittleEndian(bytes) != Check(bytes[CheckBytes..]))
        {
            throw new InvalidDataException("a block of readings does not match its check sum");
        }

        int at = CheckBytes;
        byte form = bytes[at++];
        long unit = TimeUnits[bytes[at++]];
        var points = new Point[(int)Varint.Read(bytes, ref at)];
        int timesAt = at;
        // The values follow the times; both are walked together, so the times are skipped over first.
        for (int i = 0; i < points.Length; i++)
        {
            while (bytes[at++] >= 0x80)
            {
            }
        }

        var values = new ValueColumn(bytes, at, form);
        long time = 0;
        long step = 0;
        for (int i = 0; i < points.Length; i++)
        {
            long change = Varint.Unfold(Varint.Read(bytes, ref timesAt));
            if (i == 0) time = change;
            else time += step += change;
            points[i] = new Point(time * unit, values.Next());
        }

        return points;
    }

    private static uint Check(ReadOnlySpan<byte> bytes)
    {
        uint crc = uint.MaxValue;
        while (bytes.Length >= sizeof(ulong))
        {
            crc = BitOperations.Crc32C(crc, BinaryPrimitives.ReadUInt64LittleEndian(bytes));
            bytes = bytes[sizeof(ulong)..];
        }

        foreach (byte b in bytes) crc = BitOperations.Crc32C(crc, b);
        return ~crc;
    }

    private static int TimeUnit(ReadOnlySpan<Point> points)
    {
        int unit = 0;
        foreach (var point in points)
        {
            while (point.Time % TimeUnits[unit] != 0) unit++;
        }

        return unit;
    }

    /// <summary>The fewest decimals that give every value back exactly, or null.</summary>
    private static int? Decimals(ReadOnlySpan<Point> points)
    {
        int decimals = 0;
        foreach (var point in points)
        {
            while (!IsExact(point.Value, PowersOfTen[decimals]))
            {
                if (++decimals > MostDecimals) return null;
            }
        }

        // A later value may have asked for more decimals than an early, large one can bear.
        foreach (var point in points)
        {
            if (!IsExact(point.Value, PowersOfTen[decimals])) return null;
        }

        return decimals;
    }

    private static bool IsExact(double value, double power)
    {
        double whole = Math.Round(value * power);
        // Compared by bits: 0 and -0 are equal as numbers, yet not the same reading.
        return Math.Abs(whole) < GreatestWhole
            && BitConverter.DoubleToInt64Bits((long)whole / power) == BitConverter.DoubleToInt64Bits(value);
    }

    /// <summary>The different values where there are few of them (a gauge's tips times a crooked scale), or null.</summary>
    private static double[]? Words(ReadOnlySpan<Point> points)
    {
        var seen = new HashSet<long>();
        foreach (var point in points)
        {
            seen.Add(BitConverter.DoubleToInt64Bits(point.Value));
            if (seen.Count > MostWords || seen.Count * 2 > points.Length) return null;
        }

        return [.. seen.Select(BitConverter.Int64BitsToDouble)];
    }

    private static int WriteTimes(ReadOnlySpan<Point> points, long unit, byte[] bytes, int at)
    {
        long before = 0;
        long step = 0;
        for (int i = 0; i < points.Length; i++)
        {
            long time = points[i].Time / unit;
            long change = i == 0 ? time : time - before - step;
            if (i > 0) step += change;
            before = time;
            at += Varint.Write(bytes.AsSpan(at), Varint.Fold(change));
        }

        return at;
    }

    private static int WriteDecimals(ReadOnlySpan<Point> points, double power, byte[] bytes, int at)
    {
        long before = 0;
        foreach (var point in points)
        {
            long whole = (long)Math.Round(point.Value * power);
            at += Varint.Write(bytes.AsSpan(at), Varint.Fold(whole - before));
            before = whole;
        }

        return at;
    }

    private static int WriteWords(ReadOnlySpan<Point> points, double[] words, byte[] bytes, int at)
    {
        bytes[at++] = (byte)(words.Length - 1);
        var places = new Dictionary<long, byte>();
        foreach (double word in words)
        {
            places[BitConverter.DoubleToInt64Bits(word)] = (byte)places.Count;
            BinaryPrimitives.WriteDoubleLittleEndian(bytes.AsSpan(at), word);
            at += sizeof(double);
        }

        foreach (var point in points) bytes[at++] = places[BitConverter.DoubleToInt64Bits(point.Value)];
        return at;
    }

    private static int WriteRaw(ReadOnlySpan<Point> points, byte[] bytes, int at)
    {
        foreach (var point in points)
        {
            BinaryPrimitives.WriteDoubleLittleEndian(bytes.AsSpan(at), point.Value);
            at += sizeof(double);
        }

        return at;
    }

    /// <summary>Reads the values of a block one after the other.</summary>
    private ref struct ValueColumn
    {
        private readonly ReadOnlySpan<byte> _bytes;
        private readonly byte _form;
        private readonly int _wordsAt;
        private int _at;
        private long _whole;

        public ValueColumn(ReadOnlySpan<byte> bytes, int at, byte form)
        {
            _bytes = bytes;
            _form = form;
            _at = at;
            if (form != Dictionary) return;
            int words = bytes[at] + 1;
            _wordsAt = at + 1;
            _at = _wordsAt + (words * sizeof(double));
        }

        public double Next()
        {
            if (_form <= MostDecimals)
            {
                _whole += Varint.Unfold(Varint.Read(_bytes, ref _at));
                return _whole / PowersOfTen[_form];
            }

            int at = _form == Dictionary ? _wordsAt + (_bytes[_at++] * sizeof(double)) : _at;
            if (_form == Raw) _at += sizeof(double);
            return BinaryPrimitives.ReadDoubleLittleEndian(_bytes[at..]);
        }
    }
}
