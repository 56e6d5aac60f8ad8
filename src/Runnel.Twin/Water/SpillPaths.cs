using Runnel.Place.Water;

namespace Runnel.Twin.Water;

/// <summary>Follows the greatest flow that the pumps can give down through the vessels: does each let it pass below its rim?</summary>
internal sealed class SpillPaths
{
    private const double TightMm = 20;
    private readonly Hydraulics water;
    private readonly OutletLaw?[] laws;
    private readonly double[] inflow, highest;

    public SpillPaths(Hydraulics water)
    {
        this.water = water;
        laws = [.. water.Vessels.Select(v => v.Outlet is { } outlet ? new OutletLaw(outlet, v.FloorM ?? 0) : null)];
        inflow = new double[water.Vessels.Count];
        highest = new double[water.Vessels.Count];
        Follow();
    }

    public IEnumerable<ReviewLine> Lines()
    {
        const string rule = "the pump's greatest flow passes below the rim";
        for (int i = 0; i < laws.Length; i++)
        {
            var vessel = water.Vessels[i];
            if (laws[i] is not { } law || inflow[i] <= 0) continue;
            double flow = inflow[i] * 60_000, level = highest[i] * 1000;
            if (vessel.RimM is not { } rim)
            {
                yield return new(vessel.Id, rule, level, null, "mm", null, "reckoned by the twin", ReviewVerdict.Unknown, $"{vessel.Id} stands at {level:0} mm at {flow:0} L/min; its rim is not told.");
                continue;
            }

            double passes = law.FlowM3PerS(rim, double.NaN, siphons: false) * 60_000, margin = (rim - highest[i]) * 1000;
            bool spills = passes < flow;
            double room = (vessel.Shape.VolumeM3(rim) - vessel.Shape.VolumeM3(vessel.Outlet!.HeightM)) * 1000;
            yield return new(
                vessel.Id, rule, level, rim * 1000, "mm", spills ? -(highest[i] - rim) * 1000 : margin, "reckoned by the twin: crest, bore and pipe of the outlet",
                spills ? ReviewVerdict.Fails : WaterReview.Judge(margin, TightMm),
                spills
                    ? $"{vessel.Id} spills to {vessel.SpillsTo}: full to its rim its outlet passes {passes:0} L/min, and up to {flow:0} L/min come in. From its outlet's height it is full "
                        + $"after {room / (flow - passes):0} min, or a little sooner, and then loses up to {flow - passes:0} L/min."
                    : $"{vessel.Id} stands at {level:0} mm at {flow:0} L/min, {margin:0} mm below its rim.");
        }
    }

    // Round and round until nothing changes: a vessel passes on what comes in, by its outlet or over its rim.
    private void Follow()
    {
        int[] outletTo = [.. water.Vessels.Select(v => water.IndexOf(v.Outlet?.To))], spillsTo = [.. water.Vessels.Select(v => water.IndexOf(v.SpillsTo))];
        double[] pumped = new double[laws.Length];
        foreach (var pump in water.Pumps)
        {
            var from = water.Vessels[water.IndexOf(pump.From)];
            double floor = from.FloorM ?? 0, level = floor + (pump.OnM ?? (from.RimM ?? 1) / 2);
            var law = new PumpLaw(pump, floor, from.RimM ?? 2);
            for (int end = 0; end < pump.Ends.Count; end++)
            {
                if (water.IndexOf(pump.Ends[end].To) is var to and >= 0) pumped[to] += law.FlowM3PerS(end, level, double.NaN);
            }
        }

        HashSet<int> fed = [.. water.Pumps.Select(p => water.IndexOf(p.From))];
        for (int round = 0; round < laws.Length + 1; round++)
        {
            double[] next = [.. pumped];
            for (int i = 0; i < laws.Length; i++)
            {
                // What a pump draws from is where the way ends.
                if (laws[i] is not { } law || fed.Contains(i)) continue;
                double rim = water.Vessels[i].RimM ?? double.PositiveInfinity, passes = double.IsFinite(rim) ? law.FlowM3PerS(rim, double.NaN, false) : inflow[i];
                if (outletTo[i] >= 0) next[outletTo[i]] += Math.Min(inflow[i], passes);
                if (spillsTo[i] >= 0) next[spillsTo[i]] += Math.Max(0, inflow[i] - passes);
            }

            next.CopyTo(inflow, 0);
        }

        for (int i = 0; i < laws.Length; i++)
        {
            if (laws[i] is { } law) highest[i] = LevelM(law, inflow[i]);
        }
    }

    private static double LevelM(OutletLaw law, double flow)
    {
        double low = 0, high = 20;
        for (int i = 0; i < 60; i++)
        {
            double middle = (low + high) / 2;
            if (law.FlowM3PerS(middle, double.NaN, siphons: false) < flow) low = middle;
            else high = middle;
        }

        return high;
    }
}
