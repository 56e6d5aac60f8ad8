using Microsoft.Playwright;
using NodaTime;
using Runnel.Cli.Findings;
using Runnel.Place.Findings;
using Runnel.Web.Report;

namespace Runnel.Browser.Tests;

public sealed class ReportFileTests(Site site)
{
    [Theory]
    [InlineData(390)]
    [InlineData(1280)]
    public async Task Report_opens_offline_as_a_file_and_asks_nobody(int width)
    {
        string file = Path.Combine(Directory.CreateTempSubdirectory("runnel-report-").FullName, "report.html");
        await File.WriteAllTextAsync(file, HtmlReport.Render(MadeUpFindings.FoulingDrains()), TestContext.Current.CancellationToken);
        await using Visit visit = await site.OpenAsync(width, new() { Offline = true });
        var asked = new List<string>();
        visit.Page.Request += (_, request) => asked.Add(request.Url);
        await visit.Page.GotoAsync("file://" + file);
        await Assertions.Expect(visit.Page.GetByRole(AriaRole.Heading, new() { Level = 1 })).ToContainTextAsync("clean the drains");
        Assert.Equal(["file://" + file], asked);
        int spill = await visit.Page.EvaluateAsync<int>("document.documentElement.scrollWidth - document.documentElement.clientWidth");
        Assert.Equal(0, spill);
        Assert.Equal(0, await visit.Page.Locator("script").CountAsync());
        Assert.Equal(0, await visit.Page.GetByRole(AriaRole.Link).CountAsync());
    }

    [Fact]
    public void Report_says_what_a_quiet_log_says_without_a_second_colour()
    {
        string html = HtmlReport.Render(MadeUpFindings.Quiet());
        Assert.Contains("All is well; the loop is 14&#xA0;L short.", html, StringComparison.Ordinal);
        Assert.DoesNotContain("class=\"verdict today\"", html, StringComparison.Ordinal);
        Assert.Contains("How the loop runs", html, StringComparison.Ordinal);
    }

    [Fact]
    public void What_came_and_went_many_times_is_one_entry()
    {
        var quiet = MadeUpFindings.Quiet();
        var once = new Notice
        {
            Causes = [new(CauseNames.PumpStopped, 0.8)],
            Urgency = Urgency.ActNow,
            Since = quiet.From + Duration.FromDays(3),
            FirstNoticed = quiet.From + Duration.FromDays(3),
            Cleared = quiet.From + Duration.FromDays(3) + Duration.FromMinutes(25),
            Evidence = "The pump stood still.",
            FirstAct = "Look at its plug.",
        };
        Notice[] weekly = [.. Enumerable.Range(0, 6).Select(i => once with
        {
            Since = once.Since + Duration.FromDays(5 * i), FirstNoticed = once.FirstNoticed + Duration.FromDays(5 * i), Cleared = once.Cleared + Duration.FromDays(5 * i),
        })];
        var findings = quiet with { Notices = weekly };
        string html = HtmlReport.Render(findings);
        Assert.Equal(2, html.Split("The pump stood still.").Length);
        Assert.Contains("6 times since", html, StringComparison.Ordinal);
        Assert.Contains("for 25 min", html, StringComparison.Ordinal);
        Assert.Contains("and 1 more", html, StringComparison.Ordinal);
        string text = FindingsText.Render(findings);
        Assert.Equal(2, text.Split("The pump stood still.").Length);
        Assert.Contains("6 times since", text, StringComparison.Ordinal);
        Assert.Equal(7, Runnel.Exchange.Findings.DiagnosisJson.Write(findings).Split("first_noticed").Length);
    }

    [Fact]
    public void Without_anything_that_came_in_no_balance_is_drawn()
    {
        var quiet = MadeUpFindings.Quiet();
        var pumpOnly = quiet with
        {
            Kit = ["pump-running"],
            Ledger = [.. quiet.Ledger.Select(d => d with { TopUp = default, Rain = default })],
            Evidence = quiet.Evidence with { Pulses = [] },
        };
        string html = HtmlReport.Render(pumpOnly);
        Assert.DoesNotContain("Unexplained, by day", html, StringComparison.Ordinal);
        Assert.Contains("litres cannot be balanced", html, StringComparison.Ordinal);
        string text = FindingsText.Render(pumpOnly);
        Assert.Contains("litres cannot be balanced", text.ReplaceLineEndings(" "), StringComparison.Ordinal);
        Assert.DoesNotContain("In all: top-up", text, StringComparison.Ordinal);
    }

    [Fact]
    public void Words_from_a_log_cannot_become_markup()
    {
        var findings = MadeUpFindings.Quiet() with { PlaceName = "<img src=x onerror=alert(1)>", Remarks = ["<script>alert(1)</script>"] };
        string html = HtmlReport.Render(findings);
        Assert.DoesNotContain("<script", html, StringComparison.Ordinal);
        Assert.DoesNotContain("<img", html, StringComparison.Ordinal);
    }
}
