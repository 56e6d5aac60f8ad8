using Runnel.Cli.Findings;
using Runnel.Place;
using Runnel.Twin.Water;

namespace Runnel.Cli.Forecast;

/// <summary>A forecast as people read it.</summary>
internal static class ForecastText
{
    public static string Render(PlaceDescription place, ForecastOptions options, ForecastWeather? sky, WaterForecast forecast)
    {
        var page = new PlainText(100);
        page.Sentence($"{place.Name}: {Ahead(place, options, sky)}. {Verdict(forecast)}");
        page.Heading("Levels");
        page.Table(
            ["vessel", "begins", "lowest", "highest", "ends", "rim", "flow out", "spilled"],
            [
                .. forecast.Vessels.Select(v => (IReadOnlyList<string>)
                [
                    v.Id, Mm(v.StartM), Mm(v.LowM), Mm(v.HighM), Mm(v.EndM), v.RimM is { } rim ? Mm(rim) : "-", v.MeanOutL > 0 ? $"{Wording.Figure(v.MeanOutL)} L/min" : "-",
                    v.SpilledL >= 0.05 ? $"{Wording.Litres(v.SpilledL)} L" : "-",
                ]),
            ]);
        if (forecast.Heat is not null)
        {
            page.Heading("Water temperatures");
            page.Table(
                ["vessel", "begins", "lowest", "mean", "highest", "ends"],
                [
                    .. forecast.Vessels.Select(v => (v.Id, T: v.Temperatures!)).Select(v => (IReadOnlyList<string>)
                        [v.Id, C(v.T.StartC), C(v.T.LowC), C(v.T.MeanC), C(v.T.HighC), C(v.T.EndC)]),
                ]);
        }

        page.Heading("Pumps");
        page.Table(
            ["pump", "starts", "most an hour", "fill", "run", "flow while it runs", "ran in all"],
            [
                .. forecast.Pumps.Select(p => (IReadOnlyList<string>)
                [
                    p.Id, Wording.Count(p.Starts), Wording.Count(p.MostStartsPerH), Wording.Seconds(p.MeanFillS), Wording.Seconds(p.MeanRunS),
                    $"{Wording.Figure(p.FlowLPerMin)} L/min", Wording.Seconds(p.RunS),
                ]),
            ]);
        page.Heading("Water");
        var t = forecast.Totals;
        (string What, double L)[] moved =
        [
            ("topped up", t.CameL + TankWater(place, forecast)), ("rain", t.RainL), ("to air and plants", -t.LostL), ("spilled", -t.SpilledL),
            ("led away", -t.LeftL), ("leaked", -t.LeakedL), ("drawn by people", -t.DrawnL), ("change in store", t.StoredL),
        ];
        page.Table(
            ["", "L", "L a day"],
            [
                .. moved.Where(r => r.L != 0 || r.What == "change in store")
                    .Select(r => (IReadOnlyList<string>)[r.What, Wording.Litres(r.L), Wording.Litres(r.L / options.Days)]),
            ]);
        if (options.Faults.Count > 0) page.Blank().Sentence($"Gone wrong: {FaultNames.Told(options.Faults)}.");
        page.Blank().Sentence(
            $"Assumed: {Assumed(options, sky)}, {Well(options)} fouled or worn. {Hydraulics(forecast.IsAveraged, forecast.WhyNotAveraged)}"
            + "Floats, cut-outs and overflows at the place stay what protects it.");
        foreach (string note in sky?.Notes ?? []) page.Sentence($"Note: {note}.");
        return page.ToString();
    }

    /// <summary>How far ahead, and from when.</summary>
    internal static string Ahead(PlaceDescription place, ForecastOptions options, ForecastWeather? sky) =>
        sky is null ? $"{Days(options.Days)} ahead" : $"{Days(options.Days)} from {Wording.At(sky.Start, place.Zone)}";

    /// <summary>What the weather takes and gives.</summary>
    internal static string Assumed(ForecastOptions options, ForecastWeather? sky) =>
        sky?.Told ?? FormattableString.Invariant($"{options.EvaporationMmPerDay:0.##} mm a day taken from open water and canopy, {options.RainMmPerDay:0.##} mm a day of rain");

    /// <summary>Whether every cycle was followed.</summary>
    internal static string Hydraulics(bool averaged, string? whyNot) =>
        averaged ? "Flows and levels are means over pump cycles; --detailed follows each. " : whyNot is null ? "" : $"Every pump cycle was followed, as {whyNot}. ";

    internal static string Well(ForecastOptions options) => options.Faults.Count > 0 ? "nothing else" : "nothing";

    internal static string C(double tempC) => $"{Wording.Plain(tempC, 1)} °C";

    // Water from a tank of the place's own is topped up as well, though it came from no outside.
    private static double TankWater(PlaceDescription place, WaterForecast forecast) =>
        place.Hydraulics!.Valves.Zip(forecast.Valves)
            .Where(v => place.FindVessel(v.First.From) is { Kind: VesselKind.RainTank }).Sum(v => v.Second.LetL);

    private static string Verdict(WaterForecast forecast)
    {
        List<string> said = [];
        foreach (var v in forecast.Vessels.Where(v => v.SpilledL >= 0.05))
        {
            said.Add(
                $"{v.Id} spills {Wording.Litres(v.SpilledL)} L to {v.SpillsTo}, first after {Wording.Seconds(v.FirstSpillS)}, for {Wording.Seconds(v.SpillS)} in all"
                + (forecast.IsAveraged ? "." : $"; its water stands {Mm(v.HighM - v.RimM!.Value)} over the rim at most."));
        }

        foreach (var p in forecast.Pumps)
        {
            if (p.DeliveredL < 0.1) said.Add($"{p.Id} delivers nothing.");
        }

        return said.Count == 0 ? "Nothing spills." : string.Join(' ', said);
    }

    internal static string Days(double days) => days == 1 ? "1 day" : FormattableString.Invariant($"{days:0.##} days");

    internal static string Mm(double m) => $"{Wording.Plain(m * 1000, 0)} mm";
}
