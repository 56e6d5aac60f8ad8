namespace Runnel.Science.Water;

/// <summary>Un-ionised ammonia: the share of total ammonia nitrogen that harms fish.</summary>
public static class Ammonia
{
    /// <summary>Acidity constant of ammonium, pKa.</summary>
    /// <param name="waterTempC">Water temperature, °C, 0 to 50.</param>
    /// <returns>pKa.</returns>
    /// <exception cref="ArgumentOutOfRangeException">The temperature is NaN or out of range.</exception>
    /// <remarks>Emerson, Russo, Lund and Thurston (1975), J. Fish. Res. Board Can. 32:2379-2383: 0.09018 + 2729.92/T, T in kelvin.</remarks>
    public static double PKa(double waterTempC)
    {
        Require.InRange(waterTempC, 0, 50);
        return 0.09018 + (2729.92 / (waterTempC + 273.15));
    }

    /// <summary>Share of total ammonia nitrogen present as un-ionised NH3 in fresh water.</summary>
    /// <param name="ph">pH at <paramref name="waterTempC"/>, 0 to 14.</param>
    /// <param name="waterTempC">Water temperature, °C, 0 to 50 (the range of the source).</param>
    /// <returns>Fraction 0 to 1; times mg N/L of total ammonia gives mg NH3-N/L.</returns>
    /// <exception cref="ArgumentOutOfRangeException">An input is NaN or out of range.</exception>
    /// <remarks>Emerson et al. (1975). Infinite dilution: 3 to 11 % high in mineralised water, and not for brackish water.</remarks>
    public static double UnionisedFraction(double ph, double waterTempC)
    {
        Require.InRange(ph, 0, 14);
        return 1 / (1 + Math.Pow(10, PKa(waterTempC) - ph));
    }

    /// <summary>Un-ionised ammonia nitrogen, mg N/L.</summary>
    /// <param name="tanMgNPerL">Total ammonia nitrogen, mg N/L.</param>
    /// <param name="ph">pH, 0 to 14.</param>
    /// <param name="waterTempC">Water temperature, °C, 0 to 50.</param>
    /// <returns>mg NH3-N/L; times 1.2159 it is mg NH3/L.</returns>
    /// <exception cref="ArgumentOutOfRangeException">An input is NaN or out of range.</exception>
    /// <remarks>As <see cref="UnionisedFraction"/>. A pH off by 0.1 shifts it by a fifth.</remarks>
    public static double UnionisedMgNPerL(double tanMgNPerL, double ph, double waterTempC)
    {
        Require.NotNegative(tanMgNPerL);
        return tanMgNPerL * UnionisedFraction(ph, waterTempC);
    }

    /// <summary>Total ammonia nitrogen at which un-ionised ammonia reaches a limit, mg N/L.</summary>
    /// <param name="limitMgNPerL">Limit of un-ionised ammonia, mg NH3-N/L: 0.05 is where harm begins (UF/IFAS FA16).</param>
    /// <param name="ph">pH, 0 to 14.</param>
    /// <param name="waterTempC">Water temperature, °C, 0 to 50.</param>
    /// <returns>mg N/L.</returns>
    /// <exception cref="ArgumentOutOfRangeException">An input is NaN or out of range.</exception>
    /// <remarks>As <see cref="UnionisedFraction"/>, turned round.</remarks>
    public static double TanLimitMgNPerL(double limitMgNPerL, double ph, double waterTempC)
    {
        Require.NotNegative(limitMgNPerL);
        return limitMgNPerL / UnionisedFraction(ph, waterTempC);
    }

    /// <summary>Acute criterion of total ammonia nitrogen for fresh water without salmonids, mg N/L (one-hour average).</summary>
    /// <param name="ph">pH, 6.5 to 9.</param>
    /// <param name="waterTempC">Water temperature, °C, 0 to 30.</param>
    /// <returns>mg N/L.</returns>
    /// <exception cref="ArgumentOutOfRangeException">An input is NaN or out of range.</exception>
    /// <remarks>US EPA (2013), Aquatic life ambient water quality criteria for ammonia, freshwater. Constants from memory; they give the printed 17
    /// at pH 7 and 20 °C. Made for rivers with mussels: stricter than fish need.</remarks>
    public static double EpaAcuteMgNPerL(double ph, double waterTempC)
    {
        Require.InRange(ph, 6.5, 9);
        Require.InRange(waterTempC, 0, 30);
        double byPh = (0.0114 / (1 + Math.Pow(10, 7.204 - ph))) + (1.6181 / (1 + Math.Pow(10, ph - 7.204)));
        return 0.7249 * byPh * Math.Min(51.93, 23.12 * Math.Pow(10, 0.036 * (20 - waterTempC)));
    }

    /// <summary>Chronic criterion of total ammonia nitrogen for fresh water, mg N/L (30-day average).</summary>
    /// <param name="ph">pH, 6.5 to 9.</param>
    /// <param name="waterTempC">Water temperature, °C, 0 to 30.</param>
    /// <returns>mg N/L.</returns>
    /// <exception cref="ArgumentOutOfRangeException">An input is NaN or out of range.</exception>
    /// <remarks>US EPA (2013), as <see cref="EpaAcuteMgNPerL"/>; gives the printed 1.9 at pH 7 and 20 °C.</remarks>
    public static double EpaChronicMgNPerL(double ph, double waterTempC)
    {
        Require.InRange(ph, 6.5, 9);
        Require.InRange(waterTempC, 0, 30);
        double byPh = (0.0278 / (1 + Math.Pow(10, 7.688 - ph))) + (1.1994 / (1 + Math.Pow(10, ph - 7.688)));
        return 0.8876 * byPh * 2.126 * Math.Pow(10, 0.028 * (20 - Math.Max(waterTempC, 7)));
    }

    /// <summary>Acidity constant of ammonium by the older measurements, pKa.</summary>
    /// <param name="waterTempC">Water temperature, °C, 0 to 50.</param>
    /// <returns>pKa, within 0.01 of <see cref="PKa"/> from 0 to 40 °C.</returns>
    /// <exception cref="ArgumentOutOfRangeException">The temperature is NaN or out of range.</exception>
    /// <remarks>Bates and Pinching (1950), J. Am. Chem. Soc. 72:1393-1396: 2835.76/T - 0.6322 + 0.001225 T, T in kelvin; coefficients from memory, held
    /// against the table of Trussell (1972), which rests on the measurements of both.</remarks>
    public static double PKaBatesPinching(double waterTempC)
    {
        Require.InRange(waterTempC, 0, 50);
        double kelvin = waterTempC + 273.15;
        return (2835.76 / kelvin) - 0.6322 + (0.001225 * kelvin);
    }

    /// <summary>Share of total ammonia nitrogen present as un-ionised NH3, by the second published form.</summary>
    /// <param name="ph">pH at <paramref name="waterTempC"/>, 0 to 14.</param>
    /// <param name="waterTempC">Water temperature, °C, 0 to 50.</param>
    /// <returns>Fraction 0 to 1, within 2 % of <see cref="UnionisedFraction"/>.</returns>
    /// <exception cref="ArgumentOutOfRangeException">An input is NaN or out of range.</exception>
    /// <remarks>As <see cref="PKaBatesPinching"/>; to see how little the choice of the form matters beside the pH reading.</remarks>
    public static double UnionisedFractionBatesPinching(double ph, double waterTempC)
    {
        Require.InRange(ph, 0, 14);
        return 1 / (1 + Math.Pow(10, PKaBatesPinching(waterTempC) - ph));
    }
}
