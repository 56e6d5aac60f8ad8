namespace Runnel.Science.Fish;

/// <summary>Free ammonia and free nitrous acid, which slow nitrifiers.</summary>
/// <param name="AmmoniaMgNPerL">Free ammonia, mg N/L.</param>
/// <param name="NitrousAcidMgNPerL">Free nitrous acid, mg N/L.</param>
public readonly record struct FreeNitrogen(double AmmoniaMgNPerL, double NitrousAcidMgNPerL);

/// <summary>Nitrification: stoichiometry, rates of growth, media needed.</summary>
public static class Nitrification
{
    /// <summary>Oxygen for each gram of nitrogen to nitrate, g (2 moles of O2 a mole of N).</summary>
    public const double OxygenPerN = 2 * 31.9988 / 14.0067;

    /// <summary>Oxygen for each gram of nitrogen to nitrite, g.</summary>
    public const double OxygenPerNToNitrite = 1.5 * 31.9988 / 14.0067;

    /// <summary>Alkalinity used for each gram of nitrogen, g as CaCO3 (2 equivalents a mole).</summary>
    public const double AlkalinityPerN = 2 * Conversions.MgCaCO3PerMeq / 14.0067;

    /// <summary>Biomass made for each gram of nitrogen, g of volatile solids.</summary>
    /// <remarks>Gujer and Jenkins (1974).</remarks>
    public const double BiomassPerN = 0.17;

    /// <summary>Factor on the rate for pH.</summary>
    /// <param name="ph">pH, 5 to 9.</param>
    /// <returns>2.35^(pH - 7.2) below 7.2, else 1.</returns>
    /// <exception cref="ArgumentOutOfRangeException">The pH is NaN or out of range.</exception>
    /// <remarks>UCT steady-state nitrification model (Ekama and Wentzel; WRC 1984).</remarks>
    public static double PhFactor(double ph)
    {
        Require.InRange(ph, 5, 9);
        return Math.Min(1, Math.Pow(2.35, ph - 7.2));
    }

    /// <summary>A rate at another temperature.</summary>
    /// <param name="rate">Rate at <paramref name="fromTempC"/>.</param>
    /// <param name="fromTempC">°C.</param>
    /// <param name="toTempC">°C.</param>
    /// <param name="theta">Factor a degree: 1.09 for moving beds (Rusten and others 2006).</param>
    /// <returns>Rate.</returns>
    /// <exception cref="ArgumentOutOfRangeException">An input is NaN or out of range.</exception>
    /// <remarks>Common practice: rate x theta^(difference), good for some 10 °C.</remarks>
    public static double AtTemperature(double rate, double fromTempC, double toTempC, double theta)
    {
        Require.NotNegative(rate);
        Require.InRange(fromTempC, 0, 45);
        Require.InRange(toTempC, 0, 45);
        Require.InRange(theta, 0.9, 1.3);
        return rate * Math.Pow(theta, toTempC - fromTempC);
    }

    /// <summary>Free ammonia and free nitrous acid.</summary>
    /// <param name="waterTempC">Water temperature, °C.</param>
    /// <param name="ph">pH.</param>
    /// <param name="tanMgNPerL">Total ammonia nitrogen, mg N/L.</param>
    /// <param name="no2MgNPerL">Nitrite nitrogen, mg N/L.</param>
    /// <returns>Both, mg N/L.</returns>
    /// <exception cref="ArgumentOutOfRangeException">An input is NaN or out of range.</exception>
    /// <remarks>Anthonisen, Loehr, Prakasam and Srinath (1976), J. Water Pollut. Control Fed. 48:835-852.</remarks>
    public static FreeNitrogen Free(double waterTempC, double ph, double tanMgNPerL, double no2MgNPerL)
    {
        Require.InRange(waterTempC, 0, 45);
        Require.InRange(ph, 4, 11);
        Require.NotNegative(tanMgNPerL);
        Require.NotNegative(no2MgNPerL);
        double power = Math.Pow(10, ph), kelvin = 273 + waterTempC;
        return new FreeNitrogen(tanMgNPerL * power / (Math.Exp(6344 / kelvin) + power), no2MgNPerL / (Math.Exp(-2300 / kelvin) * power));
    }

    /// <summary>Growth rate of ammonia oxidisers at 20 °C, 1/d.</summary>
    /// <param name="free">Free ammonia and nitrous acid.</param>
    /// <param name="doMgPerL">Oxygen, mg/L.</param>
    /// <returns>1/d.</returns>
    /// <exception cref="ArgumentOutOfRangeException">An input is NaN or negative.</exception>
    /// <remarks>Hiatt and Grady (2008), Water Environ. Res. 80:2145-2156, table 2 (ASMN).</remarks>
    public static double AmmoniaOxidiserGrowthPerDay(FreeNitrogen free, double doMgPerL)
    {
        Require.NotNegative(doMgPerL);
        double fa = free.AmmoniaMgNPerL, fna = free.NitrousAcidMgNPerL;
        return 0.78 * fa / (0.0075 + fa + (fa * fa / 1)) * doMgPerL / (0.6 + doMgPerL) * 0.1 / (0.1 + fna);
    }

    /// <summary>Growth rate of nitrite oxidisers at 20 °C, 1/d.</summary>
    /// <param name="free">Free ammonia and nitrous acid.</param>
    /// <param name="doMgPerL">Oxygen, mg/L.</param>
    /// <returns>1/d.</returns>
    /// <exception cref="ArgumentOutOfRangeException">An input is NaN or negative.</exception>
    /// <remarks>Hiatt and Grady (2008), table 2 (ASMN).</remarks>
    public static double NitriteOxidiserGrowthPerDay(FreeNitrogen free, double doMgPerL)
    {
        Require.NotNegative(doMgPerL);
        double fa = free.AmmoniaMgNPerL, fna = free.NitrousAcidMgNPerL;
        return 0.78 * fna / (0.0001 + fna + (fna * fna / 0.04)) * doMgPerL / (1.2 + doMgPerL) * 0.2 / (0.2 + fa);
    }

    /// <summary>Greatest growth rate of nitrifiers by temperature, 1/d.</summary>
    /// <param name="waterTempC">Water temperature, °C.</param>
    /// <returns>1/d.</returns>
    /// <exception cref="ArgumentOutOfRangeException">The temperature is NaN or out of range.</exception>
    /// <remarks>US EPA, Process Design Manual for Nitrogen Control (1975, 1993): 0.47 e^(0.098 (T - 15)).</remarks>
    public static double EpaGreatestGrowthPerDay(double waterTempC)
    {
        Require.InRange(waterTempC, 0, 40);
        return 0.47 * Math.Exp(0.098 * (waterTempC - 15));
    }

    /// <summary>Ammonia at which nitrifiers grow at half their rate, mg N/L.</summary>
    /// <param name="waterTempC">Water temperature, °C.</param>
    /// <returns>mg N/L.</returns>
    /// <exception cref="ArgumentOutOfRangeException">The temperature is NaN or out of range.</exception>
    /// <remarks>US EPA (1975, 1993): 10^(0.051 T - 1.158).</remarks>
    public static double EpaHalfSaturationMgNPerL(double waterTempC)
    {
        Require.InRange(waterTempC, 0, 40);
        return Math.Pow(10, (0.051 * waterTempC) - 1.158);
    }

    /// <summary>Growth rate of nitrifiers under temperature, ammonia, oxygen and pH, 1/d.</summary>
    /// <param name="waterTempC">Water temperature, °C.</param>
    /// <param name="tanMgNPerL">Total ammonia nitrogen, mg N/L.</param>
    /// <param name="doMgPerL">Oxygen, mg/L.</param>
    /// <param name="ph">pH; below 6 the rate is 0, which is harsher than fish systems show.</param>
    /// <returns>1/d.</returns>
    /// <exception cref="ArgumentOutOfRangeException">An input is NaN or out of range.</exception>
    /// <remarks>US EPA (1975, 1993), combined expression with K_O2 = 1.3 mg/L and 1 - 0.833 (7.2 - pH).</remarks>
    public static double EpaGrowthPerDay(double waterTempC, double tanMgNPerL, double doMgPerL, double ph)
    {
        Require.NotNegative(tanMgNPerL);
        Require.NotNegative(doMgPerL);
        Require.InRange(ph, 4, 11);
        double byPh = Math.Clamp(1 - (0.833 * (7.2 - ph)), 0, 1);
        return EpaGreatestGrowthPerDay(waterTempC) * byPh * tanMgNPerL / (EpaHalfSaturationMgNPerL(waterTempC) + tanMgNPerL) * doMgPerL / (1.3 + doMgPerL);
    }

    /// <summary>Media surface for an ammonia load, m².</summary>
    /// <param name="loadGPerDay">Load, g a day (in the same terms as the rate).</param>
    /// <param name="arealRateGPerM2Day">Rate, g/(m² day): 0.57 g NH3 (FAO 589), 0.2 to 2 in print.</param>
    /// <returns>m².</returns>
    /// <exception cref="ArgumentOutOfRangeException">An input is NaN or out of range.</exception>
    /// <remarks>FAO Fisheries Technical Paper 589 (2014), appendix 4; the areal rate scatters tenfold.</remarks>
    public static double MediaAreaM2(double loadGPerDay, double arealRateGPerM2Day)
    {
        Require.NotNegative(loadGPerDay);
        Require.Positive(arealRateGPerM2Day);
        return loadGPerDay / arealRateGPerM2Day;
    }

    /// <summary>Media volume for a surface, L.</summary>
    /// <param name="areaM2">Surface, m².</param>
    /// <param name="specificSurfaceM2PerM3">Surface of the media, m²/m³: volcanic tuff 300, clay pebbles 250, moving-bed chips 500.</param>
    /// <returns>L.</returns>
    /// <exception cref="ArgumentOutOfRangeException">An input is NaN or out of range.</exception>
    /// <remarks>Definition.</remarks>
    public static double MediaVolumeL(double areaM2, double specificSurfaceM2PerM3)
    {
        Require.NotNegative(areaM2);
        Require.Positive(specificSurfaceM2PerM3);
        return 1000 * areaM2 / specificSurfaceM2PerM3;
    }

    /// <summary>Alkalinity left once nitrogen is nitrified, mg/L as CaCO3.</summary>
    /// <param name="alkalinityMgCaCO3PerL">Alkalinity before, mg/L as CaCO3.</param>
    /// <param name="oxidisedMgNPerL">Nitrogen nitrified, mg N/L.</param>
    /// <returns>mg/L as CaCO3; below 0 the nitrogen could not all be nitrified, and the pH fell out of range first.</returns>
    /// <exception cref="ArgumentOutOfRangeException">An input is NaN or negative.</exception>
    /// <remarks>Stoichiometry, <see cref="AlkalinityPerN"/>.</remarks>
    public static double AlkalinityLeftMgCaCO3PerL(double alkalinityMgCaCO3PerL, double oxidisedMgNPerL)
    {
        Require.NotNegative(alkalinityMgCaCO3PerL);
        Require.NotNegative(oxidisedMgNPerL);
        return alkalinityMgCaCO3PerL - (AlkalinityPerN * oxidisedMgNPerL);
    }
}
