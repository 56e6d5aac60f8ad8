namespace Runnel.Science.Pipes;

/// <summary>Darcy friction factor of a round pipe.</summary>
/// <remarks>Reynolds number and roughness refer to the bore. Real plastic pipe with joints runs 5 to 10 % above.</remarks>
public static class FrictionFactor
{
    /// <summary>Friction factor over all regimes: laminar, turbulent (Colebrook), and a bridge between them.</summary>
    /// <param name="reynolds">Reynolds number, above 0.</param>
    /// <param name="relativeRoughness">Roughness over bore, 0 to 0.1.</param>
    /// <returns>Darcy friction factor.</returns>
    /// <exception cref="ArgumentOutOfRangeException">An input is NaN or out of range.</exception>
    /// <remarks>64/Re up to 2000 and Colebrook from 4000; between them linear in the logarithms, since flow there is unsteady and methods differ by 10 % and more.</remarks>
    public static double Darcy(double reynolds, double relativeRoughness)
    {
        Require.Positive(reynolds);
        Require.InRange(relativeRoughness, 0, 0.1);
        if (reynolds <= 2000) return Laminar(reynolds);
        if (reynolds >= 4000) return Colebrook(reynolds, relativeRoughness);
        double share = Math.Log(reynolds / 2000) / Math.Log(2);
        return Math.Pow(Laminar(2000), 1 - share) * Math.Pow(Colebrook(4000, relativeRoughness), share);
    }

    /// <summary>Laminar flow.</summary>
    /// <param name="reynolds">Reynolds number, above 0.</param>
    /// <returns>64/Re.</returns>
    /// <exception cref="ArgumentOutOfRangeException">The number is NaN or not above 0.</exception>
    /// <remarks>Hagen and Poiseuille.</remarks>
    public static double Laminar(double reynolds)
    {
        Require.Positive(reynolds);
        return 64 / reynolds;
    }

    /// <summary>Turbulent flow, exactly.</summary>
    /// <param name="reynolds">Reynolds number, 1000 to 1e12.</param>
    /// <param name="relativeRoughness">Roughness over bore, 0 to 0.1.</param>
    /// <returns>Darcy friction factor to 1e-14.</returns>
    /// <exception cref="ArgumentOutOfRangeException">An input is NaN or out of range.</exception>
    /// <remarks>Colebrook (1939): 1/sqrt f = -2 log10(eD/3.7 + 2.51/(Re sqrt f)), by Newton steps on 1/sqrt f, which converge from above in three or four.</remarks>
    public static double Colebrook(double reynolds, double relativeRoughness)
    {
        CheckTurbulent(reynolds, relativeRoughness);
        double rough = relativeRoughness / 3.7, smooth = 2.51 / reynolds, x = 1 / Math.Sqrt(SwameeJain(reynolds, relativeRoughness));
        for (int i = 0; i < 10; i++)
        {
            double inside = rough + (smooth * x);
            double step = (x + (2 * Math.Log10(inside))) / (1 + (2 / Math.Log(10) * smooth / inside));
            x -= step;
            if (Math.Abs(step) < 1e-14 * x) break;
        }

        return 1 / (x * x);
    }

    /// <summary>Turbulent flow, explicit: within 1 % of Colebrook, a few in smooth pipes at low Reynolds numbers.</summary>
    /// <param name="reynolds">Reynolds number, 1000 to 1e12.</param>
    /// <param name="relativeRoughness">Roughness over bore, 0 to 0.1.</param>
    /// <returns>Darcy friction factor.</returns>
    /// <exception cref="ArgumentOutOfRangeException">An input is NaN or out of range.</exception>
    /// <remarks>Swamee and Jain (1976), with the printed 5.74/Re^0.9.</remarks>
    public static double SwameeJain(double reynolds, double relativeRoughness)
    {
        CheckTurbulent(reynolds, relativeRoughness);
        double log = Math.Log10((relativeRoughness / 3.7) + (5.74 / Math.Pow(reynolds, 0.9)));
        return 0.25 / (log * log);
    }

    /// <summary>Turbulent flow, explicit: within 1.5 % of Colebrook.</summary>
    /// <param name="reynolds">Reynolds number, 1000 to 1e12.</param>
    /// <param name="relativeRoughness">Roughness over bore, 0 to 0.1.</param>
    /// <returns>Darcy friction factor.</returns>
    /// <exception cref="ArgumentOutOfRangeException">An input is NaN or out of range.</exception>
    /// <remarks>Haaland (1983).</remarks>
    public static double Haaland(double reynolds, double relativeRoughness)
    {
        CheckTurbulent(reynolds, relativeRoughness);
        double x = -1.8 * Math.Log10(Math.Pow(relativeRoughness / 3.7, 1.11) + (6.9 / reynolds));
        return 1 / (x * x);
    }

    /// <summary>All regimes in one explicit formula.</summary>
    /// <param name="reynolds">Reynolds number, above 0.</param>
    /// <param name="relativeRoughness">Roughness over bore, 0 to 0.1.</param>
    /// <returns>Darcy friction factor.</returns>
    /// <exception cref="ArgumentOutOfRangeException">An input is NaN or out of range.</exception>
    /// <remarks>Churchill (1977).</remarks>
    public static double Churchill(double reynolds, double relativeRoughness)
    {
        Require.Positive(reynolds);
        Require.InRange(relativeRoughness, 0, 0.1);
        double a = Math.Pow(2.457 * Math.Log(1 / (Math.Pow(7 / reynolds, 0.9) + (0.27 * relativeRoughness))), 16), b = Math.Pow(37_530 / reynolds, 16);
        return 8 * Math.Pow(Math.Pow(8 / reynolds, 12) + (1 / Math.Pow(a + b, 1.5)), 1.0 / 12);
    }

    /// <summary>Turbulent flow, explicit, very close to Colebrook (0.003 %).</summary>
    /// <param name="reynolds">Reynolds number, 1000 to 1e12.</param>
    /// <param name="relativeRoughness">Roughness over bore, 0 to 0.1.</param>
    /// <returns>Darcy friction factor.</returns>
    /// <exception cref="ArgumentOutOfRangeException">An input is NaN or out of range.</exception>
    /// <remarks>Serghides (1984), first form.</remarks>
    public static double Serghides(double reynolds, double relativeRoughness)
    {
        CheckTurbulent(reynolds, relativeRoughness);
        double rough = relativeRoughness / 3.7;
        double a = -2 * Math.Log10(rough + (12 / reynolds));
        double b = -2 * Math.Log10(rough + (2.51 * a / reynolds));
        double c = -2 * Math.Log10(rough + (2.51 * b / reynolds));
        double x = a - ((b - a) * (b - a) / (c - (2 * b) + a));
        return 1 / (x * x);
    }

    /// <summary>Turbulent flow, explicit, close to Colebrook (0.1 %).</summary>
    /// <param name="reynolds">Reynolds number, 1000 to 1e12.</param>
    /// <param name="relativeRoughness">Roughness over bore, 0 to 0.1.</param>
    /// <returns>Darcy friction factor.</returns>
    /// <exception cref="ArgumentOutOfRangeException">An input is NaN or out of range.</exception>
    /// <remarks>Zigrang and Sylvester (1982), second form.</remarks>
    public static double ZigrangSylvester(double reynolds, double relativeRoughness)
    {
        CheckTurbulent(reynolds, relativeRoughness);
        double rough = relativeRoughness / 3.7, factor = 5.02 / reynolds;
        double x = -2 * Math.Log10(rough - (factor * Math.Log10(rough - (factor * Math.Log10(rough + (13 / reynolds))))));
        return 1 / (x * x);
    }

    /// <summary>Smooth pipe, Reynolds numbers 4000 to 1e5.</summary>
    /// <param name="reynolds">Reynolds number, 1000 to 1e12.</param>
    /// <returns>0.3164/Re^0.25.</returns>
    /// <exception cref="ArgumentOutOfRangeException">The number is NaN or out of range.</exception>
    /// <remarks>Blasius (1913).</remarks>
    public static double Blasius(double reynolds)
    {
        CheckTurbulent(reynolds, 0);
        return 0.3164 / Math.Pow(reynolds, 0.25);
    }

    /// <summary>Fully rough flow, where the Reynolds number no longer counts; fittings are rated by it (fT).</summary>
    /// <param name="relativeRoughness">Roughness over bore, above 0 to 0.1.</param>
    /// <returns>Darcy friction factor.</returns>
    /// <exception cref="ArgumentOutOfRangeException">The roughness is NaN or out of range.</exception>
    /// <remarks>Crane TP-410.</remarks>
    public static double FullyRough(double relativeRoughness)
    {
        Require.InRange(relativeRoughness, 1e-8, 0.1);
        double log = Math.Log10(relativeRoughness / 3.7);
        return 0.25 / (log * log);
    }

    private static void CheckTurbulent(double reynolds, double relativeRoughness)
    {
        Require.InRange(reynolds, 1000, 1e12);
        Require.InRange(relativeRoughness, 0, 0.1);
    }
}
