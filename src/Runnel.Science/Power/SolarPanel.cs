namespace Runnel.Science.Power;

/// <summary>Power and voltage of solar panels, losses and inverter.</summary>
/// <remarks>Dobos (2014), PVWatts Version 5 Manual, NREL/TP-6A20-62641.</remarks>
public static class SolarPanel
{
    /// <summary>DC power, W.</summary>
    /// <param name="irradianceWPerM2">Irradiance on the panel, W/m².</param>
    /// <param name="cellC">Cell temperature, °C.</param>
    /// <param name="ratedW">Rated power, W.</param>
    /// <param name="coefficientPerC">Change of power with temperature, 1/°C: -0.0035 to -0.005.</param>
    /// <returns>W.</returns>
    /// <exception cref="ArgumentOutOfRangeException">An input is NaN or out of range.</exception>
    /// <remarks>Equation 8.</remarks>
    public static double DcW(double irradianceWPerM2, double cellC, double ratedW, double coefficientPerC)
    {
        Require.InRange(irradianceWPerM2, 0, 2000);
        Require.InRange(cellC, -60, 120);
        Require.NotNegative(ratedW);
        Require.InRange(coefficientPerC, -0.01, 0.01);
        return Math.Max(0, irradianceWPerM2 / 1000 * ratedW * (1 + (coefficientPerC * (cellC - 25))));
    }

    /// <summary>Loss that several losses make together, 0 to 1: they multiply.</summary>
    /// <param name="losses">Losses, 0 to 1 each.</param>
    /// <returns>0 to 1.</returns>
    /// <exception cref="ArgumentOutOfRangeException">A loss is NaN or out of range.</exception>
    public static double TotalLoss(ReadOnlySpan<double> losses)
    {
        double left = 1;
        foreach (double loss in losses)
        {
            Require.InRange(loss, 0, 1, nameof(losses));
            left *= 1 - loss;
        }

        return 1 - left;
    }

    /// <summary>AC power of an inverter, W.</summary>
    /// <param name="dcW">DC power, W.</param>
    /// <param name="ratedDcW">Rated DC power of the inverter, W, above 0.</param>
    /// <param name="nominalEfficiency">0.5 to 1.</param>
    /// <returns>W, at most its rating.</returns>
    /// <exception cref="ArgumentOutOfRangeException">An input is NaN or out of range.</exception>
    /// <remarks>Equations 9 to 12, reference efficiency 0.9637.</remarks>
    public static double AcW(double dcW, double ratedDcW, double nominalEfficiency = 0.96)
    {
        Require.NotNegative(dcW);
        Require.Positive(ratedDcW);
        Require.InRange(nominalEfficiency, 0.5, 1);
        if (dcW == 0) return 0;
        double load = dcW / ratedDcW;
        double efficiency = nominalEfficiency / 0.9637 * ((-0.0162 * load) - (0.0059 / load) + 0.9858);
        return Math.Clamp(efficiency * dcW, 0, nominalEfficiency * ratedDcW);
    }

    /// <summary>Open-circuit voltage at a temperature, V: size the charger for the coldest morning.</summary>
    /// <param name="ratedV">At 25 °C, V.</param>
    /// <param name="coefficientPerC">Change with temperature, 1/°C: about -0.003.</param>
    /// <param name="cellC">Cell temperature, °C.</param>
    /// <returns>V.</returns>
    /// <exception cref="ArgumentOutOfRangeException">An input is NaN or out of range.</exception>
    public static double OpenCircuitV(double ratedV, double coefficientPerC, double cellC)
    {
        Require.Positive(ratedV);
        Require.InRange(coefficientPerC, -0.01, 0.01);
        Require.InRange(cellC, -60, 120);
        return ratedV * (1 + (coefficientPerC * (cellC - 25)));
    }
}
