namespace Runnel.Science.Power;

/// <summary>How long a battery lasts.</summary>
/// <param name="UsableWh">Energy in the battery down to the depth allowed, Wh.</param>
/// <param name="Hours">Hours at the load.</param>
public readonly record struct Autonomy(double UsableWh, double Hours);

/// <summary>Sizing of batteries. Chemistry, fuse and ventilation are the maker's word and a licensed trade's.</summary>
public static class Battery
{
    // Lead-acid multipliers by temperature, °C (simplified IEEE sizing worksheet; that of 10 °C from memory).
    private static ReadOnlySpan<double> TemperaturesC => [-6.7, -1.1, 4.4, 10, 15.6, 21.2, 26.7];

    private static ReadOnlySpan<double> Multipliers => [1.59, 1.40, 1.30, 1.19, 1.11, 1.04, 1.00];

    /// <summary>Capacity wanted, Ah.</summary>
    /// <param name="loadWhPerDay">Load, Wh a day.</param>
    /// <param name="days">Days without sun.</param>
    /// <param name="systemV">Voltage of the bank, V.</param>
    /// <param name="depthOfDischarge">Depth allowed, above 0 to 1: lead 0.5, lithium iron phosphate 0.8.</param>
    /// <param name="temperatureMultiplier">From <see cref="TemperatureMultiplier"/>.</param>
    /// <param name="inverterEfficiency">Above 0 to 1.</param>
    /// <returns>Ah.</returns>
    /// <exception cref="ArgumentOutOfRangeException">An input is NaN or out of range.</exception>
    /// <remarks>Common practice.</remarks>
    public static double CapacityAh(
        double loadWhPerDay, double days, double systemV, double depthOfDischarge, double temperatureMultiplier = 1, double inverterEfficiency = 1)
    {
        Require.NotNegative(loadWhPerDay);
        Require.NotNegative(days);
        Require.Positive(systemV);
        Require.InRange(depthOfDischarge, 0.01, 1);
        Require.InRange(temperatureMultiplier, 0.5, 3);
        Require.InRange(inverterEfficiency, 0.1, 1);
        return loadWhPerDay * days * temperatureMultiplier / (systemV * depthOfDischarge * inverterEfficiency);
    }

    /// <summary>Factor on the capacity of a cold lead-acid battery.</summary>
    /// <param name="batteryC">Temperature of the battery, °C, -20 to 60; beyond the table its ends hold.</param>
    /// <returns>1 to 1.59.</returns>
    /// <exception cref="ArgumentOutOfRangeException">The temperature is NaN or out of range.</exception>
    /// <remarks>Simplified IEEE sizing worksheet, straight lines between its rows.</remarks>
    public static double TemperatureMultiplier(double batteryC)
    {
        Require.InRange(batteryC, -20, 60);
        var t = TemperaturesC;
        if (batteryC <= t[0]) return Multipliers[0];
        for (int i = 1; i < t.Length; i++)
        {
            if (batteryC <= t[i]) return Multipliers[i] + ((t[i] - batteryC) / (t[i] - t[i - 1]) * (Multipliers[i - 1] - Multipliers[i]));
        }

        return 1;
    }

    /// <summary>How long a bank lasts.</summary>
    /// <param name="capacityAh">Capacity, Ah.</param>
    /// <param name="systemV">Voltage, V.</param>
    /// <param name="stateOfCharge">Charge now, 0 to 1.</param>
    /// <param name="depthOfDischarge">Depth allowed, 0 to 1.</param>
    /// <param name="loadW">Load, W, above 0.</param>
    /// <param name="inverterEfficiency">Above 0 to 1.</param>
    /// <returns>Energy and hours; 0 below the depth allowed.</returns>
    /// <exception cref="ArgumentOutOfRangeException">An input is NaN or out of range.</exception>
    /// <remarks>Definition.</remarks>
    public static Autonomy Lasts(
        double capacityAh, double systemV, double stateOfCharge, double depthOfDischarge, double loadW, double inverterEfficiency = 1)
    {
        Require.NotNegative(capacityAh);
        Require.Positive(systemV);
        Require.InRange(stateOfCharge, 0, 1);
        Require.InRange(depthOfDischarge, 0, 1);
        Require.Positive(loadW);
        Require.InRange(inverterEfficiency, 0.1, 1);
        double usable = capacityAh * systemV * Math.Max(0, stateOfCharge - (1 - depthOfDischarge));
        return new Autonomy(usable, usable * inverterEfficiency / loadW);
    }
}
