using NodaTime;
using Runnel.Place.Findings;
using Runnel.Steward.Notices;

namespace Runnel.Steward.Watches;

/// <summary>Water so warm or so cold that hardly any fish kept in such loops bears it. The place does not say which fish it holds, so
/// only the outer limits are watched.</summary>
/// <remarks>Warm: 34 °C, just under the 35 °C that the Queensland Government's aquaculture guidance gives as the upper end for silver perch
/// and the 36 °C that FAO Fisheries Technical Paper 589 (section 7.4) gives as brief tolerance of Nile tilapia. Cold: 4 °C, above ice, is
/// common practice for the hardiest (trout, carp); warm-water fish are in danger long before, which the notice says.</remarks>
internal sealed class WaterTemperatureWatch : IWatch
{
    private const double WarmC = 34;
    private const double ColdC = 4;
    private const double BackC = 0.7;
    private static readonly Duration Lasting = Duration.FromMinutes(40);
    private Instant? _since;

    public void Look(LoopState state, NoticeBook notices)
    {
        int channel = state.Kit.WaterTemperature;
        if (channel < 0 || !state.Channels[channel].Any || state.Silent) return;
        var trace = state.Channels[channel];
        double waterC = trace.LastValue;
        ClearWhenOver("too-warm", waterC < WarmC - BackC);
        ClearWhenOver("too-cold", waterC > ColdC + BackC);
        bool warm = waterC >= WarmC, cold = waterC <= ColdC;
        string id = state.Place.Channels[channel].Id;
        bool fails = notices.Stands(SensorKeys.Jumping(id)) || notices.Stands(SensorKeys.Frozen(id)) || state.Now - trace.LastTime > Duration.FromHours(1);
        _since = warm || cold ? _since ?? trace.LastTime : null;

        // A sensor that lies dry, or is broken, shows values no loop has.
        bool believable = waterC is > -1 and < 45;
        if (_since is not { } since || trace.LastTime - since < Lasting || fails || !believable) return;
        notices.Raise(warm ? "too-warm" : "too-cold", new Notice
        {
            Causes = CauseSet.Only(warm ? CauseNames.WaterTooWarm : CauseNames.WaterTooCold, 0.85),
            Urgency = Urgency.Today,
            Since = since,
            FirstNoticed = state.Now,
            Evidence = warm
                ? Figures.Text($"The water is at {waterC:0.0} °C for {Figures.Span(state.Now - since)}; few pond fish bear more than {WarmC:0} °C, and warm water holds little oxygen.")
                : Figures.Text($"The water is at {waterC:0.0} °C for {Figures.Span(state.Now - since)}; warm-water fish die well above this, and only the hardiest bear it."),
            FirstAct = warm
                ? "Stop feeding, add air, and shade tanks and sump. Bring the temperature down slowly, not with a flood of cold water."
                : "Stop feeding, cover the tanks, and see that the heater, if there is one, has power.",
        });

        // Cold that comes back night after night is one trouble.
        void ClearWhenOver(string key, bool over)
        {
            if (!over) notices.GoesOn(key);
            else if (notices.MayEnd(key, state.Now)) notices.Clear(key, state.Now);
        }
    }
}
