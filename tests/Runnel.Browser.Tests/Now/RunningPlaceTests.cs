using Microsoft.Playwright;
using NodaTime;
using Runnel.Place.Findings;

namespace Runnel.Browser.Tests.Now;

/// <summary>Journeys of a household through the pages of a running place.</summary>
public sealed class RunningPlaceTests(Site site, RunningPlaceTests.TwoWeeks twoWeeks) : IClassFixture<RunningPlaceTests.TwoWeeks>
{
    private readonly PlayedSite _played = twoWeeks.Site;

    /// <summary>Two weeks lived through once for all journeys.</summary>
    public sealed class TwoWeeks : IAsyncLifetime
    {
        public PlayedSite Site { get; private set; } = null!;

        public async ValueTask InitializeAsync() => Site = await PlayedSite.StartAsync(days: 14);

        public ValueTask DisposeAsync() => Site.DisposeAsync();
    }

    [Fact]
    public async Task A_household_looks_writes_breaks_and_mends()
    {
        await EveryPageIsSoundAtEveryWidth();
        await AnEntryTakesTwoTouchesAndCanBeCorrectedAndTakenBack();
        await AJobIsTickedAndTheTickTakenBack();
        await WorkEndsWithAQuestion();
        await AStoppedPumpIsToldOnAnOpenPageAndOnItsDrawing();
        await ALostLineIsSaidAndHeals();
    }

    private Task<Visit> OpenAsync(int width, BrowserNewContextOptions? wishes = null) => site.OpenAsync(width, wishes, _played.Address);

    private async Task EveryPageIsSoundAtEveryWidth()
    {
        foreach (string path in new[] { "/", "/round", "/add", "/add/drained", "/add/water-test", "/daybook", "/place", "/more" })
        {
            await using Visit phone = await OpenAsync(390);
            await phone.Page.GotoAsync(path);
            // The rules take a second a page: once for each kind of page.
            if (path is "/" or "/add/drained" or "/round" or "/place") await phone.AssertSoundAsync();
            else await phone.AssertFitsAsync();
            await using Visit tablet = await OpenAsync(768, new() { ColorScheme = ColorScheme.Dark });
            await tablet.Page.GotoAsync(path);
            await tablet.AssertFitsAsync();
            await using Visit desktop = await OpenAsync(1280, new() { ColorScheme = ColorScheme.Dark });
            await desktop.Page.GotoAsync(path);
            if (path is "/") await desktop.AssertSoundAsync();
            else await desktop.AssertFitsAsync();
            // What is drawn must not be taken for what the page is made of: a vessel's wall is not the wall, a chart's bar not the family bar.
            Assert.NotEqual("hidden", await desktop.Page.EvaluateAsync<string>("getComputedStyle(document.body).overflowY"));
            Assert.False(await desktop.Page.Locator("nav.bar").IsVisibleAsync());
        }

        await using Visit water = await OpenAsync(1280);
        await water.Page.GotoAsync("/water");
        await water.AssertFitsAsync();
        Assert.True(await water.Page.EvaluateAsync<int>("[...document.querySelectorAll('svg.ch rect.bar')].filter(b => b.getClientRects().length > 0).length") > 10, "the ledger's bars are not drawn");
        await using Visit wall = await OpenAsync(1920, new() { ReducedMotion = ReducedMotion.Reduce });
        await wall.Page.SetViewportSizeAsync(1920, 1080);
        await wall.Page.GotoAsync("/?view=wall");
        await wall.AssertFitsAsync();
        Assert.True(await wall.Page.EvaluateAsync<bool>("document.documentElement.scrollHeight <= innerHeight"), "the wall needs more than one screen");
        Assert.Equal("none", await wall.Page.EvaluateAsync<string>("getComputedStyle(document.querySelector('.flow') ?? document.body).animationName"));
    }

    private async Task AnEntryTakesTwoTouchesAndCanBeCorrectedAndTakenBack()
    {
        await using Visit visit = await OpenAsync(390, new() { JavaScriptEnabled = false });
        IPage page = visit.Page;
        await page.GotoAsync("/add");
        await page.GetByRole(AriaRole.Link, new() { Name = "Drained", Exact = true }).ClickAsync();
        await page.GetByRole(AriaRole.Button, new() { Name = "I have drained it" }).ClickAsync();
        await Assertions.Expect(page.GetByText("Written down.")).ToBeVisibleAsync();
        await Assertions.Expect(page.GetByText("Drained 8 L, swirl", new() { Exact = true })).ToBeVisibleAsync();

        await page.GetByRole(AriaRole.Link, new() { Name = "Correct: Drained 8 L" }).ClickAsync();
        await page.GetByLabel("How much water").FillAsync("a lot");
        await page.GetByRole(AriaRole.Button, new() { Name = "Correct it" }).ClickAsync();
        await Assertions.Expect(page.GetByText("“a lot” is no amount").First).ToBeVisibleAsync();
        await page.GetByLabel("How much water").FillAsync("12,5");
        await page.GetByRole(AriaRole.Button, new() { Name = "Correct it" }).ClickAsync();
        await Assertions.Expect(page.GetByText("Drained 12.5 L, swirl", new() { Exact = false })).ToBeVisibleAsync();

        await page.GetByRole(AriaRole.Link, new() { Name = "Correct: Drained 12.5 L" }).ClickAsync();
        await Assertions.Expect(page.GetByText("Drained 8 L, swirl")).ToBeVisibleAsync();
        await page.GetByRole(AriaRole.Button, new() { Name = "Take this entry back" }).ClickAsync();
        await Assertions.Expect(page.GetByText("taken back", new() { Exact = true })).ToBeVisibleAsync();
        Assert.True((await _played.Live.DaybookAsync(TestContext.Current.CancellationToken)).Single(r => r.Entry.Entry == "drained").Struck);
    }

    private async Task AJobIsTickedAndTheTickTakenBack()
    {
        await using Visit visit = await OpenAsync(390);
        IPage page = visit.Page;
        await page.GotoAsync("/round");
        await page.GetByText("Test the water").ClickAsync();
        await page.GetByLabel("pH").FillAsync("6.8");
        await page.GetByRole(AriaRole.Button, new() { Name = "Write the test down" }).ClickAsync();
        await Assertions.Expect(page.GetByText("Water test: pH 6.8")).ToBeVisibleAsync();
        await page.GotoAsync("/round");
        await Assertions.Expect(page.GetByText("Test the water")).ToHaveCountAsync(0);
    }

    private async Task WorkEndsWithAQuestion()
    {
        await using Visit visit = await OpenAsync(390);
        IPage page = visit.Page;
        await page.GotoAsync("/add");
        await page.GetByRole(AriaRole.Button, new() { Name = "30 min" }).ClickAsync();
        await Assertions.Expect(page.GetByRole(AriaRole.Heading, new() { Level = 1 })).ToContainTextAsync("working on the loop");
        await page.GetByRole(AriaRole.Button, new() { Name = "My hands are out of the loop" }).ClickAsync();
        await Assertions.Expect(page.GetByRole(AriaRole.Heading, new() { Name = "Pump, air, valve: as before?" })).ToBeVisibleAsync();
        await page.GetByRole(AriaRole.Button, new() { Name = "All as before" }).ClickAsync();
        await Assertions.Expect(page.GetByText("Pump, air, valve: as before?")).ToHaveCountAsync(0);
        await visit.AssertFitsAsync();
    }

    private async Task AStoppedPumpIsToldOnAnOpenPageAndOnItsDrawing()
    {
        // One page lies open; on another somebody breaks the pump.
        await using Visit open = await OpenAsync(1280);
        await open.Page.GotoAsync("/");
        await Assertions.Expect(open.Page.Locator(".verdict.actnow")).ToHaveCountAsync(0);
        await using Visit visit = await OpenAsync(390);
        await visit.Page.GotoAsync("/");
        await visit.Page.GetByRole(AriaRole.Button, new() { Name = "Try it: The pump stops" }).ClickAsync();

        await Assertions.Expect(open.Page.Locator(".verdict.actnow")).ToBeVisibleAsync(new() { Timeout = 20_000 });
        await Assertions.Expect(open.Page.Locator("svg.sect.wide .bracket.actnow")).ToHaveCountAsync(1, new() { Timeout = 10_000 });
        await Assertions.Expect(open.Page.GetByText("First", new() { Exact = true })).ToBeVisibleAsync();
        await open.AssertSoundAsync();
        await open.Page.GetByRole(AriaRole.Button, new() { Name = "Seen, I will see to it" }).ClickAsync();
        await Assertions.Expect(open.Page.GetByText("Seen at")).ToBeVisibleAsync();

        await visit.Page.GotoAsync("/");
        await visit.Page.GetByRole(AriaRole.Button, new() { Name = "Mend it: The pump stops" }).ClickAsync();
        await Assertions.Expect(open.Page.Locator(".verdict.actnow")).ToHaveCountAsync(0, new() { Timeout = 20_000 });
        await Assertions.Expect(open.Page.GetByText("Over. What was it?")).ToBeVisibleAsync(new() { Timeout = 10_000 });
        await open.Page.GetByRole(AriaRole.Button, new() { Name = "Nothing: a false notice" }).First.ClickAsync();
        await Assertions.Expect(open.Page.GetByRole(AriaRole.Heading, new() { Level = 1 })).ToBeVisibleAsync();
        Assert.Contains(_played.Live.View.Notices, n => n is { Answer.Was: "nothing", Notice.Urgency: Urgency.ActNow });
    }

    private async Task ALostLineIsSaidAndHeals()
    {
        await using Visit visit = await OpenAsync(390);
        IPage page = visit.Page;
        await page.RouteAsync("**/now/changes", route => route.AbortAsync());
        await page.GotoAsync("/");
        await Assertions.Expect(page.Locator("[data-lost]")).ToContainTextAsync("No word from Runnel since");
        await page.UnrouteAsync("**/now/changes");
        await Assertions.Expect(page.Locator("[data-lost]")).ToBeHiddenAsync(new() { Timeout = 15_000 });
    }

    [Fact]
    public async Task Posts_of_other_origins_and_of_unknown_things_are_refused()
    {
        using var http = new HttpClient { BaseAddress = new(_played.Address) };
        using var form = new FormUrlEncodedContent(new Dictionary<string, string> { ["minutes"] = "30" });
        using HttpResponseMessage foreign = await http.PostAsync("/say/work", form, TestContext.Current.CancellationToken);
        Assert.Equal(System.Net.HttpStatusCode.BadRequest, foreign.StatusCode);
        Assert.Null(_played.Live.View.Working);
        Assert.Equal(System.Net.HttpStatusCode.NotFound, (await http.GetAsync("/add/no-such-kind", TestContext.Current.CancellationToken)).StatusCode);
        Assert.Equal(System.Net.HttpStatusCode.NotFound, (await http.GetAsync("/daybook/999999", TestContext.Current.CancellationToken)).StatusCode);
    }

    [Fact]
    public async Task The_first_page_is_light()
    {
        using var http = new HttpClient { BaseAddress = new(_played.Address) };
        http.DefaultRequestHeaders.AcceptEncoding.ParseAdd("gzip");
        byte[] page = await http.GetByteArrayAsync("/", TestContext.Current.CancellationToken);
        Assert.InRange(page.Length, 2_000, 60_000);
        await _played.GoOnAsync(Duration.FromMinutes(1));
    }
}
