namespace Runnel.Science.Water;

/// <summary>What neutralises chlorine of tap water. The ammonia that chloramine leaves behind is not removed.</summary>
public static class Dechlorination
{
    /// <summary>Grams of sodium thiosulfate pentahydrate.</summary>
    /// <param name="volumeL">Volume, L.</param>
    /// <param name="chlorineMgPerL">Free and combined chlorine, mg/L as Cl2, 0 to 20.</param>
    /// <returns>Grams.</returns>
    /// <exception cref="ArgumentOutOfRangeException">An input is NaN or out of range.</exception>
    /// <remarks>Stoichiometry to tetrathionate, 2 x 248.18 g a mole of Cl2 (70.906 g): the safe side, since the way to sulfate needs an eighth.</remarks>
    public static double ThiosulfateG(double volumeL, double chlorineMgPerL) => Dose(volumeL, chlorineMgPerL, 2 * 248.18 / 70.906);

    /// <summary>Grams of ascorbic acid.</summary>
    /// <param name="volumeL">Volume, L.</param>
    /// <param name="chlorineMgPerL">Free and combined chlorine, mg/L as Cl2, 0 to 20.</param>
    /// <returns>Grams.</returns>
    /// <exception cref="ArgumentOutOfRangeException">An input is NaN or out of range.</exception>
    /// <remarks>Stoichiometry, 176.12 g a mole of Cl2 (70.906 g). It lowers pH a little.</remarks>
    public static double AscorbicAcidG(double volumeL, double chlorineMgPerL) => Dose(volumeL, chlorineMgPerL, 176.12 / 70.906);

    private static double Dose(double volumeL, double chlorineMgPerL, double gPerG)
    {
        Require.NotNegative(volumeL);
        Require.InRange(chlorineMgPerL, 0, 20);
        return volumeL * chlorineMgPerL / 1000 * gPerG;
    }
}
