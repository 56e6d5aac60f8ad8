namespace Runnel.Science.Pipes;

/// <summary>What a pump takes and needs.</summary>
public static class PumpDemand
{
    /// <summary>Shaft (or, with the efficiency of the whole set, electric) power, W.</summary>
    /// <param name="flowM3PerS">Flow, m³/s.</param>
    /// <param name="headM">Head, m.</param>
    /// <param name="efficiency">Above 0 to 1: small pond pumps 0.1 to 0.3 over all, good large ones 0.7.</param>
    /// <param name="densityKgPerM3">Density, kg/m³.</param>
    /// <param name="gravityMPerS2">Gravity, m/s².</param>
    /// <returns>Power, W.</returns>
    /// <exception cref="ArgumentOutOfRangeException">An input is NaN or out of range.</exception>
    /// <remarks>Definition: density x gravity x flow x head over efficiency.</remarks>
    public static double PowerW(
        double flowM3PerS, double headM, double efficiency, double densityKgPerM3 = 998.2, double gravityMPerS2 = PipeFlow.GravityMPerS2)
    {
        Require.NotNegative(flowM3PerS);
        Require.NotNegative(headM);
        Require.InRange(efficiency, 0.001, 1);
        Require.InRange(densityKgPerM3, 900, 1200);
        Require.InRange(gravityMPerS2, 9.7, 9.9);
        return densityKgPerM3 * gravityMPerS2 * flowM3PerS * headM / efficiency;
    }

    /// <summary>Net positive suction head available, m: it must stay above what the pump requires, or it cavitates.</summary>
    /// <param name="surfacePressureKPa">Absolute pressure on the water taken from, kPa.</param>
    /// <param name="vapourPressureKPa">Vapour pressure of the water, kPa.</param>
    /// <param name="suctionLiftM">Height of the pump above the water, m; negative when flooded.</param>
    /// <param name="suctionLossM">Loss in the suction line, m.</param>
    /// <param name="specificWeightKNPerM3">Specific weight, kN/m³: water 9.79.</param>
    /// <returns>Head, m.</returns>
    /// <exception cref="ArgumentOutOfRangeException">An input is NaN or out of range.</exception>
    /// <remarks>Energy equation, as in Crane TP-410. The pump maker's figure for what is required comes with the pump.</remarks>
    public static double SuctionHeadM(
        double surfacePressureKPa, double vapourPressureKPa, double suctionLiftM, double suctionLossM, double specificWeightKNPerM3 = 9.79)
    {
        Require.InRange(surfacePressureKPa, 1, 1000);
        Require.InRange(vapourPressureKPa, 0, surfacePressureKPa);
        Require.InRange(suctionLiftM, -100, 20);
        Require.NotNegative(suctionLossM);
        Require.InRange(specificWeightKNPerM3, 9, 11);
        return ((surfacePressureKPa - vapourPressureKPa) / specificWeightKNPerM3) - suctionLiftM - suctionLossM;
    }

    /// <summary>Greatest height of the pump above the water, m.</summary>
    /// <param name="surfacePressureKPa">Absolute pressure on the water taken from, kPa.</param>
    /// <param name="vapourPressureKPa">Vapour pressure of the water, kPa (<see cref="Water.WaterProperties.VapourPressureKPa"/>).</param>
    /// <param name="suctionLossM">Loss in the suction line, m.</param>
    /// <param name="requiredM">Net positive suction head that the pump requires, m; half a metre more is kept in hand (common practice).</param>
    /// <param name="specificWeightKNPerM3">Specific weight, kN/m³.</param>
    /// <returns>m; below 0 the pump must stand so deep under the water.</returns>
    /// <exception cref="ArgumentOutOfRangeException">An input is NaN or out of range.</exception>
    /// <remarks><see cref="SuctionHeadM"/> solved for the lift.</remarks>
    public static double GreatestSuctionLiftM(
        double surfacePressureKPa, double vapourPressureKPa, double suctionLossM, double requiredM, double specificWeightKNPerM3 = 9.79)
    {
        Require.InRange(requiredM, 0, 50);
        return SuctionHeadM(surfacePressureKPa, vapourPressureKPa, 0, suctionLossM, specificWeightKNPerM3) - requiredM;
    }
}
