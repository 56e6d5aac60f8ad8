using Microsoft.AspNetCore.Builder;
using Microsoft.Playwright;
using Runnel.Browser.Tests.YourLog;
using Runnel.Web.Hosting;

[assembly: AssemblyFixture(typeof(Runnel.Browser.Tests.Site))]

namespace Runnel.Browser.Tests;

/// <summary>The pages on a free port and one real browser for all tests.</summary>
public sealed class Site : IAsyncLifetime
{
    private static readonly string[] UsualPlaces = ["/usr/bin/chromium", "/usr/bin/chromium-browser", "/usr/bin/google-chrome"];

    private readonly string _folder = Directory.CreateTempSubdirectory("runnel-pages-").FullName;
    private WebApplication? _app;
    private IPlaywright? _playwright;
    private IBrowser? _browser;

    public const long LargestLogBytes = 8 * 1024 * 1024;

    public string Address { get; private set; } = "";

    public DroppedFiles Files { get; private set; } = null!;

    public async ValueTask InitializeAsync()
    {
        Files = new DroppedFiles(Path.Combine(_folder, "files"));
        _app = RunnelPages.Build([], new RunnelPagesOptions
        {
            WorkFolder = Path.Combine(_folder, "work"),
            Urls = "http://127.0.0.1:0",
            LargestLogBytes = LargestLogBytes,
            InventedLog = MadeUpFindings.FoulingDrains,
        });
        await _app.StartAsync();
        Address = _app.Urls.Single();
        _playwright = await Playwright.CreateAsync();
        _browser = await _playwright.Chromium.LaunchAsync(new()
        {
            ExecutablePath = Chromium(),
            Args = ["--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run", "--disable-background-networking",
                "--disable-component-update", "--disable-sync", "--disable-dev-shm-usage"],
        });
    }

    public async ValueTask DisposeAsync()
    {
        if (_browser is not null) await _browser.DisposeAsync();
        _playwright?.Dispose();
        if (_app is not null) await _app.DisposeAsync();
        Directory.Delete(_folder, recursive: true);
    }

    /// <summary>A fresh page of that width; its troubles are gathered until it is closed.</summary>
    internal async Task<Visit> OpenAsync(int width, BrowserNewContextOptions? wishes = null, string? address = null)
    {
        address ??= Address;
        wishes ??= new();
        wishes.ViewportSize = new() { Width = width, Height = width < 700 ? 844 : 900 };
        wishes.BaseURL = address;
        wishes.AcceptDownloads = true;
        return await Visit.OpenAsync(await _browser!.NewContextAsync(wishes), address);
    }

    private static string Chromium() =>
        Environment.GetEnvironmentVariable("RUNNEL_CHROMIUM") is { Length: > 0 } told ? told
        : UsualPlaces.FirstOrDefault(File.Exists)
        ?? throw new InvalidOperationException("no Chromium found: apt-get install chromium, or name one in RUNNEL_CHROMIUM");
}
