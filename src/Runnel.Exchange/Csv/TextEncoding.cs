using System.Text;
using System.Text.Unicode;

namespace Runnel.Exchange.Csv;

/// <summary>Finds the encoding of a text from its first bytes.</summary>
internal static class TextEncoding
{
    /// <summary>The encoding and the length of its mark.</summary>
    public static (Encoding Encoding, int MarkLength) Find(ReadOnlySpan<byte> head, bool isWhole)
    {
        if (head.StartsWith((ReadOnlySpan<byte>)[0xEF, 0xBB, 0xBF])) return (Encoding.UTF8, 3);
        if (head.StartsWith((ReadOnlySpan<byte>)[0xFF, 0xFE])) return (Encoding.Unicode, 2);
        if (head.StartsWith((ReadOnlySpan<byte>)[0xFE, 0xFF])) return (Encoding.BigEndianUnicode, 2);
        if (LooksLikeUtf16(head, zeroAt: 1)) return (Encoding.Unicode, 0);
        if (LooksLikeUtf16(head, zeroAt: 0)) return (Encoding.BigEndianUnicode, 0);

        // A multi-byte character may be cut where the head ends.
        var sure = isWhole ? head : head[..Math.Max(0, head.Length - 4)];
        int cut = sure.Length;
        while (!isWhole && cut > 0 && cut > sure.Length - 4 && (sure[cut - 1] & 0x80) != 0) cut--;
        return Utf8.IsValid(sure[..cut]) ? (Encoding.UTF8, 0) : (Encoding.Latin1, 0);
    }

    /// <summary>Latin text in UTF-16 without its mark has a zero in every other byte.</summary>
    internal static bool LooksLikeUtf16(ReadOnlySpan<byte> head, int zeroAt)
    {
        int pairs = Math.Min(head.Length, 512) / 2;
        if (pairs < 4) return false;
        int zeros = 0;
        for (int i = 0; i < pairs; i++)
        {
            if (head[(2 * i) + zeroAt] == 0 && head[(2 * i) + 1 - zeroAt] != 0) zeros++;
        }

        return zeros * 10 >= pairs * 9;
    }
}
