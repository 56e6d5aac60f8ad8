namespace Runnel.Science.Power;

/// <summary>What an air blower works against and takes.</summary>
/// <param name="OutletPa">Absolute pressure at the outlet, Pa.</param>
/// <param name="MassFlowKgPerS">Air, kg/s.</param>
/// <param name="ShaftW">Shaft power, W.</param>
public readonly record struct BlowerState(double OutletPa, double MassFlowKgPerS, double ShaftW);

/// <summary>Power of air blowers.</summary>
public static class Blower
{
    /// <summary>Blower that presses air to a depth.</summary>
    /// <param name="airLPerMin">Air drawn in, L/min.</param>
    /// <param name="depthM">Depth of the diffuser, m.</param>
    /// <param name="lineLossPa">Loss of pipe and stone, Pa.</param>
    /// <param name="inletC">Air drawn in, °C.</param>
    /// <param name="efficiency">Above 0 to 1.</param>
    /// <param name="pressurePa">Air pressure, Pa.</param>
    /// <returns>State.</returns>
    /// <exception cref="ArgumentOutOfRangeException">An input is NaN or out of range.</exception>
    /// <remarks>Adiabatic compression as in Metcalf and Eddy: w R T/(M n e) ((p2/p1)^n - 1), n = 0.283; water 1000 kg/m³, 9.81 m/s².</remarks>
    public static BlowerState AtDepth(
        double airLPerMin, double depthM, double lineLossPa, double inletC, double efficiency, double pressurePa = 101_325)
    {
        Require.NotNegative(airLPerMin);
        Require.InRange(depthM, 0, 20);
        Require.NotNegative(lineLossPa);
        Require.InRange(inletC, -40, 60);
        Require.InRange(efficiency, 0.01, 1);
        Require.InRange(pressurePa, 40_000, 110_000);
        const double gas = 8.314462618 / 0.0289652, n = 0.283;
        double outlet = pressurePa + (1000 * 9.81 * depthM) + lineLossPa, kelvin = inletC + 273.15;
        double mass = airLPerMin / 60_000 * pressurePa / (gas * kelvin);
        return new BlowerState(outlet, mass, mass * gas * kelvin / (n * efficiency) * (Math.Pow(outlet / pressurePa, n) - 1));
    }
}
