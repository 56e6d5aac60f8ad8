namespace Runnel.Exchange.Csv;

/// <summary>Writes rows after RFC 4180: CRLF, quotes only where they are needed.</summary>
public static class CsvLine
{
    /// <summary>Writes one row and its line end.</summary>
    public static void Write(TextWriter to, params ReadOnlySpan<string> fields) => Write(to, ',', fields);

    /// <summary>Writes one row and its line end with another separator, as spreadsheets of countries with a decimal comma want it.</summary>
    public static void Write(TextWriter to, char separator, ReadOnlySpan<string> fields)
    {
        ArgumentNullException.ThrowIfNull(to);
        for (int i = 0; i < fields.Length; i++)
        {
            if (i > 0) to.Write(separator);
            WriteField(to, fields[i], alone: fields.Length == 1, separator);
        }

        to.Write("\r\n");
    }

    /// <summary>A single empty field is quoted, or its row would read as a blank line.</summary>
    private static void WriteField(TextWriter to, string field, bool alone, char separator)
    {
        bool edged = field.Length > 0 && (char.IsWhiteSpace(field[0]) || char.IsWhiteSpace(field[^1]));
        if (!edged && field.AsSpan().IndexOfAny("\"\r\n") < 0 && !field.Contains(separator, StringComparison.Ordinal) && !(alone && field.Length == 0))
        {
            to.Write(field);
            return;
        }

        to.Write('"');
        to.Write(field.Replace("\"", "\"\"", StringComparison.Ordinal));
        to.Write('"');
    }
}
