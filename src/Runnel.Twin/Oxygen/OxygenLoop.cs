using Runnel.Twin.Solving;

namespace Runnel.Twin.Oxygen;

/// <summary>Oxygen of tanks and of the rest of the loop, mg/L: two-film transfer, flow between them, fish and bacteria.</summary>
/// <remarks>Well-mixed boxes; transfer after Lewis and Whitman (1924) as in <see cref="Runnel.Science.Fish.OxygenAfterAirFailure"/>. Demand does
/// not fall with oxygen, which is on the safe side until fish suffer.</remarks>
internal sealed class OxygenLoop(OxygenMember member, IReadOnlyList<(double StressMgPerL, double DangerMgPerL)> levels)
    : OdeSystem(member.Tanks + 1, 2 * member.Tanks)
{
    private readonly double[] _passedH = new double[2 * member.Tanks];

    public bool Flows { get; set; }
    public bool MainAir { get; set; }
    public bool BackupAir { get; set; }

    /// <summary>When each tank first fell below stress and danger, h; infinite: not yet.</summary>
    public ReadOnlySpan<double> PassedH => _passedH;

    /// <summary>Forgets when levels were passed; those that a tank begins below are passed at once.</summary>
    public void Begin(ReadOnlySpan<double> state)
    {
        for (int i = 0; i < member.Tanks; i++)
        {
            _passedH[2 * i] = state[i] < levels[i].StressMgPerL ? 0 : double.PositiveInfinity;
            _passedH[(2 * i) + 1] = state[i] < levels[i].DangerMgPerL ? 0 : double.PositiveInfinity;
        }
    }

    public override void Rates(double time, ReadOnlySpan<double> state, Span<double> rates)
    {
        double saturation = member.SaturationMgPerL, rest = state[^1], intoRest = 0;
        for (int i = 0; i < member.Tanks; i++)
        {
            double flow = Flows ? member.FlowLPerH[i] : 0;
            double air = (MainAir ? member.MainAirPerH[i] : 0) + (BackupAir ? member.BackupAirPerH[i] : 0);
            double surface = member.SurfacePerH[i] * (flow > 0 || air > 0 ? 1 : member.StillShare);
            double falls = rest + (member.FallShare * (saturation - rest));
            rates[i] = ((surface + air) * (saturation - state[i])) + (flow / member.VolumeL[i] * (falls - state[i])) - member.DemandMgPerLH[i];
            intoRest += flow * (state[i] - rest);
        }

        double transfer = member.RestTransferPerH * (Flows ? 1 : member.StillShare);
        rates[^1] = (intoRest / member.RestVolumeL) + (transfer * (saturation - rest)) - (member.RestDemandMgPerH / member.RestVolumeL);
    }

    public override void EventValues(double time, ReadOnlySpan<double> state, Span<double> values)
    {
        for (int i = 0; i < member.Tanks; i++)
        {
            values[2 * i] = state[i] - levels[i].StressMgPerL;
            values[(2 * i) + 1] = state[i] - levels[i].DangerMgPerL;
        }
    }

    public override EventDirection DirectionOf(int index) => EventDirection.Falling;

    public override EventOutcome Happened(double time, Span<double> state, ReadOnlySpan<int> events)
    {
        foreach (int e in events) _passedH[e] = Math.Min(_passedH[e], time);
        foreach (double passed in _passedH)
        {
            if (double.IsInfinity(passed)) return EventOutcome.Continue;
        }

        return EventOutcome.Stop;
    }
}
