using Microsoft.AspNetCore.Http;

namespace Runnel.Web.Now;

/// <summary>Who holds this phone, as they said when they last wrote something. A name, not a right.</summary>
public static class Person
{
    private const string Cookie = "person";

    public static string? Of(HttpContext http) => http.Request.Cookies[Cookie] is { Length: > 0 and <= 60 } name ? Uri.UnescapeDataString(name) : null;

    public static void Remember(HttpContext http, string? name)
    {
        if (string.IsNullOrWhiteSpace(name)) return;
        string kept = name.Trim() is { Length: > 40 } long_ ? long_[..40] : name.Trim();
        http.Response.Cookies.Append(Cookie, Uri.EscapeDataString(kept), new() { MaxAge = TimeSpan.FromDays(365), HttpOnly = true, SameSite = SameSiteMode.Lax, IsEssential = true });
    }
}
