namespace Runnel.Twin.Averaging;

/// <summary>Means over whole pump cycles of a part that holds a certain amount of water.</summary>
internal sealed class CycleMean(int states, int vessels, int pumps)
{
    /// <summary>Water in all, m3, once what did not fit had spilled.</summary>
    public double StoreM3 { get; set; }

    /// <summary>Mean of each state that holds water, m3; rate of each sum, m3/s.</summary>
    public double[] Mean { get; } = new double[states];

    /// <summary>Lowest and highest level of each vessel, m.</summary>
    public double[] LowM { get; } = new double[vessels];

    public double[] HighM { get; } = new double[vessels];

    public double[] StartsPerS { get; } = new double[pumps];

    public double[] RunShare { get; } = new double[pumps];

    /// <summary>Vessel that spills at this store; -1: none.</summary>
    public int Spills { get; set; } = -1;

    /// <summary>Between two: share 0 is the first.</summary>
    public static void Between(CycleMean a, CycleMean b, double share, CycleMean into)
    {
        Mix(a.Mean, b.Mean, share, into.Mean);
        Mix(a.LowM, b.LowM, share, into.LowM);
        Mix(a.HighM, b.HighM, share, into.HighM);
        Mix(a.StartsPerS, b.StartsPerS, share, into.StartsPerS);
        Mix(a.RunShare, b.RunShare, share, into.RunShare);
    }

    private static void Mix(double[] a, double[] b, double share, double[] into)
    {
        for (int i = 0; i < into.Length; i++) into[i] = a[i] + ((b[i] - a[i]) * share);
    }
}
