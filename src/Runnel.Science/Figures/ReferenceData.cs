namespace Runnel.Science.Figures;

/// <summary>The tables of reference data, as plain text with a header that names the units, and a source and provenance in every row.</summary>
/// <remarks>Provenance begins with <c>read</c> (the print or a reprint of it was read), <c>computed</c>, or <c>memory</c> (weaker until confirmed).</remarks>
public static class ReferenceData
{
    /// <summary>Names of the tables.</summary>
    public static IReadOnlyList<string> Files { get; } =
        [.. typeof(ReferenceData).Assembly.GetManifestResourceNames().Where(n => n.EndsWith(".csv", StringComparison.Ordinal)).Order(StringComparer.Ordinal)];

    /// <summary>Text of a table.</summary>
    /// <param name="file">Name as in <see cref="Files"/>.</param>
    /// <returns>CSV after RFC 4180, UTF-8.</returns>
    /// <exception cref="ArgumentException">There is no such table.</exception>
    public static string Text(string file)
    {
        using var stream = typeof(ReferenceData).Assembly.GetManifestResourceStream(file) ?? throw new ArgumentException($"there is no table {file}", nameof(file));
        using var reader = new StreamReader(stream);
        return reader.ReadToEnd();
    }

    /// <summary>Rows of a table as records, in the order of the table.</summary>
    internal static IReadOnlyList<T> Read<T>(string file, Func<ReferenceRow, T> make) => Array.AsReadOnly(ReferenceRow.Parse(file, Text(file)).Select(make).ToArray());
}
