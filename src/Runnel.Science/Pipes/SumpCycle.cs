namespace Runnel.Science.Pipes;

/// <summary>Times of one cycle of an on/off sump.</summary>
/// <param name="FillMin">From pump off to pump on, min.</param>
/// <param name="RunMin">From pump on to pump off, min.</param>
public readonly record struct SumpTimes(double FillMin, double RunMin)
{
    /// <summary>Length of the cycle, min.</summary>
    public double CycleMin => FillMin + RunMin;

    /// <summary>Starts an hour.</summary>
    public double StartsPerH => 60 / CycleMin;

    /// <summary>Share of the time that the pump runs, 0 to 1.</summary>
    public double Duty => RunMin / CycleMin;
}

/// <summary>Flows of an on/off sump.</summary>
/// <param name="InflowLPerMin">Water coming in, L/min.</param>
/// <param name="PumpLPerMin">Water the pump carries, L/min.</param>
public readonly record struct SumpFlows(double InflowLPerMin, double PumpLPerMin);

/// <summary>A sump between two level switches: inflow and pump flow against fill and run time.</summary>
/// <remarks>Storage balance with steady inflow and pump flow over a cycle; MIL-HDBK-1005/9A (US DoD), pumping stations, section 2.5.3.6.
/// Drain-back of the riser and a pump flow that follows the level change it: see <see cref="TimesWithDrainBack"/> and
/// <see cref="RunOfLinearPumpS"/>.</remarks>
public static class SumpCycle
{
    /// <summary>Fill and run time from band, inflow and pump flow.</summary>
    /// <param name="bandL">Water between the two switch levels, L.</param>
    /// <param name="inflowLPerMin">Inflow, L/min, below <paramref name="pumpLPerMin"/>.</param>
    /// <param name="pumpLPerMin">Pump flow, L/min.</param>
    /// <returns>Fill and run time.</returns>
    /// <exception cref="ArgumentOutOfRangeException">An input is NaN or out of range; also when the pump cannot empty the band (see <see cref="Stops"/>).</exception>
    public static SumpTimes Times(double bandL, double inflowLPerMin, double pumpLPerMin)
    {
        Require.Positive(bandL);
        Require.Positive(pumpLPerMin);
        Require.InRange(inflowLPerMin, double.Epsilon, Math.BitDecrement(pumpLPerMin));
        return new SumpTimes(bandL / inflowLPerMin, bandL / (pumpLPerMin - inflowLPerMin));
    }

    /// <summary>Whether the pump reaches its off level at all.</summary>
    /// <param name="inflowLPerMin">Inflow, L/min.</param>
    /// <param name="pumpLPerMin">Pump flow, L/min.</param>
    /// <returns>False where as much or more comes in than the pump carries.</returns>
    /// <exception cref="ArgumentOutOfRangeException">An input is NaN or negative.</exception>
    public static bool Stops(double inflowLPerMin, double pumpLPerMin)
    {
        Require.NotNegative(inflowLPerMin);
        Require.NotNegative(pumpLPerMin);
        return inflowLPerMin < pumpLPerMin;
    }

    /// <summary>Inflow and pump flow from fill and run time.</summary>
    /// <param name="bandL">Water between the two switch levels, L.</param>
    /// <param name="fillMin">Fill time, min.</param>
    /// <param name="runMin">Run time, min.</param>
    /// <returns>Inflow and pump flow. Without the band only their ratio, the duty, is known.</returns>
    /// <exception cref="ArgumentOutOfRangeException">An input is NaN, 0 or negative.</exception>
    public static SumpFlows Flows(double bandL, double fillMin, double runMin)
    {
        Require.Positive(bandL);
        Require.Positive(fillMin);
        Require.Positive(runMin);
        double inflow = bandL / fillMin;
        return new SumpFlows(inflow, inflow + (bandL / runMin));
    }

    /// <summary>Standard uncertainty of inflow and pump flow, L/min, to first order.</summary>
    /// <param name="bandL">Water between the two switch levels, L.</param>
    /// <param name="bandSdL">Its standard uncertainty, L.</param>
    /// <param name="fillMin">Fill time, min.</param>
    /// <param name="fillSdMin">Its standard uncertainty, min.</param>
    /// <param name="runMin">Run time, min.</param>
    /// <param name="runSdMin">Its standard uncertainty, min.</param>
    /// <returns>Standard uncertainties of inflow and pump flow.</returns>
    /// <exception cref="ArgumentOutOfRangeException">An input is NaN or out of range.</exception>
    /// <remarks>First-order propagation; the error of the band is common to both flows.</remarks>
    public static SumpFlows FlowsSd(double bandL, double bandSdL, double fillMin, double fillSdMin, double runMin, double runSdMin)
    {
        var flows = Flows(bandL, fillMin, runMin);
        Require.NotNegative(bandSdL);
        Require.NotNegative(fillSdMin);
        Require.NotNegative(runSdMin);
        double ofBand = bandSdL / bandL;
        double ofFill = flows.InflowLPerMin * fillSdMin / fillMin;
        double ofRun = bandL * runSdMin / (runMin * runMin);
        double inflowSd = Math.Sqrt(Square(flows.InflowLPerMin * ofBand) + Square(ofFill));
        return new SumpFlows(inflowSd, Math.Sqrt(Square(flows.PumpLPerMin * ofBand) + Square(ofFill) + Square(ofRun)));
    }

    /// <summary>Most starts an hour that any inflow can bring about; it is met at half the pump flow.</summary>
    /// <param name="bandL">Water between the two switch levels, L.</param>
    /// <param name="pumpLPerMin">Pump flow, L/min.</param>
    /// <returns>Starts an hour.</returns>
    /// <exception cref="ArgumentOutOfRangeException">An input is NaN, 0 or negative.</exception>
    public static double MostStartsPerH(double bandL, double pumpLPerMin)
    {
        Require.Positive(bandL);
        Require.Positive(pumpLPerMin);
        return 15 * pumpLPerMin / bandL;
    }

    /// <summary>Band that keeps the starts below a limit at any inflow, L.</summary>
    /// <param name="mostStartsPerH">Most starts an hour that the motor stands.</param>
    /// <param name="pumpLPerMin">Pump flow, L/min.</param>
    /// <returns>Band, L.</returns>
    /// <exception cref="ArgumentOutOfRangeException">An input is NaN, 0 or negative.</exception>
    public static double BandForStartsL(double mostStartsPerH, double pumpLPerMin)
    {
        Require.Positive(mostStartsPerH);
        Require.Positive(pumpLPerMin);
        return 15 * pumpLPerMin / mostStartsPerH;
    }

    /// <summary>Factor by which runs lengthen when the pump loses a share of its flow; fills stay as they are.</summary>
    /// <param name="inflowLPerMin">Inflow, L/min.</param>
    /// <param name="pumpLPerMin">Pump flow before, L/min, above the inflow.</param>
    /// <param name="lostShare">Share of the pump flow lost, 0 to 1.</param>
    /// <returns>Run time after over run time before; infinite where the pump no longer keeps up.</returns>
    /// <exception cref="ArgumentOutOfRangeException">An input is NaN or out of range.</exception>
    /// <remarks>The same wear shows as 1.15 or 3 times the run time depending on inflow over pump flow: judge the pump flow, not the run time.</remarks>
    public static double RunRatioAfterWear(double inflowLPerMin, double pumpLPerMin, double lostShare)
    {
        Require.Positive(pumpLPerMin);
        Require.InRange(inflowLPerMin, 0, Math.BitDecrement(pumpLPerMin));
        Require.InRange(lostShare, 0, 1);
        double left = (pumpLPerMin * (1 - lostShare)) - inflowLPerMin;
        return left <= 0 ? double.PositiveInfinity : (pumpLPerMin - inflowLPerMin) / left;
    }

    /// <summary>Fill and run time when the riser drains back into the sump at each stop.</summary>
    /// <param name="bandL">Water between the two switch levels, L.</param>
    /// <param name="riserL">Water that drains back, L, below the band. Counted as falling back at once.</param>
    /// <param name="inflowLPerMin">Inflow, L/min.</param>
    /// <param name="pumpLPerMin">Pump flow, L/min.</param>
    /// <returns>Fill and run time. The first riserL/pumpLPerMin minutes of a run deliver nothing.</returns>
    /// <exception cref="ArgumentOutOfRangeException">An input is NaN or out of range.</exception>
    /// <remarks>Reading such a log without the drain-back overstates the inflow by bandL/(bandL - riserL).</remarks>
    public static SumpTimes TimesWithDrainBack(double bandL, double riserL, double inflowLPerMin, double pumpLPerMin)
    {
        var plain = Times(bandL, inflowLPerMin, pumpLPerMin);
        Require.InRange(riserL, 0, Math.BitDecrement(bandL));
        return plain with { FillMin = (bandL - riserL) / inflowLPerMin };
    }

    /// <summary>Minutes until the sump overflows once the pump carries nothing.</summary>
    /// <param name="freeL">Free room above the level where delivery stopped, L.</param>
    /// <param name="inflowLPerMin">Inflow, L/min.</param>
    /// <returns>Minutes; infinite without inflow.</returns>
    /// <exception cref="ArgumentOutOfRangeException">An input is NaN or negative.</exception>
    public static double OverflowMin(double freeL, double inflowLPerMin)
    {
        Require.NotNegative(freeL);
        Require.NotNegative(inflowLPerMin);
        return inflowLPerMin > 0 ? freeL / inflowLPerMin : double.PositiveInfinity;
    }

    /// <summary>Run time when the pump flow rises with the level, s.</summary>
    /// <param name="areaM2">Water surface of the sump, m².</param>
    /// <param name="inflowM3PerS">Inflow, m³/s, below the pump flow at the off level.</param>
    /// <param name="pumpAtOffM3PerS">Pump flow at the off level, m³/s.</param>
    /// <param name="pumpSlopeM2PerS">Gain of pump flow with level, (m³/s)/m, 0 or more.</param>
    /// <param name="bandDepthM">Height of the on level above the off level, m.</param>
    /// <returns>Seconds.</returns>
    /// <exception cref="ArgumentOutOfRangeException">An input is NaN or out of range.</exception>
    /// <remarks>Linearised pump and system curve: (A/b) ln((P0 + b d - Q)/(P0 - Q)).</remarks>
    public static double RunOfLinearPumpS(
        double areaM2, double inflowM3PerS, double pumpAtOffM3PerS, double pumpSlopeM2PerS, double bandDepthM)
    {
        Require.Positive(areaM2);
        Require.Positive(pumpAtOffM3PerS);
        Require.InRange(inflowM3PerS, 0, Math.BitDecrement(pumpAtOffM3PerS));
        Require.NotNegative(pumpSlopeM2PerS);
        Require.Positive(bandDepthM);
        double gain = pumpSlopeM2PerS * bandDepthM / (pumpAtOffM3PerS - inflowM3PerS);
        double atConstantFlow = areaM2 * bandDepthM / (pumpAtOffM3PerS - inflowM3PerS);
        return gain > 0 ? atConstantFlow * double.LogP1(gain) / gain : atConstantFlow;
    }

    private static double Square(double value) => value * value;
}
