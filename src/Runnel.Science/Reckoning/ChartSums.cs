using Runnel.Science.Statistics;
using static Runnel.Science.Reckoning.Ask;
using static Runnel.Science.Reckoning.ReadingSums;

namespace Runnel.Science.Reckoning;

/// <summary>Control charts over readings, and how soon they speak.</summary>
internal static class ChartSums
{
    private static readonly Input K = Number("k", "1", "slack in standard deviations: half the shift that matters", 0.05, 3, "0.5").Or("0.5");
    private static readonly Input Shift = Number("shift", "1", "true shift in standard deviations; 0 for a false alarm", -5, 5, "1").Or("0");
    private static readonly Input Weight = Number("lambda", "1", "weight of the newest reading: 0.05 to 0.3", 0.01, 1, "0.2").Or("0.2").Also("lambda_");
    private static readonly Input Target = Number("target", "1", "usual value", -1e9, 1e9, "50");
    private static readonly Input Sigma = Number("sigma", "1", "usual standard deviation", 1e-9, 1e9, "2");
    private static readonly Input FlowSeries = Series.Say("49.6 47.6 49.9 51.3 47.8 51.2 52.6 52.4 53.6 52.1");
    private static readonly Rule Some = AtLeast(1);

    public static readonly Relation[] All =
    [
        new("control-chart", "Between which bounds is a reading normal?")
        {
            Explanation = "Bounds that single readings of a steady thing keep to, from their jumps from one to the next; readings outside have a cause. Learn them from 20 readings or more of a good time.",
            Inputs = [FlowSeries, Number("width", "1", "standard deviations", 1, 6, "3").Or("3")],
            Rules = [AtLeast(2)],
            Outputs =
            [
                new("mean", "1", "mean"), new("moving_range_mean", "1", "mean jump"), new("sd", "1", "standard deviation from the jumps"), new("upper_limit", "1", "upper bound"), new("lower_limit", "1", "lower bound"),
                new("moving_range_limit", "1", "greatest normal jump"), new("flags", "word", "places outside, counted from 1"),
            ],
            Main = "mean",
            Formula = "sd = mean jump/1.128; bounds = mean +/- width sd; jump up to 3.267 mean jumps",
            Source = "Individuals chart: NIST/SEMATECH e-Handbook of Statistical Methods, 6.3.2.2.",
            Reckon = g =>
            {
                double[] x = g.Numbers("series");
                var l = IndividualsChart.Limits(x, g["width"]);
                return [l.Mean, l.MovingRangeMean, l.Sd, l.UpperLimit, l.LowerLimit, l.MovingRangeLimit, Places(x.Length, i => x[i] > l.UpperLimit || x[i] < l.LowerLimit)];
            },
            Meaning = a => $"Normal is {Figure.Brief(a["lower_limit"])} to {Figure.Brief(a["upper_limit"])}; outside: {a.Say("flags")}." + (a.Given.Numbers("series").Length < 20 ? " So few readings make rough bounds." : ""),
        },
        new("run-rules", "Which patterns in my readings are no chance?")
        {
            Explanation = "Four zone rules and a trend rule: places where a pattern ends that a steady thing hardly shows. All rules together give a false alarm about once in 90 readings.",
            Inputs = [FlowSeries, Number("centre", "1", "usual value", -1e9, 1e9, "50"), Sigma],
            Rules = [Some],
            Outputs =
            [
                new("one_beyond_3s", "word", "one beyond 3 standard deviations"), new("two_of_three_beyond_2s_same_side", "word", "two of three beyond 2, one side"),
                new("four_of_five_beyond_1s_same_side", "word", "four of five beyond 1, one side"), new("eight_same_side", "word", "eight on one side"), new("six_steadily_rising_or_falling", "word", "six steadily rising or falling"),
                new("first", "1", "first place of any; none where all is well"),
            ],
            Main = "first",
            Formula = "each rule at the last point of its pattern, counted from 1",
            Source = "Western Electric Statistical Quality Control Handbook (1956), zone rules; Nelson (1984), trend rule.",
            Reckon = g =>
            {
                double[] x = g.Numbers("series");
                RunPatterns[] found = [.. Enumerable.Range(1, x.Length).Select(n => RunRules.AtEnd(x.AsSpan(0, n), g["centre"], g["sigma"]))];
                string At(RunPatterns pattern) => Places(x.Length, i => found[i].HasFlag(pattern));
                int first = Array.FindIndex(found, f => f != RunPatterns.None);
                return [At(RunPatterns.OneBeyond3), At(RunPatterns.TwoOfThreeBeyond2), At(RunPatterns.FourOfFiveBeyond1), At(RunPatterns.EightOnOneSide), At(RunPatterns.SixSteady), first < 0 ? double.NaN : first + 1];
            },
            Meaning = a => double.IsNaN(a["first"]) ? "None." : $"The first ends at reading {Figure.Brief(a["first"])}: look for a cause there.",
        },
        new("cusum-chart", "Has a small change crept in?")
        {
            Explanation = "Sums what readings lie beyond the usual value and a slack, up and down; a signal comes when a sum passes its limit, and the run that led there tells when it began. Slack and limit are in the unit of the readings: half and five standard deviations are usual, eight to ten where the usual value was learnt from a few dozen readings.",
            Inputs = [FlowSeries, Target, Number("k", "1", "slack, in the unit of the readings", 0, 1e9, "1"), Number("h", "1", "limit, in the unit of the readings", 1e-9, 1e9, "10")],
            Rules = [Some],
            Outputs =
            [
                new("s_hi", "1", "upward sum at the end"), new("s_lo", "1", "downward sum at the end"), new("first_high_signal", "1", "first reading at which it signals upward; none without"),
                new("first_low_signal", "1", "the same downward; none without"), new("onset", "1", "reading after which the change that signalled first began; none without"),
            ],
            Main = "s_hi",
            Formula = "S+ = max(0, S+ + x - target - k); S- = max(0, S- + target - k - x); signal above h",
            Source = "Page (1954); NIST/SEMATECH e-Handbook, 6.3.2.3; Montgomery (2009), Introduction to Statistical Quality Control.",
            Reckon = g =>
            {
                var design = new CusumDesign(g["target"], g["k"], g["h"]);
                var state = Cusum.Start();
                double high = double.NaN, low = double.NaN, onset = double.NaN;
                double[] x = g.Numbers("series");
                for (int i = 0; i < x.Length; i++)
                {
                    state = Cusum.Next(state, x[i], design);
                    if (double.IsNaN(high) && Cusum.SignalsHigh(state, design)) (high, onset) = (i + 1, double.IsNaN(onset) ? i + 1 - state.HighRun : onset);
                    if (double.IsNaN(low) && Cusum.SignalsLow(state, design)) (low, onset) = (i + 1, double.IsNaN(onset) ? i + 1 - state.LowRun : onset);
                }

                return [state.High, state.Low, high, low, onset];
            },
            Meaning = a => double.IsNaN(a["onset"]) ? "No." : $"Yes, {(a["first_low_signal"] < a["first_high_signal"] || double.IsNaN(a["first_high_signal"]) ? "downward" : "upward")}: seen at reading {Figure.Brief(FirstOf(a["first_high_signal"], a["first_low_signal"]))}, begun after reading {Figure.Brief(a["onset"])}.",
        },
        new("ewma-chart", "Where do my readings stand, smoothed?")
        {
            Explanation = "A running mean that forgets slowly, and the bounds it keeps to while all is well.",
            Inputs = [FlowSeries, Target, Sigma, Weight, Number("l", "1", "width of the bounds in standard deviations of the mean", 1, 6, "3").Or("3"), Word("limits", "bounds", "steady", "steady", "exact").Or("steady")],
            Rules = [Some],
            Outputs = [new("ewma", "1", "running mean at the end"), new("upper_limit", "1", "upper bound"), new("lower_limit", "1", "lower bound"), new("first_signal", "1", "first reading at which it leaves them; none without"), new Output("ewma_full", "word", "running mean at each reading").Folded()],
            Formula = "z = lambda x + (1 - lambda) z before; bounds = target +/- L sigma sqrt(lambda/(2 - lambda)), exact: narrower in the beginning",
            Source = "Roberts (1959); NIST/SEMATECH e-Handbook, 6.3.2.4; Lucas and Saccucci (1990).",
            Reckon = g =>
            {
                var design = new EwmaDesign(g["target"], g["sigma"], g["lambda"], g["l"]);
                var state = Ewma.Start(design);
                bool steady = g.Word("limits") == "steady";
                double first = double.NaN;
                double[] x = g.Numbers("series"), all = new double[x.Length];
                for (int i = 0; i < x.Length; i++)
                {
                    state = Ewma.Next(state, x[i], design);
                    all[i] = state.Average;
                    if (double.IsNaN(first) && Ewma.Signals(state, design, steady)) first = i + 1;
                }

                double half = steady ? Ewma.SteadyHalfWidth(design) : Ewma.HalfWidth(design, x.Length);
                return [state.Average, design.Target + half, design.Target - half, first, List(all)];
            },
            Meaning = a => $"{Figure.Brief(a["ewma"])}; " + (double.IsNaN(a["first_signal"]) ? "it kept within its bounds." : $"it left its bounds at reading {Figure.Brief(a["first_signal"])}."),
        },
        new("page-hinkley", "When did the mean begin to rise?")
        {
            Explanation = "Watches the summed departure from the mean for a rise; give falling readings with the sign turned. With the running mean in place of a known one it is late, since the mean chases the change.",
            Inputs = [FlowSeries, Number("delta", "1", "allowance for each reading", 0, 1e9, "0.5"), Number("lambda", "1", "limit", 1e-9, 1e9, "10").Also("lambda_"), Number("mean", "1", "known mean", -1e9, 1e9, "50").OrNone()],
            Rules = [Some],
            Outputs = [new("ph", "1", "statistic at the end"), new("first_alarm", "1", "first reading above the limit; none without"), new Output("ph_full", "word", "statistic at each reading").Folded()],
            Formula = "m = sum (x - mean - delta); PH = m - least m so far; alarm above lambda",
            Source = "Page (1954); Hinkley (1971); running mean as in Gama and others (2014).",
            Reckon = g =>
            {
                var state = default(PageHinkleyState);
                double first = double.NaN;
                double[] x = g.Numbers("series"), all = new double[x.Length];
                for (int i = 0; i < x.Length; i++)
                {
                    state = PageHinkley.Next(state, x[i], g["delta"], g.Or("mean", double.NaN));
                    all[i] = state.Statistic;
                    if (double.IsNaN(first) && state.Statistic > g["lambda"]) first = i + 1;
                }

                return [state.Statistic, first, List(all)];
            },
            Meaning = a => double.IsNaN(a["first_alarm"]) ? "No rise is seen." : $"A rise is seen at reading {Figure.Brief(a["first_alarm"])}.",
        },
        new("cusum-run-length", "How soon does a CUSUM speak?")
        {
            Explanation = "Readings, on average, until a two-sided CUSUM signals: without a shift that is how often it cries wolf, with one how late it is. All in standard deviations, with usual value and spread known.",
            Inputs = [K, Number("h", "1", "limit in standard deviations", 0.5, 20, "5").Or("5"), Shift, Number("headstart", "1", "head start, up to half the limit", 0, 10, "0").Or("0")],
            Rules = [new("headstart", g => g["headstart"] <= g["h"] / 2, "is more than half of h", "Give half of h at most")],
            Outputs = [new("arl", "1", "readings until a signal, on average")],
            Along = "shift", Shown = (0, 3),
            Formula = "average run length by its integral equation",
            Source = "Page (1954); Lucas and Crosier (1982); Montgomery (2009), table 9.3.",
            Reckon = g => [RunLength.TwoSidedCusum(g["k"], g["h"], g["shift"], g["headstart"])],
            Meaning = a => a.Given["shift"] == 0 ? $"A false alarm once in {Figure.Brief(a["arl"])} readings." : $"A shift of {Figure.Brief(a.Given["shift"])} times the standard deviation is told after {Figure.Brief(a["arl"])} readings on average.",
        },
        new("ewma-run-length", "How soon does an EWMA speak?")
        {
            Explanation = "Readings, on average, until a two-sided EWMA chart with steady bounds signals; all in standard deviations.",
            Inputs = [Weight.Within(0.05, 1), Number("l", "1", "width of the bounds", 1, 5, "2.962").Or("2.962"), Shift],
            Outputs = [new("arl", "1", "readings until a signal, on average")],
            Along = "shift", Shown = (0, 3),
            Formula = "average run length by its integral equation",
            Source = "Roberts (1959); Lucas and Saccucci (1990); Montgomery (2009), table 9.11.",
            Reckon = g => [RunLength.TwoSidedEwma(g["lambda"], g["l"], g["shift"])],
            Meaning = a => a.Given["shift"] == 0 ? $"A false alarm once in {Figure.Brief(a["arl"])} readings." : $"A shift of {Figure.Brief(a.Given["shift"])} times the standard deviation is told after {Figure.Brief(a["arl"])} readings on average.",
        },
        new("chart-limits-for", "Which limits give so few false alarms?")
        {
            Explanation = "Limits of CUSUM and EWMA charts for a wanted number of readings between false alarms.",
            Inputs = [Number("arl0", "1", "readings between false alarms", 20, 100_000, "370").Or("370"), K, Weight.Within(0.05, 1)],
            Outputs = [new("h", "1", "limit of the CUSUM in standard deviations"), new("l", "1", "width of the EWMA's bounds")],
            Along = "arl0", Shown = (50, 1000),
            Formula = "average run length, turned round",
            Source = "Page (1954); Roberts (1959).",
            Reckon = g => [RunLength.CusumLimitFor(g["arl0"], g["k"]), RunLength.EwmaWidthFor(g["arl0"], g["lambda"])],
            Meaning = a => $"CUSUM {Figure.Brief(a["h"])}, EWMA {Figure.Brief(a["l"])} standard deviations.",
        },
        new("chart-constants", "What are the constants of a group chart?")
        {
            Explanation = "Constants by which charts of small groups turn the mean range into bounds.",
            Inputs = [Whole("group_size", "1", "readings in a group", 2, 10, "4")],
            Outputs = [new("d2", "1", "mean range in standard deviations"), new("d3_lower", "1", "D3: lower bound of a range over the mean range"), new("d4", "1", "D4: upper bound"), new("a2", "1", "A2: bounds of the mean over the mean range")],
            Formula = "sd = R/d2; bounds of R: D3 R to D4 R; of the mean: +/- A2 R",
            Source = "ASTM Manual 7; NIST/SEMATECH e-Handbook, 6.3.2.1.",
            Reckon = g => [ControlChartConstants.D2((int)g["group_size"]), ControlChartConstants.D3((int)g["group_size"]), ControlChartConstants.D4((int)g["group_size"]), ControlChartConstants.A2((int)g["group_size"])],
            Meaning = a => $"sd = mean range/{Figure.Brief(a["d2"])}; bounds of the mean: +/- {Figure.Brief(a["a2"])} mean ranges.",
        },
    ];

    private static double FirstOf(double one, double other) => double.IsNaN(one) ? other : double.IsNaN(other) ? one : Math.Min(one, other);
}
