using Runnel.Place;
using Runnel.Web.Words;

namespace Runnel.Web.Section;

/// <summary>What is written at each part: inside its water where it fits, else in the rows below its strip.</summary>
internal sealed class SectionLabels
{
    private const double InsetPx = 7;

    private readonly SectionLayout _layout;
    private readonly SectionStanding _standing;
    private readonly SectionSize _size;
    private readonly HashSet<string> _troubled;
    private readonly List<LabelItem>[] _rows;

    /// <summary>Words inside vessels: lines with their middle and the base line of the first.</summary>
    public List<(int Vessel, IReadOnlyList<PartLine> Lines, double MiddlePx, double FirstBasePx)> Inside { get; } = [];

    private SectionLabels(SectionLayout layout, SectionStanding standing)
    {
        (_layout, _standing, _size) = (layout, standing, layout.Size);
        _troubled = [.. standing.Trouble?.PartIds ?? []];
        _rows = [.. Enumerable.Range(0, layout.StripCount).Select(_ => new List<LabelItem>())];
    }

    public IReadOnlyList<LabelItem> RowsOf(int strip) => _rows[strip];

    public static SectionLabels Of(SectionLayout layout, SectionStanding standing, IReadOnlyList<Strip> strips, PipeRoutes routes)
    {
        var labels = new SectionLabels(layout, standing);
        labels.AddVessels(strips);
        labels.AddMovers(strips, routes);
        return labels;
    }

    private double Local(double x, int strip) => x - (strip * _size.WidthPx);

    private void AddVessels(IReadOnlyList<Strip> strips)
    {
        var vessels = _layout.Plan.Vessels;
        for (int i = 0; i < vessels.Count; i++)
        {
            int last = GroupEnd(i);
            if (last > i) AddGroup(i, last, strips);
            else AddVessel(i, strips[_layout.Slots[i].Strip]);
            i = last;
        }
    }

    /// <summary>Narrow vessels of one kind side by side in one strip share a name.</summary>
    private int GroupEnd(int first)
    {
        var vessels = _layout.Plan.Vessels;
        int last = first;
        while (last + 1 < vessels.Count && vessels[first].Weight == 0.5 && vessels[last + 1].Kind == vessels[first].Kind && vessels[last + 1].Weight == 0.5
            && _layout.Slots[last + 1].Strip == _layout.Slots[first].Strip) last++;
        return last;
    }

    private void AddGroup(int first, int last, IReadOnlyList<Strip> strips)
    {
        var vessels = _layout.Plan.Vessels;
        Slot a = _layout.Slots[first], b = _layout.Slots[last];
        string kind = vessels[first].Kind == VesselKind.Trough ? "troughs" : "media beds";
        List<PartLine> lines = [.. Wrapped($"{last - first + 1} {kind}")];
        string[] named = [.. Enumerable.Range(first, last - first + 1).Select(i => vessels[i].Id).Where(_troubled.Contains)];
        if (_standing.Trouble is { } trouble && named.Length > 0)
        {
            if (named.Length <= last - first) lines.AddRange(Wrapped(string.Join(", ", named.Select(SectionPlan.NameOf))));
            lines.AddRange(Wrapped(trouble.Words));
        }

        var strip = strips[a.Strip];
        Add(a.Strip, (a.LeftPx + b.RightPx) / 2, lines, named.Length > 0, strip.Y(vessels[first].FloorM) + _layout.BelowPx);
    }

    private void AddVessel(int i, Strip strip)
    {
        PlanVessel v = _layout.Plan.Vessels[i];
        Slot slot = _layout.Slots[i];
        List<PartLine> words = [.. _standing.Words.GetValueOrDefault(v.Id) ?? []];
        WaterStanding? water = _standing.Water.GetValueOrDefault(v.Id);
        if (water?.LevelM is null) words.Add(new("level not known"));
        bool troubled = _troubled.Contains(v.Id);
        List<PartLine> name = Wrapped(v.Name, slot.WidthPx - (2 * InsetPx));
        if (Fits([.. name, .. words], v, slot, strip, water, out double baseLine))
        {
            Inside.Add((i, [.. name, .. words], slot.MiddlePx, baseLine));
            if (troubled) Add(slot.Strip, slot.MiddlePx, Wrapped(_standing.Trouble!.Words), true, strip.Y(v.FloorM) + _layout.BelowPx);
            return;
        }

        List<PartLine> lines = [.. Wrapped(v.Name), .. words.SelectMany(w => w.IsFigure ? [w] : Wrapped(w.Text))];
        if (troubled) lines.AddRange(Wrapped(_standing.Trouble!.Words));
        double anchor = v.SwitchHighM is null ? slot.MiddlePx : slot.LeftPx + (slot.WidthPx * 0.35);
        Add(slot.Strip, anchor, lines, troubled, strip.Y(v.FloorM) + (troubled ? _layout.BelowPx : 1));
    }

    /// <summary>Whether words stand clear inside a vessel, all of them in water or all of them above it.</summary>
    private bool Fits(IReadOnlyList<PartLine> lines, PlanVessel v, Slot slot, Strip strip, WaterStanding? water, out double baseLine)
    {
        double height = lines.Sum(_size.LineOf), width = lines.Max(_size.WidthOf);
        double surface = strip.Y(v.FloorM + Math.Min(water?.LevelM is { } level ? Shown(v, level) : 0, v.RimM - v.FloorM)), floor = strip.Y(v.FloorM), rim = strip.Y(v.RimM);
        baseLine = 0;
        // The sump holds pump and switch, filters and beds their media; a standpipe takes the right side of its vessel.
        double free = slot.WidthPx - (2 * InsetPx) - (v.Outlet is OutletKind.Standpipe or OutletKind.Siphon ? 30 : 0);
        if (v.Kind is VesselKind.Sump or VesselKind.MediaBed or VesselKind.Biofilter or VesselKind.MechanicalFilter || width > free) return false;
        double from = floor - surface >= height + 12 ? surface : surface - rim >= height + 34 ? rim + 24 : double.NaN;
        if (double.IsNaN(from)) return false;
        double first = _size.LineOf(lines[0]);
        baseLine = from + 4 + (first * 0.85) + (from == surface ? Math.Min(14, (floor - surface - height - 12) / 2) : 0);
        return true;
    }

    /// <summary>Height of the water as drawn, above the floor: by share where the vessel is drawn with a break.</summary>
    internal static double Shown(PlanVessel v, double levelM) =>
        v.IsBroken ? levelM / (v.TrueRimM - v.FloorM) * (v.RimM - v.FloorM) : levelM;

    private void AddMovers(IReadOnlyList<Strip> strips, PipeRoutes routes)
    {
        foreach (Pipe pipe in routes.Pipes.DistinctBy(p => p.Run.EquipmentId).Where(p => p.Run.EquipmentId is not null))
        {
            string id = pipe.Run.EquipmentId!;
            bool? runs = _standing.Running.TryGetValue(id, out bool on) ? on : null;
            bool troubled = _troubled.Contains(id);
            (double x, string state, double from) = pipe.Run.Kind == RunKind.Pump
                ? (PipeRoutes.PumpX(_layout.Slots[pipe.Run.From]), runs switch { true => "on", false => "at rest", _ => "" }, 2.0)
                : (pipe.Valve!.Value.X, runs switch { true => "open", false => "shut", _ => "" }, 10.0);
            int strip = Math.Clamp((int)(x / _size.WidthPx), 0, _layout.StripCount - 1);
            double y = pipe.Run.Kind == RunKind.Pump ? strips[strip].Y(_layout.Plan.Vessels[pipe.Run.From].FloorM) + (troubled ? _layout.BelowPx : 1) : pipe.Valve!.Value.Height.Y(strips[strip]) + from;
            List<PartLine> lines = [.. Wrapped($"{SectionPlan.NameOf(id)} {state}".TrimEnd()), .. _standing.Words.GetValueOrDefault(id) ?? []];
            if (troubled) lines.AddRange(Wrapped(_standing.Trouble!.Words));
            Add(strip, x, lines, troubled, y);
        }
    }

    private void Add(int strip, double x, List<PartLine> lines, bool troubled, double fromPx)
    {
        double most = _size.WidthPx - _layout.LeftPx - SectionLayout.RightPx - 8;
        lines = [.. lines.Select(l => _size.WidthOf(l) <= most ? l : l with { Text = l.Text[..Math.Max(1, (int)(l.Text.Length * most / _size.WidthOf(l)) - 1)] + "…" })];
        string trouble = troubled ? " " + Urgencies.Rule(_standing.Trouble!.Urgency) : "";
        int words = troubled ? Wrapped(_standing.Trouble!.Words).Count : 0;
        _rows[strip].Add(new(
            Local(x, strip), [.. lines.Select((l, i) => (l, (l.IsFigure ? "fig" : i < lines.Count - words ? "nm" : "nm b") + (i >= lines.Count - words ? trouble : "")))],
            lines.Max(_size.WidthOf), lines.Sum(_size.LineOf), fromPx));
    }

    /// <summary>Words in lines of about sixteen letters, or of a width, broken between words.</summary>
    private List<PartLine> Wrapped(string words, double mostPx = double.NaN)
    {
        double letters = double.IsNaN(mostPx) ? 17 : Math.Max(4, mostPx / _size.WidthOf(new("x")));
        List<PartLine> lines = [];
        string line = "";
        foreach (string word in words.Split(' ', StringSplitOptions.RemoveEmptyEntries))
        {
            if (line.Length > 0 && line.Length + 1 + word.Length > letters)
            {
                lines.Add(new(line));
                line = "";
            }

            line = line.Length == 0 ? word : line + " " + word;
        }

        lines.Add(new(line));
        return lines;
    }
}
