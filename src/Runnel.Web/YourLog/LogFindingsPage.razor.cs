using System.Globalization;
using Microsoft.AspNetCore.Components;
using Microsoft.AspNetCore.Http;
using Runnel.Web.Findings;

namespace Runnel.Web.YourLog;

public sealed partial class LogFindingsPage(DroppedLogs logs, DroppedFindings findings, NavigationManager nav, TimeProvider clock) : ComponentBase
{
    // Most logs are read within this; only a long one shows its progress first.
    private static readonly TimeSpan WaitBeforeProgress = TimeSpan.FromSeconds(2.5);

    [Parameter] public required string Id { get; set; }
    [SupplyParameterFromQuery] public string? From { get; set; }
    [SupplyParameterFromQuery] public string? To { get; set; }
    [CascadingParameter] public required HttpContext Http { get; set; }

    private DroppedLog? Log { get; set; }
    private FindingsView? View { get; set; }
    private IReadOnlyList<string> Problems { get; set; } = [];
    private string ReadPercent { get; set; } = "0";

    private string Stage => ReadPercent == "100" ? $"{Log!.FileName} is read; working out what it says." : $"Reading {Log!.FileName}: {ReadPercent} %.";

    protected override async Task OnInitializedAsync()
    {
        Log = logs.Find(Id);
        if (Log is null)
        {
            nav.NotFound();
            return;
        }

        if (!Log.HasPlace)
        {
            nav.NavigateTo($"{Log.PagePath}/columns");
            return;
        }

        FindingsWork work = findings.Of(Log);
        await Task.WhenAny(work.Outcome, Task.Delay(WaitBeforeProgress, clock, Http.RequestAborted));
        if (!work.Outcome.IsCompleted)
        {
            ReadPercent = Math.Floor(work.ReadShare * 100).ToString(CultureInfo.InvariantCulture);
            return;
        }

        switch (await work.Outcome)
        {
            case Found found:
                View = new(found.Findings, FindingsView.RangeOf(found.Findings.Diagnosis, From, To), Log.PagePath);
                break;
            case NotReadable refused:
                Problems = refused.Problems;
                Http.Response.StatusCode = StatusCodes.Status422UnprocessableEntity;
                break;
        }
    }
}
