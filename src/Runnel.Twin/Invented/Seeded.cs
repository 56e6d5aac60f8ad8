namespace Runnel.Twin.Invented;

/// <summary>A small generator of repeatable random numbers. The same seed gives the same invented log on every machine and runtime.</summary>
/// <remarks>SplitMix64 (Steele, Lea and Flood 2014, "Fast splittable pseudorandom number generators"). Constants as published.</remarks>
public sealed class Seeded
{
    private ulong _state;
    private double _spareNormal = double.NaN;

    /// <summary>A stream for <paramref name="seed"/>; other <paramref name="purpose"/>s give unrelated streams.</summary>
    public Seeded(int seed, string purpose)
    {
        ulong hash = 14695981039346656037UL;
        foreach (char c in purpose) hash = (hash ^ c) * 1099511628211UL;
        _state = hash ^ ((ulong)(uint)seed * 0x9E3779B97F4A7C15UL);
        Next();
        Next();
    }

    private ulong Next()
    {
        ulong z = _state += 0x9E3779B97F4A7C15UL;
        z = (z ^ (z >> 30)) * 0xBF58476D1CE4E5B9UL;
        z = (z ^ (z >> 27)) * 0x94D049BB133111EBUL;
        return z ^ (z >> 31);
    }

    /// <summary>Evenly spread in [0, 1).</summary>
    public double Unit() => (Next() >> 11) * (1.0 / (1UL << 53));

    /// <summary>Evenly spread between two bounds.</summary>
    public double Between(double least, double greatest) => least + ((greatest - least) * Unit());

    /// <summary>Evenly spread in the logarithm between two positive bounds.</summary>
    public double BetweenLog(double least, double greatest) => least * Math.Pow(greatest / least, Unit());

    /// <summary>A whole number from <paramref name="least"/> to <paramref name="greatest"/>, both included.</summary>
    public int Whole(int least, int greatest) => least + (int)(Unit() * (greatest - least + 1));

    /// <summary>True with the given probability.</summary>
    public bool Chance(double probability) => Unit() < probability;

    /// <summary>One of the items.</summary>
    public T Pick<T>(params ReadOnlySpan<T> items) => items[Whole(0, items.Length - 1)];

    /// <summary>Normal with mean 0 and standard deviation 1 (polar method).</summary>
    public double Normal()
    {
        if (!double.IsNaN(_spareNormal))
        {
            double spare = _spareNormal;
            _spareNormal = double.NaN;
            return spare;
        }

        double u, v, s;
        do
        {
            u = Between(-1, 1);
            v = Between(-1, 1);
            s = (u * u) + (v * v);
        }
        while (s is >= 1 or 0);
        double factor = Math.Sqrt(-2 * Math.Log(s) / s);
        _spareNormal = v * factor;
        return u * factor;
    }

    /// <summary>Exponential with the given mean.</summary>
    public double Exponential(double mean) => -mean * Math.Log(1 - Unit());
}
