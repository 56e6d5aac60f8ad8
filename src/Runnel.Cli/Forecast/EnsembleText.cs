using Runnel.Cli.Findings;
using Runnel.Place;
using Runnel.Twin.Ensembles;
using Runnel.Twin.Water;

namespace Runnel.Cli.Forecast;

/// <summary>An ensemble as people read it: what nine in ten members stay above, the middle, what nine in ten stay below.</summary>
internal static class EnsembleText
{
    public static string Render(PlaceDescription place, ForecastOptions options, ForecastWeather? sky, EnsembleForecast forecast)
    {
        var page = new PlainText(100);
        page.Sentence($"{place.Name}: {ForecastText.Ahead(place, options, sky)}, {Wording.Count(forecast.Members)} members. {Verdict(forecast)}");
        page.Sentence("Three figures stand for what a tenth, half and nine tenths of the members lie below.");
        page.Heading("Levels");
        page.Table(
            ["vessel", "lowest", "highest", "spills in", "spilled"],
            [
                .. forecast.Vessels.Select(v => (IReadOnlyList<string>)
                    [v.Id, Three(v.LowM, x => x * 1000, 0, "mm"), Three(v.HighM, x => x * 1000, 0, "mm"), Wording.Percent(v.SpillShare), v.SpillShare > 0 ? Three(v.SpilledL, x => x, 0, "L") : "-"]),
            ]);
        if (forecast.Vessels.Any(v => v.LowC is not null))
        {
            page.Heading("Water temperatures");
            page.Table(
                ["vessel", "lowest", "highest", "ends"],
                [
                    .. forecast.Vessels.Select(v => (IReadOnlyList<string>)
                        [v.Id, Three(v.LowC!.Value, x => x, 1, "°C"), Three(v.HighC!.Value, x => x, 1, "°C"), Three(v.TempC[^1], x => x, 1, "°C")]),
                ]);
        }

        page.Heading("Pumps");
        page.Table(
            ["pump", "starts", "flow while it runs", "ran in all"],
            [
                .. forecast.Pumps.Select(p => (IReadOnlyList<string>)
                    [p.Id, Three(p.Starts, x => x, 0, ""), Three(p.FlowLPerMin, x => x, 1, "L/min"), Three(p.RunS, x => x / 3600, 1, "h")]),
            ]);
        page.Heading("Water");
        (string What, Quantiles L)[] moved = [("from outside", forecast.CameL), ("rain", forecast.RainL), ("to air and plants", forecast.LostL), ("spilled", forecast.SpilledL)];
        page.Table(["", "L"], [.. moved.Where(r => r.L.High != 0).Select(r => (IReadOnlyList<string>)[r.What, Three(r.L, x => x, 0, "L")])]);
        if (options.Faults.Count > 0) page.Blank().Sentence($"Gone wrong: {FaultNames.Told(options.Faults)}.");
        string left = forecast.Stopped > 0 ? $"{Wording.Count(forecast.Stopped, "member")} could not be reckoned to the end and are left out. " : "";
        page.Blank().Sentence(
            $"Assumed: {ForecastText.Assumed(options, sky)}; volumes, pump, fittings, valves, plants and shelter each off by as much as the guide to the twin tells; {ForecastText.Well(options)} fouled or worn. {left}"
            + $"{ForecastText.Hydraulics(forecast.IsAveraged, null)}Floats, cut-outs and overflows at the place stay what protects it.");
        foreach (string note in sky?.Notes ?? []) page.Sentence($"Note: {note}.");
        return page.ToString();
    }

    private static string Verdict(EnsembleForecast forecast)
    {
        string[] spills = [.. forecast.Vessels.Where(v => v.SpillShare > 0).Select(v => $"{v.Id} spills in {Wording.Percent(v.SpillShare)} of them.")];
        return spills.Length == 0 ? "Nothing spills in any." : string.Join(' ', spills);
    }

    private static string Three(Quantiles q, Func<double, double> to, int decimals, string unit) =>
        $"{Wording.Plain(to(q.Low), decimals)} / {Wording.Plain(to(q.Middle), decimals)} / {Wording.Plain(to(q.High), decimals)} {unit}".TrimEnd();
}
