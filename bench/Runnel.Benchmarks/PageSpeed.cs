using System.Diagnostics;
using System.Net;
using System.Text;
using System.Text.RegularExpressions;
using Runnel.Twin.Invented;
using Runnel.Web.Hosting;

namespace Runnel.Benchmarks;

/// <summary>From the drop of a log with its place file to the whole page of findings, over a real socket.</summary>
internal static partial class PageSpeed
{
    public static async Task MeasureAsync(InventedLog made, byte[] csv)
    {
        string folder = Directory.CreateTempSubdirectory("runnel-page-").FullName;
        await using var app = RunnelPages.Build(["--Logging:LogLevel:Default=None"], new RunnelPagesOptions { WorkFolder = folder, Urls = "http://127.0.0.1:0" });
        await app.StartAsync();
        using var http = new HttpClient(new HttpClientHandler { CookieContainer = new CookieContainer() }) { BaseAddress = new(app.Urls.Single()) };
        // A keeper looks at the first page before anything is dropped.
        await http.GetStringAsync(new Uri("/", UriKind.Relative));
        foreach (string round in (string[])["first", "second"])
        {
            string token = Token().Match(await http.GetStringAsync(new Uri("/log/new", UriKind.Relative))).Groups["token"].Value;
            using var form = new MultipartFormDataContent
            {
                { new StringContent("drop"), "_handler" },
                { new StringContent(token), "__RequestVerificationToken" },
                { new ByteArrayContent(csv), "log", "log.csv" },
                { new ByteArrayContent(Encoding.UTF8.GetBytes(made.PlaceToml)), "place", "place.toml" },
            };
            var watch = Stopwatch.StartNew();
            using HttpResponseMessage answer = await http.PostAsync(new Uri("/log/new", UriKind.Relative), form);
            string page = await answer.Content.ReadAsStringAsync();
            for (int looks = 1; !page.Contains("id=\"over-time\"", StringComparison.Ordinal); looks++)
            {
                if (looks > 60 || !answer.IsSuccessStatusCode) throw new InvalidOperationException($"no findings: {answer.StatusCode}");
                await Task.Delay(200);
                page = await http.GetStringAsync(answer.RequestMessage!.RequestUri);
            }

            SpeedCommand.Tell($"{round} drop to the page of findings, {page.Length / 1000} kB", watch.Elapsed, null, 1, "");
        }

        await app.StopAsync();
        Directory.Delete(folder, recursive: true);
    }

    [GeneratedRegex("name=\"__RequestVerificationToken\"[^>]*value=\"(?<token>[^\"]+)\"", RegexOptions.None, 1000)]
    private static partial Regex Token();
}
