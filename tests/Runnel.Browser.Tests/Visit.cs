using Deque.AxeCore.Commons;
using Microsoft.Playwright;

namespace Runnel.Browser.Tests;

/// <summary>One browser page under watch: what it logs, what it asks of other hosts, whether it fits and can be used by all.</summary>
internal sealed class Visit : IAsyncDisposable
{
    /// <summary>The rules, run inside the page. What every node passed is not carried out of the browser: that took most of the tests' time.</summary>
    private const string RunRules =
        """
        async () => (await axe.run(document, { resultTypes: ["violations"] })).violations
          .map(v => `${v.id}: ${v.help}: ${v.nodes.slice(0, 3).map(n => n.html).join(" | ")}`)
        """;

    private static readonly string Rules = new BundledAxeScriptProvider().GetScript();

    private readonly IBrowserContext _context;
    private readonly List<string> _consoleErrors = [], _foreign = [];

    private Visit(IBrowserContext context, IPage page) => (_context, Page) = (context, page);

    public IPage Page { get; }

    public static async Task<Visit> OpenAsync(IBrowserContext context, string address)
    {
        IPage page = await context.NewPageAsync();
        var visit = new Visit(context, page);
        page.Console += (_, message) =>
        {
            if (message.Type is "error" or "warning") visit._consoleErrors.Add(message.Text);
        };
        page.PageError += (_, fault) => visit._consoleErrors.Add(fault);
        page.Request += (_, request) =>
        {
            if (!request.Url.StartsWith(address, StringComparison.Ordinal) && !request.Url.StartsWith("data:", StringComparison.Ordinal))
                visit._foreign.Add(request.Url);
        };
        return visit;
    }

    /// <summary>Nothing in the console, nothing asked of another host, nothing wider than the window.</summary>
    /// <param name="status">A status that a refused form answers with; browsers note it in the console.</param>
    public async Task AssertFitsAsync(int status = 200)
    {
        if (status != 200) _consoleErrors.RemoveAll(e => e.Contains($"status of {status}", StringComparison.Ordinal));
        Assert.Empty(_consoleErrors);
        Assert.Empty(_foreign);
        int spill = await Page.EvaluateAsync<int>("document.documentElement.scrollWidth - document.documentElement.clientWidth");
        Assert.True(spill <= 0, $"the page is {spill} px wider than its window");
    }

    /// <summary>That, and no rule of accessibility broken. The rules take seconds on a page full of charts: once for each look of a page is enough.</summary>
    public async Task AssertSoundAsync(int status = 200)
    {
        await AssertFitsAsync(status);
        await Page.EvaluateAsync(Rules);
        Assert.Empty(await Page.EvaluateAsync<string[]>(RunRules));
    }

    public async ValueTask DisposeAsync() => await _context.DisposeAsync();
}
