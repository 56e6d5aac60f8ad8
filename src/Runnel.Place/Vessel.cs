namespace Runnel.Place;

/// <summary>What a vessel is for.</summary>
public enum VesselKind { FishTank, SolidsSeparator, MechanicalFilter, Biofilter, Sump, Trough, MediaBed, HeaderPipe, RainTank }

/// <summary>How a vessel empties by gravity.</summary>
public enum OutletKind { Standpipe, Orifice, Weir, Siphon, Pipe }

/// <summary>Something that holds water. Heights are above this vessel's own floor. Null: not told.</summary>
/// <param name="Id">Kebab-case identifier.</param>
/// <param name="Kind">What it is for.</param>
/// <param name="BandL">Sump: water between the two switch levels, L (told, or from footprint and switch heights).</param>
/// <param name="FootprintM2">Area of the water surface, m2.</param>
/// <param name="SwitchLowM">Height at which the pump's switch lets go, m.</param>
/// <param name="SwitchHighM">Height at which the pump's switch starts it, m.</param>
/// <param name="RimM">Height of the rim, m.</param>
/// <param name="Outlet">How it empties.</param>
public sealed record Vessel(
    string Id,
    VesselKind Kind,
    double? BandL = null,
    double? FootprintM2 = null,
    double? SwitchLowM = null,
    double? SwitchHighM = null,
    double? RimM = null,
    OutletKind? Outlet = null);
