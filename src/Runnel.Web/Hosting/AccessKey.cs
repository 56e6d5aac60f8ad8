using System.Collections.Concurrent;
using System.Net;
using System.Security.Cryptography;
using System.Text;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;

namespace Runnel.Web.Hosting;

/// <summary>
/// Pages that other machines can reach ask for a key: once in a link or a form, remembered as a cookie; or with every call, as a bearer token.
/// </summary>
public sealed class AccessKey
{
    public const string Cookie = "runnel-key";
    private const int MostAttempts = 10;
    private static readonly TimeSpan AttemptsCountFor = TimeSpan.FromMinutes(1);

    private readonly byte[] _hash;
    private readonly string _mark;
    private readonly ConcurrentDictionary<IPAddress, (int Count, long Since)> _failed = new();

    public AccessKey(string key)
    {
        ArgumentException.ThrowIfNullOrWhiteSpace(key);
        _hash = SHA256.HashData(Encoding.UTF8.GetBytes(key));
        // The cookie proves the key without being it.
        _mark = Convert.ToHexStringLower(HMACSHA256.HashData(Encoding.UTF8.GetBytes(key), "cookie"u8));
    }

    /// <summary>The key in that file; made, for the owner's eyes only, where there is none.</summary>
    /// <exception cref="IOException">The file cannot be read or made.</exception>
    public static string ReadOrMake(string path)
    {
        if (!File.Exists(path))
        {
            string made = Convert.ToHexStringLower(RandomNumberGenerator.GetBytes(16));
            var options = new FileStreamOptions { Mode = FileMode.CreateNew, Access = FileAccess.Write };
            if (!OperatingSystem.IsWindows()) options.UnixCreateMode = UnixFileMode.UserRead | UnixFileMode.UserWrite;
            using var file = new StreamWriter(path, options);
            file.WriteLine(made);
            return made;
        }

        string key = File.ReadAllText(path).Trim();
        return key.Length >= 12 ? key : throw new IOException($"the key in {path} is shorter than 12 characters");
    }

    internal void Use(WebApplication app)
    {
        app.MapGet("/enter", EnterByLink).ExcludeFromDescription();
        app.MapPost("/enter", EnterByFormAsync).ExcludeFromDescription().DisableAntiforgery();
        app.Use(async (http, next) =>
        {
            if (http.Request.Path.StartsWithSegments("/assets") || http.Request.Path == "/enter" || IsKnown(http.Request))
            {
                await next(http);
            }
            else if (http.Request.Path.StartsWithSegments("/api"))
            {
                http.Response.Headers.WWWAuthenticate = "Bearer";
                await TypedResults.Problem(statusCode: StatusCodes.Status401Unauthorized, title: "This needs the key.", detail: "Send it as Authorization: Bearer KEY.").ExecuteAsync(http);
            }
            else
            {
                await AskAsync(http, StatusCodes.Status401Unauthorized, "");
            }
        });
    }

    private bool IsKnown(HttpRequest request)
    {
        if (request.Cookies[Cookie] is { } mark && CryptographicOperations.FixedTimeEquals(Encoding.UTF8.GetBytes(mark), Encoding.UTF8.GetBytes(_mark))) return true;
        const string scheme = "Bearer ";
        string? given = request.Headers.Authorization.ToString();
        return given.StartsWith(scheme, StringComparison.OrdinalIgnoreCase) && Check(given[scheme.Length..].Trim(), request.HttpContext.Connection.RemoteIpAddress);
    }

    private bool Check(string key, IPAddress? from)
    {
        from ??= IPAddress.None;
        if (IsThrottled(from)) return false;
        if (CryptographicOperations.FixedTimeEquals(SHA256.HashData(Encoding.UTF8.GetBytes(key)), _hash))
        {
            _failed.TryRemove(from, out _);
            return true;
        }

        long now = TimeProvider.System.GetTimestamp();
        _failed.AddOrUpdate(from, (1, now), (_, before) => TimeProvider.System.GetElapsedTime(before.Since) < AttemptsCountFor ? (before.Count + 1, before.Since) : (1, now));
        if (_failed.Count > 10_000) _failed.Clear();
        return false;
    }

    private bool IsThrottled(IPAddress from) =>
        _failed.TryGetValue(from, out var failed) && failed.Count >= MostAttempts && TimeProvider.System.GetElapsedTime(failed.Since) < AttemptsCountFor;

    private Task EnterByLink(HttpContext http, string? key) => key is null ? AskAsync(http, StatusCodes.Status200OK, "") : EnterAsync(http, key);

    private async Task EnterByFormAsync(HttpContext http)
    {
        var form = http.Request.HasFormContentType ? await http.Request.ReadFormAsync(http.RequestAborted) : FormCollection.Empty;
        await EnterAsync(http, form["key"].ToString());
    }

    private async Task EnterAsync(HttpContext http, string key)
    {
        if (!Check(key.Trim(), http.Connection.RemoteIpAddress))
        {
            bool throttled = IsThrottled(http.Connection.RemoteIpAddress ?? IPAddress.None);
            await AskAsync(
                http, throttled ? StatusCodes.Status429TooManyRequests : StatusCodes.Status401Unauthorized,
                throttled ? "Too many wrong keys. Wait a minute." : "That is not the key.");
            return;
        }

        http.Response.Cookies.Append(Cookie, _mark, new() { MaxAge = TimeSpan.FromDays(365), HttpOnly = true, SameSite = SameSiteMode.Lax, IsEssential = true, Secure = http.Request.IsHttps });
        http.Response.Redirect("/");
    }

    private static Task AskAsync(HttpContext http, int status, string problem)
    {
        http.Response.StatusCode = status;
        http.Response.ContentType = "text/html; charset=utf-8";
        http.Response.Headers.CacheControl = "no-store";
        return http.Response.WriteAsync($"""
            <!DOCTYPE html><html lang="en"><head><meta charset="utf-8"><meta name="viewport" content="width=device-width,initial-scale=1">
            <title>Runnel: the key</title><link rel="stylesheet" href="{PageAssets.Href("site.css")}"></head>
            <body><main><h1>This place asks for its key</h1><p>{problem}</p>
            <p>Whoever started Runnel sees it there, in the line that begins "the pages are at".</p>
            <form method="post" action="/enter"><label>Key <input name="key" type="password" autocomplete="current-password" required></label> <button>Open</button></form>
            </main></body></html>
            """, http.RequestAborted);
    }
}
