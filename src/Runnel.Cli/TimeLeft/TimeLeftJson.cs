using System.Text.Json;
using Runnel.Place;
using Runnel.Twin.Oxygen;

namespace Runnel.Cli.TimeLeft;

/// <summary>Time left for scripts; null: not within two days.</summary>
internal static class TimeLeftJson
{
    private static readonly JsonSerializerOptions Indented = new() { WriteIndented = true };

    public static string Write(PlaceDescription place, Twin.Oxygen.TimeLeft left) => JsonSerializer.Serialize(
        new
        {
            place = place.Name,
            water_temp_c = left.WaterTempC,
            members = left.Members,
            tanks = left.Tanks.Select(t => new
            {
                id = t.Vessel,
                volume_l = t.VolumeL,
                fish = t.Groups.Select(g => new { id = g.Id, species = g.Species, count = g.Count, mean_weight_g = g.MeanWeightG }),
                oxygen_mg_l = t.StartMgPerL,
                oxygen_low_mg_l = t.StartLowMgPerL,
                oxygen_measured = t.StartMeasured,
                stress_below_mg_l = t.Need.StressMgPerL,
                stress_source = t.Need.Stress.Source,
                danger_below_mg_l = t.Need.DangerMgPerL,
                danger_source = t.Need.Danger.Source,
                times = t.Times.Select(x => new
                {
                    outage = x.Outage switch { Outage.AirStops => "air", Outage.PumpStops => "pump", _ => "air-and-pump" },
                    hour = x.Hour == OutageHour.Usual ? "usual" : "worst",
                    with_backup = x.WithBackup,
                    to_stress_s = Seconds(x.ToStress),
                    to_danger_s = Seconds(x.ToDanger),
                }),
            }),
            backups = left.Backups.Select(b => new { id = b.Id, at_least_s = b.Hours * 3600 }),
        },
        Indented) + "\n";

    private static object Seconds(TimeToLevel t) => new { at_least = S(t.AtLeastH), low = S(t.LowH), expected = S(t.ExpectedH), high = S(t.HighH) };

    private static double? S(double hours) => double.IsInfinity(hours) ? null : Math.Round(hours * 3600);
}
