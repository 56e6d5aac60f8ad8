using System.Globalization;
using Runnel.Science.Statistics;
using static Runnel.Science.Reckoning.Ask;

namespace Runnel.Science.Reckoning;

/// <summary>What a column of readings says: spread, outliers, drift, a shift.</summary>
internal static class ReadingSums
{
    /// <summary>Readings in order of time.</summary>
    public static readonly Input Series = Numbers("series", "1", "readings in order of time", -1e9, 1e9, "7.2 7.1 7.2 7.3 7.1 7.2 7.0 7.1 7.2 7.1 6.9 6.8 6.9 6.7 6.8").Also("values");

    private static readonly Input Time = Numbers("time", "1", "times of the readings, as days or years, where they are not evenly spaced", -1e9, 1e9, "1 2 3 4 5 6 7 8 9 10 11 12 13 14 15").Also("x");

    public static readonly Relation[] All =
    [
        new("mean-and-spread", "What is usual, and how much does it scatter?")
        {
            Explanation = "Mean and standard deviation of readings, and beside them median and median deviation, which a few wild readings cannot pull.",
            Inputs = [Series],
            Rules = [AtLeast(2)],
            Outputs =
            [
                new("n", "1", "how many"), new("mean", "1", "mean"), new("sd", "1", "standard deviation"), new("median", "1", "median"), new("mad", "1", "median of the distances from it"),
                new("mad_scaled", "1", "standard deviation, reckoned from that median"), new("least", "1", "least"), new("greatest", "1", "greatest"),
            ],
            Main = "mean",
            Formula = "sd^2 = sum (x - mean)^2/(n - 1); mad = median |x - median|; 1.4826 mad stands for sd",
            Source = "Definitions.",
            Reckon = g =>
            {
                double[] x = g.Numbers("series");
                double mad = Robust.MedianAbsoluteDeviation(x);
                return [x.Length, Moments.Mean(x), Moments.SampleSd(x), Robust.Median(x), mad, Robust.MadToSd * mad, x.Min(), x.Max()];
            },
            Meaning = a => $"{Figure.Brief(a["mean"])} on average, two in three within {Figure.Brief(a["sd"])} of it." +
                (a["sd"] > 2 * a["mad_scaled"] ? $" A few wild readings widen that: most lie within {Figure.Brief(a["mad_scaled"])} of {Figure.Brief(a["median"])}." : ""),
        },
        new("trend", "Is it drifting?")
        {
            Explanation = "Whether readings rise or fall more than chance would have it, and how fast, by methods that wild readings cannot pull. A season or a day's rhythm looks like drift in a part of it: compare like with like.",
            Inputs = [Series, Time.OrNone()],
            Rules = [AtLeast(4), SameLength("time")],
            Outputs =
            [
                new("slope", "1", "change a reading, or a unit of time"), new("slope_low", "1", "change at least, 95 %"), new("slope_high", "1", "change at most, 95 %"), new("p", "1", "chance of as much without drift"),
                new Output("s", "1", "rises less falls among all pairs (Mann-Kendall S)").Folded(), new Output("var_s", "1", "its variance without drift").Folded(), new Output("z", "1", "standard score").Folded(),
                new Output("kendall_tau_b", "1", "Kendall's tau").Folded(), new Output("intercept", "1", "value at time 0").Folded(),
            ],
            Main = "slope",
            Formula = "S = sum sign(xj - xi); slope = median of (xj - xi)/(tj - ti)",
            Source = "Mann (1945); Kendall (1975); Gilbert (1987), Statistical Methods for Environmental Pollution Monitoring; Sen (1968); Conover (1980). Times count from 1 where none are given.",
            Reckon = g =>
            {
                double[] x = g.Numbers("series"), t = g.Has("time") ? g.Numbers("time") : Numbered(x.Length);
                var test = MannKendall.Test(t, x);
                var line = TheilSen.Fit(t, x);
                return [line.Slope, line.SlopeLow, line.SlopeHigh, test.P, test.S, test.Variance, test.Z, test.TauB, line.Intercept];
            },
            Meaning = a => a["p"] < 0.05 ? $"Yes: {Figure.Brief(a["slope"])} {(a.Given.Has("time") ? "a unit of time" : "from one reading to the next")}, between {Figure.Brief(a["slope_low"])} and {Figure.Brief(a["slope_high"])}; chance alone does that once in {Figure.Brief(1 / Math.Max(a["p"], 1e-9))} times."
                : $"Not that one could tell: as much comes by chance {Amounts.Percent(a["p"])} of the time.",
        },
        new("level-shift", "Did it change, and when?")
        {
            Explanation = "The place in a series where the mean most likely changed once, and whether that is more than chance: after a new pump, a cleaned pipe, a new probe. Ten readings or more; the change must lie away from both ends.",
            Inputs = [Series.Say("41 40 42 41 39 41 40 42 41 40 35 36 34 35 36 35 34 36")],
            Rules = [AtLeast(10), new("series", g => g.Numbers("series").Distinct().Count() > 1, "is the same reading over and over", "Give readings that differ")],
            Outputs =
            [
                new("shift", "1", "change"), new("at_observation", "1", "readings before the change"), new("mean_before", "1", "mean before"), new("mean_after", "1", "mean after"), new("p", "1", "chance of as much without a change"),
                new Output("supf", "1", "greatest F").Folded(), new Output("sup", "1", "greatest summed departure (OLS-CUSUM)").Folded(), new Output("p_value", "1", "chance of as much, by the summed departure").Folded(),
            ],
            Main = "shift",
            Formula = "the split with the greatest F = (SS - SS1 - SS2)/((SS1 + SS2)/(n - 2)); W = sum (x - mean)/(sd sqrt n)",
            Source = "Andrews (1993), trimmed by 15 %; Ploberger and Kraemer (1992).",
            Reckon = g =>
            {
                double[] x = g.Numbers("series");
                var shift = MeanShiftTests.SupF(x);
                var summed = MeanShiftTests.OlsCusum(x);
                double before = Moments.Mean(x.AsSpan(0, shift.Before)), after = Moments.Mean(x.AsSpan(shift.Before));
                return [after - before, shift.Before, before, after, shift.P, shift.Statistic, summed.Statistic, summed.P];
            },
            Meaning = a => a["p"] < 0.05 ? $"Yes, after reading {Figure.Brief(a["at_observation"])}: from {Figure.Brief(a["mean_before"])} to {Figure.Brief(a["mean_after"])}." : "Not that one could tell.",
        },
        new("level-shifts", "Did it change more than once, and when?")
        {
            Explanation = "Cuts a series into stretches of one mean each, as many as the readings bear out, with the places of the cuts and, for one cut, how sure its place is. Say how short a stretch may be: a change that lasts less is not told.",
            Inputs =
            [
                Series.Say("41 40 42 41 39 41 40 42 41 40 35 36 34 35 36 35 34 36 44 45 43 44 46 44 45 44"), Whole("least_stretch", "1", "readings that a stretch has at least", 2, 10_000, "5").Or("5"),
                Whole("most_breaks", "1", "cuts that are tried", 1, 20, "5").Or("5"),
            ],
            Rules =
            [
                new("series", g => g.Numbers("series").Length is >= 10 and <= 2000, "has fewer than 10 readings, or more than 2000", "Give 10 to 2000, as daily means"),
                new("least_stretch", g => 2 * g["least_stretch"] <= g.Numbers("series").Length, "is more than half of the readings", "Give a shorter stretch"),
                new("series", g => g.Numbers("series").Distinct().Count() > 1, "is the same reading over and over", "Give readings that differ"),
            ],
            Outputs =
            [
                new("breaks", "1", "cuts"), new("break_after_observation", "word", "readings before each cut"), new("means", "word", "mean of each stretch"), new("ci95_observations", "word", "for one cut: first and last place it may have, 95 %; none otherwise"),
                new Output("bic_by_breaks", "word", "Bayesian criterion without a cut, with one, two and so on: least is best").Folded(), new Output("rss_by_breaks", "word", "squares about the means, likewise").Folded(),
            ],
            Formula = "least squares about stretches of one mean; number of cuts by the Bayesian information criterion",
            Source = "Bai and Perron (2003); Zeileis, Kleiber, Kraemer and Hornik (2003).",
            Reckon = g =>
            {
                double[] x = g.Numbers("series");
                var search = Breakpoints.Find(x, (int)g["least_stretch"], (int)g["most_breaks"]);
                int[] cuts = [.. search.Best];
                int[] edges = [0, .. cuts, x.Length];
                string? interval = null;
                if (cuts is [int only] && Moments.SampleSd(x.AsSpan(0, only)) > 0 && Moments.SampleSd(x.AsSpan(only)) > 0)
                {
                    var (first, last) = Breakpoints.Interval(x.AsSpan(0, only), x.AsSpan(only));
                    interval = string.Create(CultureInfo.InvariantCulture, $"{first} {last}");
                }

                return
                [
                    cuts.Length, cuts.Length == 0 ? None : string.Join(' ', cuts), List(edges.Zip(edges.Skip(1)).Select(e => Moments.Mean(x.AsSpan(e.First, e.Second - e.First)))), interval,
                    List(search.Bic), List(search.ResidualSquares),
                ];
            },
            Meaning = a => a["breaks"] == 0 ? "It did not change, as far as one can tell." : $"{(a["breaks"] == 1 ? "Once, after reading" : $"{Figure.Brief(a["breaks"])} times, after readings")} {a.Say("break_after_observation").Replace(" ", ", ", StringComparison.Ordinal)}; the means are {string.Join(", ", a.Say("means").Split(' ').Select(m => Figure.Brief(double.Parse(m, CultureInfo.InvariantCulture))))}.",
        },
        new("outliers", "Which readings are wild?")
        {
            Explanation = "Readings that lie far from the median, measured in the median deviation, which the wild ones cannot pull. Order does not count; for a series that drifts see spikes.",
            Inputs = [Series.Say("199.31 199.53 200.19 200.82 201.92 201.95 202.18 245.57"), Number("threshold", "1", "score from which a reading counts as wild", 1, 100, "3.5").Or("3.5")],
            Rules = [AtLeast(3), new("series", g => Robust.MedianAbsoluteDeviation(g.Numbers("series")) > 0, "is the same reading in more than half of the places, so that nothing tells what is far", "Give readings with more digits, or more of them")],
            Outputs = [new("median", "1", "median"), new("mad", "1", "median of the distances from it"), new("greatest_modified_z", "1", "greatest score"), new("flag_index_1_based", "word", "places of wild readings, counted from 1"), new Output("modified_z", "word", "score of each").Folded()],
            Main = "greatest_modified_z",
            Formula = "M = 0.6745 (x - median)/MAD",
            Source = "Iglewicz and Hoaglin (1993), as in the NIST/SEMATECH e-Handbook, 1.3.5.17.",
            Reckon = g =>
            {
                double[] x = g.Numbers("series");
                double median = Robust.Median(x), mad = Robust.MedianAbsoluteDeviation(x);
                double[] z = [.. x.Select(v => Robust.ModifiedZ(v, median, mad))];
                return [median, mad, z.Max(Math.Abs), Places(z.Length, i => Math.Abs(z[i]) > g["threshold"]), List(z)];
            },
            Meaning = a => a.Say("flag_index_1_based") == None ? "None." : $"Number {a.Say("flag_index_1_based")} in the list.",
        },
        new("grubbs", "Is the farthest reading too far?")
        {
            Explanation = "Test of the one reading farthest from the mean, for readings that otherwise scatter as the bell curve. One only: a second wild one hides the first.",
            Inputs = [Series.Say("199.31 199.53 200.19 200.82 201.92 201.95 202.18 245.57"), Number("alpha", "1", "chance of a false alarm", 1e-6, 0.5, "0.05").Or("0.05"), Word("side", "which end is looked at", "either", "either", "max", "min").Or("either")],
            Rules = [AtLeast(3), new("series", g => g.Numbers("series").Distinct().Count() > 1, "is the same reading over and over", "Give readings that differ")],
            Outputs = [new("g", "1", "distance in standard deviations"), new("critical", "1", "distance that chance hardly brings"), new("reject", "word", "true where the reading is too far"), new("outlier_value", "1", "the reading")],
            Main = "g",
            Formula = "G = max |x - mean|/s",
            Source = "Grubbs (1969), as in the NIST/SEMATECH e-Handbook, 1.3.5.17.1.",
            Reckon = g =>
            {
                double[] x = g.Numbers("series");
                var side = g.Word("side") switch { "max" => OutlierSide.Greatest, "min" => OutlierSide.Least, _ => OutlierSide.Either };
                double statistic = GrubbsTest.Statistic(x, side), critical = GrubbsTest.Critical(x.Length, g["alpha"], side), mean = Moments.Mean(x);
                return [statistic, critical, statistic > critical ? "true" : "false", side == OutlierSide.Greatest ? x.Max() : side == OutlierSide.Least ? x.Min() : x.MaxBy(v => Math.Abs(v - mean))];
            },
            Meaning = a => $"{Figure.Brief(a["outlier_value"])} lies {Figure.Brief(a["g"])} standard deviations out; chance allows {Figure.Brief(a["critical"])}" + (a.Say("reject") == "true" ? ": look for a cause." : ": leave it in."),
        },
        new("spikes", "Which readings are spikes?")
        {
            Explanation = "Single wild readings in a series, each judged against its neighbours, and the series with them replaced by the local median. The first and last few are left as they are.",
            Inputs =
            [
                Series.Say("20.1 20.2 20.1 20.3 20.2 27.9 20.2 20.1 20.4 20.3 20.2 20.2 12.0 20.3 20.1 20.2 20.3 20.4 20.3 20.2"), Whole("k", "1", "neighbours on each side", 1, 1000, "3").Or("3"), Number("t", "1", "deviations from which a reading is a spike", 0.1, 100, "3").Or("3"),
                Number("floor", "1", "least deviation that counts: the instrument's own step", 0, 1e9, "0").Or("0"),
            ],
            Rules = [AtLeast(3)],
            Outputs = [new("spikes", "1", "how many"), new("outlier_index_1_based", "word", "their places, counted from 1"), new Output("cleaned", "word", "series without them").Folded()],
            Main = "spikes",
            Formula = "spike where |x - median| > t 1.4826 MAD of the 2k + 1 readings around it",
            Source = "Hampel identifier: Davies and Gather (1993), Pearson (2002).",
            Reckon = g =>
            {
                double[] x = g.Numbers("series"), cleaned = new double[x.Length];
                var isSpike = new bool[x.Length];
                HampelFilter.Clean(x, (int)g["k"], g["t"], cleaned, isSpike, g["floor"]);
                return [isSpike.Count(s => s), Places(x.Length, i => isSpike[i]), List(cleaned)];
            },
            Meaning = a => a["spikes"] == 0 ? "None." : $"Number {a.Say("outlier_index_1_based")} in the list.",
        },
        new("stuck-sensor", "Is my sensor stuck?")
        {
            Explanation = "Stretches in which readings stay the same; and, where its scatter in good days is given, places where it all but lost it. How long is too long depends on the instrument's step and the water: look at a week when it was well.",
            Inputs = [Series.Say("24.1 24.2 24.2 24.3 24.3 24.3 24.3 24.3 24.3 24.3 24.3 24.4"), Whole("min_run", "1", "equal readings that count as stuck", 2, 1_000_000, "6").Or("6"), Number("tolerance", "1", "differences that count as equal", 0, 1e9, "0").Or("0"), Number("healthy_std", "1", "standard deviation in good days", 1e-9, 1e9, "0.05").OrNone(), Whole("window", "1", "readings over which the scatter is looked at", 3, 10_000, "8").Or("8"), Number("ratio", "1", "share of the good days' variance below which it is lost", 1e-6, 1, "0.01").Or("0.01")],
            Rules = [AtLeast(2)],
            Outputs = [new("longest_run", "1", "longest stretch of equal readings"), new("runs_1_based", "word", "stretches from-to, counted from 1"), new("flag_end_index_1_based", "word", "last readings of windows without scatter; none where its good days' scatter was not given")],
            Main = "longest_run",
            Formula = "runs of readings that differ from their first by no more than the tolerance",
            Source = "Flat-line test, as is common practice in quality control of environmental sensors.",
            Reckon = g =>
            {
                double[] x = g.Numbers("series");
                var all = StuckSensor.EqualRuns(x, 2, g["tolerance"]);
                var runs = all.Where(r => r.Last - r.First + 1 >= g["min_run"]).Select(r => string.Create(CultureInfo.InvariantCulture, $"{r.First + 1}-{r.Last + 1}")).ToArray();
                return [all.Count == 0 ? 1 : all.Max(r => r.Last - r.First + 1), runs.Length == 0 ? None : string.Join(' ', runs), Places(x.Length, i => IsFlat(g, x, i))];
            },
            Meaning = a => a.Say("runs_1_based") == None ? $"It moves: {Figure.Brief(a["longest_run"])} equal readings in a row at most." : $"It may be: readings {a.Say("runs_1_based")} are all the same.",
        },
    ];

    /// <summary>Where there is no place to name.</summary>
    public const string None = "none";

    /// <summary>A rule that a series has so many readings.</summary>
    public static Rule AtLeast(int count) => new("series", g => g.Numbers("series").Length >= count, $"has fewer than {count} readings", $"Give {count} or more, parted by blanks or semicolons");

    /// <summary>Places that hold, counted from 1.</summary>
    public static string Places(int count, Func<int, bool> holds) =>
        Enumerable.Range(0, count).Where(holds).Select(i => (i + 1).ToString(CultureInfo.InvariantCulture)).ToArray() is { Length: > 0 } found ? string.Join(' ', found) : None;

    /// <summary>Numbers as a list that reads back.</summary>
    public static string List(IEnumerable<double> values) => string.Join(' ', values.Select(v => v.ToString("G10", CultureInfo.InvariantCulture)));

    private static bool IsFlat(Given g, double[] x, int end)
    {
        int window = (int)g["window"];
        return g.Has("healthy_std") && end + 1 >= window && StuckSensor.HasLostScatter(x.AsSpan(end + 1 - window, window), g["healthy_std"], g["ratio"]);
    }

    private static Rule SameLength(string times) => new(times, g => !g.Has(times) || (g.Numbers(times).Length == g.Numbers("series").Length && g.Numbers(times).Distinct().Count() > 1), "are not as many as the readings, or all one time", "Give one time for each reading, or leave them out");

    private static double[] Numbered(int count) => [.. Enumerable.Range(1, count).Select(i => (double)i)];
}
