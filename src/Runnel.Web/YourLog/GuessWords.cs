using Runnel.Exchange.Survey;
using Runnel.Place;
using Runnel.Web.Words;

namespace Runnel.Web.YourLog;

/// <summary>A surveyor's guess as the form offers it.</summary>
public static class GuessWords
{
    /// <summary>What the place file writer calls the thing that was guessed, or null for the place.</summary>
    public static string? ThingOf(ChannelGuess guess) => guess switch
    {
        { Equipment: EquipmentKind.Pump } => "sump-pump",
        { Equipment: EquipmentKind.TopUpValve } => "top-up",
        { Equipment: EquipmentKind.BleedValve } => "bleed",
        { Equipment: EquipmentKind.MainAir } => "main-air",
        { Equipment: EquipmentKind.BackupAir } => "backup-air",
        { Vessel: VesselKind.Sump } => "sump",
        { Vessel: VesselKind.Trough } => "trough",
        { Vessel: VesselKind.MediaBed } => "media-bed",
        { Vessel: VesselKind.RainTank } => "rain-tank",
        { Vessel: not null } => "fish-tank",
        { Measures: Quantity.Level or Quantity.WaterTemperature } => "sump",
        { Measures: Quantity.DissolvedOxygen or Quantity.OxygenSaturation or Quantity.Ph or Quantity.Conductivity } => "fish-tank",
        _ => null,
    };

    /// <summary>Why it was guessed and how sure that is; for a column that fits nothing, what its values look like.</summary>
    public static string Why(FoundChannel channel)
    {
        ChannelStatistics s = channel.Statistics;
        if (channel.Guess is not { } guess)
        {
            return s.Readings == 0 ? "It holds no numbers."
                : $"Nothing fits; values from {Figures.WithUnit(s.Least, "")} to {Figures.WithUnit(s.Greatest, "")}.";
        }

        string certainty = guess.Certainty switch { Certainty.Sure => "Sure", Certainty.Likely => "Likely", _ => "A guess" };
        string reason = guess.Reason.Replace(" degC", " °C", StringComparison.Ordinal).Replace("W/m2", "W/m²", StringComparison.Ordinal);
        return $"{certainty}: {reason}.";
    }
}
