namespace Runnel.Twin.Solving;

/// <summary>Explicit Runge-Kutta of order 5 with an error estimate of order 4, seven rates a step of which the last is the next step's first.</summary>
/// <remarks>
/// Dormand and Prince (1980), J. Comput. Appl. Math. 6:19-26; dense output of order 4, step control and the sign of stiffness from Hairer, Norsett and
/// Wanner (1993), Solving Ordinary Differential Equations I, sections II.4 to II.6 and, for stiffness, volume II, section IV.2.
/// </remarks>
internal sealed class ExplicitStepper : Stepper
{
    // From rejection to ten times the length; PI control with the weight of the error before.
    private const double Safety = 0.9, Shrink = 0.2, Grow = 10, PastWeight = 0.04;

    // The method is stable to 3.3 on the negative real axis.
    private const double StabilityLimit = 3.25;
    private const int StiffInARow = 15, SoftInARow = 6;

    private readonly double[] k1, k2, k3, k4, k5, k6, k7, trial, error, rise, bend1, bend2, bend3;
    private double errorBefore = 1e-4;
    private bool rejected, bendsKnown;
    private int stiffSigns, softSigns;

    public ExplicitStepper(OdeSystem system, SolverOptions options)
        : base(system, options)
    {
        k1 = new double[Count];
        k2 = new double[Count];
        k3 = new double[Count];
        k4 = new double[Count];
        k5 = new double[Count];
        k6 = new double[Count];
        k7 = new double[Count];
        trial = new double[Count];
        error = new double[Count];
        rise = new double[Count];
        bend1 = new double[Count];
        bend2 = new double[Count];
        bend3 = new double[Count];
    }

    public override bool IsRoughWithin => false;

    public override bool Begin(double time, ReadOnlySpan<double> state, ref SolverStatistics work)
    {
        state.CopyTo(State);
        From = To = time;
        System.Rates(time, State, k7);
        work.RateCalls++;
        errorBefore = 1e-4;
        rejected = false;
        Proposed = AllNumbers(k7) ? FirstLength(k7, trial, k2, 5, ref work) : 0;
        return Proposed > 0;
    }

    public override StepOutcome Step(double limit, ref SolverStatistics work)
    {
        k7.CopyTo(k1, 0);
        State.CopyTo(StateBefore, 0);
        From = To;
        bendsKnown = false;
        double length = Options.FixedStep > 0 ? Options.FixedStep : Capped(Proposed), wanted = length;
        for (; ; )
        {
            bool clipped = length >= limit * (1 - 1e-12);
            if (clipped) length = limit;
            Stages(length, StateBefore, State);
            work.RateCalls += 6;
            double size = ErrorSize(length);
            if (Options.FixedStep > 0) size = 0;
            if (double.IsFinite(size) && size <= 1)
            {
                double factor = Math.Pow(Math.Max(size, 1e-12), 0.2 - (0.75 * PastWeight)) / Math.Pow(errorBefore, PastWeight) / Safety;
                double next = length / Math.Clamp(factor, 1 / Grow, 1 / Shrink);
                if (rejected) next = Math.Min(next, length);
                errorBefore = Math.Max(size, 1e-4);
                rejected = false;
                To = From + length;
                Taken = length;
                Proposed = clipped ? Math.Max(next, wanted) : next;
                work.Steps++;
                return LooksStiff(length) ? StepOutcome.Stiff : StepOutcome.Taken;
            }

            work.Rejected++;
            rejected = true;
            bool isNumber = double.IsFinite(size);
            length *= isNumber ? Math.Max(Shrink, Safety / Math.Pow(size, 0.2 - (0.75 * PastWeight))) : 0.25;
            wanted = length;
            if (!IsTooShort(length)) continue;
            StateBefore.CopyTo(State, 0);
            k1.CopyTo(k7, 0);
            To = From;
            Proposed = length;
            return isNumber ? StepOutcome.TooShort : StepOutcome.NotANumber;
        }
    }

    public override bool Retake(double length, ref SolverStatistics work)
    {
        Stages(length, StateBefore, State);
        work.RateCalls += 6;
        bendsKnown = false;
        To = From + length;
        Taken = length;
        return AllNumbers(k7);
    }

    public override bool Truncate(double share, ReadOnlySpan<double> state, ref SolverStatistics work)
    {
        if (!bendsKnown) FindBends();
        state.CopyTo(State);
        To = From + (share * Taken);
        System.Rates(To, State, k7);
        work.RateCalls++;
        return AllNumbers(k7);
    }

    public override void Within(double share, Span<double> into)
    {
        if (!bendsKnown) FindBends();
        double s = share, r = 1 - s;
        for (int i = 0; i < into.Length; i++) into[i] = StateBefore[i] + (s * (rise[i] + (r * (bend1[i] + (s * (bend2[i] + (r * bend3[i])))))));
    }

    private void Stages(double h, double[] y, double[] end)
    {
        double t = From;
        double[] work = trial;
        for (int i = 0; i < y.Length; i++) work[i] = y[i] + (h * 0.2 * k1[i]);
        System.Rates(t + (0.2 * h), work, k2);
        for (int i = 0; i < y.Length; i++) work[i] = y[i] + (h * ((3.0 / 40 * k1[i]) + (9.0 / 40 * k2[i])));
        System.Rates(t + (0.3 * h), work, k3);
        for (int i = 0; i < y.Length; i++) work[i] = y[i] + (h * ((44.0 / 45 * k1[i]) - (56.0 / 15 * k2[i]) + (32.0 / 9 * k3[i])));
        System.Rates(t + (0.8 * h), work, k4);
        for (int i = 0; i < y.Length; i++)
        {
            work[i] = y[i] + (h * ((19372.0 / 6561 * k1[i]) - (25360.0 / 2187 * k2[i]) + (64448.0 / 6561 * k3[i]) - (212.0 / 729 * k4[i])));
        }

        System.Rates(t + (8.0 / 9 * h), work, k5);
        for (int i = 0; i < y.Length; i++)
        {
            work[i] = y[i] + (h * ((9017.0 / 3168 * k1[i]) - (355.0 / 33 * k2[i]) + (46732.0 / 5247 * k3[i]) + (49.0 / 176 * k4[i]) - (5103.0 / 18656 * k5[i])));
        }

        System.Rates(t + h, work, k6);
        for (int i = 0; i < y.Length; i++)
        {
            end[i] = y[i] + (h * ((35.0 / 384 * k1[i]) + (500.0 / 1113 * k3[i]) + (125.0 / 192 * k4[i]) - (2187.0 / 6784 * k5[i]) + (11.0 / 84 * k6[i])));
        }

        System.Rates(t + h, end, k7);
    }

    private double ErrorSize(double h)
    {
        for (int i = 0; i < error.Length; i++)
        {
            error[i] = h * ((71.0 / 57600 * k1[i]) - (71.0 / 16695 * k3[i]) + (71.0 / 1920 * k4[i]) - (17253.0 / 339200 * k5[i]) + (22.0 / 525 * k6[i])
                - (1.0 / 40 * k7[i]));
        }

        Weigh(StateBefore, State, Options.RelativeTolerance, 1);
        double size = Norm(error);
        if (!double.IsFinite(size) && AllNumbers(k7) && AllNumbers(k6) && AllNumbers(k5) && AllNumbers(k4) && AllNumbers(k3)) AllNumbers(State);
        return size;
    }

    // The last stage and the end lie at the same time: the rates' difference over the states' is the fastest rate at which the equations settle.
    private bool LooksStiff(double h)
    {
        double rates = 0, states = 0;
        for (int i = 0; i < Core; i++)
        {
            double dk = k7[i] - k6[i], dy = State[i] - trial[i];
            rates += dk * dk;
            states += dy * dy;
        }

        if (states > 0 && h * Math.Sqrt(rates / states) > StabilityLimit)
        {
            softSigns = 0;
            return ++stiffSigns >= StiffInARow;
        }

        if (++softSigns >= SoftInARow) stiffSigns = 0;
        return false;
    }

    private void FindBends()
    {
        double h = Taken;
        for (int i = 0; i < bend1.Length; i++)
        {
            rise[i] = State[i] - StateBefore[i];
            bend1[i] = (h * k1[i]) - rise[i];
            bend2[i] = rise[i] - (h * k7[i]) - bend1[i];
            bend3[i] = h * ((-12715105075.0 / 11282082432 * k1[i]) + (87487479700.0 / 32700410799 * k3[i]) - (10690763975.0 / 1880347072 * k4[i])
                + (701980252875.0 / 199316789632 * k5[i]) - (1453857185.0 / 822651844 * k6[i]) + (69997945.0 / 29380423 * k7[i]));
        }

        bendsKnown = true;
    }
}
