using Microsoft.AspNetCore.Components;
using Runnel.Place.Findings;
using Runnel.Web.Findings;

namespace Runnel.Web.YourLog;

public sealed partial class InventedPage(InventedLog log) : ComponentBase
{
    [SupplyParameterFromQuery] public string? From { get; set; }
    [SupplyParameterFromQuery] public string? To { get; set; }

    private Diagnosis? Findings => log.Findings;

    private FindingsView View(Diagnosis found) => new(found, FindingsView.RangeOf(found, From, To), "/log/invented");
}
