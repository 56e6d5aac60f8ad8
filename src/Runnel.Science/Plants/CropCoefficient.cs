namespace Runnel.Science.Plants;

/// <summary>Stages of a crop and its coefficients.</summary>
/// <param name="InitialDays">Days from planting to 10 % cover.</param>
/// <param name="DevelopmentDays">Days to full cover.</param>
/// <param name="MidDays">Days at full cover.</param>
/// <param name="LateDays">Days to harvest.</param>
/// <param name="KcInitial">Coefficient at the start.</param>
/// <param name="KcMid">Coefficient at full cover.</param>
/// <param name="KcEnd">Coefficient at harvest.</param>
public sealed record CropStages(
    double InitialDays, double DevelopmentDays, double MidDays, double LateDays, double KcInitial, double KcMid, double KcEnd);

/// <summary>Crop coefficients after FAO-56.</summary>
/// <remarks>Allen, Pereira, Raes and Smith (1998), FAO Irrigation and Drainage Paper 56, chapter 6.</remarks>
public static class CropCoefficient
{
    /// <summary>Table coefficient fitted to wind and dryness.</summary>
    /// <param name="kcTable">Coefficient of the table, 0.45 or more.</param>
    /// <param name="windAt2MMPerS">Mean wind of the stage, m/s; counts within 1 to 6.</param>
    /// <param name="minRelHumidity">Mean lowest humidity of the stage, 0 to 1; counts within 0.2 to 0.8.</param>
    /// <param name="heightM">Height of the crop, m; counts within 0.1 to 10.</param>
    /// <returns>Coefficient.</returns>
    /// <exception cref="ArgumentOutOfRangeException">An input is NaN or out of range.</exception>
    /// <remarks>FAO-56 equations 62 and 65. For under 0.45 the table value holds.</remarks>
    public static double ForClimate(double kcTable, double windAt2MMPerS, double minRelHumidity, double heightM)
    {
        Require.InRange(kcTable, 0, 2);
        Require.InRange(windAt2MMPerS, 0, 50);
        Require.InRange(minRelHumidity, 0, 1);
        Require.InRange(heightM, 0, 30);
        if (kcTable < 0.45) return kcTable;
        double wind = Math.Clamp(windAt2MMPerS, 1, 6), humidity = 100 * Math.Clamp(minRelHumidity, 0.2, 0.8), height = Math.Clamp(heightM, 0.1, 10);
        return kcTable + (((0.04 * (wind - 2)) - (0.004 * (humidity - 45))) * Math.Pow(height / 3, 0.3));
    }

    /// <summary>Coefficient on a day of the season.</summary>
    /// <param name="stages">The crop.</param>
    /// <param name="day">Day from planting, 0 to the length of the season; later days keep the last value.</param>
    /// <returns>Coefficient.</returns>
    /// <exception cref="ArgumentOutOfRangeException">The day is NaN or negative.</exception>
    /// <remarks>FAO-56 equation 66: level in the initial and mid stages, straight lines between.</remarks>
    public static double OnDay(CropStages stages, double day)
    {
        ArgumentNullException.ThrowIfNull(stages);
        Require.NotNegative(day);
        double into = day - stages.InitialDays;
        if (into <= 0) return stages.KcInitial;
        if (into < stages.DevelopmentDays) return stages.KcInitial + (into / stages.DevelopmentDays * (stages.KcMid - stages.KcInitial));
        into -= stages.DevelopmentDays + stages.MidDays;
        if (into <= 0) return stages.KcMid;
        return into < stages.LateDays ? stages.KcMid + (into / stages.LateDays * (stages.KcEnd - stages.KcMid)) : stages.KcEnd;
    }

    /// <summary>Depth of the roots on a day of the season, m.</summary>
    /// <param name="stages">The crop.</param>
    /// <param name="day">Day from planting, 0 or more.</param>
    /// <param name="leastM">Depth at planting, m: 0.15 to 0.3 for seed.</param>
    /// <param name="greatestM">Depth when grown (table 22), m, no less.</param>
    /// <returns>Depth, m: a straight line from planting to full cover.</returns>
    /// <exception cref="ArgumentOutOfRangeException">An input is NaN or out of range.</exception>
    /// <remarks>FAO-56 annex 8, equation 8-1; from memory.</remarks>
    public static double RootDepthM(CropStages stages, double day, double leastM, double greatestM)
    {
        ArgumentNullException.ThrowIfNull(stages);
        Require.NotNegative(day);
        Require.InRange(greatestM, 0, 10);
        Require.InRange(leastM, 0, greatestM);
        double toFullCover = stages.InitialDays + stages.DevelopmentDays;
        return leastM + ((greatestM - leastM) * (toFullCover > 0 ? Math.Min(1, day / toFullCover) : 1));
    }

    /// <summary>Height of the crop on a day of the season, m.</summary>
    /// <param name="stages">The crop, with basal or single coefficients.</param>
    /// <param name="day">Day from planting, 0 or more.</param>
    /// <param name="greatestM">Height when grown (table 12), m.</param>
    /// <returns>Height, m: it follows the coefficient up and does not shrink again.</returns>
    /// <exception cref="ArgumentOutOfRangeException">An input is NaN or out of range.</exception>
    /// <remarks>FAO-56 annex 8: h = h max x Kcb over Kcb mid; from memory.</remarks>
    public static double HeightM(CropStages stages, double day, double greatestM)
    {
        ArgumentNullException.ThrowIfNull(stages);
        Require.NotNegative(day);
        Require.InRange(greatestM, 0, 30);
        double grown = Math.Min(day, stages.InitialDays + stages.DevelopmentDays);
        return stages.KcMid > 0 ? greatestM * Math.Clamp(OnDay(stages, grown) / stages.KcMid, 0, 1) : greatestM;
    }
}
