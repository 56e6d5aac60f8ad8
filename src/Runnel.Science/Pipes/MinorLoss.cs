namespace Runnel.Science.Pipes;

/// <summary>Loss of fittings, as K in K V²/2g.</summary>
/// <remarks>EPANET 2.2 User Manual (Rossman and others, US EPA, 2020), table of minor loss coefficients. Makes differ by half and more.</remarks>
public static class MinorLoss
{
    private static readonly (string Fitting, double K, string Words)[] Known =
    [
        ("globe-valve-open", 10, "globe valve, open"), ("angle-valve-open", 5, "angle valve, open"), ("swing-check-valve-open", 2.5, "swing check valve"), ("gate-valve-open", 0.2, "gate valve, open"),
        ("elbow-short-radius", 0.9, "90° elbow, tight"), ("elbow-medium-radius", 0.8, "90° elbow, medium"), ("elbow-long-radius", 0.6, "90° elbow, wide"), ("elbow-45", 0.4, "45° elbow"), ("closed-return-bend", 2.2, "180° bend"),
        ("tee-through-run", 0.6, "tee, straight through"), ("tee-through-branch", 1.8, "tee, through its branch"), ("square-entrance", 0.5, "plain inlet"), ("exit", 1.0, "outlet"),
    ];

    /// <summary>Fittings listed.</summary>
    public static IEnumerable<string> Fittings => Known.Select(k => k.Fitting);

    /// <summary>Fittings as a plumber calls them.</summary>
    public static IEnumerable<(string Fitting, string Words)> InWords => Known.Select(k => (k.Fitting, k.Words));

    /// <summary>K of a fitting.</summary>
    /// <param name="fitting">Name as in <see cref="Fittings"/>, or words of it that belong to one only: <c>return-bend</c>, <c>tee branch</c>.</param>
    /// <returns>K, or null where the fitting is not listed or several are meant.</returns>
    public static double? Of(string fitting)
    {
        ArgumentNullException.ThrowIfNull(fitting);
        double? found = null;
        foreach (var (name, k, _) in Known)
        {
            if (string.Equals(name, fitting, StringComparison.OrdinalIgnoreCase)) return k;
        }

        string[] words = fitting.ToLowerInvariant().Split(['-', '_', ' '], StringSplitOptions.RemoveEmptyEntries);
        foreach (var (name, k, _) in Known)
        {
            if (words.Length == 0 || words.Except(name.Split('-')).Any()) continue;
            if (found is not null) return null;
            found = k;
        }

        return found;
    }

    /// <summary>K of a sudden contraction, on the velocity in the smaller pipe.</summary>
    /// <param name="smallerM">Smaller bore, m.</param>
    /// <param name="largerM">Larger bore, m.</param>
    /// <returns>K.</returns>
    /// <exception cref="ArgumentOutOfRangeException">An input is NaN or out of range.</exception>
    /// <remarks>Crane TP-410: 0.5 (1 - (d/D)²).</remarks>
    public static double SuddenContraction(double smallerM, double largerM)
    {
        Require.Positive(largerM);
        Require.InRange(smallerM, double.Epsilon, largerM);
        return 0.5 * (1 - (smallerM * smallerM / (largerM * largerM)));
    }
}
