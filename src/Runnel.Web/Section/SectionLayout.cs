using Runnel.Place;

namespace Runnel.Web.Section;

/// <summary>A vessel on the paper: its place along the way (strip after strip), px.</summary>
internal readonly record struct Slot(double LeftPx, double WidthPx, int Strip)
{
    public double RightPx => LeftPx + WidthPx;

    public double MiddlePx => LeftPx + (WidthPx / 2);
}

/// <summary>One strip of the drawing, px from the top of the paper.</summary>
internal sealed record Strip(int Index, double TopPx, double HeaderPx, double BasePx, double PxPerM, int First, int End)
{
    public double Y(double heightM) => BasePx - (heightM * PxPerM);
}

/// <summary>Where each vessel stands: side by side along the way of the water, at true heights, folded into strips.</summary>
internal sealed class SectionLayout
{
    public const double RightPx = 8, HeaderToRimPx = 30, HeaderStepPx = 13, LaneStepPx = 13;
    private const double SwitchWordsPx = 52, TopUpPx = 44;

    public SectionLayout(SectionPlan plan, SectionSize size, bool hasTrouble)
    {
        (Plan, Size) = (plan, size);
        LeftPx = plan.IsToHeight ? Math.Ceiling(size.NamePx * 3.3) : 12;
        Breaks = BreaksOf();
        Slots = Place();
        TopRowPx = plan.Air.Count > 0 ? size.NamePx * 1.9 : 4;
        Headers = Math.Max(1, plan.Runs.Count(r => r.Kind == RunKind.Pump && r.To.Count > 0));
        BelowPx = 12 + (hasTrouble ? 8 : 0);
    }

    public SectionPlan Plan { get; }

    public SectionSize Size { get; }

    /// <summary>Room for the heights at the left.</summary>
    public double LeftPx { get; }

    public double TopRowPx { get; }

    public int Headers { get; }

    public double BelowPx { get; }

    /// <summary>First vessel of each strip, and behind the last the count of vessels.</summary>
    public IReadOnlyList<int> Breaks { get; }

    public IReadOnlyList<Slot> Slots { get; }

    public int StripCount => Breaks.Count - 1;

    /// <summary>A strip that begins at a height on the paper.</summary>
    public Strip StripAt(int index, double topPx)
    {
        int first = Breaks[index], end = Breaks[index + 1];
        double scale = Size.PlotPx / Plan.TopM;
        double high = Plan.Vessels.Skip(first).Take(end - first).Select(v => v.RimM).DefaultIfEmpty(0.5).Max();
        double top = topPx + (index == 0 ? TopRowPx : 4), header = top + 9;
        return new(index, topPx, header, header + ((Headers - 1) * HeaderStepPx) + HeaderToRimPx + (high * scale), scale, first, end);
    }

    /// <summary>Room behind a vessel: pipes go down there; behind the sump stand the words of its switch, and what fills it.</summary>
    private double GapAfter(int i)
    {
        double gap = Size.GapPx;
        if (i >= Plan.Vessels.Count) return gap;
        if (i < Plan.Vessels.Count - 1 && IsNarrowPair(i)) gap = 9;
        if (Plan.Vessels[i].SwitchHighM is not null) gap = Math.Max(gap, SwitchWordsPx * Size.NamePx / 14);
        if (Plan.Runs.Any(r => r.Kind == RunKind.TopUp && r.To[0] == i)) gap += TopUpPx;
        return gap;
    }

    private bool IsNarrowPair(int i) => Plan.Vessels[i].Weight == 0.5 && Plan.Vessels[i + 1].Weight == 0.5 && Plan.Vessels[i].Kind == Plan.Vessels[i + 1].Kind
        && !Plan.Runs.Any(r => r.Kind == RunKind.Gravity && r.From == i && r.To[0] == i + 1);

    private double RoomPx => Size.WidthPx - LeftPx - RightPx;

    private double LeastWidth(int i) => (Plan.Vessels[i].Weight * Size.LeastUnitPx) + GapAfter(i);

    /// <summary>As few strips as leave each vessel its least width, about evenly filled.</summary>
    private List<int> BreaksOf()
    {
        int n = Plan.Vessels.Count;
        if (n == 0) return [0, 0];
        double whole = Enumerable.Range(0, n).Sum(LeastWidth);
        int strips = (int)Math.Ceiling(whole / (RoomPx - Size.GapPx));
        for (; ; strips++)
        {
            foreach (double looser in new[] { 1.0, 1.08, 1.16, 1.24, 1.4, 2 })
            {
                if (Fill(whole / strips * looser) is { } even && even.Count - 1 <= strips) return even;
            }

            if (strips >= n) return Fill(RoomPx - Size.GapPx);
        }
    }

    private List<int> Fill(double target)
    {
        List<int> breaks = [0];
        double filled = 0, most = RoomPx - Size.GapPx;
        for (int i = 0; i < Plan.Vessels.Count; i++)
        {
            double width = LeastWidth(i);
            bool isFull = filled > 0 && (filled + width > most || filled + (width / 2) > target);
            if (isFull)
            {
                breaks.Add(i);
                filled = 0;
            }

            filled += width;
        }

        breaks.Add(Plan.Vessels.Count);
        return breaks;
    }

    private List<Slot> Place()
    {
        List<Slot> slots = [];
        for (int s = 0; s < StripCount; s++)
        {
            int first = Breaks[s], end = Breaks[s + 1];
            var indices = Enumerable.Range(first, end - first).ToList();
            double weights = indices.Sum(i => Plan.Vessels[i].Weight), gaps = Size.GapPx + indices.Sum(GapAfter);
            double unit = Math.Min(Size.MostUnitPx, (RoomPx - gaps) / Math.Max(weights, 0.1));
            double spare = Math.Max(0, RoomPx - gaps - (unit * weights)), each = spare / (indices.Count + 1);
            // A vessel that stands alone on a strip too narrow for it still gets something to be seen by.
            unit = Math.Max(unit, 12);
            double x = (s * Size.WidthPx) + LeftPx + Size.GapPx + each;
            foreach (int i in indices)
            {
                double width = Plan.Vessels[i].Weight * unit;
                slots.Add(new(x, width, s));
                x += width + GapAfter(i) + each;
            }
        }

        return slots;
    }

    /// <summary>Middle of the room behind a vessel, or before it.</summary>
    public double GapPx(int vessel, bool behind, double shiftPx = 0)
    {
        Slot slot = Slots[vessel];
        return behind ? slot.RightPx + Math.Min(GapAfter(vessel), Size.GapPx) * 0.5 + shiftPx : slot.LeftPx - (Size.GapPx * 0.5) + shiftPx;
    }
}
