using Microsoft.AspNetCore.Components;
using Runnel.Web.Findings;

namespace Runnel.Web.YourLog;

public sealed partial class InventedPage(InventedLog log) : ComponentBase
{
    [SupplyParameterFromQuery] public string? From { get; set; }
    [SupplyParameterFromQuery] public string? To { get; set; }

    private FindingsDrawings? Findings => log.Findings;

    private FindingsView View(FindingsDrawings found) => new(found, FindingsView.RangeOf(found.Diagnosis, From, To), "/log/invented");
}
