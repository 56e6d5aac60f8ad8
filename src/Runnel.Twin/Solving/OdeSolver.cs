namespace Runnel.Twin.Solving;

/// <summary>Carries a system forward in time, by steps of controlled error, from event to event.</summary>
/// <remarks>
/// A step is taken whole; events are looked for in its dense output, the first of them is found to the last digit of the time, and the step ends
/// there. Events at the same time are told together, in the order of their numbers. A touch without passing is no event. One solver is for one thread;
/// nothing is allocated after construction.
/// </remarks>
public sealed class OdeSolver
{
    private readonly OdeSystem system;
    private readonly SolverOptions options;
    private readonly EventWatch? events;
    private readonly double[] lastTime;
    private readonly int[] inARow;
    private readonly double[] eventState;
    private readonly Stepper? explicitStepper, stiffStepper;
    private Stepper stepper;
    private SolverStatistics work;
    private bool started, canBegin;

    /// <summary>Makes a solver for a system.</summary>
    /// <param name="system">Equations and events.</param>
    /// <param name="options">Method and tolerances.</param>
    /// <exception cref="ArgumentException">An option is out of its range.</exception>
    public OdeSolver(OdeSystem system, SolverOptions? options = null)
    {
        ArgumentNullException.ThrowIfNull(system);
        this.system = system;
        this.options = options ?? new SolverOptions();
        this.options.Check(system.Count);
        explicitStepper = this.options.Method == SteppingMethod.Stiff ? null : new ExplicitStepper(system, this.options);
        stiffStepper = this.options.Method == SteppingMethod.Explicit ? null : new StiffStepper(system, this.options);
        stepper = explicitStepper ?? stiffStepper!;
        events = system.EventCount > 0 ? new EventWatch(system, this.options) : null;
        lastTime = new double[system.EventCount];
        inARow = new int[system.EventCount];
        eventState = new double[system.Count];
    }

    /// <summary>The time now.</summary>
    public double Time => stepper.To;

    /// <summary>The state now.</summary>
    public ReadOnlySpan<double> State => stepper.State;

    /// <summary>Where the last step began; the solution is known from here to <see cref="Time"/>.</summary>
    public double StepFrom => stepper.From;

    /// <summary>Work since the start.</summary>
    public SolverStatistics Statistics => work;

    /// <summary>Whether the implicit method is at work.</summary>
    public bool IsStiff => stepper == stiffStepper;

    /// <summary>Begins.</summary>
    /// <param name="time">Time.</param>
    /// <param name="state">State then.</param>
    /// <exception cref="ArgumentException">The state has the wrong length or holds what is no number.</exception>
    public void Start(double time, ReadOnlySpan<double> state)
    {
        if (state.Length != system.Count) throw new ArgumentException($"the state has {state.Length} values and must have {system.Count}", nameof(state));
        if (!double.IsFinite(time)) throw new ArgumentOutOfRangeException(nameof(time), time, "must be finite");
        foreach (double value in state)
        {
            if (!double.IsFinite(value)) throw new ArgumentException("the state holds what is no number", nameof(state));
        }

        work = default;
        stepper = explicitStepper ?? stiffStepper!;
        stepper.Proposed = 0;
        Array.Fill(lastTime, double.NegativeInfinity);
        Array.Clear(inARow);
        started = true;
        Begin(time, state, isStart: true);
    }

    /// <summary>Changes the state or the law at the present time, as from outside, and goes on from there.</summary>
    /// <param name="state">State from now on.</param>
    public void Change(ReadOnlySpan<double> state)
    {
        work.Restarts++;
        double time = Time;
        if (explicitStepper is not null && IsStiff)
        {
            // What follows a change moves fast at first: the explicit method is quicker there, and hands over again when it should.
            stepper = explicitStepper;
            stepper.Proposed = 0;
        }

        Begin(time, state, isStart: false);
    }

    /// <summary>Goes on to a time, or to where it must stop.</summary>
    /// <param name="end">Time, not before the present one.</param>
    /// <param name="afterStep">Called after every step and event, when <see cref="At"/> knows the step; or null.</param>
    /// <returns>How it came out. What is reached stays in <see cref="Time"/> and <see cref="State"/>.</returns>
    /// <exception cref="InvalidOperationException">There was no start.</exception>
    /// <exception cref="ArgumentOutOfRangeException">The end lies before the present.</exception>
    public SolveResult AdvanceTo(double end, Action<OdeSolver>? afterStep = null)
    {
        if (!started) throw new InvalidOperationException("call Start first");
        if (!(end >= Time)) throw new ArgumentOutOfRangeException(nameof(end), end, $"must not lie before the present, {Time}");
        if (!canBegin) return Result(StopReason.NotANumber, stepper.BadIndex);
        double chatterGap = options.ChatterGap > 0 ? options.ChatterGap : 1e-7 * (end - Time), tiny = 4 * 2.22e-16 * Math.Abs(end);
        long last = work.Steps + options.MostSteps;
        while (end - Time > tiny)
        {
            if (work.Steps >= last) return Result(StopReason.TooManySteps, -1);
            switch (stepper.Step(end - Time, ref work))
            {
                case StepOutcome.TooShort:
                    return Result(StopReason.StepTooShort, -1);
                case StepOutcome.NotANumber:
                    return Result(StopReason.NotANumber, stepper.BadIndex);
                case StepOutcome.Stiff when stiffStepper is not null:
                    GoStiff();
                    continue;
                case StepOutcome.Stiff when options.StopWhenStiff:
                    return Result(StopReason.Stiff, -1);
                default:
                    break;
            }

            if (events is not null)
            {
                double share = events.FindFirst(stepper, ref work);
                if (share <= 1)
                {
                    if (MeetEvents(share, chatterGap, afterStep) is { } stop) return stop;
                    continue;
                }

                events.GoOn(Time, State, ref work);
            }

            afterStep?.Invoke(this);
        }

        return Result(StopReason.Reached, -1);
    }

    /// <summary>The state at a time within the last step.</summary>
    /// <param name="time">From <see cref="StepFrom"/> to <see cref="Time"/>.</param>
    /// <param name="into">One value for each equation.</param>
    public void At(double time, Span<double> into)
    {
        if (time >= Time || stepper.Taken <= 0) State.CopyTo(into);
        else stepper.Within(Math.Max(0, (time - stepper.From) / stepper.Taken), into);
    }

    private void Begin(double time, ReadOnlySpan<double> state, bool isStart)
    {
        canBegin = stepper.Begin(time, state, ref work);
        events?.Begin(time, stepper.State, isStart, ref work);
    }

    private void GoStiff()
    {
        double length = stepper.Taken;
        var old = stepper;
        stepper = stiffStepper!;
        stepper.Proposed = length;
        // The step that showed the stiffness is within its tolerance, but its events have not been looked at: it is taken again by the other method.
        old.Within(0, eventState);
        canBegin = stepper.Begin(old.From, eventState, ref work);
        work.Steps--;
    }

    private SolveResult? MeetEvents(double share, double chatterGap, Action<OdeSolver>? afterStep)
    {
        if (stepper.IsRoughWithin && !Sharpen(ref share))
        {
            events!.TakeBack();
            return null;
        }

        share = events!.BehindAll(stepper, share, eventState, ref work);
        bool isNumber = stepper.Truncate(share, eventState, ref work);
        afterStep?.Invoke(this);
        foreach (int i in events.Fired)
        {
            work.Events++;
            inARow[i] = Time - lastTime[i] < chatterGap ? inARow[i] + 1 : 0;
            lastTime[i] = Time;
            if (inARow[i] >= options.ChatterCount) return Result(StopReason.Chattering, i);
        }

        if (!isNumber) return Result(StopReason.NotANumber, stepper.BadIndex);
        int first = events.Fired[0];
        switch (system.Happened(Time, eventState, events.Fired))
        {
            case EventOutcome.Stop:
                eventState.CopyTo(stepper.State, 0);
                Change(eventState);
                return Result(StopReason.Event, first);
            case EventOutcome.Changed:
                Change(eventState);
                return canBegin ? null : Result(StopReason.NotANumber, stepper.BadIndex);
            default:
                events.GoOn(Time, State, ref work);
                return null;
        }
    }

    // Takes the step again so that it ends at the event, where the solution is of full order. False: the step was undone and is to be taken anew.
    private bool Sharpen(ref double share)
    {
        for (int tries = 0; tries < 4; tries++)
        {
            if (!stepper.Retake(share * stepper.Taken, ref work)) return false;
            share = events!.Again(stepper, ref work);
            if (Math.Abs(share - 1) < 1e-7) break;
        }

        return true;
    }

    private SolveResult Result(StopReason stop, int index) => new(stop, Time, index, IsStiff || stop == StopReason.Stiff, work);
}
