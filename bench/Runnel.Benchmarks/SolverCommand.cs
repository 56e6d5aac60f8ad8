using System.Diagnostics;
using System.Globalization;
using Runnel.Place.PlaceFiles;
using Runnel.Twin.Solving;
using Runnel.Twin.Water;

namespace Runnel.Benchmarks;

/// <summary>Our solver beside lsoda and CVODE, on the same equations and tolerances in one run; and the twin's 30 days.</summary>
internal static class SolverCommand
{
    private const double Relative = 1e-6;

    public static int Run()
    {
        string folder = Path.Combine(AppContext.BaseDirectory, "Peers"), built = Directory.CreateTempSubdirectory("runnel-peers-").FullName;
        try
        {
            string? cvode = Build("cc", folder, $"-O2 -o {built}/cvode_peer cvode_peer.c -lsundials_cvode -lsundials_nvecserial -lsundials_sunlinsoldense -lsundials_sunmatrixdense -lm")
                ? Path.Combine(built, "cvode_peer") : null;
            string? shared = Build("cc", folder, $"-O2 -shared -fPIC -o {built}/lsoda_peer.so lsoda_peer.c -lm") ? Path.Combine(built, "lsoda_peer.so") : null;
            bool hasR = shared is not null && Output("Rscript", folder, "-e library(deSolve)") is not null;
            if (cvode is null) Console.WriteLine("CVODE is absent: apt-get install gcc libsundials-dev. Its columns stay empty.");
            if (!hasR) Console.WriteLine("lsoda is absent: apt-get install gcc r-cran-desolve. Its columns stay empty.");
            Console.WriteLine($"rtol {Relative:0e0}; times in us a run; x: peer's time over ours (above 1: ours is quicker); errors: greatest over rtol |y| + atol");
            Console.WriteLine("problem         ours   CVODE      x   lsoda/R      x  lsoda/C      x   our error  CVODE's  lsoda's");
            foreach (var problem in PeerProblem.All) Compare(problem, cvode, hasR ? shared : null, folder);
        }
        finally
        {
            Directory.Delete(built, recursive: true);
        }

        ThirtyDays();
        TwinSpeed.Tell();
        return 0;
    }

    private static void Compare(PeerProblem problem, string? cvode, string? shared, string folder)
    {
        // Our own answer at a far tighter tolerance; it agrees with the published digits in the tests.
        double[] truth = Solve(problem, 1e-12, problem.Absolute * 1e-6);
        double[] state = Solve(problem, Relative, problem.Absolute);
        var watch = Stopwatch.StartNew();
        long runs = 0;
        var solver = Solver(problem, Relative, problem.Absolute);
        for (; watch.ElapsedMilliseconds < 700; runs++)
        {
            solver.Start(0, problem.Start);
            solver.AdvanceTo(problem.End);
        }

        double ours = watch.Elapsed.TotalSeconds / runs;
        string tolerances = string.Create(CultureInfo.InvariantCulture, $"{Relative} {problem.Absolute}");
        double[]? c = cvode is null ? null : Numbers(Output(cvode, folder, $"{problem.Name} 300 {tolerances}"));
        double[]? r = shared is null ? null : Numbers(Output("Rscript", folder, $"lsoda_peer.R {problem.Name} 200 {tolerances} {shared}"));
        Console.WriteLine(string.Create(
            CultureInfo.InvariantCulture,
            $"{problem.Name,-12} {ours * 1e6,7:0} {c?[0] * 1e6,7:0} {c?[0] / ours,6:0.0} {r?[0] * 1e6,9:0} {r?[0] / ours,6:0.0} {r?[1] * 1e6,8:0} {r?[1] / ours,6:0.0} "
            + $"{Error(state, truth, problem),11:0.0} {(c is null ? double.NaN : Error(c.AsSpan(3), truth, problem)),8:0.0} {(r is null ? double.NaN : Error(r.AsSpan(2), truth, problem)),8:0.0}"));
    }

    private static void ThirtyDays()
    {
        string file = Path.Combine(AppContext.BaseDirectory, "places", "low-wall-yard.toml");
        var place = PlaceFile.Read(File.ReadAllText(file), file, PlaceNeeds.Forecast).Place!;
        var options = new ForecastOptions { Days = 30 };
        var forecast = WaterForecaster.Run(place, options);
        using var self = Process.GetCurrentProcess();
        var before = self.TotalProcessorTime;
        const int runs = 3;
        for (int i = 0; i < runs; i++) WaterForecaster.Run(place, options);
        self.Refresh();
        Console.WriteLine(string.Create(
            CultureInfo.InvariantCulture,
            $"30 days of {place.Name}, every event: {(self.TotalProcessorTime - before).TotalSeconds / runs:0.00} s of one core ({forecast.Pumps[0].Starts} cycles, {forecast.Statistics.Events} events, "
            + $"{forecast.Statistics.Steps} steps, balance {forecast.Totals.BalanceL / forecast.Totals.WaterL:0e0} of all water)"));
    }

    private static double[] Solve(PeerProblem problem, double relative, double absolute)
    {
        var solver = Solver(problem, relative, absolute);
        solver.Start(0, problem.Start);
        var result = solver.AdvanceTo(problem.End);
        return result.Stop == StopReason.Reached ? solver.State.ToArray() : throw new InvalidOperationException($"{problem.Name}: {result.Stop}");
    }

    private static OdeSolver Solver(PeerProblem problem, double relative, double absolute) => new(
        problem,
        new SolverOptions { Method = problem.IsStiff ? SteppingMethod.Stiff : SteppingMethod.Automatic, RelativeTolerance = relative, AbsoluteTolerance = absolute });

    private static double Error(ReadOnlySpan<double> state, double[] truth, PeerProblem problem)
    {
        double most = 0;
        for (int i = 0; i < truth.Length; i++) most = Math.Max(most, Math.Abs(state[i] - truth[i]) / (problem.Absolute + (Relative * Math.Abs(truth[i]))));
        return most;
    }

    private static double[]? Numbers(string? text) =>
        text is null ? null : [.. text.Split(' ', StringSplitOptions.RemoveEmptyEntries | StringSplitOptions.TrimEntries).Where(w => w.Length > 0).Select(w => double.Parse(w, CultureInfo.InvariantCulture))];

    private static bool Build(string compiler, string folder, string arguments) => Output(compiler, folder, arguments) is not null;

    // What a program printed, or null where it is not there or failed.
    private static string? Output(string program, string folder, string arguments)
    {
        try
        {
            using var process = Process.Start(new ProcessStartInfo(program, arguments)
            {
                WorkingDirectory = folder,
                RedirectStandardOutput = true,
                RedirectStandardError = true,
            })!;
            var errors = process.StandardError.ReadToEndAsync();
            string printed = process.StandardOutput.ReadToEnd();
            process.WaitForExit();
            return process.ExitCode == 0 ? printed : null;
        }
        catch (System.ComponentModel.Win32Exception)
        {
            return null;
        }
    }
}
