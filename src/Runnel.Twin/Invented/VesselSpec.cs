using Runnel.Place;

namespace Runnel.Twin.Invented;

/// <summary>One vessel of an invented loop, as it truly is.</summary>
/// <remarks>
/// Outflow over the sill by two resistances in line, Q = 1 / sqrt(1/Qw^2 + 1/Qo^2): a weir or standpipe rim, Qw = WeirC h^1.5, and
/// an orifice, screen or full pipe, Qo = OrificeC sqrt(h + DropM). A drop beyond the vessel makes the pipe the limit.
/// A siphon empties from <see cref="TripM"/> to <see cref="BreakM"/> by the same law.
/// </remarks>
internal sealed class VesselSpec
{
    public required string Id { get; init; }
    public required VesselKind Kind { get; init; }

    /// <summary>Free water area, m2 (voids only in a media bed).</summary>
    public required double AreaM2 { get; init; }
    public required double SillM { get; set; }
    public required double RimM { get; set; }

    /// <summary>L/s per m^1.5.</summary>
    public double WeirC { get; set; }

    /// <summary>L/s per m^0.5.</summary>
    public double OrificeC { get; set; }
    public double DropM { get; init; }
    public int ToA { get; set; } = -1;
    public int ToB { get; set; } = -1;
    public double ShareA { get; set; } = 1;
    public int DelayS { get; init; }
    public double OpenM2 { get; init; }

    /// <summary>Share of the place's canopy that drinks here.</summary>
    public double CanopyShare { get; set; }

    /// <summary>Share of the pump's flow that is led here.</summary>
    public double PumpShare { get; set; }
    public bool Siphon { get; init; }
    public double TripM { get; init; }
    public double BreakM { get; init; }

    /// <summary>How strongly this drain takes part when "all drains" foul (exponent).</summary>
    public double FoulWeight { get; set; } = 1;
    public OutletKind? Outlet { get; init; }

    /// <summary>Outflow at a head over the sill, L/s.</summary>
    public double FlowAt(double headM)
    {
        double weir2 = WeirC * WeirC * headM * headM * headM;
        double orifice2 = OrificeC * OrificeC * (headM + DropM);
        return weir2 + orifice2 == 0 ? 0 : Math.Sqrt(weir2 * orifice2 / (weir2 + orifice2));
    }

    /// <summary>Head at which <paramref name="flow"/> leaves, m; at most 0.6.</summary>
    public double HeadAt(double flow)
    {
        double low = 0, high = 0.6;
        for (int i = 0; i < 30; i++)
        {
            double middle = (low + high) / 2;
            if (FlowAt(middle) < flow) low = middle;
            else high = middle;
        }

        return high;
    }
}
