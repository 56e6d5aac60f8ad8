using System.Text.RegularExpressions;
using Microsoft.Playwright;

namespace Runnel.Browser.Tests;

public sealed class FindingsPageTests(Site site)
{
    [Theory]
    [InlineData(390, ColorScheme.Light)]
    [InlineData(768, ColorScheme.Light)]
    [InlineData(1280, ColorScheme.Light)]
    [InlineData(390, ColorScheme.Dark)]
    [InlineData(1280, ColorScheme.Dark)]
    public async Task First_page_is_sound_and_leads_with_the_verdict(int width, ColorScheme scheme)
    {
        await using Visit visit = await site.OpenAsync(width, new() { ColorScheme = scheme });
        await visit.Page.GotoAsync("/");
        await Assertions.Expect(visit.Page.GetByRole(AriaRole.Heading, new() { Level = 1 })).ToContainTextAsync("Today: clean the drains");
        await Assertions.Expect(visit.Page.GetByText("An invented place.")).ToBeVisibleAsync();
        await Assertions.Expect(visit.Page.Locator("#h-why")).ToBeVisibleAsync();
        await visit.AssertSoundAsync();
    }

    [Theory]
    [InlineData(360)]
    [InlineData(390)]
    [InlineData(768)]
    [InlineData(1280)]
    public async Task No_word_in_a_chart_is_smaller_than_12_px(int width)
    {
        await using Visit visit = await site.OpenAsync(width);
        await visit.Page.GotoAsync("/");
        double least = await visit.Page.EvaluateAsync<double>(
            """
            Math.min(...[...document.querySelectorAll('svg.ch')].filter(s => s.getBoundingClientRect().width > 0).flatMap(s => {
              const scale = s.getBoundingClientRect().width / s.viewBox.baseVal.width;
              return [...s.querySelectorAll('text')].map(t => parseFloat(getComputedStyle(t).fontSize) * scale);
            }))
            """);
        Assert.InRange(least, 12, 40);
    }

    [Fact]
    public async Task Keys_zoom_the_chosen_chart_and_the_server_draws_it_anew()
    {
        await using Visit visit = await site.OpenAsync(1280);
        await visit.Page.GotoAsync("/");
        ILocator plot = visit.Page.Locator("figure[data-chart$='run-departure'] .plot");
        await plot.ScrollIntoViewIfNeededAsync();
        (double wholeFrom, double wholeTo) = await DrawnAsync(plot);
        await plot.FocusAsync();
        await visit.Page.Keyboard.PressAsync("+");
        await visit.Page.Keyboard.PressAsync("+");
        await Assertions.Expect(plot.Locator("svg.wide")).Not.ToHaveAttributeAsync("data-from", wholeFrom.ToString(System.Globalization.CultureInfo.InvariantCulture));
        await Assertions.Expect(visit.Page).ToHaveURLAsync(new Regex("from="), new() { Timeout = 15_000 });
        (double from, double to) = await DrawnAsync(plot);
        Assert.Equal((wholeTo - wholeFrom) / 4, to - from, (wholeTo - wholeFrom) / 1000);
        await Assertions.Expect(visit.Page.Locator(".stretch output")).ToContainTextAsync("27 January");

        await visit.Page.Keyboard.PressAsync("ArrowRight");
        await visit.Page.Keyboard.PressAsync("0");
        await Assertions.Expect(plot.Locator("svg.wide")).ToHaveAttributeAsync("data-from", wholeFrom.ToString(System.Globalization.CultureInfo.InvariantCulture));
        await visit.AssertFitsAsync();
    }

    [Fact]
    public async Task Wheel_zooms_only_a_chart_that_was_chosen()
    {
        await using Visit visit = await site.OpenAsync(1280);
        await visit.Page.GotoAsync("/");
        ILocator plot = visit.Page.Locator("figure[data-chart$='cycles'] .plot");
        await plot.ScrollIntoViewIfNeededAsync();
        await plot.HoverAsync();
        await visit.Page.Mouse.WheelAsync(0, -10);
        Assert.DoesNotContain("from=", visit.Page.Url, StringComparison.Ordinal);

        await plot.ClickAsync();
        await Assertions.Expect(plot).ToBeFocusedAsync();
        await visit.Page.Mouse.WheelAsync(0, -240);
        await Assertions.Expect(visit.Page).ToHaveURLAsync(new Regex("from="), new() { Timeout = 15_000 });
    }

    [Fact]
    public async Task Without_script_links_show_another_stretch_and_the_look_can_be_chosen()
    {
        await using Visit visit = await site.OpenAsync(390, new() { JavaScriptEnabled = false });
        await visit.Page.GotoAsync("/");
        await visit.Page.GetByRole(AriaRole.Link, new() { Name = "Closer" }).ClickAsync();
        await Assertions.Expect(visit.Page.Locator(".stretch output")).ToContainTextAsync("20 January to 18 February 2026");
        Assert.Contains("from=", visit.Page.Url, StringComparison.Ordinal);

        await visit.Page.GetByLabel("Look of this page").SelectOptionAsync("dark");
        await visit.Page.GetByRole(AriaRole.Button, new() { Name = "Set" }).ClickAsync();
        await Assertions.Expect(visit.Page.Locator("html")).ToHaveAttributeAsync("data-look", "dark");
        Assert.Contains("from=", visit.Page.Url, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Numbers_of_a_drawing_are_one_step_away_as_a_table()
    {
        await using Visit visit = await site.OpenAsync(390);
        await visit.Page.GotoAsync("/");
        ILocator figure = visit.Page.Locator("figure[data-chart$='water']");
        await figure.GetByText("The same numbers as a table").ClickAsync();
        await Assertions.Expect(figure.GetByRole(AriaRole.Row)).ToHaveCountAsync(61);
        await visit.AssertSoundAsync();
    }

    [Fact]
    public async Task Print_shows_ink_on_white_without_controls()
    {
        await using Visit visit = await site.OpenAsync(768, new() { ColorScheme = ColorScheme.Dark });
        await visit.Page.GotoAsync("/");
        await visit.Page.EmulateMediaAsync(new() { Media = Media.Print, ColorScheme = ColorScheme.Dark });
        Assert.Equal("rgb(255, 255, 255)", await visit.Page.EvaluateAsync<string>("getComputedStyle(document.documentElement).backgroundColor"));
        await Assertions.Expect(visit.Page.Locator("header nav")).ToBeHiddenAsync();
        await Assertions.Expect(visit.Page.Locator(".stretch ul")).ToBeHiddenAsync();
        await Assertions.Expect(visit.Page.Locator("svg.wide").First).ToBeVisibleAsync();
        byte[] pdf = await visit.Page.PdfAsync(new() { Format = "A4" });
        Assert.True(pdf.Length > 10_000);
    }

    private static async Task<(double From, double To)> DrawnAsync(ILocator plot)
    {
        ILocator svg = plot.Locator("svg.wide");
        return (double.Parse((await svg.GetAttributeAsync("data-from"))!, System.Globalization.CultureInfo.InvariantCulture),
            double.Parse((await svg.GetAttributeAsync("data-to"))!, System.Globalization.CultureInfo.InvariantCulture));
    }
}
