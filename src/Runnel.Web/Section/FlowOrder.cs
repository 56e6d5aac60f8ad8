using Runnel.Place;
using Runnel.Place.Water;

namespace Runnel.Web.Section;

/// <summary>The way the water takes: from where the pump delivers, by gravity, back to where it takes.</summary>
internal sealed class FlowOrder
{
    private readonly PlaceDescription _place;
    private readonly List<string> _ids;
    private readonly Dictionary<string, string> _outletTo = [];
    private readonly List<(string Id, string? From, IReadOnlyList<string> To)> _pumps = [];
    private readonly List<(string Id, string? From, string To)> _topUps = [];

    public FlowOrder(PlaceDescription place, List<string> ids)
    {
        (_place, _ids) = (place, ids);
        foreach (WaterVessel v in place.Hydraulics?.Vessels ?? [])
        {
            if (v.Outlet is { } outlet && ids.Contains(outlet.To) && ids.Contains(v.Id) && outlet.To != v.Id) _outletTo.TryAdd(v.Id, outlet.To);
        }

        string? sump = place.Vessels.FirstOrDefault(v => v.Kind == VesselKind.Sump)?.Id;
        foreach (Equipment pump in place.Equipment.Where(e => e.Kind == EquipmentKind.Pump).DistinctBy(e => e.Id))
        {
            WaterPump? told = place.Hydraulics?.Pumps.FirstOrDefault(p => p.Id == pump.Id);
            string? from = told?.From ?? pump.From ?? sump;
            IReadOnlyList<string> to = told is not null ? [.. told.Ends.Select(e => e.To)] : pump.To is { } one ? [one] : [];
            _pumps.Add((pump.Id, from, [.. to.Where(t => ids.Contains(t) && t != from).Distinct()]));
        }

        foreach (Equipment valve in place.Equipment.Where(e => e.Kind is EquipmentKind.TopUpValve or EquipmentKind.FloatValve).DistinctBy(e => e.Id))
        {
            string? to = valve.To ?? valve.Of ?? sump;
            if (to is not null && ids.Contains(to)) _topUps.Add((valve.Id, valve.From, to));
        }

        Ordered = Order();
    }

    /// <summary>From where the pump delivers to the sump; tanks that only feed the loop last.</summary>
    public List<string> Ordered { get; }

    public List<PlanRun> Runs(List<string> ordered)
    {
        List<PlanRun> runs = [];
        foreach (var target in _outletTo.GroupBy(p => p.Value).OrderBy(g => ordered.IndexOf(g.Key)))
        {
            foreach (string from in target.Select(p => p.Key).OrderBy(ordered.IndexOf)) runs.Add(new(RunKind.Gravity, null, ordered.IndexOf(from), [ordered.IndexOf(target.Key)]));
        }

        // Where nothing is told of outlets, the water is known to come back all the same: from the last vessel of the way.
        if (_outletTo.Count == 0)
        {
            int sump = ordered.FindIndex(id => Kind(id) == VesselKind.Sump);
            for (int i = 0; i < sump; i++) runs.Add(new(RunKind.Gravity, null, i, [i + 1]));
        }

        foreach (var (id, from, to) in _pumps)
        {
            int at = from is null ? -1 : ordered.IndexOf(from);
            if (at < 0) continue;
            int[] ends = [.. to.Select(e => ordered.IndexOf(e)).Where(i => i >= 0).Order()];
            if (ends.Length == 0 && at > 0) ends = [0];
            runs.Add(new(RunKind.Pump, id, at, ends));
        }

        foreach (var (id, from, to) in _topUps) runs.Add(new(RunKind.TopUp, id, from is null ? -1 : ordered.IndexOf(from), [ordered.IndexOf(to)]));
        return runs;
    }

    private VesselKind Kind(string id) => _place.FindVessel(id)!.Kind;

    private List<string> Order()
    {
        Dictionary<string, int> depth = [];
        void Visit(string id, int at)
        {
            // A loop of outlets that never reaches the sump ends here too.
            if (at > _ids.Count || depth.GetValueOrDefault(id, -1) >= at || Kind(id) == VesselKind.Sump) return;
            depth[id] = at;
            if (_outletTo.TryGetValue(id, out string? next)) Visit(next, at + 1);
        }

        foreach (var pump in _pumps.Where(p => p.From is not null && _ids.Contains(p.From)))
        {
            foreach (string end in pump.To) Visit(end, 0);
        }

        var fed = _outletTo.Values.ToHashSet();
        foreach (string id in _ids.Where(id => _outletTo.ContainsKey(id) && !fed.Contains(id) && !depth.ContainsKey(id))) Visit(id, 0);
        bool IsStore(string id) => !depth.ContainsKey(id) && (Kind(id) == VesselKind.RainTank || _topUps.Any(t => t.From == id));
        return [.. _ids.Select((id, i) => (id, i))
            .OrderBy(p => Kind(p.id) == VesselKind.Sump ? 1 : IsStore(p.id) ? 2 : 0)
            .ThenBy(p => depth.GetValueOrDefault(p.id, Kind(p.id) == VesselKind.Sump ? 0 : p.i)).ThenBy(p => p.i).Select(p => p.id)];
    }
}
