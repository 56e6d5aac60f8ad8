using System.Runtime.InteropServices;
using System.Runtime.Intrinsics;

namespace Runnel.Science.Sun;

/// <summary>A sum of amplitude x cos(phase + frequency x time) over a table of terms, four at a time: the table is laid out for that once.</summary>
internal sealed class PeriodicSum
{
    // Phases in turns, frequencies in turns for each unit of time.
    private readonly double[] amplitudes, phases, frequencies;

    /// <summary>Lays out a table.</summary>
    /// <param name="terms">Amplitude, phase and frequency of each term, the largest amplitude first.</param>
    /// <param name="least">Terms of a smaller amplitude are left out.</param>
    public PeriodicSum(ReadOnlySpan<double> terms, double least)
    {
        int count = 0;
        while (3 * count < terms.Length && terms[3 * count] >= least) count++;
        // Padded with terms of no amplitude.
        int room = (count + 3) / 4 * 4;
        (amplitudes, phases, frequencies) = (new double[room], new double[room], new double[room]);
        for (int i = 0; i < count; i++) (amplitudes[i], phases[i], frequencies[i]) = (terms[3 * i], terms[(3 * i) + 1] / (2 * Math.PI), terms[(3 * i) + 2] / (2 * Math.PI));
    }

    /// <summary>The sum at a time.</summary>
    public double At(double time)
    {
        var when = Vector256.Create(time);
        var sum = Vector256<double>.Zero;
        ref double amplitude = ref MemoryMarshal.GetArrayDataReference(amplitudes);
        ref double phase = ref MemoryMarshal.GetArrayDataReference(phases);
        ref double frequency = ref MemoryMarshal.GetArrayDataReference(frequencies);
        for (nuint i = 0; i < (nuint)amplitudes.Length; i += 4)
            sum += Vector256.LoadUnsafe(ref amplitude, i) * Turns.Cos(Vector256.LoadUnsafe(ref phase, i) + (Vector256.LoadUnsafe(ref frequency, i) * when));
        return Vector256.Sum(sum);
    }
}

/// <summary>Sums by rising powers of time: s0 + t (s1 + t (s2 + ...)).</summary>
internal sealed class PeriodicSeries(params PeriodicSum[] byPower)
{
    public double At(double time)
    {
        double value = 0;
        for (int power = byPower.Length - 1; power >= 0; power--) value = byPower[power].At(time) + (time * value);
        return value;
    }
}
