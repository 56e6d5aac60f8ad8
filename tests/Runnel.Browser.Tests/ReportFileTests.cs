using Microsoft.Playwright;
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
    public void Words_from_a_log_cannot_become_markup()
    {
        var findings = MadeUpFindings.Quiet() with { PlaceName = "<img src=x onerror=alert(1)>", Remarks = ["<script>alert(1)</script>"] };
        string html = HtmlReport.Render(findings);
        Assert.DoesNotContain("<script", html, StringComparison.Ordinal);
        Assert.DoesNotContain("<img", html, StringComparison.Ordinal);
    }
}
