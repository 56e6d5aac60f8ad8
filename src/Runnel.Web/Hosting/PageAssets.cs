using System.Reflection;
using System.Security.Cryptography;
using System.Text;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Routing;

namespace Runnel.Web.Hosting;

/// <summary>Style, scripts and icon, carried inside the assembly: the pages start from any folder and a report can hold its own style.</summary>
public static class PageAssets
{
    private const string Prefix = "asset/";

    private static readonly Dictionary<string, Asset> All = Load();

    /// <summary>The whole style of the pages as text.</summary>
    public static string Style { get; } = Encoding.UTF8.GetString(All["site.css"].Bytes);

    /// <summary>Address of an asset; it changes with the content, so that browsers may keep it for good.</summary>
    public static string Href(string name) => $"/assets/{All[name].Tag}/{name}";

    public static void MapPageAssets(this IEndpointRouteBuilder app) =>
        app.MapGet("/assets/{tag}/{name}", (string tag, string name, HttpContext http) =>
        {
            if (!All.TryGetValue(name, out Asset? asset) || asset.Tag != tag) return Results.NotFound();
            http.Response.Headers.CacheControl = "public, max-age=31536000, immutable";
            return Results.Bytes(asset.Bytes, asset.MediaType);
        }).ExcludeFromDescription();

    private static Dictionary<string, Asset> Load()
    {
        Assembly assembly = typeof(PageAssets).Assembly;
        string[] names = [.. assembly.GetManifestResourceNames().Where(n => n.StartsWith(Prefix, StringComparison.Ordinal)).Order(StringComparer.Ordinal)];
        var assets = names.Where(n => !n.EndsWith(".css", StringComparison.Ordinal))
            .ToDictionary(n => n[Prefix.Length..], n => Asset.Of(n, Read(assembly, n)));
        // The style is written in parts and sent as one file, in the order of the parts' names.
        byte[] style = [.. names.Where(n => n.EndsWith(".css", StringComparison.Ordinal)).SelectMany(n => Read(assembly, n))];
        assets["site.css"] = Asset.Of("site.css", style);
        return assets;
    }

    private static byte[] Read(Assembly assembly, string name)
    {
        using Stream stream = assembly.GetManifestResourceStream(name)!;
        using var memory = new MemoryStream();
        stream.CopyTo(memory);
        return memory.ToArray();
    }

    private sealed record Asset(byte[] Bytes, string Tag, string MediaType)
    {
        public static Asset Of(string name, byte[] bytes) => new(bytes, Convert.ToHexStringLower(SHA256.HashData(bytes))[..12], Path.GetExtension(name) switch
        {
            ".css" => "text/css; charset=utf-8",
            ".js" => "text/javascript; charset=utf-8",
            ".svg" => "image/svg+xml",
            _ => "application/octet-stream",
        });
    }
}
