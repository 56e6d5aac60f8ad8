using System.Diagnostics;
using System.Net;
using System.Text.RegularExpressions;
using Microsoft.Playwright;

namespace Runnel.Browser.Tests.YourLog;

public sealed class YourLogTests(Site site)
{
    private static readonly Regex FindingsAddress = new("/log/[0-9a-f]{32}$");
    private static readonly Regex NewLogAddress = new("/log/new$");
    private static readonly Regex ColumnsAddress = new("/log/[0-9a-f]{32}/columns$");

    // The address is asked for again and again: a page that goes on by itself may replace the very load that a wait for it waits for.
    private static readonly PageAssertionsToHaveURLOptions Slowly = new() { Timeout = 30_000 };

    [Theory]
    [InlineData(390, true)]
    [InlineData(768, true)]
    [InlineData(1280, true)]
    [InlineData(390, false)]
    public async Task A_log_alone_leads_through_its_columns_to_its_findings(int width, bool script)
    {
        await using Visit visit = await site.OpenAsync(width, new() { JavaScriptEnabled = script });
        IPage page = visit.Page;
        await page.GotoAsync("/");
        await page.GetByRole(AriaRole.Link, new() { Name = "Drop your own log" }).ClickAsync();
        if (script) await visit.AssertSoundAsync();

        await page.GetByLabel("Log, as CSV").SetInputFilesAsync(site.Files.Log);
        await page.GetByRole(AriaRole.Button, new() { Name = "Read this log" }).ClickAsync();
        await Assertions.Expect(page).ToHaveURLAsync(ColumnsAddress, Slowly);
        await Assertions.Expect(page.Locator("select[id^=c]").First).Not.ToHaveValueAsync("");
        if (script) await visit.AssertSoundAsync();

        await page.GetByLabel("Name of the place").FillAsync("Under the fig");
        await page.GetByLabel("Time zone").SelectOptionAsync("Australia/Sydney");
        await page.GetByLabel("Water between the sump's two switch levels").FillAsync("65");
        await page.GetByLabel("The top-up gives").FillAsync("11,5 L/min");
        await page.GetByLabel("The bleed lets out").FillAsync("9");
        var watch = Stopwatch.StartNew();
        await page.GetByRole(AriaRole.Button, new() { Name = "Show what the loop has been doing" }).ClickAsync();
        await Assertions.Expect(page).ToHaveURLAsync(FindingsAddress, Slowly);
        await Assertions.Expect(page.GetByText("Under the fig").First).ToBeVisibleAsync(new() { Timeout = 60_000 });
        TestContext.Current.SendDiagnosticMessage($"findings {watch.ElapsedMilliseconds} ms after the answers");
        await Assertions.Expect(page.Locator("#over-time svg.ch").First).ToBeAttachedAsync();
        // The same body at every width and in the dark is held to the rules on the first page.
        if (script && width == 390) await visit.AssertSoundAsync();
        else await visit.AssertFitsAsync();
    }

    [Fact]
    public async Task Files_dropped_together_on_the_first_page_show_their_findings_at_once()
    {
        await using Visit visit = await site.OpenAsync(1280);
        IPage page = visit.Page;
        await page.GotoAsync("/");
        await page.EvaluateAsync(DropScript, new object[]
        {
            new { name = "log.csv", text = await ReadAsync(site.Files.Log) },
            new { name = "place.toml", text = await ReadAsync(site.Files.Place) },
            new { name = "daybook.csv", text = await ReadAsync(site.Files.Daybook) },
        });
        await Assertions.Expect(page).ToHaveURLAsync(FindingsAddress, Slowly);
        await Assertions.Expect(page.Locator("h1")).ToBeVisibleAsync();
        await Assertions.Expect(page.Locator(".figs li").First).ToBeVisibleAsync(new() { Timeout = 60_000 });
        await visit.AssertFitsAsync();

        IDownload report = await page.RunAndWaitForDownloadAsync(() => page.GetByRole(AriaRole.Link, new() { Name = "Save this as one file" }).ClickAsync());
        Assert.EndsWith(".html", report.SuggestedFilename, StringComparison.Ordinal);
        await page.GetByRole(AriaRole.Button, new() { Name = "Forget this log" }).ClickAsync();
        await Assertions.Expect(page).ToHaveURLAsync(NewLogAddress, Slowly);
        await page.GoBackAsync();
        await page.ReloadAsync();
        await Assertions.Expect(page.Locator("h1")).ToHaveTextAsync("There is no page at this address.");
    }

    [Theory]
    [InlineData(true)]
    [InlineData(false)]
    public async Task What_is_no_log_is_refused_in_words_with_the_list_in_focus(bool script)
    {
        await using Visit visit = await site.OpenAsync(390, new() { JavaScriptEnabled = script });
        IPage page = visit.Page;
        foreach ((string file, string words) in ((string, string)[])[(site.Files.Picture, "PNG picture"), (site.Files.Empty, "is empty")])
        {
            await page.GotoAsync("/log/new");
            await page.GetByLabel("Log, as CSV").SetInputFilesAsync(file);
            await page.GetByRole(AriaRole.Button, new() { Name = "Read this log" }).ClickAsync();
            await Assertions.Expect(page.Locator(".errors")).ToContainTextAsync(words);
            await Assertions.Expect(page.Locator(".errors")).ToBeFocusedAsync();
            await Assertions.Expect(page.Locator(".drop .err")).ToContainTextAsync(words);
        }
    }

    [Fact]
    public async Task A_faulty_place_file_is_refused_with_the_line_and_the_nearest_key()
    {
        await using Visit visit = await site.OpenAsync(1280);
        IPage page = visit.Page;
        await page.GotoAsync("/log/new");
        await page.GetByLabel("Log, as CSV").SetInputFilesAsync(site.Files.Log);
        await page.GetByLabel("Place file, if you have one").SetInputFilesAsync(site.Files.BrokenPlace);
        await page.GetByRole(AriaRole.Button, new() { Name = "Read this log" }).ClickAsync();
        await Assertions.Expect(page.Locator(".errors")).ToContainTextAsync("lattitude");
        await Assertions.Expect(page.Locator(".errors")).ToContainTextAsync("latitude");
    }

    [Theory]
    [InlineData(true)]
    [InlineData(false)]
    public async Task A_too_large_log_is_refused_with_the_limit_and_a_remedy(bool script)
    {
        await using Visit visit = await site.OpenAsync(768, new() { JavaScriptEnabled = script });
        IPage page = visit.Page;
        await page.GotoAsync("/log/new");
        await page.GetByLabel("Log, as CSV").SetInputFilesAsync(site.Files.TooLarge);
        await page.GetByRole(AriaRole.Button, new() { Name = "Read this log" }).ClickAsync();
        await Assertions.Expect(page.Locator(".errors")).ToContainTextAsync("larger than 8 MB", new() { Timeout = 60_000 });
        await Assertions.Expect(page.Locator(".errors")).ToContainTextAsync("Export a shorter stretch");
    }

    [Fact]
    public async Task Wrong_answers_are_named_field_by_field_and_what_was_entered_stays()
    {
        await using Visit visit = await site.OpenAsync(390);
        IPage page = visit.Page;
        await page.GotoAsync("/log/new");
        await page.GetByLabel("Log, as CSV").SetInputFilesAsync(site.Files.Log);
        await page.GetByRole(AriaRole.Button, new() { Name = "Read this log" }).ClickAsync();
        await Assertions.Expect(page).ToHaveURLAsync(ColumnsAddress, Slowly);
        await page.GetByLabel("Name of the place").FillAsync("Kept name");
        await page.GetByLabel("Latitude").FillAsync("southish");
        await page.GetByLabel("Time zone").SelectOptionAsync("");
        await page.GetByRole(AriaRole.Button, new() { Name = "Show what the loop has been doing" }).ClickAsync();
        await Assertions.Expect(page.Locator(".errors")).ToBeFocusedAsync();
        await Assertions.Expect(page.Locator(".errors li")).ToContainTextAsync(["time zone", "southish", "switch levels"]);
        await Assertions.Expect(page.GetByLabel("Name of the place")).ToHaveValueAsync("Kept name");
        await Assertions.Expect(page.GetByLabel("Latitude")).ToHaveAttributeAsync("aria-invalid", "true");
        await visit.AssertSoundAsync(status: 422);
    }

    [Fact]
    public async Task A_form_without_its_mark_of_origin_is_not_taken()
    {
        using var http = new HttpClient { BaseAddress = new(site.Address) };
        using var form = new MultipartFormDataContent
        {
            { new StringContent("drop"), "_handler" },
            { new StringContent("time,channel,value\n2026-02-01T00:00:00Z,pump,1\n"), "log", "log.csv" },
        };
        using HttpResponseMessage answer = await http.PostAsync("/log/new", form, TestContext.Current.CancellationToken);
        Assert.Equal(HttpStatusCode.BadRequest, answer.StatusCode);
        Assert.Contains("could not be taken", await answer.Content.ReadAsStringAsync(TestContext.Current.CancellationToken), StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("/log/0123456789abcdef0123456789abcdef", HttpStatusCode.NotFound)]
    [InlineData("/log/..%2f..%2f..%2fetc%2fpasswd-0123456789ab", HttpStatusCode.NotFound)]
    [InlineData("/nothing", HttpStatusCode.NotFound)]
    [InlineData("/log/invented/charts/nothing", HttpStatusCode.NotFound)]
    [InlineData("/log/invented/charts/cycles?from=x&to=y&size=wide", HttpStatusCode.OK)]
    [InlineData("/log/invented/findings.json", HttpStatusCode.OK)]
    public async Task Addresses_answer_plainly_and_say_whom_to_trust(string address, HttpStatusCode expected)
    {
        using var http = new HttpClient { BaseAddress = new(site.Address) };
        using HttpResponseMessage answer = await http.GetAsync(address, TestContext.Current.CancellationToken);
        Assert.Equal(expected, answer.StatusCode);
        Assert.Contains("default-src 'none'", answer.Headers.GetValues("Content-Security-Policy").Single(), StringComparison.Ordinal);
        Assert.Equal("nosniff", answer.Headers.GetValues("X-Content-Type-Options").Single());
    }

    private const string DropScript =
        """
        files => {
          const data = new DataTransfer();
          for (const file of files) data.items.add(new File([file.text], file.name));
          for (const type of ["dragenter", "dragover", "drop"])
            document.querySelector("main").dispatchEvent(new DragEvent(type, { dataTransfer: data, bubbles: true, cancelable: true }));
        }
        """;

    private static Task<string> ReadAsync(string path) => File.ReadAllTextAsync(path, TestContext.Current.CancellationToken);
}
