using System.Text;
using Microsoft.AspNetCore.Components;
using Microsoft.AspNetCore.Http;
using Runnel.Exchange;
using Runnel.Exchange.Survey;
using Runnel.Place.PlaceFiles;
using Runnel.Web.Words;

namespace Runnel.Web.YourLog;

public sealed partial class ColumnsPage(DroppedLogs logs, LogSurveys surveys, DroppedFindings findings, NavigationManager nav) : ComponentBase
{
    private const string LastLogCookie = "last-log";

    [Parameter] public required string Id { get; set; }
    [CascadingParameter] public required HttpContext Http { get; set; }

    private DroppedLog? Log { get; set; }
    private LogSurvey? Survey { get; set; }
    private ColumnsForm Form { get; set; } = null!;
    private string? Problem { get; set; }

    private int Chosen => Enumerable.Range(0, Survey!.Channels.Count).Count(i => Form[ColumnsForm.ChoiceField(i)].Length > 0);

    protected override void OnInitialized()
    {
        Log = logs.Find(Id);
        if (Log is null)
        {
            nav.NotFound();
            return;
        }

        try
        {
            Survey = surveys.Of(Log, Http.RequestAborted);
        }
        catch (UnreadableFileException fault)
        {
            Problem = $"Line {fault.Line}: {fault.What}. {fault.Remedy}.";
            Http.Response.StatusCode = StatusCodes.Status422UnprocessableEntity;
            return;
        }

        Form = Http.Request.HasFormContentType ? ColumnsForm.Posted(Http.Request.Form)
            : Remembered(Log) ?? ColumnsForm.Guessed(Survey).WithPlaceOf(EarlierAnswers());
    }

    /// <summary>Answers given before, when someone comes back to change them.</summary>
    private static ColumnsForm? Remembered(DroppedLog log) => File.Exists(log.AnswersPath) ? ColumnsForm.Remembered(File.ReadAllText(log.AnswersPath)) : null;

    /// <summary>What this browser answered about its last log: the place has most likely stayed the same.</summary>
    private ColumnsForm? EarlierAnswers() =>
        Http.Request.Cookies[LastLogCookie] is { } id && logs.Find(id) is { } earlier ? Remembered(earlier) : null;

    private static string Shape(LogSurvey survey) =>
        $"{Figures.Number(survey.Rows)} rows over {Figures.Number(survey.Days, survey.Days < 10 ? 1 : 0)} days, from {survey.FirstTime} to {survey.LastTime}; "
        + (survey.TimesHaveOffset ? "times carry their offset." : "times are local times of the place.");

    private string? Invalid(string field) => Form.Errors.Any(e => e.Field == field) ? "true" : null;

    private async Task TakeAsync()
    {
        if (Survey is null || Log is null) return;
        if (Form.Check(Survey) is not { } answers)
        {
            Http.Response.StatusCode = StatusCodes.Status422UnprocessableEntity;
            return;
        }

        string place = PlaceFileWriter.Write(answers);
        if (Form.Refuse(PlaceFile.Read(place, "place.toml").Problems, answers, Survey))
        {
            Http.Response.StatusCode = StatusCodes.Status422UnprocessableEntity;
            return;
        }

        using var text = new MemoryStream(Encoding.UTF8.GetBytes(place));
        await DroppedLogs.SaveAsync(text, Log.PlacePath, Http.RequestAborted);
        await File.WriteAllTextAsync(Log.AnswersPath, Form.ToMemory(), Http.RequestAborted);
        Http.Response.Cookies.Append(LastLogCookie, Log.Id, new() { MaxAge = TimeSpan.FromDays(60), HttpOnly = true, SameSite = SameSiteMode.Lax, IsEssential = true });
        findings.Forget(Log);
        nav.NavigateTo(Log.PagePath);
    }
}
