using System.Runtime.Intrinsics;

namespace Runnel.Science.Sun;

/// <summary>Cosines of angles in turns, four at a time. Angles of the sun's theory run over thousands of turns; counted in turns, whole ones fall off exactly.</summary>
internal static class Turns
{
    /// <summary>Cosine, to 1e-11.</summary>
    /// <param name="turns">Angles, turns, up to some millions.</param>
    /// <remarks>With y the distance from a quarter turn, cos = -sin(2 pi y): the sine's series up to the fifteenth power, good to 6e-12 there.</remarks>
    public static Vector256<double> Cos(Vector256<double> turns)
    {
        var y = (Vector256.Abs(turns - Vector256.Round(turns)) - Vector256.Create(0.25)) * (2 * Math.PI);
        var s = y * y;
        var p = Vector256.Create(-1.0 / 1_307_674_368_000);
        p = Vector256.MultiplyAddEstimate(p, s, Vector256.Create(1.0 / 6_227_020_800));
        p = Vector256.MultiplyAddEstimate(p, s, Vector256.Create(-1.0 / 39_916_800));
        p = Vector256.MultiplyAddEstimate(p, s, Vector256.Create(1.0 / 362_880));
        p = Vector256.MultiplyAddEstimate(p, s, Vector256.Create(-1.0 / 5040));
        p = Vector256.MultiplyAddEstimate(p, s, Vector256.Create(1.0 / 120));
        p = Vector256.MultiplyAddEstimate(p, s, Vector256.Create(-1.0 / 6));
        return -Vector256.MultiplyAddEstimate(p * s, y, y);
    }
}
