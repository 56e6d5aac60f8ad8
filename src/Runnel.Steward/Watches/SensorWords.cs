using Runnel.Place;
using Runnel.Place.Findings;

namespace Runnel.Steward.Watches;

/// <summary>How a channel is spoken of, and how soon its failing wants a person.</summary>
internal static class SensorWords
{
    /// <summary>A sensor that fails can wait, unless it is all that shows whether the pump moves water.</summary>
    public static Urgency UrgencyOf(LoopState state, int channel) =>
        channel == state.Kit.PumpPower || (channel == state.Kit.SumpLevel && state.Kit.BandL is null) ? Urgency.Today : Urgency.Soon;

    public static string Name(LoopState state, int channel)
    {
        var c = state.Place.Channels[channel];
        string what = Quantities.NameOf(c.Measures).Replace('-', ' ');
        return $"\"{c.Id}\" ({what})";
    }

    public static string Value(LoopState state, int channel, double value)
    {
        string unit = Quantities.UnitOf(state.Place.Channels[channel].Measures).Replace("degC", "°C", StringComparison.Ordinal);
        return Figures.Text($"{value:0.##} {unit}").TrimEnd();
    }
}
