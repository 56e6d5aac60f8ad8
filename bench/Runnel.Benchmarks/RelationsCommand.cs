using System.Diagnostics;
using System.Globalization;
using System.Text;
using Runnel.Exchange.Reckoner;
using Runnel.Science.Pipes;
using Runnel.Science.Pipes.Networks;
using Runnel.Science.Plants;
using Runnel.Science.Reckoning;
using Runnel.Science.Sun;
using Runnel.Science.Water;

namespace Runnel.Benchmarks;

/// <summary>How fast the published relations run on one core: the best of five rounds each.</summary>
internal static class RelationsCommand
{
    private const int Days = 36_525;

    public static int Run()
    {
        Report("ET0 daily, 100 years", Days, () =>
        {
            double sum = 0;
            for (int day = 0; day < Days; day++)
                sum += ReferenceEvapotranspiration.Daily(-27.5, 30, (day % 365) + 1, 28 + (day % 7), 16 + (day % 5), 1.6, 2, 18 + (day % 6)).Et0Mm;
            return sum;
        });
        Report("solar position (default, 0.0003 deg)", 200_000, () => Positions(200_000, SunPrecision.Full));
        Report("solar position, quick (0.002 deg)", 200_000, () => Positions(200_000, SunPrecision.Quick));
        if (AstronomersLibrary.IsHere) Report("  the same by ERFA, no refraction", 5_000, () => AstronomersLibrary.Positions(5_000));
        else Console.WriteLine("  the same by ERFA: no liberfa.so.1 on this system");
        Report("un-ionised ammonia", 1_000_000, () =>
        {
            double sum = 0;
            for (int i = 0; i < 1_000_000; i++) sum += Ammonia.UnionisedFraction(6 + (i % 30 * 0.1), 10 + (i % 20));
            return sum;
        });
        byte[] table = Table();
        Report("table reckoned, rows", 10_000, () => Reckoned(table));
        var network = Plant();
        Report("network of 12 links, from cold", 20_000, () => Solve(network, 20_000, cold: true));
        Report("network of 12 links, as levels drift", 20_000, () => Solve(network, 20_000, cold: false));
        return 0;
    }

    // A spreadsheet of water tests: what the command does with it, without start and disk.
    private static byte[] Table()
    {
        var text = new StringBuilder("id,temp_c,ph,tan_mg_n_l,note\n");
        for (int i = 0; i < 10_000; i++) text.Append(CultureInfo.InvariantCulture, $"{i},{10 + (i % 20)},{6 + (i % 30 * 0.1):0.0},1.5,\"a, b\"\n");
        return Encoding.UTF8.GetBytes(text.ToString());
    }

    private static double Reckoned(byte[] table)
    {
        using var input = new MemoryStream(table);
        using var output = new StringWriter(CultureInfo.InvariantCulture);
        return ReckonerTable.Run(Catalogue.Find("ammonia")!, [], input, output, CancellationToken.None).Rows;
    }

    private static double Positions(int count, SunPrecision precision)
    {
        double sum = 0;
        for (int i = 0; i < count; i++) sum += SolarPosition.At(2_460_000 + (i * 0.01), -27.5, 153, precision: precision).ElevationDeg;
        return sum;
    }

    private static double Solve(PipeNetwork network, int count, bool cold)
    {
        double sum = 0;
        int sump = network.Node("sump"), pump = network.Link("pump");
        for (int i = 0; i < count; i++)
        {
            network.SetHead(sump, 0.5 + (0.1 * Math.Sin(0.01 * i)));
            if (cold) network.Forget();
            network.Solve();
            sum += network.FlowM3PerS(pump);
        }

        return sum;
    }

    // A pump, its check valve, four tanks along a header and a branch to two troughs.
    private static PipeNetwork Plant()
    {
        NetworkNode[] nodes =
        [
            new("sump", 0.5), new("delivery"), new("h1"), new("h2"), new("h3"), new("h4"), new("branch"), new("t1", 1.6), new("t2", 1.6), new("t3", 1.6),
            new("t4", 1.6), new("g1", 1.2), new("g2", 1.45),
        ];
        List<NetworkLink> links =
        [
            new NetworkPump("pump", "sump", "delivery", PumpCurve.ThroughPoints(5, 80, 3.5, 160, 0)), new NetworkPipe("riser", "delivery", "h1", 3, 0.04, 0.0015, 2.5, true),
            new NetworkPipe("to branch", "h1", "branch", 8, 0.025, 0.0015, 2), new NetworkPipe("to g1", "branch", "g1", 2, 0.02, 0.0015, 4), new NetworkPipe("to g2", "branch", "g2", 4, 0.02, 0.0015, 4),
        ];
        for (int i = 1; i <= 4; i++)
        {
            links.Add(new NetworkPipe($"to t{i}", $"h{i}", $"t{i}", 1, 0.025, 0.0015, 6));
            if (i > 1) links.Add(new NetworkPipe($"header {i}", $"h{i - 1}", $"h{i}", 1.5, 0.032, 0.0015, 0.6));
        }

        return new PipeNetwork(nodes, links);
    }

    private static void Report(string what, int count, Func<double> work)
    {
        // Long enough for the runtime to compile the hot paths fully.
        for (long begun = Stopwatch.GetTimestamp(); Stopwatch.GetElapsedTime(begun).TotalSeconds < 0.6;) work();
        double best = double.PositiveInfinity, check = 0;
        for (int round = 0; round < 5; round++)
        {
            long start = Stopwatch.GetTimestamp();
            check = work();
            best = Math.Min(best, Stopwatch.GetElapsedTime(start).TotalSeconds);
        }

        Console.WriteLine(string.Create(CultureInfo.InvariantCulture, $"{what,-38} {count,9} in {1000 * best,8:F2} ms, {count / best,12:N0} a second   (sum {check:G6})"));
    }
}
