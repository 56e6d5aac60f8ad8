using System.Net;
using System.Text.Json;
using Microsoft.Playwright;
using Runnel.Science.Reckoning;

namespace Runnel.Browser.Tests.Reckoner;

public sealed class ReckonerTests(Site site)
{
    // Source: UF/IFAS Extension FA16, worked example: 1 mg/L at pH 8 and 24 °C (75.2 °F) holds 0.0502 mg/L of un-ionised ammonia.
    [Fact]
    public async Task A_water_test_is_answered_on_a_phone_without_script_and_the_link_carries_it()
    {
        await using Visit visit = await site.OpenAsync(390, new() { JavaScriptEnabled = false });
        await visit.Page.GotoAsync("/reckoner");
        await visit.Page.GetByRole(AriaRole.Link, new() { Name = "Is my ammonia harmful?" }).First.ClickAsync();
        await visit.Page.GetByLabel("Water temperature", new() { Exact = true }).FillAsync("75.2");
        await visit.Page.GetByLabel("Unit of Water temperature").SelectOptionAsync("degF");
        await visit.Page.GetByLabel("pH", new() { Exact = true }).FillAsync("8");
        await visit.Page.GetByLabel("Total ammonia nitrogen", new() { Exact = true }).FillAsync("1");
        await visit.Page.GetByRole(AriaRole.Button, new() { Name = "Reckon" }).ClickAsync();
        ILocator answer = visit.Page.Locator("#answer");
        await Assertions.Expect(answer.Locator(".say")).ToContainTextAsync("0.0502 mg/L as N. Harm begins at 0.05 mg/L");
        await Assertions.Expect(answer.Locator(".cautions")).ToContainTextAsync("a vet who knows fish");
        string link = (await answer.GetByRole(AriaRole.Link, new() { Name = "A link that carries these figures" }).GetAttributeAsync("href"))!;
        Assert.Equal("/reckoner/ammonia?temp_c=75.2&temp_c-unit=degF&ph=8&tan_mg_n_l=1", link);
        await answer.GetByText("Formula and source").ClickAsync();
        await Assertions.Expect(answer.GetByText("Emerson, Russo, Lund and Thurston (1975)").First).ToBeVisibleAsync();
    }

    // From the reckoner's first page one tap reaches the question, and the answer stands first, in type of 2 rem and more.
    [Theory]
    [InlineData("Is my ammonia harmful?", "0.0537 mg/L as N")]
    [InlineData("How much bicarbonate?", "40 g")]
    [InlineData("How long can they go without air?", "40 min")]
    public async Task What_is_asked_most_is_one_tap_away_and_answered_in_large_type(string question, string answer)
    {
        await using Visit visit = await site.OpenAsync(390);
        await visit.Page.GotoAsync("/reckoner");
        ILocator most = visit.Page.GetByRole(AriaRole.Navigation, new() { Name = "Asked most" }).GetByRole(AriaRole.Link, new() { Name = question });
        await Assertions.Expect(most).ToBeInViewportAsync();
        await most.ClickAsync();
        ILocator figure = visit.Page.Locator("#answer .headline b");
        await Assertions.Expect(figure).ToHaveTextAsync(answer);
        Assert.True(await figure.EvaluateAsync<double>("e => parseFloat(getComputedStyle(e).fontSize)") >= 32);
        await Assertions.Expect(visit.Page.Locator("#answer .cautions")).ToContainTextAsync("local rules");
        await visit.AssertSoundAsync();
    }

    // Source: Reda and Andreas (2004), table A5.1: zenith 50.1116 degrees, so 39.9 degrees above the horizon, at 194.3 degrees.
    [Fact]
    public async Task Inputs_that_go_together_in_several_ways_stand_once_and_dates_have_their_own_fields()
    {
        await using Visit visit = await site.OpenAsync(768);
        await visit.Page.GotoAsync("/reckoner/air");
        Assert.Equal(1, await visit.Page.Locator("#dry_bulb_c").CountAsync());
        await visit.Page.GetByLabel("Air temperature", new() { Exact = true }).FillAsync("");
        await visit.Page.GetByLabel("Dew point", new() { Exact = true }).FillAsync("20");
        await visit.Page.GetByRole(AriaRole.Button, new() { Name = "Reckon" }).ClickAsync();
        await Assertions.Expect(visit.Page.Locator("#answer .say")).ToContainTextAsync("70 % humidity, dew at 20 °C");
        await visit.AssertSoundAsync();

        await visit.Page.GotoAsync("/reckoner/sun");
        await visit.Page.GetByLabel("Latitude, south negative").FillAsync("39.742476");
        await visit.Page.GetByLabel("Longitude, west negative").FillAsync("-105.1786");
        await visit.Page.GetByLabel("Date by the clock").FillAsync("2003-10-17");
        await visit.Page.GetByLabel("The clock's hours ahead of universal time").First.FillAsync("-7");
        await visit.Page.GetByLabel("Time of day by the clock of that date").FillAsync("12:30");
        await visit.Page.GetByRole(AriaRole.Button, new() { Name = "Reckon" }).ClickAsync();
        await Assertions.Expect(visit.Page.Locator("#answer .say")).ToContainTextAsync("39.9° above the horizon, in the south (194° from north). It is up from 06:13");
        await visit.AssertSoundAsync();
    }

    [Theory]
    [InlineData("/reckoner/fish-limit", 390, ColorScheme.Dark)]
    [InlineData("/reckoner/sun", 390, ColorScheme.Dark)]
    [InlineData("/reckoner/thin-layer-moisture-ratio", 768, ColorScheme.Light)]
    [InlineData("/reckoner", 1280, ColorScheme.Dark)]
    [InlineData("/reckoner", 390, ColorScheme.Light)]
    [InlineData("/reckoner/eto-daily", 390, ColorScheme.Dark)]
    [InlineData("/reckoner/dose-to-raise-alkalinity", 1280, ColorScheme.Light)]
    public async Task Pages_are_sound(string address, int width, ColorScheme scheme)
    {
        await using Visit visit = await site.OpenAsync(width, new() { ColorScheme = scheme });
        await visit.Page.GotoAsync(address);
        await visit.AssertSoundAsync();
    }

    [Fact]
    public async Task A_figure_out_of_range_is_told_under_its_field_in_the_unit_chosen()
    {
        await using Visit visit = await site.OpenAsync(390);
        await visit.Page.GotoAsync("/reckoner/ammonia?temp_c=200&temp_c-unit=degF&ph=&tan_mg_n_l=1");
        await Assertions.Expect(visit.Page.Locator(".field:has(#temp_c) .err")).ToContainTextAsync("32 to 122 °F");
        await Assertions.Expect(visit.Page.Locator(".field:has(#ph) .err")).ToContainTextAsync("pH is missing");
        await Assertions.Expect(visit.Page.Locator("#temp_c")).ToHaveValueAsync("200");
        await visit.AssertSoundAsync(422);
    }

    [Fact]
    public async Task Every_relation_has_a_page_that_answers_its_example_with_chart_cautions_and_source()
    {
        using var http = new HttpClient { BaseAddress = new Uri(site.Address) };
        foreach (Relation relation in Catalogue.All)
        {
            using HttpResponseMessage response = await http.GetAsync($"/reckoner/{relation.Name}", TestContext.Current.CancellationToken);
            string page = await response.Content.ReadAsStringAsync(TestContext.Current.CancellationToken);
            Assert.True(response.StatusCode == HttpStatusCode.OK, $"{relation.Name}: {response.StatusCode}");
            Assert.Contains(relation.Question, WebUtility.HtmlDecode(page), StringComparison.Ordinal);
            Assert.Contains("What it says of the example", page, StringComparison.Ordinal);
            if (relation.Along is not null) Assert.True(page.Contains("<svg", StringComparison.Ordinal), $"{relation.Name} has no chart");
            Assert.DoesNotContain("NaN", page[page.IndexOf("<main", StringComparison.Ordinal)..page.IndexOf("</main", StringComparison.Ordinal)], StringComparison.Ordinal);
        }

        Assert.Equal(HttpStatusCode.NotFound, (await http.GetAsync("/reckoner/no-such-sum", TestContext.Current.CancellationToken)).StatusCode);
    }

    [Fact]
    public async Task The_api_answers_refuses_with_problem_details_and_describes_itself()
    {
        using var http = new HttpClient { BaseAddress = new Uri(site.Address) };
        using JsonDocument good = await JsonAsync(http, "/api/reckoner/ammonia?temp_c=24&ph=8&tan_mg_n_l=1", HttpStatusCode.OK, "application/json");
        Assert.Equal(0.0502, good.RootElement.GetProperty("results").GetProperty("nh3_mg_n_l").GetDouble(), 0.0001);

        using JsonDocument bad = await JsonAsync(http, "/api/reckoner/ammonia?temp_c=NaN&ph=8&ph=7", HttpStatusCode.UnprocessableEntity, "application/problem+json");
        Assert.Equal(422, bad.RootElement.GetProperty("status").GetInt32());
        Assert.Contains("0 to 50 degC", bad.RootElement.GetProperty("errors").GetProperty("temp_c")[0].GetString(), StringComparison.Ordinal);
        Assert.Contains("twice", bad.RootElement.GetProperty("errors").GetProperty("ph")[0].GetString(), StringComparison.Ordinal);
        using JsonDocument none = await JsonAsync(http, "/api/reckoner/amonia", HttpStatusCode.NotFound, "application/problem+json");

        using JsonDocument list = await JsonAsync(http, "/api/reckoner", HttpStatusCode.OK, "application/json");
        Assert.Equal(Catalogue.All.Count, list.RootElement.GetArrayLength());
        using JsonDocument described = await JsonAsync(http, "/api/openapi.json", HttpStatusCode.OK, "application/json");
        JsonElement parameter = described.RootElement.GetProperty("paths").GetProperty("/api/reckoner/ammonia").GetProperty("get").GetProperty("parameters")[0];
        Assert.Equal("temp_c", parameter.GetProperty("name").GetString());
        Assert.True(parameter.GetProperty("required").GetBoolean());
        Assert.Equal(50, parameter.GetProperty("schema").GetProperty("maximum").GetDouble());
    }

    private static async Task<JsonDocument> JsonAsync(HttpClient http, string address, HttpStatusCode status, string mediaType)
    {
        using HttpResponseMessage response = await http.GetAsync(address, TestContext.Current.CancellationToken);
        Assert.Equal(status, response.StatusCode);
        Assert.Equal(mediaType, response.Content.Headers.ContentType?.MediaType);
        return JsonDocument.Parse(await response.Content.ReadAsStringAsync(TestContext.Current.CancellationToken));
    }
}
