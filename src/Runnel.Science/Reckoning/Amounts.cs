namespace Runnel.Science.Reckoning;

/// <summary>Small turns of phrase for the meaning of an answer.</summary>
internal static class Amounts
{
    /// <summary>A percentage of a fraction: <c>5.02 %</c>.</summary>
    public static string Percent(double fraction) => Figure.Say(100 * fraction, "%");

    /// <summary>Minutes as people say them.</summary>
    public static string Minutes(double minutes) => minutes switch
    {
        _ when !double.IsFinite(minutes) => "never",
        < 120 => $"{Math.Floor(minutes):0} min",
        < 4320 => $"{Figure.Brief(minutes / 60)} h",
        _ => $"{Figure.Brief(minutes / 1440)} days",
    };

    /// <summary>Seconds as people say them.</summary>
    public static string Seconds(double seconds) => seconds < 120 ? $"{Figure.Brief(seconds)} s" : Minutes(seconds / 60);

    /// <summary>A span of time, not rounded down: for what is measured rather than for time left.</summary>
    public static string Span(double seconds) => seconds switch
    {
        _ when !double.IsFinite(seconds) => "never",
        < 120 => $"{Figure.Brief(seconds)} s",
        < 7200 => $"{Figure.Brief(seconds / 60)} min",
        < 259_200 => $"{Figure.Brief(seconds / 3600)} h",
        _ => $"{Figure.Brief(seconds / 86_400)} days",
    };

    /// <summary>A height or head: millimetres below a metre.</summary>
    public static string Height(double m) => Math.Abs(m) < 1 ? Figure.Say(1000 * m, "mm") : Figure.Say(m, "m");
}
