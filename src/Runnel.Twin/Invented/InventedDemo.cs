namespace Runnel.Twin.Invented;

/// <summary>The invented 60-day log that the pages show before a household drops its own.</summary>
public static class InventedDemo
{
    /// <summary>Makes it; always the same.</summary>
    public static InventedLog Make() => InventedLogs.Make(LoopKind.SwitchLog, Stories.Find("drain-fouling-8")!, 7, 60);
}
