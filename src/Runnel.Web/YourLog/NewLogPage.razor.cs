using Microsoft.AspNetCore.Components;
using Microsoft.AspNetCore.Http;
using Runnel.Exchange;
using Runnel.Place.PlaceFiles;
using Runnel.Web.Hosting;
using Runnel.Web.Words;

namespace Runnel.Web.YourLog;

public sealed partial class NewLogPage(DroppedLogs logs, LogSurveys surveys, RunnelPagesOptions options, NavigationManager nav) : ComponentBase
{
    private const long LargestSideFileBytes = 8 * 1024 * 1024;

    [CascadingParameter] public required HttpContext Http { get; set; }

    /// <summary>Set by the limit on uploads, which answers before any form is read.</summary>
    [SupplyParameterFromQuery] public string? Problem { get; set; }

    private RunnelPagesOptions Options => options;

    private IReadOnlyList<FieldError> Errors { get; set; } = [];

    protected override void OnInitialized()
    {
        if (Problem == UploadLimit.TooLarge && HttpMethods.IsGet(Http.Request.Method)) Errors = [TooLarge()];
    }

    private string? Invalid(string field) => Errors.Any(e => e.Field == field) ? "true" : null;

    private async Task TakeAsync()
    {
        IFormFileCollection files = Http.Request.Form.Files;
        string? placeText = await ReadPlaceAsync(files.GetFile("place"));
        IFormFile? log = files.GetFile("log");
        var errors = new List<FieldError>();
        if (log is null || log.FileName.Length == 0) errors.Add(new("log", "No log was chosen. Choose a CSV file, or drop one on this page."));
        else if (log.Length == 0) errors.Add(new("log", $"{log.FileName} is empty. Choose a log with a header and readings."));
        else if (log.Length > options.LargestLogBytes) errors.Add(TooLarge());
        if (placeText is not null)
            errors.AddRange(PlaceFile.Read(placeText, "place.toml").Problems.Take(8).Select(p => new FieldError("place", $"Line {p.Line}: {p.What}. {p.Remedy}.")));
        DroppedLog? kept = errors.Count > 0 ? null : await KeepAsync(log!, placeText, files.GetFile("daybook"), errors);
        if (kept is null)
        {
            Errors = errors;
            Http.Response.StatusCode = StatusCodes.Status422UnprocessableEntity;
            return;
        }

        nav.NavigateTo(placeText is null ? $"{kept.PagePath}/columns" : kept.PagePath);
    }

    private async Task<DroppedLog?> KeepAsync(IFormFile log, string? placeText, IFormFile? daybook, List<FieldError> errors)
    {
        try
        {
            await using Stream content = log.OpenReadStream();
            DroppedLog kept = await logs.KeepAsync(content, log.FileName, Http.RequestAborted);
            if (Refusal(kept) is { } refusal)
            {
                DroppedLogs.Forget(kept);
                errors.Add(refusal);
                return null;
            }

            if (daybook is { Length: > 0 })
            {
                await using Stream book = daybook.OpenReadStream();
                await DroppedLogs.SaveAsync(book, kept.DaybookPath, Http.RequestAborted);
            }

            if (placeText is not null) await File.WriteAllTextAsync(kept.PlacePath, placeText, Http.RequestAborted);
            return kept;
        }
        catch (Exception fault) when (fault is IOException or UnauthorizedAccessException && !Http.RequestAborted.IsCancellationRequested)
        {
            errors.Add(new("log", $"The log could not be kept: {fault.Message.TrimEnd('.')}. Make room in the folder where Runnel keeps dropped logs, or let it write there."));
            return null;
        }
    }

    /// <summary>Why what was sent is no log at all; null where it may be one.</summary>
    private FieldError? Refusal(DroppedLog kept)
    {
        try
        {
            surveys.Of(kept, Http.RequestAborted);
            return null;
        }
        catch (UnreadableFileException fault)
        {
            return new("log", $"{kept.FileName}, line {fault.Line}: {fault.What}. {fault.Remedy}.");
        }
    }

    private async Task<string?> ReadPlaceAsync(IFormFile? place)
    {
        if (place is not { Length: > 0 and <= LargestSideFileBytes }) return null;
        using var reader = new StreamReader(place.OpenReadStream());
        return await reader.ReadToEndAsync(Http.RequestAborted);
    }

    private FieldError TooLarge() => new("log",
        $"The log is larger than {Figures.Number(options.LargestLogBytes / 1048576.0)} MB. Export a shorter stretch, or only the columns of pump, valves and weather.");
}
