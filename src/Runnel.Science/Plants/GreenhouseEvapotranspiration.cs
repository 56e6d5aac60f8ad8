namespace Runnel.Science.Plants;

/// <summary>Reference evapotranspiration under plastic, where wind hardly counts.</summary>
public static class GreenhouseEvapotranspiration
{
    /// <summary>Reference evapotranspiration of a day in an unheated plastic greenhouse, mm.</summary>
    /// <param name="dayOfYear">1 to 366, of the northern hemisphere; add half a year in the southern.</param>
    /// <param name="outsideSolarMmPerDay">Solar radiation outside as mm of water (MJ/m² x 0.408).</param>
    /// <param name="coverTransmissivity">Share that the cover lets through, 0 to 1; whitewash lowers it.</param>
    /// <returns>Reference evapotranspiration, mm a day.</returns>
    /// <exception cref="ArgumentOutOfRangeException">An input is NaN or out of range.</exception>
    /// <remarks>Radiation method calibrated at Almeria: Fernandez et al. (2010), Irrigation Science 28:497-509. The coefficients
    /// (0.288 + 0.0019 day to day 220, 1.339 - 0.00288 day after it) are from memory.</remarks>
    public static double PlasticMmPerDay(int dayOfYear, double outsideSolarMmPerDay, double coverTransmissivity)
    {
        Require.InRange(dayOfYear, 1, 366);
        Require.InRange(outsideSolarMmPerDay, 0, 25);
        Require.InRange(coverTransmissivity, 0, 1);
        double factor = dayOfYear <= 220 ? 0.288 + (0.0019 * dayOfYear) : 1.339 - (0.00288 * dayOfYear);
        return factor * outsideSolarMmPerDay * coverTransmissivity;
    }
}
