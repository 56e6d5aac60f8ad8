namespace Runnel.Science.Water;

/// <summary>The carbonate system of fresh water: pH, alkalinity, carbon dioxide, calcite.</summary>
/// <remarks>Constants of <see cref="CarbonateConstants"/> with activities after Davies (Stumm and Morgan, Aquatic Chemistry, 3rd ed. 1996). The ionic
/// strength is taken from the alkalinity where it is not given (a bicarbonate water). Ion pairs are left out: within 1 % in CO2 and 0.05 in pH of
/// PHREEQC in soft and medium water, and up to 0.15 in pH near pH 9.5 with much calcium.</remarks>
public static class Carbonate
{
    private const double CO2GPerMol = 44.0095;

    /// <summary>CO2 over alkalinity, mg/L for each mg/L as CaCO3, at infinite dilution.</summary>
    /// <param name="ph">pH, 5 to 8.5.</param>
    /// <param name="waterTempC">Water temperature, °C, 0 to 50.</param>
    /// <returns>Factor.</returns>
    /// <exception cref="ArgumentOutOfRangeException">An input is NaN or out of range.</exception>
    /// <remarks>Tucker (1984), table 2 of SRAC Publication 464: all alkalinity taken as bicarbonate.</remarks>
    public static double CO2PerAlkalinity(double ph, double waterTempC)
    {
        Require.InRange(ph, 5, 8.5);
        return CO2GPerMol / Conversions.MgCaCO3PerMeq * Math.Pow(10, CarbonateConstants.At(waterTempC).PK1 - ph);
    }

    /// <summary>Carbon dioxide of a water, mg/L.</summary>
    /// <param name="ph">pH, 4.5 to 11.</param>
    /// <param name="alkalinityMgCaCO3PerL">Alkalinity, mg/L as CaCO3, 0 to 1000.</param>
    /// <param name="waterTempC">Water temperature, °C, 0 to 50.</param>
    /// <returns>CO2, mg/L; 0 where other bases than carbonate would have to carry the pH.</returns>
    /// <exception cref="ArgumentOutOfRangeException">An input is NaN or out of range.</exception>
    public static double CO2MgPerL(double ph, double alkalinityMgCaCO3PerL, double waterTempC)
    {
        Require.InRange(ph, 4.5, 11);
        double equivalents = Equivalents(alkalinityMgCaCO3PerL);
        var s = new Activities(waterTempC, equivalents);
        double h = Math.Pow(10, -ph);
        return Math.Max(0, 1000 * CO2GPerMol * (equivalents - s.Water(h)) / s.AlkalinityPerCO2(h));
    }

    /// <summary>pH of a water with a known carbon dioxide.</summary>
    /// <param name="co2MgPerL">CO2, mg/L, above 0 to 500.</param>
    /// <param name="alkalinityMgCaCO3PerL">Alkalinity, mg/L as CaCO3, 0 to 1000.</param>
    /// <param name="waterTempC">Water temperature, °C, 0 to 50.</param>
    /// <returns>pH.</returns>
    /// <exception cref="ArgumentOutOfRangeException">An input is NaN or out of range.</exception>
    public static double PhFromCO2(double co2MgPerL, double alkalinityMgCaCO3PerL, double waterTempC)
    {
        Require.InRange(co2MgPerL, 1e-6, 500);
        double equivalents = Equivalents(alkalinityMgCaCO3PerL), co2 = co2MgPerL / (1000 * CO2GPerMol);
        var s = new Activities(waterTempC, equivalents);
        return SolvePh(s, equivalents, co2, closed: false);
    }

    /// <summary>CO2 of water in balance with air, mg/L.</summary>
    /// <param name="waterTempC">Water temperature, °C, 0 to 50.</param>
    /// <param name="pCO2Uatm">Partial pressure of CO2, µatm: 420 outdoors; 1000 and more in a closed house.</param>
    /// <returns>CO2, mg/L.</returns>
    /// <exception cref="ArgumentOutOfRangeException">An input is NaN or out of range.</exception>
    public static double AeratedCO2MgPerL(double waterTempC, double pCO2Uatm = 420)
    {
        Require.InRange(pCO2Uatm, 1, 100_000);
        return 1000 * CO2GPerMol * pCO2Uatm * 1e-6 * Math.Pow(10, -CarbonateConstants.At(waterTempC).PKh);
    }

    /// <summary>pH of water aerated until it is in balance with air: a fish system runs 0.3 to 1.3 lower.</summary>
    /// <param name="alkalinityMgCaCO3PerL">Alkalinity, mg/L as CaCO3, 0 to 1000.</param>
    /// <param name="waterTempC">Water temperature, °C, 0 to 50.</param>
    /// <param name="pCO2Uatm">Partial pressure of CO2, µatm.</param>
    /// <returns>pH.</returns>
    /// <exception cref="ArgumentOutOfRangeException">An input is NaN or out of range.</exception>
    public static double AeratedPh(double alkalinityMgCaCO3PerL, double waterTempC, double pCO2Uatm = 420) =>
        PhFromCO2(AeratedCO2MgPerL(waterTempC, pCO2Uatm), alkalinityMgCaCO3PerL, waterTempC);

    /// <summary>pH right after a base is stirred in, before any CO2 leaves.</summary>
    /// <param name="startPh">pH before, 4.5 to 10.</param>
    /// <param name="startAlkalinityMgCaCO3PerL">Alkalinity before, mg/L as CaCO3, 0 to 1000.</param>
    /// <param name="addedAlkalinityMgCaCO3PerL">Alkalinity added, mg/L as CaCO3, 0 to 1000.</param>
    /// <param name="addedCarbonMmolPerL">Inorganic carbon added with it, mmol/L: the dose for a bicarbonate or carbonate, 0 for a hydroxide.</param>
    /// <param name="waterTempC">Water temperature, °C, 0 to 50.</param>
    /// <returns>pH, and it creeps on to <see cref="AeratedPh"/> of the new alkalinity. Small steps: fish stand about 0.2 to 0.3 a day (common practice).</returns>
    /// <exception cref="ArgumentOutOfRangeException">An input is NaN or out of range.</exception>
    public static double PhAfterBase(
        double startPh, double startAlkalinityMgCaCO3PerL, double addedAlkalinityMgCaCO3PerL, double addedCarbonMmolPerL, double waterTempC)
    {
        Require.InRange(addedAlkalinityMgCaCO3PerL, 0, 1000);
        Require.InRange(addedCarbonMmolPerL, 0, 20);
        double carbon = Carbon(startPh, startAlkalinityMgCaCO3PerL, waterTempC) + (addedCarbonMmolPerL / 1000);
        double equivalents = Equivalents(startAlkalinityMgCaCO3PerL + addedAlkalinityMgCaCO3PerL);
        var after = new Activities(waterTempC, equivalents);
        return SolvePh(after, equivalents, carbon, closed: true);
    }

    /// <summary>pH right after a strong acid is stirred in, before any CO2 leaves. Acid burns; pour acid into water, never water into acid; fish out of the way.</summary>
    /// <param name="startPh">pH before, 4.5 to 10.</param>
    /// <param name="startAlkalinityMgCaCO3PerL">Alkalinity before, mg/L as CaCO3, 0 to 1000.</param>
    /// <param name="acidMeqPerL">Acid, meq/L: it takes 50 mg/L as CaCO3 of alkalinity for each, and must leave some.</param>
    /// <param name="waterTempC">Water temperature, °C, 0 to 50.</param>
    /// <returns>pH; once aerated it comes back to <see cref="AeratedPh"/> of the alkalinity that is left.</returns>
    /// <exception cref="ArgumentOutOfRangeException">An input is NaN or out of range, or the acid takes all alkalinity.</exception>
    public static double PhAfterAcid(double startPh, double startAlkalinityMgCaCO3PerL, double acidMeqPerL, double waterTempC)
    {
        double carbon = Carbon(startPh, startAlkalinityMgCaCO3PerL, waterTempC);
        Require.InRange(acidMeqPerL, 0, startAlkalinityMgCaCO3PerL / Conversions.MgCaCO3PerMeq);
        double equivalents = Equivalents(startAlkalinityMgCaCO3PerL - (acidMeqPerL * Conversions.MgCaCO3PerMeq));
        return SolvePh(new Activities(waterTempC, equivalents), equivalents, carbon, closed: true);
    }

    /// <summary>Saturation index of calcite: above 0 scale can form, below 0 limestone dissolves.</summary>
    /// <param name="ph">pH, 4.5 to 10.</param>
    /// <param name="alkalinityMgCaCO3PerL">Alkalinity, mg/L as CaCO3, above 0 to 1000.</param>
    /// <param name="calciumMgPerL">Calcium, mg/L Ca, above 0 to 1000.</param>
    /// <param name="waterTempC">Water temperature, °C, 0 to 50.</param>
    /// <returns>log10 of ion product over solubility.</returns>
    /// <exception cref="ArgumentOutOfRangeException">An input is NaN or out of range.</exception>
    public static double CalciteIndex(double ph, double alkalinityMgCaCO3PerL, double calciumMgPerL, double waterTempC)
    {
        Require.InRange(ph, 4.5, 10);
        Require.InRange(calciumMgPerL, 1e-6, 1000);
        Require.InRange(alkalinityMgCaCO3PerL, 1e-6, 1000);
        double equivalents = Equivalents(alkalinityMgCaCO3PerL), calcium = calciumMgPerL / 40_078;
        // Calcium, bicarbonate, and whatever single charge balances them.
        double strength = ((4 * calcium) + equivalents + Math.Abs((2 * calcium) - equivalents)) / 2;
        var s = new Activities(waterTempC, strength);
        double h = Math.Pow(10, -ph);
        double co2 = Math.Max(0, (equivalents - s.Water(h)) / s.AlkalinityPerCO2(h));
        return Math.Log10(s.CarbonateActivity(h, co2) * calcium * s.Double) + CarbonateConstants.At(waterTempC).PKCalcite;
    }

    private static double Equivalents(double alkalinityMgCaCO3PerL)
    {
        Require.InRange(alkalinityMgCaCO3PerL, 0, 2000);
        return alkalinityMgCaCO3PerL / (1000 * Conversions.MgCaCO3PerMeq);
    }

    // Inorganic carbon of a water, mol/L.
    private static double Carbon(double ph, double alkalinityMgCaCO3PerL, double waterTempC) =>
        CO2MgPerL(ph, alkalinityMgCaCO3PerL, waterTempC) / (1000 * CO2GPerMol)
            * new Activities(waterTempC, Equivalents(alkalinityMgCaCO3PerL)).CarbonPerCO2(Math.Pow(10, -ph));

    // pH at which the charges balance: with the CO2 held (open to air), or all inorganic carbon held (closed). The balance falls as hydrogen rises, so
    // bisection on pH cannot fail.
    private static double SolvePh(in Activities s, double equivalents, double amount, bool closed)
    {
        double low = 3, high = 13;
        for (int i = 0; i < 50; i++)
        {
            double middle = (low + high) / 2;
            double h = Math.Pow(10, -middle), co2 = closed ? amount / s.CarbonPerCO2(h) : amount;
            if ((co2 * s.AlkalinityPerCO2(h)) + s.Water(h) - equivalents < 0) low = middle;
            else high = middle;
        }

        return (low + high) / 2;
    }

    // Constants for concentrations of ions with the activity of hydrogen (which is what a pH electrode reads).
    private readonly struct Activities
    {
        private readonly double k1, k2, kw, single;

        public Activities(double waterTempC, double strength)
        {
            var constants = CarbonateConstants.At(waterTempC);
            double a = 0.4883 + (8.074e-4 * waterTempC), root = Math.Sqrt(strength);
            double davies = a * ((root / (1 + root)) - (0.3 * strength));
            single = Math.Pow(10, -davies);
            Double = Math.Pow(10, -4 * davies);
            k1 = Math.Pow(10, -constants.PK1) / single;
            k2 = Math.Pow(10, -constants.PK1 - constants.PK2) / Double;
            kw = Math.Pow(10, -constants.PKw) / single;
        }

        public double Double { get; }

        public double AlkalinityPerCO2(double h) => (k1 / h) + (2 * k2 / (h * h));

        public double CarbonPerCO2(double h) => 1 + (k1 / h) + (k2 / (h * h));

        public double Water(double h) => (kw / h) - (h / single);

        public double CarbonateActivity(double h, double co2) => co2 * k2 / (h * h) * Double;
    }
}
