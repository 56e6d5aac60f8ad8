using System.Text.Json;
using Runnel.Place;
using Runnel.Twin.Ensembles;
using Runnel.Twin.Water;

namespace Runnel.Cli.Forecast;

/// <summary>An ensemble for scripts: every figure as its three quantiles.</summary>
internal static class EnsembleJson
{
    public static string Write(PlaceDescription place, ForecastOptions options, ForecastWeather? sky, EnsembleForecast forecast) => JsonSerializer.Serialize(
        new
        {
            place = place.Name,
            days = options.Days,
            members = forecast.Members,
            stopped = forecast.Stopped,
            start = ForecastJson.Start(sky),
            weather = ForecastJson.Weather(sky),
            evaporation_mm_day = sky is null ? options.EvaporationMmPerDay : (double?)null,
            rain_mm_day = sky is null ? options.RainMmPerDay : (double?)null,
            hydraulics = forecast.IsAveraged ? "averaged" : "detailed",
            vessels = forecast.Vessels.Select(v => new
            {
                id = v.Id,
                spill_share = v.SpillShare,
                spilled_l = Q(v.SpilledL),
                low_mm = Q(v.LowM, 1000),
                high_mm = Q(v.HighM, 1000),
                temperature_low_c = v.LowC is { } low ? Q(low) : null,
                temperature_high_c = v.HighC is { } high ? Q(high) : null,
            }),
            pumps = forecast.Pumps.Select(p => new { id = p.Id, starts = Q(p.Starts), run_s = Q(p.RunS), flow_l_min = Q(p.FlowLPerMin) }),
            water = new { came_l = Q(forecast.CameL), rain_l = Q(forecast.RainL), lost_l = Q(forecast.LostL), spilled_l = Q(forecast.SpilledL) },
            greatest_imbalance = forecast.GreatestImbalance,
            greatest_heat_imbalance = forecast.GreatestHeatImbalance,
        }) + "\n";

    private static object Q(Quantiles q, double by = 1) =>
        new { p10 = Math.Round(q.Low * by, 6), p50 = Math.Round(q.Middle * by, 6), p90 = Math.Round(q.High * by, 6) };
}
