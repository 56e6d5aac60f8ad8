using System.Text.Json;
using Runnel.Place;
using Runnel.Twin.Heat;
using Runnel.Twin.Water;

namespace Runnel.Cli.Forecast;

/// <summary>A forecast for scripts.</summary>
internal static class ForecastJson
{
    public static string Write(PlaceDescription place, ForecastOptions options, ForecastWeather? sky, WaterForecast forecast) => JsonSerializer.Serialize(
        new
        {
            place = place.Name,
            days = options.Days,
            start = Start(sky),
            weather = Weather(sky),
            evaporation_mm_day = sky is null ? options.EvaporationMmPerDay : (double?)null,
            rain_mm_day = sky is null ? options.RainMmPerDay : (double?)null,
            hydraulics = forecast.IsAveraged ? "averaged" : "detailed",
            why_detailed = forecast.WhyNotAveraged,
            faults = options.Faults.Select(f => new { name = f.Fault.Name, of = f.Fault.Of, rate = f.Fault.Rate, at_s = f.AtS }),
            vessels = forecast.Vessels.Select(v => new
            {
                id = v.Id,
                rim_mm = Mm(v.RimM),
                start_mm = Mm(v.StartM),
                end_mm = Mm(v.EndM),
                low_mm = Mm(v.LowM),
                high_mm = Mm(v.HighM),
                high_at_s = v.HighAtS,
                outflow_l_min = v.MeanOutL,
                volume_l = v.VolumeL,
                spilled_l = v.SpilledL,
                spills_to = v.SpillsTo,
                first_spill_s = v.FirstSpillS,
                spill_s = v.SpillS,
                temperature_c = v.Temperatures is { } t ? new { start = C(t.StartC), low = C(t.LowC), mean = C(t.MeanC), high = C(t.HighC), end = C(t.EndC) } : null,
            }),
            pumps = forecast.Pumps.Select(p => new
            {
                id = p.Id,
                starts = p.Starts,
                most_starts_per_h = p.MostStartsPerH,
                run_s = p.RunS,
                delivered_l = p.DeliveredL,
                flow_l_min = p.FlowLPerMin,
                mean_fill_s = p.MeanFillS,
                mean_run_s = p.MeanRunS,
            }),
            valves = forecast.Valves.Select(v => new { id = v.Id, openings = v.Openings, let_l = v.LetL }),
            water = new
            {
                came_l = forecast.Totals.CameL,
                rain_l = forecast.Totals.RainL,
                lost_l = forecast.Totals.LostL,
                spilled_l = forecast.Totals.SpilledL,
                left_l = forecast.Totals.LeftL,
                leaked_l = forecast.Totals.LeakedL,
                drawn_l = forecast.Totals.DrawnL,
                stored_l = forecast.Totals.StoredL,
                balance_l = forecast.Totals.BalanceL,
                water_l = forecast.Totals.WaterL,
            },
            heat = Heat(forecast.Heat),
            work = new { steps = forecast.Statistics.Steps, rejected = forecast.Statistics.Rejected, rate_calls = forecast.Statistics.RateCalls, events = forecast.Statistics.Events },
        }) + "\n";

    /// <summary>When a forecast begins, for scripts.</summary>
    internal static string? Start(ForecastWeather? sky) => sky is null ? null : NodaTime.Text.InstantPattern.General.Format(sky.Start);

    /// <summary>The weather it assumes.</summary>
    internal static object? Weather(ForecastWeather? sky) => sky is null ? null : new { source = sky.Told, notes = sky.Notes, seed = sky.Seed };

    internal static double C(double tempC) => Math.Round(tempC, 4);

    private static object? Heat(HeatTotals? heat) => heat is null ? null : new
    {
        sun_mj = heat.SunMJ,
        long_wave_mj = heat.LongWaveMJ,
        convection_mj = heat.ConvectionMJ,
        evaporation_mj = heat.EvaporationMJ,
        walls_mj = heat.WallsMJ,
        equipment_mj = heat.EquipmentMJ,
        came_mj = heat.CameMJ,
        left_mj = heat.LeftMJ,
        stored_mj = heat.StoredMJ,
        balance_mj = heat.BalanceMJ,
        moved_mj = heat.MovedMJ,
    };

    // To a millionth of a millimetre: what lies beyond is rounding.
    private static double? Mm(double? m) => m is { } known ? Math.Round(known * 1000, 6) : null;
}
