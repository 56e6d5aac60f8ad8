using Microsoft.AspNetCore.Components;
using Runnel.Web.Charts;

namespace Runnel.Web.Findings;

public sealed partial class OverTime : ComponentBase
{
    [Parameter] public required FindingsView View { get; set; }

    private IEnumerable<TimeChart> Charts =>
        TimeChartsOf.Ids.Select(id => TimeChartsOf.Find(View.Diagnosis, id)).OfType<TimeChart>();
}
