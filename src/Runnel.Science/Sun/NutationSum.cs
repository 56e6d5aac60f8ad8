using System.Runtime.InteropServices;
using System.Runtime.Intrinsics;

namespace Runnel.Science.Sun;

/// <summary>The sum of the nutation terms, four at a time.</summary>
internal sealed class NutationSum
{
    public static readonly NutationSum Full = new(NutationTerms.All.Length / NutationTerms.Width);

    // The first four terms carry all but a few tenths of an arc second.
    public static readonly NutationSum Quick = new(4);

    // Five multiples of the arguments, then longitude and its change, obliquity and its change.
    private readonly double[][] columns;
    private readonly int room;

    private NutationSum(int count)
    {
        room = (count + 3) / 4 * 4;
        columns = [.. Enumerable.Range(0, NutationTerms.Width).Select(_ => new double[room])];
        ReadOnlySpan<double> terms = NutationTerms.All;
        for (int i = 0; i < count; i++)
        {
            for (int c = 0; c < NutationTerms.Width; c++) columns[c][i] = terms[(i * NutationTerms.Width) + c];
        }
    }

    /// <summary>Nutation in longitude and obliquity, degrees.</summary>
    /// <param name="t">Julian centuries of terrestrial time.</param>
    /// <param name="x0">Elongation of the moon, turns.</param>
    /// <param name="x1">Anomaly of the sun, turns.</param>
    /// <param name="x2">Anomaly of the moon, turns.</param>
    /// <param name="x3">Argument of latitude of the moon, turns.</param>
    /// <param name="x4">Node of the moon, turns.</param>
    public (double Longitude, double Obliquity) At(double t, double x0, double x1, double x2, double x3, double x4)
    {
        Vector256<double> when = Vector256.Create(t), longitude = default, obliquity = default;
        for (nuint i = 0; i < (nuint)room; i += 4)
        {
            var argument = (Four(0, i) * x0) + (Four(1, i) * x1) + (Four(2, i) * x2) + (Four(3, i) * x3) + (Four(4, i) * x4);
            longitude += (Four(5, i) + (Four(6, i) * when)) * Turns.Cos(argument - Vector256.Create(0.25));
            obliquity += (Four(7, i) + (Four(8, i) * when)) * Turns.Cos(argument);
        }

        return (Vector256.Sum(longitude) / 36_000_000, Vector256.Sum(obliquity) / 36_000_000);
    }

    private Vector256<double> Four(int column, nuint at) => Vector256.LoadUnsafe(ref MemoryMarshal.GetArrayDataReference(columns[column]), at);
}
