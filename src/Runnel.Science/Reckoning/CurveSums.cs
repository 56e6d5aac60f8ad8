using Runnel.Science.Statistics;
using static Runnel.Science.Reckoning.Ask;

namespace Runnel.Science.Reckoning;

/// <summary>Curves through readings, and the level behind noisy ones.</summary>
internal static class CurveSums
{
    public static readonly Relation[] All =
    [
        new("straight-line", "What straight line do my points make?")
        {
            Explanation = "The line through pairs of readings by least squares, as to turn a sensor's raw value into a unit; one wild point pulls it (trend does not mind).",
            Inputs = [Numbers("x", "1", "values across", -1e9, 1e9, "0 4 7 10"), Numbers("y", "1", "value at each", -1e9, 1e9, "0.1 3.9 7.2 9.9")],
            Rules = [Pairs(3)],
            Outputs = [new("slope", "1", "slope"), new("intercept", "1", "value at x = 0"), new("slope_sd", "1", "uncertainty of the slope"), new("intercept_sd", "1", "uncertainty of the intercept"), new("residual_sd", "1", "scatter about the line")],
            Formula = "y = intercept + slope x, least squares",
            Source = "Least squares, checked with the NIST reference problems.",
            Reckon = g =>
            {
                var line = LeastSquares.Line(g.Numbers("x"), g.Numbers("y")) ?? throw new RefusedInputException(new Problem("x", "is one value only, so that no line is told", "Give points at different x"));
                return [line.Coefficients[1], line.Coefficients[0], line.StandardErrors[1], line.StandardErrors[0], line.ResidualSd];
            },
            Meaning = a => $"y = {Figure.Brief(a["intercept"])} + {Figure.Brief(a["slope"])} x, within about {Figure.Brief(a["residual_sd"])}.",
        },
        new("approach-curve", "To what end does it climb, and how fast?")
        {
            Explanation = "The curve of something that climbs from nothing to an end value, fast at first and ever slower: oxygen used up in a bottle, water warming to the air, a tank filling against its overflow. Count x and y from the start.",
            Inputs =
            [
                Numbers("x", "1", "times from the start", 0, 1e9, "1 2 3 5 7 10"), Numbers("y", "1", "value at each, counted from the start", -1e9, 1e9, "109 149 149 191 213 224"),
                Number("b1_start", "1", "a guess of the end value", -1e9, 1e9, "200").OrNone(), Number("b2_start", "1", "a guess of the rate", 1e-9, 1e9, "0.5").OrNone(),
            ],
            Rules = [Pairs(3)],
            Outputs =
            [
                new("b1", "1", "end value"), new("b2", "1", "rate in one unit of x"), new("b1_sd", "1", "uncertainty of the end value"), new("b2_sd", "1", "uncertainty of the rate"),
                new("residual_sum_of_squares", "1", "sum of squares about the curve"), new("residual_sd", "1", "scatter about the curve"), new("half_time", "1", "x at which half the way is done"),
            ],
            Formula = "y = b1 (1 - exp(-b2 x)), least squares",
            Source = "Levenberg and Marquardt; NIST/ITL Statistical Reference Datasets, nonlinear regression (BoxBOD, Misra1a).",
            Reckon = g =>
            {
                double[] x = g.Numbers("x"), y = g.Numbers("y");
                double end = g.Or("b1_start", 1.2 * y.MaxBy(Math.Abs)), rate = g.Or("b2_start", 1 / Math.Max(x.Average(), 1e-12));
                var fit = NonlinearLeastSquares.Fit((t, b) => b[0] * (1 - Math.Exp(-b[1] * t)), x, y, [end, rate]);
                if (fit.Stop != FitStop.Converged) throw new RefusedInputException(new Problem("y", "does not follow such a curve, or not far enough along it", "Give readings nearer to the end value, or guesses b1_start and b2_start"));
                double decline = fit.Parameters[1];
                return [fit.Parameters[0], decline, fit.StandardError(0), fit.StandardError(1), fit.SumOfSquares, fit.ResidualSd, decline > 0 ? Math.Log(2) / decline : double.NaN];
            },
            Meaning = a => $"It climbs to {Figure.Brief(a["b1"])} ± {Figure.Brief(a["b1_sd"])}, half the way by {Figure.Brief(a["half_time"])}.",
        },
        new("level-behind-noise", "What is the true level behind noisy readings?")
        {
            Explanation = "The level that wanders slowly behind readings that scatter, with how sure it is: both scatters are found from the readings themselves. Twenty readings or more, evenly spaced.",
            Inputs = [ReadingSums.Series],
            Rules = [ReadingSums.AtLeast(8), new("series", g => g.Numbers("series").Distinct().Count() > 1, "is the same reading over and over", "Give readings that differ")],
            Outputs =
            [
                new("level", "1", "level now"), new("level_sd", "1", "its standard deviation"), new("h", "1", "variance of the readings about the level"), new("q", "1", "variance of the level's steps"), new("gain", "1", "weight of the newest reading"),
            ],
            Formula = "reading = level + noise (H), level = level before + step (Q); H and Q by maximum likelihood, diffuse start",
            Source = "Kalman (1960); Durbin and Koopman (2012), Time Series Analysis by State Space Methods, chapter 2.",
            Reckon = g =>
            {
                double[] x = g.Numbers("series");
                var fit = LocalLevel.Fit(x);
                if (!(fit.ReadingVariance > 0)) return [x[^1], 0, 0, fit.LevelVariance, 1];
                var forecast = new LevelForecast(x[0], fit.ReadingVariance + fit.LevelVariance);
                LevelStep step = default;
                for (int i = 1; i < x.Length; i++)
                {
                    step = LocalLevel.Step(forecast, x[i], fit.ReadingVariance, fit.LevelVariance);
                    forecast = step.Next;
                }

                return [step.Mean, Math.Sqrt(step.Variance), fit.ReadingVariance, fit.LevelVariance, step.Gain];
            },
            Meaning = a => $"{Figure.Brief(a["level"])} ± {Figure.Brief(a["level_sd"])}; the newest reading counts for {Amounts.Percent(a["gain"])}.",
        },
    ];

    private static Rule Pairs(int least) => new(
        "y", g => g.Numbers("x").Length == g.Numbers("y").Length && g.Numbers("y").Length >= least, $"are not as many as x, or fewer than {least}", "Give a y for each x");
}
