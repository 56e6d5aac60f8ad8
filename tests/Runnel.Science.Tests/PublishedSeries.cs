using System.Text.Json;

namespace Runnel.Science.Tests;

/// <summary>Check values with series, copied from print, under Published/ as JSON.</summary>
public static class PublishedSeries
{
    public static Dictionary<string, JsonElement> Open(string file)
    {
        using var document = JsonDocument.Parse(File.ReadAllText(PublishedTable.PathOf(file)));
        return document.RootElement.GetProperty("cases").EnumerateArray().ToDictionary(c => c.GetProperty("case").GetString()!, c => c.Clone());
    }

    public static JsonElement Root(string file)
    {
        using var document = JsonDocument.Parse(File.ReadAllText(PublishedTable.PathOf(file)));
        return document.RootElement.Clone();
    }

    /// <summary>Numbers of an array; null becomes NaN.</summary>
    public static double[] Numbers(this JsonElement element, params string[] path) =>
        [.. element.At(path).EnumerateArray().Select(v => v.ValueKind == JsonValueKind.Null ? double.NaN : v.GetDouble())];

    public static double Number(this JsonElement element, params string[] path) => element.At(path).GetDouble();

    public static int? Whole(this JsonElement element, params string[] path) =>
        element.At(path) is { ValueKind: not JsonValueKind.Null } value ? value.GetInt32() : null;

    public static JsonElement At(this JsonElement element, params string[] path)
    {
        foreach (string name in path) element = element.GetProperty(name);
        return element;
    }

    /// <summary>Compares relatively, naming the source when it fails.</summary>
    public static void Near(this JsonElement published, double expected, double actual, double relative, double absolute = 0)
    {
        double margin = Math.Max(absolute, relative * Math.Abs(expected));
        Assert.True(Math.Abs(actual - expected) <= margin,
            $"{published.GetProperty("case")}: {actual:R}, published {expected:R} within {margin:R}. Source: {published.GetProperty("source")}");
    }
}
