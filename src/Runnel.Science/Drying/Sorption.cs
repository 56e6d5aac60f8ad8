namespace Runnel.Science.Drying;

/// <summary>Moisture of food in balance with air: sorption isotherms, and salts to check a hygrometer with.</summary>
public static class Sorption
{
    // Greenspan (1977), at 25 °C: relative humidity over the saturated solution, %, and its uncertainty; from memory.
    private static readonly (string Salt, double Percent, double Pm)[] Salts =
    [
        ("LiCl", 11.30, 0.27), ("CH3COOK", 22.51, 0.32), ("MgCl2", 32.78, 0.16), ("K2CO3", 43.16, 0.39), ("Mg(NO3)2", 52.89, 0.22), ("NaBr", 57.57, 0.40),
        ("KI", 68.86, 0.24), ("NaCl", 75.29, 0.12), ("(NH4)2SO4", 80.99, 0.28), ("KCl", 84.34, 0.26), ("KNO3", 93.58, 0.55), ("K2SO4", 97.30, 0.45),
    ];

    /// <summary>Moisture by Guggenheim, Anderson and de Boer, kg/kg dry basis.</summary>
    /// <param name="waterActivity">0 to below 1/K.</param>
    /// <param name="monolayer">Monolayer moisture, kg/kg dry basis.</param>
    /// <param name="c">Constant C.</param>
    /// <param name="k">Constant K; above 1 the curve has a pole at a water activity of 1/K. 1 gives BET (good below 0.5).</param>
    /// <returns>kg/kg dry basis.</returns>
    /// <exception cref="ArgumentOutOfRangeException">An input is NaN or out of range.</exception>
    /// <remarks>van den Berg and Bruin (1981); Brunauer, Emmett and Teller (1938) for K = 1. Foods follow it within some percent from a water activity of 0.05 to 0.9.</remarks>
    public static double GabDryBasis(double waterActivity, double monolayer, double c, double k = 1)
    {
        Require.Positive(monolayer);
        Require.Positive(c);
        Require.InRange(k, 0.1, 2);
        Require.InRange(waterActivity, 0, Math.Min(1, Math.BitDecrement(1 / k)));
        double x = k * waterActivity;
        return monolayer * c * x / ((1 - x) * (1 - x + (c * x)));
    }

    /// <summary>Water activity of a moisture by the same curve.</summary>
    /// <param name="dryBasis">Moisture, kg/kg dry basis.</param>
    /// <param name="monolayer">Monolayer moisture, kg/kg dry basis.</param>
    /// <param name="c">Constant C.</param>
    /// <param name="k">Constant K.</param>
    /// <returns>Water activity, 0 to 1; null where the food is wetter than the curve reaches.</returns>
    /// <exception cref="ArgumentOutOfRangeException">An input is NaN or out of range.</exception>
    /// <remarks><see cref="GabDryBasis"/> turned round by bisection.</remarks>
    public static double? GabWaterActivity(double dryBasis, double monolayer, double c, double k = 1)
    {
        Require.NotNegative(dryBasis);
        double low = 0, high = Math.Min(1, (1 / k) - 1e-9);
        if (GabDryBasis(high, monolayer, c, k) < dryBasis) return null;
        for (int i = 0; i < 60; i++)
        {
            double middle = (low + high) / 2;
            if (GabDryBasis(middle, monolayer, c, k) < dryBasis) low = middle;
            else high = middle;
        }

        return (low + high) / 2;
    }

    /// <summary>Salts listed.</summary>
    public static IEnumerable<string> SaltsListed => Salts.Select(s => s.Salt);

    /// <summary>Relative humidity over a saturated salt solution at 25 °C.</summary>
    /// <param name="salt">Formula.</param>
    /// <returns>Relative humidity and its uncertainty, 0 to 1, or null where the salt is not listed.</returns>
    /// <remarks>Greenspan (1977), J. Res. NBS 81A:89-96.</remarks>
    public static (double RelHumidity, double Pm)? OverSalt(string salt)
    {
        foreach (var known in Salts)
        {
            if (known.Salt == salt) return (known.Percent / 100, known.Pm / 100);
        }

        return null;
    }
}
