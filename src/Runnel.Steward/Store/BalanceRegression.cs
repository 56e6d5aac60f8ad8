using System.Runtime.InteropServices;
using Runnel.Science.Statistics;

namespace Runnel.Steward.Store;

/// <summary>Learns the gauge from the balance as a whole: over blocks of hours, the change of the store's reading is regressed on the water
/// known to have come, the weather's call and the time. For loops whose pulses are too small against the scatter to be read one by one.</summary>
/// <remarks>change = b x (known - f x weather - s x hours), linear in b, b f and b s. The reading that scatters stands on the left, so that
/// nothing is lost to attenuation.</remarks>
internal sealed class BalanceRegression
{
    private const int Columns = 3, LeastBlocks = 24;
    private readonly List<double> _design = [];
    private readonly List<double> _changes = [];

    /// <summary>Takes one step from block to block.</summary>
    public void Take(double change, double knownL, double weatherL, double hours)
    {
        _design.AddRange([knownL, -weatherL, -hours]);
        _changes.Add(change);
    }

    /// <summary>Litres for one unit of the reading and their relative standard error, or null while the data do not tell.</summary>
    public (double LitresPerUnit, double RelativeSpread)? Solve()
    {
        if (_changes.Count < LeastBlocks) return null;
        var fit = LeastSquares.Fit(CollectionsMarshal.AsSpan(_design), Columns, CollectionsMarshal.AsSpan(_changes));
        if (fit is null) return null;
        double perLitre = fit.Coefficients[0], error = fit.StandardErrors[0];
        if (perLitre <= 0 || error > 0.6 * perLitre) return null;
        return (1 / perLitre, Math.Max(0.03, error / perLitre));
    }
}
