using NodaTime;
using Runnel.Place.Findings;
using Runnel.Web.Charts;
using Runnel.Web.Words;

namespace Runnel.Web.Now;

/// <summary>Draws a ribbon: past solid, future thin and dashed, night shaded, the line of now the strongest upright.</summary>
internal static class RibbonDrawing
{
    private const double LanePx = 54, MarksLanePx = 40;

    /// <param name="ribbon">What it shows.</param>
    /// <param name="name">Its style: wide, phone or wall.</param>
    public static string Draw(DayRibbon ribbon, string name)
    {
        bool phone = name == "phone", wall = name == "wall";
        // From the wall only what can be read at three metres.
        if (wall) ribbon = ribbon with { Lanes = [.. ribbon.Lanes.Where(l => l.Name is not "sun" and not "short of full").Take(3)] };
        double headPx = wall ? 58 : 40, width = phone ? 358 : wall ? 1300 : 840, left = phone ? 4 : wall ? 150 : 96, right = width - 6, height = headPx + ribbon.Lanes.Sum(l => Lane(l, phone)) + 4;
        var x = new LinearScale(ribbon.From.ToUnixTimeMilliseconds(), ribbon.To.ToUnixTimeMilliseconds(), left, right);
        double X(Instant t) => x.Px(t.ToUnixTimeMilliseconds());
        var svg = new SvgWriter();
        svg.Open($"ribbon-{name}", $"rb {name}", width, height, "A day back, a day ahead", string.Join("; ", ribbon.Lanes.Select(l => l.Expected is { } e ? $"{l.Name}: {e}" : l.Name)) + ".");
        foreach (Interval night in ribbon.Nights)
        {
            Instant a = Instant.Max(night.Start, ribbon.From), b = Instant.Min(night.End, ribbon.To);
            if (a >= b) continue;
            if (a < ribbon.Now) svg.Rect("night", X(a), headPx, X(Instant.Min(b, ribbon.Now)) - X(a), height - headPx);
            if (b > ribbon.Now) svg.Rect("night foretold", X(Instant.Max(a, ribbon.Now)), headPx, X(b) - X(Instant.Max(a, ribbon.Now)), height - headPx);
        }

        Hours(svg, ribbon, X, (headPx, height, phone ? 12 : 6, wall ? 1.55 : 1));
        double y = headPx;
        foreach (RibbonLane lane in ribbon.Lanes)
        {
            double tall = Lane(lane, phone), top = y + (phone ? 20 : 6), bottom = y + tall - 6;
            svg.Line("hair", left, y + tall, right, y + tall);
            string unit = lane.Unit.Length == 0 ? "" : phone || wall ? $", {lane.Unit}" : "";
            svg.Text("nm an", phone ? left + 2 : 0, phone ? y + 15 : y + (tall / 2) + (unit.Length == 0 && lane.Unit.Length > 0 ? -1 : 5), lane.Name + unit);
            if (!phone && !wall && lane.Unit.Length > 0) svg.Text("ax", 0, y + (tall / 2) + 15, lane.Unit);
            switch (lane)
            {
                case LineLane line:
                    Line(svg, line, ribbon, X, top, bottom, right);
                    break;
                case CycleLane cycles:
                    Cycles(svg, cycles, ribbon, X, top, bottom);
                    break;
                case PulseLane pulses:
                    Pulses(svg, pulses, ribbon, X, top, bottom);
                    break;
            }

            if (lane.Expected is { } expected && lane is not LineLane) svg.Text("ax an", Math.Min(X(ribbon.Now) + 8, right), bottom - 3, expected);
            y += tall;
        }

        svg.Line("now", X(ribbon.Now), headPx - 6, X(ribbon.Now), height);
        svg.Raw("</svg>");
        return svg.ToString();
    }

    private static double Lane(RibbonLane lane, bool phone) => (lane is LineLane ? LanePx : MarksLanePx) + (phone ? 14 : 0);

    private static void Hours(SvgWriter svg, DayRibbon ribbon, Func<Instant, double> x, (double TopPx, double BottomPx, int Step, double Scale) frame)
    {
        var (headPx, height, step, scale) = frame;
        string now = "now " + Times.Clock(ribbon.Now.InZone(ribbon.Zone).TimeOfDay);
        double middle = x(ribbon.Now), half = now.Length * 4.2 * scale, lastEnd = double.NegativeInfinity;
        svg.Text("nm b", middle, 13 * scale, now, "middle");
        LocalDate day = ribbon.From.InZone(ribbon.Zone).Date;
        for (int d = 0; d < 4; d++, day = day.PlusDays(1))
        {
            for (int h = 0; h < 24; h += step)
            {
                Instant t = ribbon.Zone.AtLeniently(day.At(new LocalTime(h, 0))).ToInstant();
                if (t <= ribbon.From || t >= ribbon.To) continue;
                double px = x(t);
                svg.Line(h == 0 ? "midnight" : "hair", px, headPx, px, height);
                if (px - (18 * scale) > lastEnd && px + (20 * scale) < x(ribbon.To)) svg.Text("ax", px, headPx - 7, Times.Clock(new LocalTime(h, 0)), "middle");
                lastEnd = px + (22 * scale);
                string name = Times.WeekdayAndDay(day);
                double nameHalf = name.Length * 3.8 * scale;
                if (h == 0 && Math.Abs(px - middle) > half + nameHalf + 6 && px - nameHalf > 0 && px + nameHalf < x(ribbon.To) + 6) svg.Text("ax", px, 13 * scale, name, "middle");
            }
        }
    }

    private static void Line(SvgWriter svg, LineLane lane, DayRibbon ribbon, Func<Instant, double> x, double top, double bottom, double right)
    {
        double[] all = [.. lane.Past.Concat(lane.Ahead).Select(p => p.Value)];
        if (all.Length == 0) return;
        double low = lane.FromZero ? 0 : all.Min(), high = all.Max();
        if (high - low < 1e-9) high = low + 1;
        double Y(double v) => bottom - 2 - ((v - low) / (high - low) * (bottom - top - 6));
        var path = new PathText();
        Instant? last = null;
        foreach (var (time, value) in lane.Past)
        {
            // A missing stretch is a gap, never bridged.
            if (last is null || time - last > lane.Gap) path.Move(x(time), Y(value));
            path.Line(x(time), Y(value));
            last = time;
        }

        if (!path.IsEmpty) svg.Path("trace", path);
        if (lane.Ahead.Count > 1)
        {
            var ahead = new PathText().Move(x(lane.Ahead[0].Time), Y(lane.Ahead[0].Value));
            foreach (var (time, value) in lane.Ahead.Skip(1)) ahead.Line(x(time), Y(value));
            svg.Path("ahead", ahead);
        }

        // Only the low, the high and now are named.
        if (lane.Past.Count == 0) return;
        int decimals = Figures.DecimalsFor(high);
        List<double> named = [];
        void Name(Instant at, double value, bool above, string style = "ax an")
        {
            double px = Math.Clamp(x(at), x(ribbon.From) + 16, right - 18);
            if (named.Any(n => Math.Abs(n - px) < 46)) return;
            named.Add(px);
            svg.Text(style, px, above ? Math.Max(Y(value) - 5, top + 9) : Math.Min(Y(value) + 14, bottom), Figures.Number(value, decimals), "middle");
        }

        var (nowTime, nowValue) = lane.Past[^1];
        if (ribbon.Now - nowTime < Duration.FromHours(1)) Name(nowTime - Duration.FromMinutes(75), nowValue, nowValue < (low + high) / 2 || bottom - top < 40, "nm b an");
        var lowest = lane.Past.MinBy(p => p.Value);
        var highest = lane.Past.MaxBy(p => p.Value);
        if (!lane.FromZero) Name(lowest.Time, lowest.Value, above: true);
        Name(highest.Time, highest.Value, above: false);
    }

    private static void Cycles(SvgWriter svg, CycleLane lane, DayRibbon ribbon, Func<Instant, double> x, double top, double bottom)
    {
        double longest = lane.Cycles.Count == 0 ? 1 : lane.Cycles.Max(c => c.FillS);
        var ticks = new PathText();
        double last = double.NegativeInfinity;
        foreach (CyclePoint cycle in lane.Cycles)
        {
            double px = x(cycle.Start + Duration.FromSeconds(cycle.FillS));
            // Where they stand closer than the eye can part, each third pixel shows one.
            if (px - last < 3) continue;
            last = px;
            ticks.Move(px, bottom).Line(px, bottom - (cycle.FillS / longest * (bottom - top)));
        }

        if (!ticks.IsEmpty) svg.Path("ticks", ticks);
        svg.Line("ahead", x(ribbon.Now), bottom - 18, x(ribbon.To), bottom - 18);
    }

    private static void Pulses(SvgWriter svg, PulseLane lane, DayRibbon ribbon, Func<Instant, double> x, double top, double bottom)
    {
        double lastWords = double.NegativeInfinity;
        foreach (WaterPulse pulse in lane.Pulses)
        {
            double px = x(pulse.Start);
            svg.Rect(pulse.Litres < 0 ? "pulse out" : "pulse", px - 2, top + 4, 4, bottom - top - 6);
            string words = $"{Figures.Number(Math.Abs(pulse.Litres))} L";
            if (px - lastWords < 50 || px + 44 > x(ribbon.Now)) continue;
            svg.Text("ax an", px + 5, bottom - 4, words);
            lastWords = px;
        }
    }
}
