namespace Runnel.Science.Water;

/// <summary>Ions and gases whose concentration is given as such or as nitrogen.</summary>
public enum NitrogenForm
{
    /// <summary>Un-ionised ammonia, NH3.</summary>
    Ammonia,

    /// <summary>Ammonium, NH4+.</summary>
    Ammonium,

    /// <summary>Nitrite, NO2-.</summary>
    Nitrite,

    /// <summary>Nitrate, NO3-.</summary>
    Nitrate,
}

/// <summary>Mass of an ion against that of its nitrogen. Test kits differ in which they print.</summary>
/// <remarks>IUPAC abridged atomic weights: N 14.0067, H 1.00794, O 15.9994.</remarks>
public static class NitrogenForms
{
    private const double N = 14.0067, H = 1.00794, O = 15.9994;

    /// <summary>Mass of the form over the mass of its nitrogen.</summary>
    /// <param name="form">Ion or gas.</param>
    /// <returns>1.2159 (NH3) to 4.4268 (NO3).</returns>
    /// <exception cref="ArgumentOutOfRangeException">The form is unknown.</exception>
    public static double MassPerN(NitrogenForm form) => form switch
    {
        NitrogenForm.Ammonia => (N + (3 * H)) / N,
        NitrogenForm.Ammonium => (N + (4 * H)) / N,
        NitrogenForm.Nitrite => (N + (2 * O)) / N,
        NitrogenForm.Nitrate => (N + (3 * O)) / N,
        _ => throw new ArgumentOutOfRangeException(nameof(form), form, "form is unknown"),
    };

    /// <summary>mg/L of the form from mg/L of its nitrogen.</summary>
    /// <param name="mgNPerL">Nitrogen, mg N/L, 0 or more.</param>
    /// <param name="form">Ion or gas.</param>
    /// <returns>mg/L of the form.</returns>
    /// <exception cref="ArgumentOutOfRangeException">An input is NaN or out of range.</exception>
    public static double FromNitrogenMgPerL(double mgNPerL, NitrogenForm form)
    {
        Require.NotNegative(mgNPerL);
        return mgNPerL * MassPerN(form);
    }

    /// <summary>mg/L of nitrogen from mg/L of the form.</summary>
    /// <param name="mgPerL">Concentration of the form, mg/L, 0 or more.</param>
    /// <param name="form">Ion or gas.</param>
    /// <returns>mg N/L.</returns>
    /// <exception cref="ArgumentOutOfRangeException">An input is NaN or out of range.</exception>
    public static double ToNitrogenMgPerL(double mgPerL, NitrogenForm form)
    {
        Require.NotNegative(mgPerL);
        return mgPerL / MassPerN(form);
    }
}
