using System.Text.RegularExpressions;

namespace Runnel.Web.Words;

/// <summary>Sentences made elsewhere, set so that a figure never parts from its unit at the end of a line.</summary>
public static partial class Phrase
{
    /// <summary>The same words with unbreakable spaces inside "57 %", "9 h", "26 February".</summary>
    public static string Kept(string sentence) => Parting().Replace(sentence, "$1\u00A0$2");

    [GeneratedRegex(@"(\d) (%|°C|L/\w+|L\b|min\b|h\b|s\b|days?\b|mm\b|W\b|Jan|Feb|Mar|Apr|May|Jun|Jul|Aug|Sep|Oct|Nov|Dec)", RegexOptions.None, 500)]
    private static partial Regex Parting();
}
