using Runnel.Cli.Findings;
using Runnel.Place;
using Runnel.Twin.Oxygen;

namespace Runnel.Cli.TimeLeft;

/// <summary>Time left as people read it: the cautious end first.</summary>
internal static class TimeLeftText
{
    public static string Render(PlaceDescription place, Twin.Oxygen.TimeLeft left)
    {
        var page = new PlainText(100);
        page.Sentence($"{place.Name}: how long the fish have, with water of {left.WaterTempC:0.#} °C.");
        foreach (var tank in left.Tanks)
        {
            page.Heading(tank.Vessel);
            page.Sentence(
                $"{string.Join(", ", tank.Groups.Select(g => $"{g.Count} {g.Species} of {g.MeanWeightG:0} g"))} in {tank.VolumeL:0} L. Oxygen to begin from: "
                + $"{tank.StartMgPerL:0.0} mg/L{(tank.StartMeasured ? ", as measured" : $" ({tank.StartLowMgPerL:0.0} at the low end), reckoned{(tank.AirTold ? "" : " without knowing the air pump")}")}.");
            page.Table(
                ["if this stops", "they suffer after", "expected", "some die after", "expected"],
                [.. Rows(tank)]);
            page.Sentence(
                $"They suffer below {tank.Need.StressMgPerL:0.#} mg/L ({tank.Need.Stress.Source}) and die below {tank.Need.DangerMgPerL:0.#} mg/L ({tank.Need.Danger.Source})."
                + (tank.Need.Known ? "" : " This species is not among those listed; the stricter limits of cold-water fish stand in.")
                + (tank.UptakeStandsIn ? " How much oxygen the species uses is not among the published models here; the thirstiest of its group stands in." : ""));
        }

        page.Heading("Backup air");
        if (left.Backups.Count == 0)
        {
            page.Sentence(place.Fish!.Air.Any(a => a.IsBackup)
                ? "The file names backup air, but not its battery (energy = \"... Wh\") and what it draws (rated-power)."
                : "The file names none. An air pump on its own battery, switched on by a relay when the mains fail, is what saves fish by night.");
        }

        foreach (var backup in left.Backups) page.Sentence($"{backup.Id} lasts at least {Span(backup.Hours)} on its battery, if it is charged.");
        page.Blank().Sentence(
            $"At least: {left.Members} likely loops were reckoned about what the file tells, and 98 in 100 last longer; rounded down. Worst hour: after the evening meal, the water a "
            + "degree warmer. Fish that gasp at the surface say more than any reckoning. Air first, then the pump; switch off at the wall and dry your hands before you touch a plug near water.");
        return page.ToString();
    }

    private static IEnumerable<IReadOnlyList<string>> Rows(TankTimeLeft tank)
    {
        foreach (var t in tank.Times.OrderBy(t => t.Hour).ThenBy(t => t.Outage).ThenBy(t => t.WithBackup))
        {
            string what = t.Outage switch
            {
                Outage.AirStops => "air",
                Outage.PumpStops => "pump",
                _ => "air and pump",
            };
            yield return
            [
                $"{what}{(t.WithBackup ? ", backup on" : "")}{(t.Hour == OutageHour.Worst ? ", worst hour" : "")}",
                AtLeast(t.ToStress), Span(t.ToStress.ExpectedH), AtLeast(t.ToDanger), Span(t.ToDanger.ExpectedH),
            ];
        }
    }

    private static string AtLeast(TimeToLevel time) => double.IsInfinity(time.AtLeastH) ? Span(time.AtLeastH) : $"at least {Span(time.AtLeastH)}";

    /// <summary>Hours as people say them.</summary>
    internal static string Span(double hours)
    {
        if (double.IsInfinity(hours)) return "not in 2 days";
        int minutes = (int)Math.Floor((hours * 60) + 1e-6);
        return minutes < 120 ? $"{minutes} min" : minutes % 60 == 0 || minutes >= 720 ? $"{minutes / 60} h" : $"{minutes / 60} h {minutes % 60} min";
    }
}
