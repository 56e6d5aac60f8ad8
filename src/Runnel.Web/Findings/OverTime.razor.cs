using Microsoft.AspNetCore.Components;
using NodaTime;
using Runnel.Web.Charts;
using Runnel.Web.Words;

namespace Runnel.Web.Findings;

public sealed partial class OverTime : ComponentBase
{
    [Parameter] public required FindingsView View { get; set; }

    private IEnumerable<TimeChart> Charts =>
        TimeChartsOf.Ids.Select(id => TimeChartsOf.Find(View.Diagnosis, id)).OfType<TimeChart>();

    private string RangeWords
    {
        get
        {
            DateTimeZone zone = View.Diagnosis.Zone;
            LocalDateTime from = View.Range.Start.InZone(zone).LocalDateTime, to = View.Range.End.InZone(zone).LocalDateTime;
            return View.Range.Duration > Duration.FromDays(4)
                ? $"{Times.DayAndMonth(from.Date)} to {Times.FullDate(to.Date)}"
                : $"{Times.WeekdayAndDay(from.Date)}, {Times.Clock(from.TimeOfDay)} to {Times.WeekdayAndDay(to.Date)}, {Times.Clock(to.TimeOfDay)}";
        }
    }
}
