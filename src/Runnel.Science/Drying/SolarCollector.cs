namespace Runnel.Science.Drying;

/// <summary>What a flat collector gives.</summary>
/// <param name="HeatRemoval">Heat removal factor FR.</param>
/// <param name="GainW">Useful gain, W.</param>
/// <param name="OutletC">Temperature at the outlet, °C.</param>
/// <param name="Efficiency">Gain over the sun on the collector.</param>
public readonly record struct CollectorState(double HeatRemoval, double GainW, double OutletC, double Efficiency);

/// <summary>Air moved by a chimney of warm air.</summary>
/// <param name="OutsideKgPerM3">Density outside, kg/m³.</param>
/// <param name="InsideKgPerM3">Density inside, kg/m³.</param>
/// <param name="DraughtPa">Draught, Pa.</param>
/// <param name="FlowM3PerS">Flow of warm air, m³/s.</param>
/// <param name="MassFlowKgPerS">Mass flow, kg/s.</param>
public readonly record struct StackDraught(double OutsideKgPerM3, double InsideKgPerM3, double DraughtPa, double FlowM3PerS, double MassFlowKgPerS);

/// <summary>Flat collectors and the draught of a warm column.</summary>
public static class SolarCollector
{
    /// <summary>Heat removal factor.</summary>
    /// <param name="massFlowKgPerS">Mass flow, kg/s.</param>
    /// <param name="heatCapacityJPerKgK">Heat capacity: air 1007, water 4190 J/(kg K).</param>
    /// <param name="areaM2">Area, m².</param>
    /// <param name="lossWPerM2K">Loss coefficient, W/(m² K).</param>
    /// <param name="efficiencyFactor">F', 0 to 1.</param>
    /// <returns>FR.</returns>
    /// <exception cref="ArgumentOutOfRangeException">An input is NaN or out of range.</exception>
    /// <remarks>Duffie and Beckman, Solar Engineering of Thermal Processes, section 6.7.</remarks>
    public static double HeatRemovalFactor(
        double massFlowKgPerS, double heatCapacityJPerKgK, double areaM2, double lossWPerM2K, double efficiencyFactor)
    {
        Require.Positive(massFlowKgPerS);
        Require.Positive(heatCapacityJPerKgK);
        Require.Positive(areaM2);
        Require.Positive(lossWPerM2K);
        Require.InRange(efficiencyFactor, 0.01, 1);
        double capacity = massFlowKgPerS * heatCapacityJPerKgK / (areaM2 * lossWPerM2K);
        return capacity * -double.ExpM1(-efficiencyFactor / capacity);
    }

    /// <summary>Useful gain.</summary>
    /// <param name="massFlowKgPerS">Mass flow, kg/s.</param>
    /// <param name="heatCapacityJPerKgK">Heat capacity, J/(kg K).</param>
    /// <param name="areaM2">Area, m².</param>
    /// <param name="lossWPerM2K">Loss coefficient, W/(m² K).</param>
    /// <param name="efficiencyFactor">F'.</param>
    /// <param name="irradianceWPerM2">Sun on the collector, W/m², above 0.</param>
    /// <param name="tauAlpha">Transmittance times absorptance, 0 to 1.</param>
    /// <param name="inletC">Inlet, °C.</param>
    /// <param name="ambientC">Ambient, °C.</param>
    /// <returns>State.</returns>
    /// <exception cref="ArgumentOutOfRangeException">An input is NaN or out of range.</exception>
    /// <remarks>Hottel, Whillier and Bliss; Duffie and Beckman equation 6.7.6.</remarks>
    public static CollectorState Gain(
        double massFlowKgPerS, double heatCapacityJPerKgK, double areaM2, double lossWPerM2K, double efficiencyFactor, double irradianceWPerM2,
        double tauAlpha, double inletC, double ambientC)
    {
        Require.InRange(irradianceWPerM2, 1e-6, 2000);
        Require.InRange(tauAlpha, 0, 1);
        Require.InRange(inletC, -60, 200);
        Require.InRange(ambientC, -60, 60);
        double removal = HeatRemovalFactor(massFlowKgPerS, heatCapacityJPerKgK, areaM2, lossWPerM2K, efficiencyFactor);
        double gain = areaM2 * removal * ((irradianceWPerM2 * tauAlpha) - (lossWPerM2K * (inletC - ambientC)));
        return new CollectorState(removal, gain, inletC + (gain / (massFlowKgPerS * heatCapacityJPerKgK)), gain / (areaM2 * irradianceWPerM2));
    }

    /// <summary>Draught and flow of a warm column.</summary>
    /// <param name="heightM">Height between inlet and outlet, m.</param>
    /// <param name="outsideC">Outside air, °C.</param>
    /// <param name="insideC">Inside air, °C, not below outside.</param>
    /// <param name="openingM2">Opening, m².</param>
    /// <param name="dischargeCoefficient">0.6 to 0.65.</param>
    /// <param name="pressurePa">Air pressure, Pa.</param>
    /// <returns>Draught.</returns>
    /// <exception cref="ArgumentOutOfRangeException">An input is NaN or out of range.</exception>
    /// <remarks>ASHRAE Handbook Fundamentals, ventilation: Cd A sqrt(2 g H (Ti - To)/Ti), kelvin; dry air. Trays in the way lower it.</remarks>
    public static StackDraught Stack(
        double heightM, double outsideC, double insideC, double openingM2, double dischargeCoefficient = 0.6, double pressurePa = 101_325)
    {
        Require.NotNegative(heightM);
        Require.InRange(outsideC, -60, 60);
        Require.InRange(insideC, outsideC, 200);
        Require.Positive(openingM2);
        Require.InRange(dischargeCoefficient, 0.1, 1);
        Require.InRange(pressurePa, 40_000, 110_000);
        const double gravity = 9.80665, gas = 287.055;
        double outside = pressurePa / (gas * (outsideC + 273.15)), inside = pressurePa / (gas * (insideC + 273.15));
        double flow = dischargeCoefficient * openingM2 * Math.Sqrt(2 * gravity * heightM * (insideC - outsideC) / (insideC + 273.15));
        return new StackDraught(outside, inside, gravity * heightM * (outside - inside), flow, flow * inside);
    }
}
