namespace Runnel.Science.Plants;

/// <summary>Top soil after a day.</summary>
/// <param name="Reduction">Evaporation reduction coefficient Kr, 0 to 1.</param>
/// <param name="EvaporationCoefficient">Soil evaporation coefficient Ke.</param>
/// <param name="EvaporationMm">Evaporation over the whole area, mm.</param>
/// <param name="DepletionMm">Depletion of the exposed wetted part at the end, mm: 0 is field capacity.</param>
/// <param name="PercolationMm">Water that passed below the top soil, mm on the wetted part.</param>
public readonly record struct TopSoilDay(double Reduction, double EvaporationCoefficient, double EvaporationMm, double DepletionMm, double PercolationMm);

/// <summary>Crop coefficient split into what the plants transpire (Kcb) and what the soil between them evaporates (Ke): worth it where watering is frequent.</summary>
/// <remarks>Allen, Pereira, Raes and Smith (1998), FAO Irrigation and Drainage Paper 56, chapter 7. Accurate to about 10 % of a day's use where the soil is
/// known. The basal coefficient of a day is <see cref="CropCoefficient.OnDay"/> with the values of table 17, fitted by <see cref="CropCoefficient.ForClimate"/>.</remarks>
public static class DualCropCoefficient
{
    /// <summary>Greatest coefficient of any wet cropped surface.</summary>
    /// <param name="kcb">Basal coefficient of the day, 0 to 2.</param>
    /// <param name="windAt2MMPerS">Mean wind, m/s; counts within 1 to 6.</param>
    /// <param name="minRelHumidity">Mean lowest humidity, 0 to 1; counts within 0.2 to 0.8.</param>
    /// <param name="heightM">Height of the crop, m; counts within 0.1 to 10.</param>
    /// <returns>Kc max, mostly 1.05 to 1.3.</returns>
    /// <exception cref="ArgumentOutOfRangeException">An input is NaN or out of range.</exception>
    /// <remarks>FAO-56 equation 72.</remarks>
    public static double Greatest(double kcb, double windAt2MMPerS, double minRelHumidity, double heightM)
    {
        Require.InRange(kcb, 0, 2);
        return Math.Max(CropCoefficient.ForClimate(1.2, windAt2MMPerS, minRelHumidity, heightM), kcb + 0.05);
    }

    /// <summary>Share of the ground that leaves cover.</summary>
    /// <param name="kcb">Basal coefficient of the day, 0 to 2.</param>
    /// <param name="kcGreatest">From <see cref="Greatest"/>, above the least coefficient.</param>
    /// <param name="heightM">Height of the crop, m.</param>
    /// <param name="kcLeast">Coefficient of dry bare soil: 0.15 to 0.2.</param>
    /// <returns>0 to 0.99.</returns>
    /// <exception cref="ArgumentOutOfRangeException">An input is NaN or out of range.</exception>
    /// <remarks>FAO-56 equation 76.</remarks>
    public static double Cover(double kcb, double kcGreatest, double heightM, double kcLeast = 0.15)
    {
        Require.InRange(kcb, 0, 2);
        Require.InRange(kcLeast, 0, 0.5);
        Require.InRange(kcGreatest, kcLeast + 0.01, 3);
        Require.InRange(heightM, 0, 30);
        double share = Math.Clamp((kcb - kcLeast) / (kcGreatest - kcLeast), 0, 1);
        return Math.Min(0.99, Math.Pow(share, 1 + (0.5 * heightM)));
    }

    /// <summary>Share of the ground that is both wetted and open to the sun.</summary>
    /// <param name="cover">Share that leaves cover, 0 to 0.99.</param>
    /// <param name="wetted">Share that the last watering wetted: rain and sprinklers 1, basins 1, furrows 0.3 to 1, drip 0.3 to 0.4 (table 20).</param>
    /// <param name="drippersUnderLeaves">Whether drippers stand in the shade of the plants.</param>
    /// <returns>0.003 to 1.</returns>
    /// <exception cref="ArgumentOutOfRangeException">An input is NaN or out of range.</exception>
    /// <remarks>FAO-56 equation 75, and the note on drip: fw (1 - 2/3 fc).</remarks>
    public static double ExposedWetted(double cover, double wetted, bool drippersUnderLeaves = false)
    {
        Require.InRange(cover, 0, 0.99);
        Require.InRange(wetted, 0.01, 1);
        return Math.Min(1 - cover, drippersUnderLeaves ? wetted * (1 - (2 * cover / 3)) : wetted);
    }

    /// <summary>Total evaporable water of the top soil, mm.</summary>
    /// <param name="fieldCapacity">Water at field capacity, m³/m³.</param>
    /// <param name="wiltingPoint">Water at wilting point, m³/m³, up to field capacity.</param>
    /// <param name="layerM">Depth that dries by evaporation, m: 0.1 to 0.15.</param>
    /// <returns>mm.</returns>
    /// <exception cref="ArgumentOutOfRangeException">An input is NaN or out of range.</exception>
    /// <remarks>FAO-56 equation 73.</remarks>
    public static double TotalEvaporableMm(double fieldCapacity, double wiltingPoint, double layerM = 0.1)
    {
        Require.InRange(fieldCapacity, 0, 0.8);
        Require.InRange(wiltingPoint, 0, fieldCapacity);
        Require.InRange(layerM, 0.01, 0.3);
        return 1000 * (fieldCapacity - (0.5 * wiltingPoint)) * layerM;
    }

    /// <summary>Evaporation reduction coefficient Kr: 1 while the surface is wet, falling to 0.</summary>
    /// <param name="depletionMm">Depletion of the top soil, mm, 0 or more.</param>
    /// <param name="totalEvaporableMm">Total evaporable water, mm.</param>
    /// <param name="readilyEvaporableMm">Of it readily evaporable, mm, below the total: sand 2 to 7, loam 8 to 10, clay 8 to 12 (table 19).</param>
    /// <returns>0 to 1.</returns>
    /// <exception cref="ArgumentOutOfRangeException">An input is NaN or out of range.</exception>
    /// <remarks>FAO-56 equation 74.</remarks>
    public static double Reduction(double depletionMm, double totalEvaporableMm, double readilyEvaporableMm)
    {
        Require.NotNegative(depletionMm);
        Require.Positive(totalEvaporableMm);
        Require.InRange(readilyEvaporableMm, 0, 0.999 * totalEvaporableMm);
        return Math.Clamp((totalEvaporableMm - depletionMm) / (totalEvaporableMm - readilyEvaporableMm), 0, 1);
    }

    /// <summary>Soil evaporation coefficient Ke.</summary>
    /// <param name="reduction">Kr, 0 to 1.</param>
    /// <param name="kcb">Basal coefficient of the day.</param>
    /// <param name="kcGreatest">From <see cref="Greatest"/>, no less than the basal one.</param>
    /// <param name="exposedWetted">From <see cref="ExposedWetted"/>, 0 to 1.</param>
    /// <returns>Ke.</returns>
    /// <exception cref="ArgumentOutOfRangeException">An input is NaN or out of range.</exception>
    /// <remarks>FAO-56 equation 71.</remarks>
    public static double EvaporationCoefficient(double reduction, double kcb, double kcGreatest, double exposedWetted)
    {
        Require.InRange(reduction, 0, 1);
        Require.InRange(kcGreatest, 0, 3);
        Require.InRange(kcb, 0, kcGreatest);
        Require.InRange(exposedWetted, 0, 1);
        return Math.Min(reduction * (kcGreatest - kcb), exposedWetted * kcGreatest);
    }

    /// <summary>One day of the top soil.</summary>
    /// <param name="depletionMm">Depletion at the start, mm.</param>
    /// <param name="totalEvaporableMm">Total evaporable water, mm.</param>
    /// <param name="readilyEvaporableMm">Of it readily evaporable, mm.</param>
    /// <param name="kcb">Basal coefficient.</param>
    /// <param name="kcGreatest">Greatest coefficient.</param>
    /// <param name="exposedWetted">Share wetted and open to the sun, above 0.</param>
    /// <param name="et0MmPerDay">Reference evapotranspiration, mm a day.</param>
    /// <param name="wettingMm">Rain less runoff, plus watering over the share it wetted, mm; counts as early in the day.</param>
    /// <returns>The day; transpiration comes on top as Kcb x ET0 (times Ks under stress).</returns>
    /// <exception cref="ArgumentOutOfRangeException">An input is NaN or out of range.</exception>
    /// <remarks>FAO-56 equations 71, 74, 77 and 79, without transpiration from the top soil. No more evaporates than is there.</remarks>
    public static TopSoilDay Day(
        double depletionMm, double totalEvaporableMm, double readilyEvaporableMm, double kcb, double kcGreatest, double exposedWetted, double et0MmPerDay,
        double wettingMm = 0)
    {
        Require.NotNegative(depletionMm);
        Require.InRange(exposedWetted, 0.001, 1);
        Require.InRange(et0MmPerDay, 0, 30);
        Require.NotNegative(wettingMm);
        double wetted = depletionMm - wettingMm, before = Math.Max(0, wetted);
        double reduction = Reduction(before, totalEvaporableMm, readilyEvaporableMm);
        double coefficient = EvaporationCoefficient(reduction, kcb, kcGreatest, exposedWetted);
        double evaporation = Math.Min(coefficient * et0MmPerDay, Math.Max(0, totalEvaporableMm - before) * exposedWetted);
        return new TopSoilDay(reduction, coefficient, evaporation, Math.Min(before + (evaporation / exposedWetted), totalEvaporableMm), Math.Max(0, -wetted));
    }
}
