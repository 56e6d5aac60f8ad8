using System.Globalization;
using System.Text.Json;
using Microsoft.AspNetCore.Http;
using Runnel.Exchange.Survey;
using Runnel.Place;
using Runnel.Place.PlaceFiles;
using Runnel.Web.Words;

namespace Runnel.Web.YourLog;

/// <summary>Columns and answers as entered, checked, and turned into what a place file is written from.</summary>
public sealed class ColumnsForm
{
    private readonly Dictionary<string, string> _entered;
    private readonly List<FieldError> _errors = [];

    private ColumnsForm(Dictionary<string, string> entered) => _entered = entered;

    public IReadOnlyList<FieldError> Errors => _errors;

    /// <summary>What stands in a field.</summary>
    public string this[string field] => _entered.GetValueOrDefault(field, "");

    public static string ChoiceField(int column) => string.Create(CultureInfo.InvariantCulture, $"c{column}");

    public static string UnitField(int column) => string.Create(CultureInfo.InvariantCulture, $"u{column}");

    /// <summary>The guesses, to be confirmed.</summary>
    public static ColumnsForm Guessed(LogSurvey survey)
    {
        var entered = new Dictionary<string, string>();
        for (int i = 0; i < survey.Channels.Count; i++) entered[ChoiceField(i)] = GuessedChoice(survey.Channels[i])?.Value ?? "";
        return new(entered);
    }

    /// <summary>What was posted.</summary>
    public static ColumnsForm Posted(IFormCollection form) =>
        new(form.Where(f => !f.Key.StartsWith('_')).ToDictionary(f => f.Key, f => f.Value.ToString().Trim()));

    /// <summary>What was entered before, as <see cref="ToMemory"/> wrote it; null where that cannot be read.</summary>
    public static ColumnsForm? Remembered(string memory)
    {
        try
        {
            return JsonSerializer.Deserialize<Dictionary<string, string>>(memory) is { } entered ? new(entered) : null;
        }
        catch (JsonException)
        {
            return null;
        }
    }

    public string ToMemory() => JsonSerializer.Serialize(_entered);

    /// <summary>Answers about the same household's earlier log, kept where this log tells nothing else: all but the columns.</summary>
    public ColumnsForm WithPlaceOf(ColumnsForm? earlier)
    {
        if (earlier is null) return this;
        var entered = new Dictionary<string, string>(_entered);
        foreach ((string field, string text) in earlier._entered.Where(f => !IsColumn(f.Key))) entered[field] = text;
        return new(entered);
    }

    private static bool IsColumn(string field) => field.Length > 1 && field[0] is 'c' or 'u' && field[1..].All(char.IsAsciiDigit);

    /// <summary>Brings what the place file's own checks refuse (a unit that is none, say) back to the fields; true where there was any.</summary>
    public bool Refuse(IReadOnlyList<PlaceProblem> problems, PlaceAnswers answers, LogSurvey survey)
    {
        foreach (PlaceProblem problem in problems)
        {
            string? column = answers.Channels.FirstOrDefault(c => problem.KeyPath.StartsWith($"channel.{c.Id}.", StringComparison.Ordinal))?.Column;
            int at = column is null ? -1 : survey.Channels.ToList().FindIndex(c => c.Name == column);
            string field = at < 0 ? "" : problem.KeyPath.EndsWith(".unit", StringComparison.Ordinal) ? UnitField(at) : ChoiceField(at);
            _errors.Add(new(field, $"{(column is null ? "" : column + ": ")}{problem.What}. {problem.Remedy}."));
        }

        return _errors.Count > 0;
    }

    /// <summary>The answers, or null with all that is wrong in <see cref="Errors"/>.</summary>
    public PlaceAnswers? Check(LogSurvey survey)
    {
        List<ChannelAnswer> channels = Channels(survey);
        bool Has(string of, params Quantity[] measures) => channels.Any(c => c.Of == of && measures.Contains(c.Measures));
        bool pump = Has("sump-pump", Quantity.Running, Quantity.Power, Quantity.Current), level = Has("sump", Quantity.Level);
        if (!pump && !level)
            _errors.Add(new(ChoiceField(0), "No column shows the pump or the sump's level. Say which one does: without it a loop cannot be read."));

        Zones.Zone? zone = Zones.Find(this["zone"]);
        if (zone is null) _errors.Add(new("zone", "No time zone was chosen. Days are counted in it, and sun and season follow from it."));
        double? latitude = Angle("latitude", 'N', 'S', 90, "34.2 S"), longitude = Angle("longitude", 'E', 'W', 180, "150.6 E");
        double? altitude = Number(Question.Altitude, false, "");
        double? band = Number(Question.Band, pump && !level, "Cycles turn into litres by it.");
        double? topUp = Number(Question.TopUpRate, Opens(survey, "running:top-up"), "The log shows the top-up's times; this turns them into litres.");
        double? bleed = Number(Question.BleedRate, Opens(survey, "running:bleed"), "The log shows the bleed's times; this turns them into litres.");
        double? openWater = Number(Question.OpenWater, false, ""), canopy = Number(Question.Canopy, false, ""), rain = Number(Question.RainCatch, false, "");
        if (_errors.Count > 0) return null;

        return new()
        {
            Name = this["name"].Length > 0 ? this["name"] : "My place",
            LatitudeDeg = latitude ?? Math.Round(zone!.LatitudeDeg, 2),
            LongitudeDeg = longitude ?? Math.Round(zone!.LongitudeDeg, 2),
            AltitudeM = altitude ?? 0,
            TimeZone = zone!.Id,
            BandL = band,
            TopUpRateLPerMin = topUp,
            BleedRateLPerMin = bleed,
            OpenWaterM2 = openWater,
            CanopyM2 = canopy,
            RainCatchM2 = rain,
            Channels = channels,
        };
    }

    /// <summary>A valve that stayed shut throughout needs no rate.</summary>
    private bool Opens(LogSurvey survey, string choice) =>
        Enumerable.Range(0, survey.Channels.Count).Any(i => this[ChoiceField(i)] == choice && survey.Channels[i].Statistics.Greatest > 0);

    private List<ChannelAnswer> Channels(LogSurvey survey)
    {
        var channels = new List<ChannelAnswer>();
        var taken = new HashSet<string>();
        for (int i = 0; i < survey.Channels.Count; i++)
        {
            if (MeasureChoice.Find(this[ChoiceField(i)]) is not { } choice) continue;
            string id = PlaceFileWriter.IdFor(survey.Channels[i].Name, taken);
            taken.Add(id);
            string? unit = this[UnitField(i)] is { Length: > 0 } told ? told : null;
            // Raw values in another unit were recognised together with the quantity: that holds as long as neither was changed.
            ChannelGuess? guess = unit is null && choice == GuessedChoice(survey.Channels[i]) ? survey.Channels[i].Guess : null;
            channels.Add(new(id, choice.Measures, Numbered(choice, channels), survey.Channels[i].Name, unit, guess?.Scale ?? 1, guess?.Offset ?? 0));
        }

        return channels;
    }

    private static MeasureChoice? GuessedChoice(FoundChannel channel) =>
        channel.Guess is { } guess ? MeasureChoice.Nearest(guess.Measures, GuessWords.ThingOf(guess)) : null;

    /// <summary>A second fish tank's level is of <c>fish-tank-2</c>; a second reading of the one sump or pump stays with it.</summary>
    private static string? Numbered(MeasureChoice choice, List<ChannelAnswer> before)
    {
        int same = before.Count(c => c.Measures == choice.Measures && c.Of is { } of && choice.Of is { } own && of.StartsWith(own, StringComparison.Ordinal));
        return choice.Of is null || same == 0 || choice.Of is "sump" or "sump-pump" ? choice.Of : string.Create(CultureInfo.InvariantCulture, $"{choice.Of}-{same + 1}");
    }

    private double? Number(Question question, bool needed, string whyNeeded)
    {
        string text = this[question.Name];
        string range = $"{Figures.Number(question.Least, Figures.DecimalsFor(question.Least))} to {Figures.Number(question.Most)} {question.Unit}";
        if (text.Length == 0)
        {
            if (needed) _errors.Add(new(question.Name, $"{question.Words}: nothing was entered. {whyNeeded} Expected {range}."));
            return null;
        }

        double? value = Entered.Number(text, question.Unit) ?? Entered.Number(text, question.PlainUnit);
        if (value >= question.Least && value <= question.Most) return value;
        _errors.Add(new(question.Name, $"{question.Words}: found “{text}”, expected a number from {range}."));
        return null;
    }

    private double? Angle(string field, char plus, char minus, double most, string example)
    {
        string text = this[field];
        if (text.Length == 0) return null;
        double? angle = Entered.Angle(text, plus, minus, most);
        if (angle is null) _errors.Add(new(field, $"{char.ToUpperInvariant(field[0])}{field[1..]}: found “{text}”, expected degrees such as {example}."));
        return angle;
    }
}
