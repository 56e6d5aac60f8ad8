using System.Globalization;
using Runnel.Place;
using Runnel.Web.Charts;
using Runnel.Web.Words;

namespace Runnel.Web.Section;

/// <summary>A box on the paper, px.</summary>
public readonly record struct PaperBox(string Of, double LeftPx, double TopPx, double RightPx, double BottomPx)
{
    public bool Meets(PaperBox other) => LeftPx < other.RightPx && other.LeftPx < RightPx && TopPx < other.BottomPx && other.TopPx < BottomPx;
}

/// <summary>A drawing, and where its words and vessels came to stand.</summary>
public sealed record SectionPicture(string Svg, double WidthPx, double HeightPx, bool IsToHeight, IReadOnlyList<PaperBox> Words, IReadOnlyList<PaperBox> Vessels);

/// <summary>The loop in section, to height: vessels, water at its level, pipes, pump, valves, figures, and the part in trouble.</summary>
public sealed class SectionDrawing
{
    private readonly SvgWriter _svg = new();
    private readonly SectionStanding _standing;
    private readonly SectionPlan _plan;
    private readonly SectionSize _size;
    private readonly SectionLayout _layout;
    private readonly string _id;
    private readonly List<PaperBox> _words = [], _vessels = [];

    private SectionDrawing(SectionPlan plan, SectionStanding standing, SectionSize size, string id)
    {
        (_plan, _standing, _size, _id) = (plan, standing, size, id);
        _layout = new(plan, size, standing.Trouble is { PartIds.Count: > 0 });
    }

    /// <summary>Whether there is anything to draw.</summary>
    public static bool CanDraw(PlaceDescription place) => place.Vessels.Count > 0;

    /// <param name="place">Any place with vessels.</param>
    /// <param name="standing">What is known of this moment.</param>
    /// <param name="size">For which width.</param>
    /// <param name="id">Names the drawing's parts within its page.</param>
    public static SectionPicture Draw(PlaceDescription place, SectionStanding standing, SectionSize size, string id = "loop")
    {
        ArgumentNullException.ThrowIfNull(place);
        ArgumentNullException.ThrowIfNull(standing);
        ArgumentNullException.ThrowIfNull(size);
        return new SectionDrawing(SectionPlan.Of(place), standing, size, $"{id}-{size.Name}").Draw(place.Name);
    }

    private SectionPicture Draw(string placeName)
    {
        PipeRoutes routes = PipeRoutes.Of(_layout);
        List<Strip> strips = [];
        List<(IReadOnlyList<PlacedLabel> Labels, double BottomPx)> rows = [];
        double top = 0, ground = Math.Max(20, routes.BelowPx(_size.PlotPx / _plan.TopM) + 12);
        // Labels inside vessels depend on the strip's scale, rows on the labels: a strip is set before the next begins below it.
        for (int s = 0; s < _layout.StripCount; s++)
        {
            strips.Add(_layout.StripAt(s, top));
            Strip[] known = [.. Enumerable.Range(0, _layout.StripCount).Select(k => k < strips.Count ? strips[k] : strips[^1])];
            var labels = SectionLabels.Of(_layout, _standing, known, routes);
            double rowsTop = strips[s].BasePx + ground;
            var (placed, height) = LabelRows.Place(labels.RowsOf(s), 4, _size.WidthPx - 4, rowsTop);
            rows.Add((placed, rowsTop + height + 6));
            top = rowsTop + height + 16;
        }

        var inside = SectionLabels.Of(_layout, _standing, strips, routes);
        double all = rows.Count == 0 ? 10 : rows[^1].BottomPx;
        _svg.Open(_id, $"sect {_size.Name}", _size.WidthPx, all, $"{placeName}: the loop{(_plan.IsToHeight ? ", to height" : "")}", Described());
        _svg.Raw($"<defs><pattern id=\"{_id}-h\" class=\"hatch\" width=\"7\" height=\"7\" patternUnits=\"userSpaceOnUse\" patternTransform=\"rotate(45)\"><path d=\"M0 0V7\"/></pattern></defs>");
        foreach (Strip strip in strips) Ground(strip, rows[strip.Index].Labels);
        for (int i = 0; i < _plan.Vessels.Count; i++) new VesselDrawing(_svg, _plan.Vessels[i], Here(i), strips[_layout.Slots[i].Strip], _id).Water(_standing.Water.GetValueOrDefault(_plan.Vessels[i].Id));
        new PipeDrawing(_svg, _layout, strips, _standing).Draw(routes.Pipes);
        for (int i = 0; i < _plan.Vessels.Count; i++)
        {
            Strip strip = strips[_layout.Slots[i].Strip];
            var (x, width) = Here(i);
            new VesselDrawing(_svg, _plan.Vessels[i], (x, width), strip, _id).Walls(_standing.Water.GetValueOrDefault(_plan.Vessels[i].Id));
            _vessels.Add(new(_plan.Vessels[i].Id, x, strip.Y(_plan.Vessels[i].RimM), x + width, strip.Y(_plan.Vessels[i].FloorM)));
            if (_plan.Vessels[i].SwitchHighM is not null) Switch(i, strip);
        }

        new MoverDrawing(_svg, _layout, strips, _standing).Draw(routes.Pipes);
        Air(strips);
        Trouble(strips);
        foreach (var (vessel, lines, middle, first) in inside.Inside) Write(middle - (_layout.Slots[vessel].Strip * _size.WidthPx), first, [.. lines.Select(l => (l, l.IsFigure ? "fig" : "nm"))], _plan.Vessels[vessel].Id);
        foreach (PlacedLabel label in rows.SelectMany(r => r.Labels)) Write(label.MiddlePx, label.TopPx + (_size.LineOf(label.Item.Lines[0].Line) * 0.8), label.Item.Lines, "row");
        _svg.Raw("</svg>");
        return new(_svg.ToString(), _size.WidthPx, all, _plan.IsToHeight, _words, _vessels);
    }

    private (double X, double WidthPx) Here(int vessel) => (_layout.Slots[vessel].LeftPx - (_layout.Slots[vessel].Strip * _size.WidthPx), _layout.Slots[vessel].WidthPx);

    /// <summary>Heights, the ground with what stands on it, and the leaders of the words below.</summary>
    private void Ground(Strip strip, IReadOnlyList<PlacedLabel> labels)
    {
        if (_plan.IsToHeight)
        {
            double most = _plan.Vessels.Skip(strip.First).Take(strip.End - strip.First).Select(v => v.RimM).DefaultIfEmpty(0).Max(), step = most > 2.6 ? 1 : most > 0.6 ? 0.5 : 0.2;
            for (double h = step; h <= most + 0.02; h += step)
            {
                double y = strip.Y(h);
                string words = Figures.Number(h, 1) + " m";
                _svg.Line("hair", _layout.LeftPx, y, _size.WidthPx - SectionLayout.RightPx, y);
                _svg.Text("ax", _layout.LeftPx - 5, y + 4, words, "end");
                double width = words.Length * _size.NamePx * 0.52;
                _words.Add(new("axis", _layout.LeftPx - 5 - width, y - 8, _layout.LeftPx - 5, y + 6));
            }
        }

        for (int i = strip.First; i < strip.End; i++)
        {
            var (x, width) = Here(i);
            double floor = strip.Y(_plan.Vessels[i].FloorM);
            if (strip.BasePx - floor > 3) _svg.Rect("plinth", x + (width * 0.12), floor, width * 0.76, strip.BasePx - floor);
        }

        double left = _layout.LeftPx - 6, right = _size.WidthPx - 2;
        _svg.Rect("earth", left, strip.BasePx, right - left, 7);
        var earth = new PathText();
        for (double x = left + 7; x < right; x += 7) earth.Move(x, strip.BasePx + 1).Line(x - 6, strip.BasePx + 7);
        _svg.Path("earthmark", earth);
        _svg.Line("wall", left, strip.BasePx, right, strip.BasePx);
        foreach (PlacedLabel label in labels)
        {
            var leader = new PathText().Move(label.Leader[0].X, label.Leader[0].Y);
            foreach (var (x, y) in label.Leader.Skip(1)) leader.Line(x, y);
            _svg.Path("lead", leader);
        }
    }

    private void Switch(int i, Strip strip)
    {
        PlanVessel v = _plan.Vessels[i];
        var (x, width) = Here(i);
        (double heightM, string word)[] marks = [(v.SwitchHighM!.Value, "start"), (v.SwitchLowM ?? double.NaN, "stop")];
        double last = double.NegativeInfinity;
        foreach (var (heightM, word) in marks.Where(m => double.IsFinite(m.heightM)))
        {
            double y = strip.Y(v.FloorM + heightM);
            _svg.Line("limit", x, y, x + width, y);
            _svg.Rect("block", x + width - 4, y - 3.5, 7, 7);
            double words = Math.Max(y + 4, last + (_size.NamePx * 1.1));
            _svg.Text("ax", x + width + 6, words, word);
            _words.Add(new("switch", x + width + 6, words - (_size.NamePx * 0.75), x + width + 6 + (word.Length * _size.NamePx * 0.55), words + 3));
            last = words;
        }
    }

    private void Air(List<Strip> strips)
    {
        double x = _layout.LeftPx + 8, y = _size.NamePx * 0.75 + 2;
        foreach (PlanAir air in _plan.Air)
        {
            bool? runs = _standing.Running.TryGetValue(air.Id, out bool on) ? on : null;
            string words = $"{air.Name} {runs switch { true => "on", false => air.IsBackup ? "at rest" : "off", _ => "" }}".TrimEnd();
            PartLine line = new(words);
            double width = _size.WidthOf(line);
            if (x + 14 + width > _size.WidthPx - 4) return;
            bool troubled = _standing.Trouble?.PartIds.Contains(air.Id) == true;
            MoverDrawing.Air(_svg, x, y, runs == true);
            _svg.Text(troubled ? "nm b " + Urgencies.Rule(_standing.Trouble!.Urgency) : "nm", x + 13, y + (_size.NamePx * 0.35), words);
            _words.Add(new("air", x + 13, y - (_size.NamePx * 0.6), x + 13 + width, y + (_size.NamePx * 0.5)));
            if (!air.IsBackup)
            {
                foreach (int to in air.To.Where(t => _layout.Slots[t].Strip == 0))
                {
                    var (left, wide) = Here(to);
                    double down = left + Math.Min(8, wide * 0.12), floor = strips[0].Y(_plan.Vessels[to].FloorM) - 6;
                    _svg.Line("airline", down, strips[0].Y(_plan.Vessels[to].RimM) - 12, down, floor);
                    for (double b = floor - 8; b > strips[0].Y(_plan.Vessels[to].FloorM + (0.55 * (_plan.Vessels[to].RimM - _plan.Vessels[to].FloorM))); b -= 17) _svg.Circle("bubble", down + (b % 2 < 1 ? 4 : 6), b, 2);
                }
            }

            x += 13 + width + 26;
        }
    }

    private void Trouble(List<Strip> strips)
    {
        if (_standing.Trouble is not { } trouble) return;
        string style = "bracket " + Urgencies.Rule(trouble.Urgency);
        for (int i = 0; i < _plan.Vessels.Count; i++)
        {
            if (!trouble.PartIds.Contains(_plan.Vessels[i].Id)) continue;
            var (x, width) = Here(i);
            double y = strips[_layout.Slots[i].Strip].Y(_plan.Vessels[i].FloorM) + 9;
            _svg.Path(style, new PathText().Move(x, y - 5).Line(x, y).Line(x + width, y).Line(x + width, y - 5));
        }
    }

    /// <summary>Lines of words, middle over middle, and the room they take.</summary>
    private void Write(double middle, double firstBase, IReadOnlyList<(PartLine Line, string Style)> lines, string of)
    {
        double y = firstBase, width = lines.Max(l => _size.WidthOf(l.Line)), top = firstBase - (_size.LineOf(lines[0].Line) * 0.8);
        for (int i = 0; i < lines.Count; i++)
        {
            if (i > 0) y += _size.LineOf(lines[i].Line);
            _svg.Text(lines[i].Style, middle, y, lines[i].Line.Text, "middle");
        }

        _words.Add(new(of, middle - (width / 2), top, middle + (width / 2), top + lines.Sum(l => _size.LineOf(l.Line))));
    }

    private string Described()
    {
        var parts = _plan.Vessels.Select(v => _standing.Water.GetValueOrDefault(v.Id)?.LevelM is { } level
            ? string.Create(CultureInfo.InvariantCulture, $"{v.Name}, water at {level * 1000:0} mm") : $"{v.Name}, level not known");
        string trouble = _standing.Trouble is { } t ? $" In trouble: {string.Join(", ", t.PartIds.Select(SectionPlan.NameOf))}: {t.Words}." : "";
        return string.Join("; ", parts) + "." + trouble;
    }
}
