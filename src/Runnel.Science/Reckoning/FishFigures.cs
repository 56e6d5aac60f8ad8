using Runnel.Science.Fish;
using static Runnel.Science.Reckoning.Ask;

namespace Runnel.Science.Reckoning;

/// <summary>What the limits of fish say of a level.</summary>
internal static class FishFigures
{
    private static readonly Input Species = Word("species", "fish", "Nile tilapia") with { Offers = [.. FishLimits.Species.Select(s => (s, s))] };

    private static readonly string[] Deadly = ["die", "death", "lethal"];

    public static readonly Relation TemperatureDecision = new("temperature-decision", "Do I feed at this water temperature?")
    {
        Explanation = "What the published limits of a fish ask of its keeper at a water temperature. Where sources differ, the stricter one speaks.",
        Inputs = [Species, WaterTemp],
        Outputs = [new("decision", "word", "what to do"), new("because", "word", "limits that say so")],
        Formula = "every limit of that fish that holds at that temperature",
        Source = "Limits of the fish, each with its source in the result; the tables of reference data list them all.",
        Cautions = [Caution.FishLaw],
        Reckon = g =>
        {
            var trouble = Trouble(g.Word("species"), "water-temperature", g["temp_c"]);
            if (trouble.Any(l => l.Act == FishAct.Alarm && Deadly.Any(d => l.Says.Contains(d, StringComparison.Ordinal)))) return ["alarm: lethal", Because(trouble)];
            var acts = trouble.Select(l => l.Act).Where(a => a != FishAct.None).Distinct().Order().ToList();
            // Who feeds nothing need not be told to feed less.
            if (acts.Contains(FishAct.StopFeeding)) acts.Remove(FishAct.CutFeed);
            return [acts.Count == 0 ? "feed normally" : string.Join("; ", acts.Select(Words)), Because(trouble) ?? "no limit that is listed speaks against it"];
        },
        Meaning = a => Asking(a.Say("decision")),
    };

    public static readonly Relation Comfort = new("fish-limit", "Is this water right for my fish?")
    {
        Explanation = "How a level suits a fish by all published limits together; where they differ, the stricter one counts. Levels in mg/L as the limit has them (it is named with the result), temperatures in °C.",
        Inputs =
        [
            Species,
            Word("quantity", "what was measured", "water-temperature", [.. FishLimits.All.Where(l => l.Value is not null && l.Grade != FishLimitGrade.Fact).Select(l => l.Quantity).Distinct()]),
            Number("level", "1", "level: °C, mg/L (nitrite and ammonia as the limit counts them) or pH", -5, 1e5, "28"),
        ],
        Outputs = [new("verdict", "word", "verdict"), new("because", "word", "limits that it rests on")],
        Formula = "every limit of that fish on that quantity",
        Source = "Limits of the fish, each with its source in the result; the tables of reference data list them all.",
        Cautions = [Caution.FishLaw, Caution.TestKit],
        Reckon = g =>
        {
            _ = Known(g.Word("species"));
            var judged = FishLimits.Judge(g.Word("species"), g.Word("quantity"), g["level"]);
            string verdict = judged.Comfort switch
            {
                FishComfort.Comfort => "comfort",
                FishComfort.OutsideComfort => "outside comfort",
                FishComfort.Stress => "stress",
                FishComfort.Danger => "danger",
                _ => "nothing known",
            };
            return [verdict, Because(judged.Because) ?? "none is listed"];
        },
        Meaning = a => a.Say("verdict") switch
        {
            "comfort" => "Within what every source calls good.",
            "outside comfort" => "Outside of what some source calls good; no source names harm there.",
            "stress" => "Some source has fish suffer there: growth, feeding, gills or disease.",
            "danger" => "Some source has fish die there. Act now.",
            _ => "No limit of this quantity is known for this fish.",
        },
    };

    private static IReadOnlyList<FishLimit> Trouble(string species, string quantity, double level) => FishLimits.Trouble(Known(species), quantity, level);

    private static string Known(string species) => FishLimits.Of(species).Any() ? species
        : throw new RefusedInputException(new Problem("species", $"\"{species}\" is not listed", $"Listed: {string.Join(", ", FishLimits.Species)}"));

    private static string? Because(IReadOnlyList<FishLimit> limits) =>
        limits.Count == 0 ? null : string.Join("; ", limits.Select(l => $"{l.Says}{(l.Value is { } v ? " " + (v.Least == v.Greatest ? Figure.Brief(v.Least) : $"{Figure.Brief(v.Least)} to {Figure.Brief(v.Greatest)}") : "")}{(l.Unit == "1" ? "" : " " + Figure.Pretty(l.Unit == "Cel" ? "degC" : l.Unit))}{(l.As.Length > 0 ? " as " + l.As : "")} ({l.Source})").Distinct());

    private static string Words(FishAct act) => act switch
    {
        FishAct.Alarm => "alarm",
        FishAct.StopFeeding => "stop feeding",
        FishAct.CutFeed => "growth poor: cut feed",
        FishAct.DoNotHandle => "do not handle",
        FishAct.RaiseAeration => "raise aeration",
        _ => "",
    };

    private static string Asking(string decision) => decision == "feed normally" ? "Nothing speaks against feeding normally."
        : decision == "alarm: lethal" ? "Fish die at this temperature. Act now." : char.ToUpperInvariant(decision[0]) + decision[1..].Replace("growth poor: ", "", StringComparison.Ordinal) + ".";
}
