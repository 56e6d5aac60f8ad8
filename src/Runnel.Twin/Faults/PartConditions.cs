using Runnel.Twin.Water;

namespace Runnel.Twin.Faults;

/// <summary>How a channel is: all well unless told.</summary>
internal sealed class ChannelCondition
{
    public bool IsSilent { get; set; }

    public bool IsFrozen { get; set; }

    /// <summary>Share of its readings that lie far off.</summary>
    public double JumpShare { get; set; }

    /// <summary>What is added to its readings, as a share of its usual range.</summary>
    public Course DriftShare { get; set; }

    public double NoiseFactor { get; set; } = 1;
}

/// <summary>How a piece of equipment is, as far as it is no matter of water.</summary>
internal sealed class EquipmentCondition
{
    public bool HasPower { get; set; } = true;

    public bool IsUnplugged { get; set; }

    public bool Stands { get; set; }

    /// <summary>Share of what it gives that is left.</summary>
    public Course Strength { get; set; } = new(1);
}
