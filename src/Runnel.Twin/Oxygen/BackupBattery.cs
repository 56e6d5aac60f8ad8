using Runnel.Place.Fish;

namespace Runnel.Twin.Oxygen;

/// <summary>How long a battery carries backup air.</summary>
internal static class BackupBattery
{
    /// <summary>Half of a lead-acid battery is usable without harm (common practice); lithium has more, and is told as if it had not.</summary>
    private const double UsableShare = 0.5;

    /// <summary>An ageing battery on a cool night keeps about this share of what it was sold with (common practice).</summary>
    private const double Aged = 0.6;

    /// <summary>Hours of one battery in such a state; infinite where no battery is told.</summary>
    /// <param name="air">The air pump on it.</param>
    /// <param name="health">Share of what it was sold with, 0 to 1.</param>
    public static double Hours(AirSource air, double health) =>
        air is { BatteryWh: { } wh, PowerW: { } watts and > 0 } ? UsableShare * health * wh / watts : double.PositiveInfinity;

    public static IReadOnlyList<BackupLife> Of(FishKeeping fish) =>
    [
        .. from air in fish.Air
           where air.IsBackup && double.IsFinite(Hours(air, Aged))
           select new BackupLife(air.Id, Math.Floor(Hours(air, Aged) * 4) / 4),
    ];
}
