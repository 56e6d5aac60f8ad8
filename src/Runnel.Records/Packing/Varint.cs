namespace Runnel.Records.Packing;

/// <summary>Whole numbers in as few bytes as they need, seven bits a byte; signed ones folded so that small stays short.</summary>
internal static class Varint
{
    public const int MostBytes = 10;

    public static ulong Fold(long value) => (ulong)(value << 1) ^ (ulong)(value >> 63);

    public static long Unfold(ulong folded) => (long)(folded >> 1) ^ -(long)(folded & 1);

    public static int Write(Span<byte> to, ulong value)
    {
        int n = 0;
        while (value >= 0x80)
        {
            to[n++] = (byte)(value | 0x80);
            value >>= 7;
        }

        to[n++] = (byte)value;
        return n;
    }

    public static ulong Read(ReadOnlySpan<byte> from, ref int at)
    {
        ulong value = 0;
        for (int shift = 0; shift < 70; shift += 7)
        {
            byte b = from[at++];
            value |= (ulong)(b & 0x7F) << shift;
            if (b < 0x80) return value;
        }

        throw new InvalidDataException("a number runs past its longest form");
    }
}
