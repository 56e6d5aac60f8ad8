using Microsoft.AspNetCore.Http;

namespace Runnel.Web.Shell;

/// <summary>Light, dark or high contrast: as the device wishes until the person chooses.</summary>
public static class Look
{
    public const string Cookie = "look";

    public static readonly IReadOnlyList<(string Value, string Name)> Choices =
        [("", "As the device"), ("light", "Light"), ("dark", "Dark"), ("contrast", "High contrast")];

    /// <summary>The look chosen on this device, or null.</summary>
    public static string? Of(HttpContext http) =>
        http.Request.Cookies[Cookie] is { Length: > 0 } chosen && Choices.Any(c => c.Value == chosen) ? chosen : null;

    /// <summary>Remembers a choice for a year, or forgets it; an unknown one is taken as "as the device".</summary>
    public static void Choose(HttpContext http, string? value)
    {
        if (string.IsNullOrEmpty(value) || !Choices.Any(c => c.Value == value)) http.Response.Cookies.Delete(Cookie);
        else http.Response.Cookies.Append(Cookie, value, new() { MaxAge = TimeSpan.FromDays(365), HttpOnly = true, SameSite = SameSiteMode.Lax, IsEssential = true });
    }
}
