namespace Runnel.Science.Water;

/// <summary>What a two-point calibration says about a pH electrode.</summary>
/// <param name="SlopeMv">Slope, mV per pH.</param>
/// <param name="Efficiency">Slope over the ideal one, 0 to 1 and a little more; 0.9 to 1.05 usually passes (common practice).</param>
/// <param name="OffsetMv">Reading in the neutral buffer, mV; within 30 either way usually passes (common practice).</param>
public readonly record struct PhCalibration(double SlopeMv, double Efficiency, double OffsetMv);

/// <summary>The pH electrode: ideal slope, calibration, reading.</summary>
public static class PhElectrode
{
    /// <summary>Ideal (Nernst) slope, mV per pH.</summary>
    /// <param name="tempC">Temperature, °C, 0 to 100.</param>
    /// <returns>ln(10) R T/F, mV.</returns>
    /// <exception cref="ArgumentOutOfRangeException">The temperature is NaN or out of range.</exception>
    /// <remarks>Nernst equation with the constants of CODATA 2018.</remarks>
    public static double NernstSlopeMv(double tempC)
    {
        Require.InRange(tempC, 0, 100);
        return Math.Log(10) * 8.314462618 * (tempC + 273.15) / 96485.33212 * 1000;
    }

    /// <summary>Judges an electrode by two buffers.</summary>
    /// <param name="neutralMv">Reading in the neutral buffer, mV.</param>
    /// <param name="acidMv">Reading in the acid buffer, mV.</param>
    /// <param name="tempC">Temperature of both, °C, 0 to 100.</param>
    /// <param name="neutralPh">pH of the neutral buffer: 7.00.</param>
    /// <param name="acidPh">pH of the acid buffer: 4.00.</param>
    /// <returns>Slope, efficiency, offset.</returns>
    /// <exception cref="ArgumentOutOfRangeException">An input is NaN or out of range.</exception>
    /// <remarks>Nernst equation and two buffers; the slope of a sound electrode is 92 to 102 % of theory (common practice).</remarks>
    public static PhCalibration Calibrate(double neutralMv, double acidMv, double tempC, double neutralPh = 7, double acidPh = 4)
    {
        Require.InRange(neutralMv, -1000, 1000);
        Require.InRange(acidMv, -1000, 1000);
        Require.InRange(neutralPh, 6, 8);
        Require.InRange(acidPh, 1, 5);
        double slope = (acidMv - neutralMv) / (neutralPh - acidPh);
        return new PhCalibration(slope, slope / NernstSlopeMv(tempC), neutralMv);
    }

    /// <summary>pH of a reading at the temperature of the calibration.</summary>
    /// <param name="readingMv">Reading, mV.</param>
    /// <param name="calibration">Calibration with a slope above 0.</param>
    /// <param name="neutralPh">pH of the neutral buffer: 7.00.</param>
    /// <returns>pH.</returns>
    /// <exception cref="ArgumentOutOfRangeException">An input is NaN or out of range.</exception>
    /// <remarks>The straight line of the calibration.</remarks>
    public static double Ph(double readingMv, PhCalibration calibration, double neutralPh = 7)
    {
        Require.InRange(readingMv, -1000, 1000);
        Require.Positive(calibration.SlopeMv);
        return neutralPh - ((readingMv - calibration.OffsetMv) / calibration.SlopeMv);
    }
}
