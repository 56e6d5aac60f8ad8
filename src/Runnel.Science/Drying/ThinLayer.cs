namespace Runnel.Science.Drying;

/// <summary>Thin-layer drying curves: moisture ratio against time, in the time unit of the constants.</summary>
/// <remarks>Lewis (1921, also called Newton), Page (1949), Henderson and Pabis (1961), logarithmic, Wang and Singh (1978), Midilli and others (2002). Constants hold for
/// one food, cut, temperature and air speed.</remarks>
public static class ThinLayer
{
    /// <summary>exp(-k t).</summary>
    /// <param name="time">Time.</param>
    /// <param name="k">Rate.</param>
    /// <returns>Moisture ratio.</returns>
    /// <exception cref="ArgumentOutOfRangeException">An input is NaN or negative.</exception>
    public static double Newton(double time, double k) => Midilli(time, 1, k, 1, 0);

    /// <summary>exp(-k t^n).</summary>
    /// <param name="time">Time.</param>
    /// <param name="k">Rate.</param>
    /// <param name="n">Exponent, above 0.</param>
    /// <returns>Moisture ratio.</returns>
    /// <exception cref="ArgumentOutOfRangeException">An input is NaN or out of range.</exception>
    public static double Page(double time, double k, double n) => Midilli(time, 1, k, n, 0);

    /// <summary>a exp(-k t).</summary>
    /// <param name="time">Time.</param>
    /// <param name="a">Factor.</param>
    /// <param name="k">Rate.</param>
    /// <returns>Moisture ratio.</returns>
    /// <exception cref="ArgumentOutOfRangeException">An input is NaN or negative.</exception>
    public static double HendersonPabis(double time, double a, double k) => Midilli(time, a, k, 1, 0);

    /// <summary>a exp(-k t) + c.</summary>
    /// <param name="time">Time.</param>
    /// <param name="a">Factor.</param>
    /// <param name="k">Rate.</param>
    /// <param name="c">Rest.</param>
    /// <returns>Moisture ratio.</returns>
    /// <exception cref="ArgumentOutOfRangeException">An input is NaN or out of range.</exception>
    public static double Logarithmic(double time, double a, double k, double c)
    {
        Require.Finite(c);
        return Midilli(time, a, k, 1, 0) + c;
    }

    /// <summary>1 + a t + b t²: within the measured time only, since it turns up again.</summary>
    /// <param name="time">Time.</param>
    /// <param name="a">First constant, below 0.</param>
    /// <param name="b">Second constant.</param>
    /// <returns>Moisture ratio.</returns>
    /// <exception cref="ArgumentOutOfRangeException">An input is NaN or out of range.</exception>
    public static double WangSingh(double time, double a, double b)
    {
        Require.NotNegative(time);
        Require.Finite(a);
        Require.Finite(b);
        return 1 + (time * (a + (b * time)));
    }

    /// <summary>a exp(-k t^n) + b t.</summary>
    /// <param name="time">Time.</param>
    /// <param name="a">Factor.</param>
    /// <param name="k">Rate.</param>
    /// <param name="n">Exponent, above 0.</param>
    /// <param name="b">Slope.</param>
    /// <returns>Moisture ratio.</returns>
    /// <exception cref="ArgumentOutOfRangeException">An input is NaN or out of range.</exception>
    public static double Midilli(double time, double a, double k, double n, double b)
    {
        Require.NotNegative(time);
        Require.Finite(a);
        Require.NotNegative(k);
        Require.InRange(n, 0.01, 10);
        Require.Finite(b);
        return (a * Math.Exp(-k * Math.Pow(time, n))) + (b * time);
    }

    /// <summary>Time to a moisture ratio on a exp(-k t^n) + c, which holds the four simple curves.</summary>
    /// <param name="ratio">Moisture ratio, above c.</param>
    /// <param name="k">Rate, above 0.</param>
    /// <param name="n">Exponent: 1 except for Page.</param>
    /// <param name="a">Factor: 1 for Newton and Page.</param>
    /// <param name="c">Rest: 0 except for the logarithmic curve.</param>
    /// <returns>Time; 0 where the curve starts below the ratio, null where it never gets there.</returns>
    /// <exception cref="ArgumentOutOfRangeException">An input is NaN or out of range.</exception>
    public static double? TimeTo(double ratio, double k, double n = 1, double a = 1, double c = 0)
    {
        Require.InRange(ratio, 0, 1.5);
        Require.Positive(k);
        Require.InRange(n, 0.01, 10);
        Require.Positive(a);
        Require.Finite(c);
        double share = (ratio - c) / a;
        if (share <= 0) return null;
        return share >= 1 ? 0 : Math.Pow(-Math.Log(share) / k, 1 / n);
    }

    /// <summary>Moisture ratio of a slab that dries from both faces by diffusion.</summary>
    /// <param name="diffusivityM2PerS">Effective diffusivity, m²/s: foods 1e-10 to 1e-8.</param>
    /// <param name="thicknessMm">Whole thickness, mm.</param>
    /// <param name="hours">Time, h.</param>
    /// <returns>0 to 1.</returns>
    /// <exception cref="ArgumentOutOfRangeException">An input is NaN or out of range.</exception>
    /// <remarks>Crank (1975), series for an infinite slab; the half thickness counts. Shrinkage is left out.</remarks>
    public static double FickSlab(double diffusivityM2PerS, double thicknessMm, double hours)
    {
        Require.Positive(diffusivityM2PerS);
        Require.Positive(thicknessMm);
        Require.NotNegative(hours);
        double half = thicknessMm / 2000, rate = Math.PI * Math.PI * diffusivityM2PerS * hours * 3600 / (4 * half * half), sum = 0;
        if (rate < 1e-9) return 1;
        for (int n = 0; n < 200_000; n++)
        {
            double odd = (2 * n) + 1, term = Math.Exp(-odd * odd * rate) / (odd * odd);
            sum += term;
            if (term < 1e-15 * sum) break;
        }

        return 8 / (Math.PI * Math.PI) * sum;
    }

    /// <summary>Activation energy from two diffusivities, kJ/mol.</summary>
    /// <param name="tempC1">First temperature, °C.</param>
    /// <param name="diffusivity1">Diffusivity there.</param>
    /// <param name="tempC2">Second temperature, °C, another.</param>
    /// <param name="diffusivity2">Diffusivity there, same unit.</param>
    /// <returns>kJ/mol.</returns>
    /// <exception cref="ArgumentOutOfRangeException">An input is NaN or out of range.</exception>
    /// <remarks>Arrhenius.</remarks>
    public static double ActivationEnergyKJPerMol(double tempC1, double diffusivity1, double tempC2, double diffusivity2)
    {
        Require.InRange(tempC1, -50, 300);
        Require.InRange(tempC2, -50, 300);
        Require.Positive(diffusivity1);
        Require.Positive(diffusivity2);
        double inverse = (1 / (tempC1 + 273.15)) - (1 / (tempC2 + 273.15));
        if (inverse == 0) throw new ArgumentOutOfRangeException(nameof(tempC2), tempC2, "tempC2 must differ from tempC1");
        return 8.314462618e-3 * Math.Log(diffusivity2 / diffusivity1) / inverse;
    }
}
