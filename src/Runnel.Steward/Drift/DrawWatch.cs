using System.Globalization;
using NodaTime;
using NodaTime.Text;
using Runnel.Place.Findings;
using Runnel.Science.Statistics;
using Runnel.Steward.Notices;
using Runnel.Steward.Store;

namespace Runnel.Steward.Drift;

/// <summary>Litres that left or came within the hour and are written down nowhere: asked about, not alarmed. The shape is looked at before
/// the size: quiet before, a drop, quiet after.</summary>
internal sealed class DrawWatch(ResponseWatch responses) : IWatch
{
    // Three hours before and three after are compared; between them three hours are left out, in which the loop settles again.
    private const int Side = 3, Gap = 1, Reach = Side + Gap;
    private const double StepZ = 6, LeastL = 8;
    private static readonly LocalDateTimePattern When = LocalDateTimePattern.CreateWithInvariantCulture("d MMM HH:mm");
    private readonly List<double> _steps = [];
    private int _next = 60;
    private double _spread = double.NaN;

    public void Look(LoopState state, NoticeBook notices)
    {
        if (!state.OnTheHour || !state.Balance.Gauge.Known) return;

        // The step at an hour is judged when its neighbours' steps are known too.
        for (; _next + Reach + 2 < state.Balance.HourCount; _next++)
        {
            double step = StepAt(state, _next);
            if (double.IsNaN(step)) continue;
            _steps.Add(Math.Abs(step));
            if (_steps.Count % 24 == 0) _spread = Math.Max(0.3, Robust.MadToSd * _steps.Skip(Math.Max(0, _steps.Count - 480)).Order().ElementAt(Math.Min(_steps.Count, 480) / 2));
            if (_steps.Count < 120 || double.IsNaN(_spread)) continue;
            Judge(state, notices, _next, step);
        }
    }

    /// <summary>Change of the unexplained litres about an hour, from the three hours before its gap to the three after.</summary>
    private static double StepAt(LoopState state, int hour)
    {
        if (hour < Reach) return double.NaN;
        var (litres, _) = state.Balance.Unexplained(hour - Reach, hour + Reach);
        return Level(litres, Reach + Gap + 1, Side) - Level(litres, 0, Side);
    }

    private static double Level(double[] litres, int from, int count)
    {
        double sum = 0;
        int n = 0;
        for (int i = from; i < from + count; i++)
        {
            if (double.IsNaN(litres[i])) continue;
            sum += litres[i];
            n++;
        }

        return n < 2 ? double.NaN : sum / n;
    }

    private void Judge(LoopState state, NoticeBook notices, int hour, double step)
    {
        double pulses = 0, rain = 0;
        for (int i = hour - Reach; i <= hour + Reach; i++)
        {
            pulses += Math.Abs(state.Hours.Hours[i].TopUpL) + state.Hours.Hours[i].BleedL;
            rain += state.Balance.RainL(i);
        }

        double k = state.Balance.Gauge.RelativeSpread;
        double limit = Math.Sqrt(Math.Pow(StepZ * _spread, 2) + Math.Pow(4 * k * pulses, 2) + Math.Pow(1.5 * rain, 2));

        // While pulses do less than they should (fouling, an empty supply), a step no larger than a pulse within these hours is its want of effect.
        // (Those about the step itself are left out: the draw is in them.)
        var about = state.Balance.Start(hour);
        var lately = responses.Between(about - Duration.FromDays(4), about - Duration.FromHours(6));
        double doubtful = lately.Count == 0 ? 0.5 : lately.Z < -2 ? 1.2 : 0.25;
        if (Math.Abs(step) < Math.Max(limit, LeastL) + (doubtful * pulses)) return;
        if (!(Math.Abs(step) >= Math.Abs(StepAt(state, hour - 1))) || Math.Abs(step) < Math.Abs(StepAt(state, hour + 1))) return;
        var from = state.Balance.Start(hour - 2);
        var to = state.Balance.Start(hour) + Duration.FromHours(3);
        if (state.LearningHeld(from, to) || state.Working) return;

        // Loss that goes on after the hour is not a draw.
        var (litres, counts) = state.Balance.Unexplained(hour - Reach, hour + Reach);
        double before = HourSeries.Slope(litres, counts, 0, Side), after = HourSeries.Slope(litres, counts, Reach + Gap + 1, Side);
        if (Math.Abs(after) > 0.08 * Math.Abs(step) || Math.Abs(before) > 0.08 * Math.Abs(step)) return;

        state.Balance.Assume(hour, step);
        state.Holds.Add(from, to);
        if (step > 0 && rain > 0.5) return;
        var at = Edge(state, hour, Math.Sign(step));
        string when = When.Format(at.InZone(state.Place.Zone).LocalDateTime);
        bool cycles = state.Kit.BandL is not null;
        notices.Tell(new Notice
        {
            Causes = step < 0
                ? [new Cause(CauseNames.UnloggedDraw, 0.75), new Cause(CauseNames.LoopChanged, 0.2)]
                : cycles
                    ? [new Cause(CauseNames.LoopChanged, 0.5), new Cause(CauseNames.CheckValveLeaking, 0.45)]
                    : [new Cause(CauseNames.LoopChanged, 0.9)],
            Urgency = Urgency.Record,
            Since = at,
            FirstNoticed = state.Now,
            Evidence = step < 0
                ? string.Create(CultureInfo.InvariantCulture,
                    $"About {-step:0} L (± {1.645 * _spread:0}) left the loop near {when}, within an hour or two, and none after.")
                : string.Create(CultureInfo.InvariantCulture,
                    $"From {when} on the sump fills as if {step:0} L (± {1.645 * _spread:0}) had come in, with no top-up and no rain."),
            FirstAct = step < 0
                ? $"Did someone draw water near {when} (separator tap, filter wash, watering)? Write it down, or say that a valve was moved."
                : $"Was a valve moved or water poured in near {when}? If not, see whether water runs back through the pump's check valve while it rests.",
        });
    }

    /// <summary>The time within the hour at which the store's readings step the most.</summary>
    private static Instant Edge(LoopState state, int hour, int sign)
    {
        var from = state.Balance.Start(hour) - Duration.FromMinutes(90);
        var to = state.Balance.Start(hour) + Duration.FromMinutes(120);
        var best = from + Duration.FromHours(1);
        double most = 0;
        for (int i = state.Store.Times.Count - 1; i > 1; i--)
        {
            var time = state.Store.Times[i];
            if (time < from) break;
            if (time > to) continue;
            double jump = sign * (state.Store.Values[i] - state.Store.Values[i - 1]);
            if (jump > most) (most, best) = (jump, state.Store.Times[i - 1] + ((time - state.Store.Times[i - 1]) / 2));
        }

        return best;
    }
}
