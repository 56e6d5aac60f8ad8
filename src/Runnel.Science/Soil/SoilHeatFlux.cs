namespace Runnel.Science.Soil;

/// <summary>Heat that goes into the soil under the grass reference, after FAO-56.</summary>
/// <remarks>Allen, Pereira, Raes and Smith (1998), FAO Irrigation and Drainage Paper 56, chapter 3. Over a day it may be taken as 0.</remarks>
public static class SoilHeatFlux
{
    /// <summary>Soil heat of a month from the months before and after, MJ/m² and day.</summary>
    /// <param name="previousMonthTempC">Mean air temperature of the month before, °C.</param>
    /// <param name="nextMonthTempC">Mean air temperature of the month after, °C.</param>
    /// <returns>Heat into the soil, MJ/m² and day.</returns>
    /// <exception cref="ArgumentOutOfRangeException">A temperature is NaN or out of range.</exception>
    /// <remarks>FAO-56 equation 43.</remarks>
    public static double MonthBetweenMJPerM2Day(double previousMonthTempC, double nextMonthTempC)
    {
        Require.InRange(previousMonthTempC, -60, 60);
        Require.InRange(nextMonthTempC, -60, 60);
        return 0.07 * (nextMonthTempC - previousMonthTempC);
    }

    /// <summary>Soil heat of a month when the next is not known yet, MJ/m² and day.</summary>
    /// <param name="previousMonthTempC">Mean air temperature of the month before, °C.</param>
    /// <param name="monthTempC">Mean air temperature of the month, °C.</param>
    /// <returns>Heat into the soil, MJ/m² and day.</returns>
    /// <exception cref="ArgumentOutOfRangeException">A temperature is NaN or out of range.</exception>
    /// <remarks>FAO-56 equation 44.</remarks>
    public static double MonthSoFarMJPerM2Day(double previousMonthTempC, double monthTempC)
    {
        Require.InRange(previousMonthTempC, -60, 60);
        Require.InRange(monthTempC, -60, 60);
        return 0.14 * (monthTempC - previousMonthTempC);
    }

    /// <summary>Soil heat of an hour, MJ/m²: a tenth of the net radiation by day, half of it by night.</summary>
    /// <param name="netRadiationMJPerM2">Net radiation of the hour, MJ/m².</param>
    /// <param name="isDay">Whether the sun is up.</param>
    /// <returns>Heat into the soil, MJ/m² and hour.</returns>
    /// <exception cref="ArgumentOutOfRangeException">The radiation is NaN or infinite.</exception>
    /// <remarks>FAO-56 equations 45 and 46.</remarks>
    public static double HourMJPerM2(double netRadiationMJPerM2, bool isDay)
    {
        Require.Finite(netRadiationMJPerM2);
        return (isDay ? 0.1 : 0.5) * netRadiationMJPerM2;
    }
}
