namespace Runnel.Web.YourLog;

/// <summary>What is wrong with one field of a form: what was found and what is expected.</summary>
/// <param name="Field">Name of the field, also its element id; empty where it is about the whole form.</param>
/// <param name="Words">A sentence.</param>
public sealed record FieldError(string Field, string Words)
{
    /// <summary>An error that no single field is to blame for.</summary>
    public static FieldError OfAll(string words) => new("", words);
}
