namespace Runnel.Science.Pipes;

/// <summary>Geometry of a part-full round pipe, relative to the full pipe where it is a ratio.</summary>
/// <param name="AngleRad">Angle of the wetted arc seen from the centre, rad.</param>
/// <param name="AreaRatio">Flow area over that of the full pipe.</param>
/// <param name="PerimeterRatio">Wetted perimeter over that of the full pipe.</param>
/// <param name="TopWidthRatio">Width of the surface over the bore.</param>
public readonly record struct PartFullSection(double AngleRad, double AreaRatio, double PerimeterRatio, double TopWidthRatio)
{
    /// <summary>Hydraulic radius over that of the full pipe (a quarter of the bore).</summary>
    public double HydraulicRadiusRatio => AreaRatio / PerimeterRatio;

    /// <summary>Velocity over that of the full pipe, constant Manning n.</summary>
    public double VelocityRatio => Math.Pow(HydraulicRadiusRatio, 2.0 / 3);

    /// <summary>Flow over that of the full pipe, constant Manning n.</summary>
    public double FlowRatio => AreaRatio * VelocityRatio;
}

/// <summary>Round drains that run part full, by Manning.</summary>
/// <remarks>Chow (1959), Open-Channel Hydraulics: constant n with depth. Plastic 0.009 to 0.011.</remarks>
public static class PartFullPipe
{
    /// <summary>Depth over bore at which most water runs: above it two depths carry the same flow.</summary>
    public const double DepthOfMostFlow = 0.938181;

    /// <summary>Section at a depth.</summary>
    /// <param name="depthRatio">Depth over bore, above 0 to 1.</param>
    /// <returns>Section.</returns>
    /// <exception cref="ArgumentOutOfRangeException">The ratio is NaN or out of range.</exception>
    public static PartFullSection Section(double depthRatio)
    {
        Require.InRange(depthRatio, 1e-9, 1);
        double angle = 2 * Math.Acos(1 - (2 * depthRatio));
        return new PartFullSection(
            angle, (angle - Math.Sin(angle)) / (2 * Math.PI), angle / (2 * Math.PI), 2 * Math.Sqrt(depthRatio * (1 - depthRatio)));
    }

    /// <summary>Velocity by Manning, m/s.</summary>
    /// <param name="hydraulicRadiusM">Area over wetted perimeter, m.</param>
    /// <param name="slope">Fall over length, above 0 to 1.</param>
    /// <param name="n">Manning roughness, 0.005 to 0.1.</param>
    /// <returns>Velocity, m/s.</returns>
    /// <exception cref="ArgumentOutOfRangeException">An input is NaN or out of range.</exception>
    public static double ManningVelocityMPerS(double hydraulicRadiusM, double slope, double n)
    {
        Require.Positive(hydraulicRadiusM);
        Require.InRange(slope, 1e-9, 1);
        Require.InRange(n, 0.005, 0.1);
        return Math.Pow(hydraulicRadiusM, 2.0 / 3) * Math.Sqrt(slope) / n;
    }

    /// <summary>Flow of the full pipe, m³/s.</summary>
    /// <param name="diameterM">Bore, m.</param>
    /// <param name="slope">Fall over length.</param>
    /// <param name="n">Manning roughness.</param>
    /// <returns>Flow, m³/s, without pressure.</returns>
    /// <exception cref="ArgumentOutOfRangeException">An input is NaN or out of range.</exception>
    public static double FullFlowM3PerS(double diameterM, double slope, double n)
    {
        Require.Positive(diameterM);
        return Math.PI * diameterM * diameterM / 4 * ManningVelocityMPerS(diameterM / 4, slope, n);
    }

    /// <summary>Depth over bore that carries a share of the full flow: the lower of two where there are two.</summary>
    /// <param name="flowRatio">Flow over that of the full pipe, above 0 to 1.0757.</param>
    /// <returns>Depth over bore, or null where no depth carries as much without pressure.</returns>
    /// <exception cref="ArgumentOutOfRangeException">The ratio is NaN or not above 0.</exception>
    public static double? DepthRatio(double flowRatio)
    {
        Require.Positive(flowRatio);
        return Depth(flowRatio, 1e-9, DepthOfMostFlow);
    }

    /// <summary>The upper depth over bore for a flow above that of the full pipe.</summary>
    /// <param name="flowRatio">Flow over that of the full pipe, 1 to 1.0757.</param>
    /// <returns>Depth over bore, or null where there is none.</returns>
    /// <exception cref="ArgumentOutOfRangeException">The ratio is NaN or below 1.</exception>
    public static double? UpperDepthRatio(double flowRatio)
    {
        Require.InRange(flowRatio, 1, double.MaxValue);
        return Depth(flowRatio, 1, DepthOfMostFlow);
    }

    /// <summary>Section at a flow area.</summary>
    /// <param name="areaRatio">Flow area over that of the full pipe, above 0 to 1.</param>
    /// <returns>Section.</returns>
    /// <exception cref="ArgumentOutOfRangeException">The ratio is NaN or out of range.</exception>
    public static PartFullSection SectionOfArea(double areaRatio)
    {
        Require.InRange(areaRatio, 1e-12, 1);
        double low = 1e-9, high = 1;
        for (int i = 0; i < 60; i++)
        {
            double middle = (low + high) / 2;
            if (Section(middle).AreaRatio < areaRatio) low = middle;
            else high = middle;
        }

        return Section((low + high) / 2);
    }

    /// <summary>Flow by Darcy and Weisbach with the hydraulic diameter, m³/s: where Manning's n is not known but the roughness is.</summary>
    /// <param name="diameterM">Bore, m.</param>
    /// <param name="depthRatio">Depth over bore.</param>
    /// <param name="slope">Fall over length.</param>
    /// <param name="relativeRoughness">Roughness over the hydraulic diameter.</param>
    /// <param name="viscosityM2PerS">Kinematic viscosity, m²/s.</param>
    /// <returns>Flow, m³/s.</returns>
    /// <exception cref="ArgumentOutOfRangeException">An input is NaN or out of range.</exception>
    public static double DarcyFlowM3PerS(double diameterM, double depthRatio, double slope, double relativeRoughness, double viscosityM2PerS = 1.004e-6)
    {
        Require.Positive(diameterM);
        Require.InRange(slope, 1e-9, 1);
        Require.InRange(viscosityM2PerS, 1e-8, 1);
        var section = Section(depthRatio);
        double hydraulicDiameter = diameterM * section.HydraulicRadiusRatio, friction = 0.02, velocity = 0;
        for (int i = 0; i < 50; i++)
        {
            velocity = Math.Sqrt(2 * PipeFlow.GravityMPerS2 * hydraulicDiameter * slope / friction);
            double next = FrictionFactor.Darcy(velocity * hydraulicDiameter / viscosityM2PerS, relativeRoughness);
            if (Math.Abs(next - friction) < 1e-12) break;
            friction = next;
        }

        return velocity * section.AreaRatio * Math.PI * diameterM * diameterM / 4;
    }

    private static double? Depth(double flowRatio, double dry, double most)
    {
        if (Section(most).FlowRatio < flowRatio) return null;
        for (int i = 0; i < 80; i++)
        {
            double middle = (dry + most) / 2;
            if (Section(middle).FlowRatio < flowRatio) dry = middle;
            else most = middle;
        }

        return (dry + most) / 2;
    }
}
