namespace Runnel.Exchange.Csv;

/// <summary>Tells readings from files of other kinds that only bear the name.</summary>
internal static class FileKind
{
    private static readonly (byte[] Mark, string What)[] Marks =
    [
        ([0x89, (byte)'P', (byte)'N', (byte)'G'], "a PNG picture"),
        ([0xFF, 0xD8, 0xFF], "a JPEG picture"),
        ("GIF8"u8.ToArray(), "a GIF picture"),
        ("RIFF"u8.ToArray(), "a picture or sound file"),
        ("%PDF"u8.ToArray(), "a PDF document"),
        ("SQLite format 3"u8.ToArray(), "an SQLite database"),
        ([0x1F, 0x8B], "a gzip archive"),
        ([0xD0, 0xCF, 0x11, 0xE0], "an old spreadsheet or document file"),
        ([(byte)'P', (byte)'K', 3, 4], "a spreadsheet (xlsx, ods) or zip archive"),
        ([(byte)'P', (byte)'K', 5, 6], "an empty zip archive"),
        ([0x7F, (byte)'E', (byte)'L', (byte)'F'], "a program"),
    ];

    /// <exception cref="UnreadableFileException">The bytes are those of another kind of file.</exception>
    public static void RefuseWhatIsNoText(ReadOnlySpan<byte> head)
    {
        if (head.IsEmpty)
            throw new UnreadableFileException(1, 1, "the file is empty", "Give a file with a header line and readings");
        foreach (var (mark, what) in Marks)
        {
            if (head.StartsWith(mark))
                throw new UnreadableFileException(1, 1, $"this is {what}, not comma-separated text", "Save or export the readings as CSV");
        }

        if (head.StartsWith((ReadOnlySpan<byte>)[0xFF, 0xFE]) || head.StartsWith((ReadOnlySpan<byte>)[0xFE, 0xFF]) ||
            TextEncoding.LooksLikeUtf16(head, 0) || TextEncoding.LooksLikeUtf16(head, 1))
        {
            return;
        }

        int controls = 0;
        foreach (byte b in head[..Math.Min(head.Length, 4096)])
        {
            if (b is < 9 or (> 13 and < 32)) controls++;
        }

        if (controls > 0 && controls * 100 > Math.Min(head.Length, 4096))
            throw new UnreadableFileException(1, 1, "this is a binary file, not comma-separated text", "Save or export the readings as CSV");
    }
}
