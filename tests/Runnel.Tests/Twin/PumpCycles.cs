using NodaTime;
using Runnel.Place;
using Runnel.Twin.Invented;

namespace Runnel.Tests.Twin;

/// <summary>A fill and the run after it, as a log shows them.</summary>
internal readonly record struct PumpCycle(Instant On, double FillS, double RunS);

/// <summary>Reads cycles off an invented log in the plainest way.</summary>
internal static class PumpCycles
{
    public static List<PumpCycle> Of(InventedLog log)
    {
        bool power = log.Place.Channels[0].Measures == Quantity.Power;
        double above = power ? log.Place.Equipment[0].RatedPowerW!.Value * 0.3 : 0.5;
        var cycles = new List<PumpCycle>();
        Instant? on = null, off = null, before = null;
        bool running = false;
        foreach (var r in log.Log.Readings.Where(r => r.Channel == 0))
        {
            if (r.Value > above == running) continue;
            running = !running;
            if (running)
            {
                (on, before) = (r.Time, off);
            }
            else
            {
                if (on is { } start && before is { } emptied) cycles.Add(new PumpCycle(start, (start - emptied).TotalSeconds, (r.Time - start).TotalSeconds));
                off = r.Time;
            }
        }

        return cycles;
    }

    public static double Median(IEnumerable<double> values)
    {
        double[] sorted = [.. values.Order()];
        return sorted.Length == 0 ? double.NaN : sorted[sorted.Length / 2];
    }
}
