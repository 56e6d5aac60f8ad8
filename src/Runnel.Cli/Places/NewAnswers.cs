using System.Text.Json;
using NodaTime;
using Runnel.Exchange.Survey;
using Runnel.Place.PlaceFiles;
using Runnel.Web.YourLog;

namespace Runnel.Cli.Places;

/// <summary>What is to be asked for a first place file; the same questions and checks as on the page.</summary>
internal sealed class NewAnswers
{
    /// <summary>One thing a log cannot tell.</summary>
    /// <param name="Option">How it is given on the command line.</param>
    /// <param name="Field">Its name in the form.</param>
    /// <param name="Words">The question.</param>
    /// <param name="Hint">How to find the answer.</param>
    public sealed record Question(string Option, string Field, string Words, string Hint);

    public static readonly IReadOnlyList<Question> Questions =
    [
        new("--name", "name", "What do you call the place?", "Empty: My place."),
        new("--time-zone", "zone", "Time zone", "A name such as Australia/Sydney."),
        new("--latitude", "latitude", "Latitude", "Such as 34.2 S. Empty: that of the zone's town."),
        new("--longitude", "longitude", "Longitude", "Such as 150.6 E. Empty: that of the zone's town."),
        Of("--altitude", Web.YourLog.Question.Altitude),
        Of("--band", Web.YourLog.Question.Band),
        Of("--top-up-rate", Web.YourLog.Question.TopUpRate),
        Of("--bleed-rate", Web.YourLog.Question.BleedRate),
        Of("--open-water", Web.YourLog.Question.OpenWater),
        Of("--canopy", Web.YourLog.Question.Canopy),
        Of("--rain-catch", Web.YourLog.Question.RainCatch),
    ];

    private readonly LogSurvey _survey;
    private readonly Dictionary<string, string> _fields = [];

    public NewAnswers(LogSurvey survey)
    {
        _survey = survey;
        var guessed = ColumnsForm.Guessed(survey);
        for (int i = 0; i < survey.Channels.Count; i++) _fields[ColumnsForm.ChoiceField(i)] = guessed[ColumnsForm.ChoiceField(i)];
    }

    public void Set(string field, string? text)
    {
        if (text is not null) _fields[field] = text.Trim();
    }

    public bool IsSet(string field) => _fields.ContainsKey(field);

    /// <summary>What a channel of the log is taken as, or null where it is left out.</summary>
    public MeasureChoice? Choice(int channel) => MeasureChoice.Find(_fields[ColumnsForm.ChoiceField(channel)]);

    /// <summary>Takes <c>NAME=MEASURES[:OF]</c>, or <c>NAME=</c> to leave the channel out; the error in words, or null.</summary>
    public string? Change(string text)
    {
        int equals = text.LastIndexOf('=');
        if (equals < 0) return $"'{text}' has no equals sign";
        string name = text[..equals].Trim();
        string value = text[(equals + 1)..].Trim();
        int channel = Enumerable.Range(0, _survey.Channels.Count).FirstOrDefault(i => _survey.Channels[i].Name == name, -1);
        if (channel < 0) return $"the log has no channel '{name}'; it has {string.Join(", ", _survey.Channels.Select(c => c.Name))}";
        if (value.Length > 0 && MeasureChoice.Find(value) is null)
            return $"'{value}' is none of {string.Join(", ", MeasureChoice.All.Select(c => c.Value))}";
        _fields[ColumnsForm.ChoiceField(channel)] = value;
        return null;
    }

    /// <summary>A rate is asked only where the log shows the valve's times.</summary>
    public bool IsWanted(Question question) => question.Option switch
    {
        "--top-up-rate" => Opens("running:top-up"),
        "--bleed-rate" => Opens("running:bleed"),
        "--band" => Has("running:sump-pump") || Has("power:sump-pump") || Has("current:sump-pump"),
        _ => true,
    };

    /// <summary>The answers, or null and what is wrong, each with the option that mends it.</summary>
    public PlaceAnswers? Check(out IReadOnlyList<(string Option, string Words)> errors)
    {
        var form = ColumnsForm.Remembered(JsonSerializer.Serialize(_fields))!;
        var answers = form.Check(_survey);
        errors = [.. form.Errors.Select(e => (OptionOf(e.Field), e.Words))];
        return answers;
    }

    public void Forget(string option) => _fields.Remove(Questions.First(q => q.Option == option).Field);

    /// <summary>This computer's zone, where it is a place's and not that of a server.</summary>
    public static string? ZoneOfThisComputer()
    {
        try
        {
            return Zones.Find(DateTimeZoneProviders.Tzdb.GetSystemDefault().Id)?.Id;
        }
        catch (NodaTime.TimeZones.DateTimeZoneNotFoundException)
        {
            return null;
        }
    }

    private static Question Of(string option, Web.YourLog.Question question) =>
        new(option, question.Name, $"{question.Words}, {question.Unit}", question.Hint);

    private static string OptionOf(string field) => Questions.FirstOrDefault(q => q.Field == field)?.Option ?? "--channel";

    /// <summary>A valve that stayed shut throughout needs no rate.</summary>
    private bool Opens(string choice) =>
        Enumerable.Range(0, _survey.Channels.Count).Any(i => _fields[ColumnsForm.ChoiceField(i)] == choice && _survey.Channels[i].Statistics.Greatest > 0);

    private bool Has(string choice) => Enumerable.Range(0, _survey.Channels.Count).Any(i => _fields[ColumnsForm.ChoiceField(i)] == choice);
}
