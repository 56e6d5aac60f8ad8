namespace Runnel.Twin.Solving;

/// <summary>Implicit Runge-Kutta of order 5 with three stages, L-stable and stiffly accurate: Radau IIA.</summary>
/// <remarks>
/// Hairer and Wanner (1996), Solving Ordinary Differential Equations II, section IV.8: simplified Newton iteration on the stages carried to a real and a
/// complex system, error estimate of order 3, predictive step control after Gustafsson (1994). The solution within a step is the collocation polynomial.
/// The tables below follow from the method's coefficients; a test multiplies them out.
/// </remarks>
internal sealed class StiffStepper : Stepper
{
    internal const double T11 = 9.1232394870892942792e-02, T12 = -0.14125529502095420843, T13 = -3.0029194105147424492e-02,
        T21 = 0.24171793270710701896, T22 = 0.20412935229379993199, T23 = 0.38294211275726193779, T31 = 0.96604818261509293619;

    internal const double I11 = 4.3255798900631553510, I12 = 0.33919925181580986954, I13 = 0.54177053993587487119,
        I21 = -4.1787185915519047273, I22 = -0.32768282076106238708, I23 = 0.47662355450055045196,
        I31 = -0.50287263494578687595, I32 = 2.5719269498556054292, I33 = -0.59603920482822492497;

    internal static readonly double Gamma, Alpha, Beta, C1, C2;

    private const double UnitRounding = 1e-16, Safety = 0.9, Shrink = 5, Grow = 0.125, KeepJacobian = 0.001, KeepFrom = 1, KeepTo = 1.2;
    private const int MostIterations = 7;
    private static readonly double Error1, Error2, Error3, C1Less, C2Less, C1C2;

    private readonly SquareMatrix jacobian;
    private readonly RealFactors realFactors;
    private readonly ComplexFactors complexFactors;
    private readonly JacobianByDifferences differences;
    private readonly double[] rates, z1, z2, z3, f1, f2, f3, trial, p1, p2, p3, end;
    private readonly double relative, absoluteFactor, newtonLimit;
    private double factoredLength, lengthBefore, errorBefore, convergence, contraction;
    private bool jacobianIsFresh, jacobianKnown, first, rejected, polynomialKnown;

    static StiffStepper()
    {
        double root6 = Math.Sqrt(6), root3 = Math.Cbrt(3), root9 = Math.Cbrt(9);
        C1 = (4 - root6) / 10;
        C2 = (4 + root6) / 10;
        (C1Less, C2Less, C1C2) = (C1 - 1, C2 - 1, C1 - C2);
        Error1 = -(13 + (7 * root6)) / 3;
        Error2 = (-13 + (7 * root6)) / 3;
        Error3 = -1.0 / 3;
        // Eigenvalues of the inverse of the method's matrix; 81^(1/3) = 3 x 3^(1/3).
        Gamma = 30 / (6 + (3 * root3) - root9);
        double re = (12 - (3 * root3) + root9) / 60, im = ((3 * root3) + root9) * Math.Sqrt(3) / 60, square = (re * re) + (im * im);
        (Alpha, Beta) = (re / square, im / square);
    }

    public StiffStepper(OdeSystem system, SolverOptions options)
        : base(system, options)
    {
        jacobian = new SquareMatrix(Core, system.Band, system.Sums);
        realFactors = new RealFactors(jacobian);
        complexFactors = new ComplexFactors(jacobian);
        differences = new JacobianByDifferences(system);
        rates = new double[Count];
        z1 = new double[Count];
        z2 = new double[Count];
        z3 = new double[Count];
        f1 = new double[Count];
        f2 = new double[Count];
        f3 = new double[Count];
        trial = new double[Count];
        p1 = new double[Count];
        p2 = new double[Count];
        p3 = new double[Count];
        end = new double[Count];
        // The estimate is of order 3 while the method is of order 5: a tolerance carried over by 2/3 gives about the error asked for.
        relative = 0.1 * Math.Pow(options.RelativeTolerance, 2.0 / 3);
        absoluteFactor = relative / options.RelativeTolerance;
        newtonLimit = Math.Max(10 * UnitRounding / relative, Math.Min(0.03, Math.Sqrt(relative)));
        if (options.FixedStep > 0) newtonLimit = Math.Min(newtonLimit, 1e-3);
    }

    public override bool IsRoughWithin => true;

    public override bool Begin(double time, ReadOnlySpan<double> state, ref SolverStatistics work)
    {
        state.CopyTo(State);
        From = To = time;
        System.Rates(time, State, rates);
        work.RateCalls++;
        jacobianKnown = jacobianIsFresh = polynomialKnown = rejected = false;
        first = true;
        convergence = contraction = 1;
        errorBefore = 1e-2;
        factoredLength = 0;
        if (!AllNumbers(rates)) return false;
        double given = Proposed;
        Proposed = FirstLength(rates, trial, f1, 3, ref work);
        if (given > 0 && Options.FirstStep == 0) Proposed = Math.Max(Proposed, Math.Min(given, 10 * Proposed));
        return Proposed > 0;
    }

    public override StepOutcome Step(double limit, ref SolverStatistics work)
    {
        State.CopyTo(StateBefore, 0);
        From = To;
        double length = Options.FixedStep > 0 ? Options.FixedStep : Capped(Proposed), wanted = length;
        Weigh(StateBefore, StateBefore, relative, absoluteFactor);
        for (; ; )
        {
            bool clipped = length >= limit * (1 - 1e-12);
            if (clipped) length = limit;
            double slower = 0.5;
            int iterations = 0;
            Guess(length);
            if (!Prepare(length, ref work) || !Iterate(length, out slower, out iterations, ref work))
            {
                work.Rejected++;
                rejected = true;
                bool isNumber = AllNumbers(f1) && AllNumbers(f2) && AllNumbers(f3) && AllNumbers(rates);
                length *= isNumber ? slower : 0.25;
                wanted = length;
                if (!jacobianIsFresh) jacobianKnown = false;
                if (!IsTooShort(length)) continue;
                return Undo(isNumber ? StepOutcome.TooShort : StepOutcome.NotANumber, length);
            }

            double size = Options.FixedStep > 0 ? 1e-3 : ErrorSize(length, ref work);
            double room = Math.Min(Safety, Safety * (1 + (2 * MostIterations)) / (iterations + (2 * MostIterations)));
            double ratio = Math.Clamp(Math.Pow(size, 0.25) / room, Grow, Shrink);
            if (size < 1)
            {
                Take(length, size, ratio, clipped, wanted, ref work);
                return AllNumbers(rates) ? StepOutcome.Taken : Undo(StepOutcome.NotANumber, length);
            }

            work.Rejected++;
            rejected = true;
            bool finite = double.IsFinite(size);
            length = !finite ? 0.25 * length : first ? 0.1 * length : length / ratio;
            wanted = length;
            if (!jacobianIsFresh) jacobianKnown = false;
            if (IsTooShort(length)) return Undo(finite ? StepOutcome.TooShort : StepOutcome.NotANumber, length);
        }
    }

    public override bool Retake(double length, ref SolverStatistics work)
    {
        StateBefore.CopyTo(State, 0);
        To = From;
        System.Rates(From, State, rates);
        work.RateCalls++;
        Weigh(StateBefore, StateBefore, relative, absoluteFactor);
        GuessWithin(length);
        if (!Prepare(length, ref work) || !Iterate(length, out _, out _, ref work))
        {
            jacobianKnown = false;
            Proposed = length / 2;
            return false;
        }

        Finish(length, ref work);
        return true;
    }

    public override bool Truncate(double share, ReadOnlySpan<double> state, ref SolverStatistics work)
    {
        state.CopyTo(State);
        To = From + (share * Taken);
        System.Rates(To, State, rates);
        work.RateCalls++;
        if (Math.Abs(share - 1) > 1e-6) polynomialKnown = false; // it ends elsewhere
        return AllNumbers(rates);
    }

    public override void Within(double share, Span<double> into)
    {
        double s = share - 1;
        for (int i = 0; i < into.Length; i++) into[i] = At(i, s);
    }

    private StepOutcome Undo(StepOutcome outcome, double length)
    {
        StateBefore.CopyTo(State, 0);
        To = From;
        Proposed = length;
        if (outcome == StepOutcome.NotANumber)
        {
            System.Rates(From + length, trial, f1);
            AllNumbers(f1);
            System.Rates(From, State, rates);
        }

        return outcome;
    }

    // Jacobian and factors for a step of this length.
    private bool Prepare(double length, ref SolverStatistics work)
    {
        if (!jacobianKnown)
        {
            jacobian.Clear();
            int bad = System.Jacobian(From, StateBefore, jacobian)
                ? -1 : differences.Find(From, StateBefore, rates, length, Weights, jacobian, ref work);
            work.Jacobians++;
            if (bad >= 0)
            {
                BadIndex = bad;
                f1[bad] = double.NaN;
                return false;
            }

            jacobianKnown = jacobianIsFresh = true;
            factoredLength = 0;
        }

        if (factoredLength == length) return true;
        work.Factorings++;
        factoredLength = length;
        if (realFactors.Split(jacobian, Gamma / length) && complexFactors.Split(jacobian, Alpha / length, Beta / length)) return true;
        factoredLength = 0;
        return false;
    }

    private void Guess(double length)
    {
        if (first || !polynomialKnown)
        {
            Array.Clear(z1);
            Array.Clear(z2);
            Array.Clear(z3);
            Array.Clear(f1);
            Array.Clear(f2);
            Array.Clear(f3);
            return;
        }

        double s3 = length / Taken, s1 = C1 * s3, s2 = C2 * s3;
        for (int i = 0; i < z1.Length; i++)
        {
            double a = p1[i], b = p2[i], c = p3[i];
            double v1 = s1 * (a + ((s1 - C2Less) * (b + ((s1 - C1Less) * c))));
            double v2 = s2 * (a + ((s2 - C2Less) * (b + ((s2 - C1Less) * c))));
            double v3 = s3 * (a + ((s3 - C2Less) * (b + ((s3 - C1Less) * c))));
            GuessOne(i, v1, v2, v3);
        }
    }

    // For a shorter step from the same beginning the polynomial is known already.
    private void GuessWithin(double length)
    {
        double share = length / Taken;
        for (int i = 0; i < z1.Length; i++)
        {
            GuessOne(i, At(i, (C1 * share) - 1) - StateBefore[i], At(i, (C2 * share) - 1) - StateBefore[i], At(i, share - 1) - StateBefore[i]);
        }
    }

    private void GuessOne(int i, double v1, double v2, double v3)
    {
        (z1[i], z2[i], z3[i]) = (v1, v2, v3);
        f1[i] = (I11 * v1) + (I12 * v2) + (I13 * v3);
        f2[i] = (I21 * v1) + (I22 * v2) + (I23 * v3);
        f3[i] = (I31 * v1) + (I32 * v2) + (I33 * v3);
    }

    private double At(int i, double s) => end[i] + (s * (p1[i] + ((s - C2Less) * (p2[i] + ((s - C1Less) * p3[i])))));

    // Newton iteration on the stages; where it does not converge, by how much the step should be cut.
    private bool Iterate(double length, out double slower, out int iterations, ref SolverStatistics work)
    {
        double gamma = Gamma / length, alpha = Alpha / length, beta = Beta / length, sizeBefore = 0, quotientBefore = 0;
        convergence = Math.Pow(Math.Max(convergence, UnitRounding), 0.8);
        contraction = KeepJacobian;
        slower = 0.5;
        double[] y = StateBefore;
        for (iterations = 1; iterations <= MostIterations; iterations++)
        {
            for (int i = 0; i < y.Length; i++) trial[i] = y[i] + z1[i];
            System.Rates(From + (C1 * length), trial, z1);
            for (int i = 0; i < y.Length; i++) trial[i] = y[i] + z2[i];
            System.Rates(From + (C2 * length), trial, z2);
            for (int i = 0; i < y.Length; i++) trial[i] = y[i] + z3[i];
            System.Rates(From + length, trial, z3);
            work.RateCalls += 3;
            work.Iterations++;
            for (int i = 0; i < y.Length; i++)
            {
                double a = z1[i], b = z2[i], c = z3[i];
                z1[i] = (I11 * a) + (I12 * b) + (I13 * c) - (gamma * f1[i]);
                z2[i] = (I21 * a) + (I22 * b) + (I23 * c) - (alpha * f2[i]) + (beta * f3[i]);
                z3[i] = (I31 * a) + (I32 * b) + (I33 * c) - (alpha * f3[i]) - (beta * f2[i]);
            }

            realFactors.Solve(z1);
            complexFactors.Solve(z2, z3);
            jacobian.SolveBelow(z1, gamma);
            jacobian.SolveBelow(z2, z3, alpha, beta);
            double sum = 0;
            for (int i = 0; i < Core; i++)
            {
                double w = Weights[i], a = z1[i] * w, b = z2[i] * w, c = z3[i] * w;
                sum += (a * a) + (b * b) + (c * c);
            }

            double size = Math.Sqrt(sum / (3 * Core));
            if (!double.IsFinite(size))
            {
                for (int i = 0; i < y.Length; i++) f1[i] += z1[i];
                return false;
            }

            if (iterations > 1 && iterations < MostIterations)
            {
                double quotient = size / sizeBefore;
                contraction = iterations == 2 ? quotient : Math.Sqrt(quotient * quotientBefore);
                quotientBefore = quotient;
                if (contraction >= 0.99) return false;
                convergence = contraction / (1 - contraction);
                int left = MostIterations - 1 - iterations;
                double final = convergence * size * Math.Pow(contraction, left) / newtonLimit;
                if (final >= 1)
                {
                    slower = 0.8 * Math.Pow(Math.Clamp(final, 1e-4, 20), -1.0 / (4 + left));
                    return false;
                }
            }

            sizeBefore = Math.Max(size, UnitRounding);
            for (int i = 0; i < y.Length; i++)
            {
                double a = f1[i] + z1[i], b = f2[i] + z2[i], c = f3[i] + z3[i];
                (f1[i], f2[i], f3[i]) = (a, b, c);
                z1[i] = (T11 * a) + (T12 * b) + (T13 * c);
                z2[i] = (T21 * a) + (T22 * b) + (T23 * c);
                z3[i] = (T31 * a) + b;
            }

            if (convergence * size <= newtonLimit) return true;
        }

        return false;
    }

    private double ErrorSize(double length, ref SolverStatistics work)
    {
        double e1 = Error1 / length, e2 = Error2 / length, e3 = Error3 / length;
        for (int i = 0; i < f2.Length; i++)
        {
            f2[i] = (e1 * z1[i]) + (e2 * z2[i]) + (e3 * z3[i]);
            trial[i] = f2[i] + rates[i];
        }

        realFactors.Solve(trial);
        double size = Math.Max(Norm(trial), 1e-10);
        if (size < 1 || !(first || rejected)) return size;
        for (int i = 0; i < trial.Length; i++) trial[i] += StateBefore[i];
        System.Rates(From, trial, f1);
        work.RateCalls++;
        for (int i = 0; i < trial.Length; i++) trial[i] = f1[i] + f2[i];
        realFactors.Solve(trial);
        return Math.Max(Norm(trial), 1e-10);
    }

    private void Take(double length, double size, double ratio, bool clipped, double wanted, ref SolverStatistics work)
    {
        work.Steps++;
        if (!first)
        {
            double predicted = lengthBefore / length * Math.Pow(size * size / errorBefore, 0.25) / Safety;
            ratio = Math.Max(ratio, Math.Clamp(predicted, Grow, Shrink));
        }

        lengthBefore = length;
        errorBefore = Math.Max(1e-2, size);
        Finish(length, ref work);
        double next = length / ratio;
        if (rejected) next = Math.Min(next, length);
        first = rejected = false;
        double change = next / length;
        // The same length again saves the factors.
        if (contraction <= KeepJacobian && change is >= KeepFrom and <= KeepTo) next = length;
        if (contraction > KeepJacobian) jacobianKnown = false;
        jacobianIsFresh = false;
        Proposed = clipped ? Math.Max(next, wanted) : next;
    }

    // The step is good: end state, rates there, polynomial within.
    private void Finish(double length, ref SolverStatistics work)
    {
        for (int i = 0; i < State.Length; i++)
        {
            double a = z1[i], b = z2[i], c = z3[i];
            State[i] = end[i] = StateBefore[i] + c;
            p1[i] = (b - c) / C2Less;
            double slope = (a - b) / C1C2, bend = (slope - (a / C1)) / C2;
            p2[i] = (slope - p1[i]) / C1Less;
            p3[i] = p2[i] - bend;
        }

        Taken = length;
        polynomialKnown = true;
        To = From + length;
        System.Rates(To, State, rates);
        work.RateCalls++;
    }
}
