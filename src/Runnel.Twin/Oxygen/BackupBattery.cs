using Runnel.Place.Fish;

namespace Runnel.Twin.Oxygen;

/// <summary>How long a battery carries backup air.</summary>
internal static class BackupBattery
{
    /// <summary>Half of a lead-acid battery is usable without harm (common practice); lithium has more, and is told as if it had not.</summary>
    public const double UsableShare = 0.5;

    /// <summary>An ageing battery on a cool night keeps about this share of what it was sold with (common practice).</summary>
    private const double Aged = 0.6;

    public static IReadOnlyList<BackupLife> Of(FishKeeping fish) =>
    [
        .. from air in fish.Air
           where air.IsBackup && air.BatteryWh > 0 && air.PowerW > 0
           select new BackupLife(air.Id, Math.Floor(UsableShare * Aged * air.BatteryWh!.Value / air.PowerW!.Value * 4) / 4),
    ];
}
