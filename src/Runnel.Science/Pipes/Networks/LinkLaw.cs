namespace Runnel.Science.Pipes.Networks;

/// <summary>Head lost along a link against its flow, with the slope of it. Always rising, so that a network has one answer only.</summary>
internal struct LinkLaw
{
    /// <summary>What is shut lets 1e-9 m³/s pass a metre of head (0.1 L a day): nothing that matters, and heads behind it stay defined.</summary>
    public const double ShutSlope = 1e9;

    // Below this flow (m³/s) powers of the flow turn straight, so that the slope is never 0.
    private const double Straight = 1e-8, Straight2 = Straight * Straight;

    // Against its way a one-way link shuts smoothly within this flow (m³/s): a sharp bend would let rounding alone flip it.
    private const double Knee = 1e-11;

    private double laminar, laminarTo, turbulent, reynoldsPerFlow, roughness, logAt2000, logAt4000; // Darcy and Weisbach
    private double minor;
    private double power, exponent; // power law: pump curve, outlet, Hazen and Williams
    private double lift;            // head given without flow
    private double start;           // slope without flow

    public bool OneWay { get; private init; }

    /// <summary>Shut by hand.</summary>
    public bool Closed { get; set; }

    /// <summary>A pump without speed.</summary>
    public bool Stands { get; private init; }

    public readonly bool Shut => Closed || Stands;

    /// <summary>A flow to begin from, m³/s.</summary>
    public double FirstFlow { get; private init; }

    public static LinkLaw Pipe(NetworkPipe pipe, double minorK, double roughnessMm, double diameterM, double viscosity, double gravity)
    {
        double area = Math.PI * diameterM * diameterM / 4, velocityHead = 1 / (2 * gravity * area * area);
        var law = new LinkLaw
        {
            OneWay = pipe.CheckValve,
            FirstFlow = 0.5 * area,
            minor = minorK * velocityHead,
            reynoldsPerFlow = diameterM / (area * viscosity),
        };
        if (pipe.HazenWilliamsC is double c)
        {
            law.exponent = 1.852;
            law.power = HazenWilliams.HeadLossM(1, pipe.LengthM, diameterM, c);
            law.laminarTo = double.PositiveInfinity;
            return law.WithStart();
        }

        law.roughness = roughnessMm / 1000 / diameterM;
        law.turbulent = pipe.LengthM / diameterM * velocityHead;
        law.laminarTo = 2000 / law.reynoldsPerFlow;
        law.laminar = 64 / law.reynoldsPerFlow * law.turbulent;
        law.logAt2000 = Math.Log(FrictionFactor.Laminar(2000));
        law.logAt4000 = Math.Log(FrictionFactor.Colebrook(4000, law.roughness));
        return law.WithStart();
    }

    public static LinkLaw Pump(PumpCurve curve, double speed)
    {
        if (speed == 0) return new LinkLaw { OneWay = true, Stands = true };
        var now = curve.AtSpeed(speed);
        return new LinkLaw
        {
            OneWay = true,
            lift = now.ShutOffHeadM,
            exponent = now.Exponent,
            power = now.Coefficient * Math.Pow(60_000, now.Exponent),
            FirstFlow = now.MostFlowLPerMin / 60_000 / 2,
            laminarTo = double.PositiveInfinity,
        }.WithStart();
    }

    public static LinkLaw Outlet(NetworkOutlet outlet) => new LinkLaw
    {
        OneWay = true,
        exponent = 1 / outlet.Exponent,
        power = Math.Pow(outlet.CoefficientM3PerS, -1 / outlet.Exponent),
        FirstFlow = outlet.CoefficientM3PerS,
        laminarTo = double.PositiveInfinity,
    }.WithStart();

    /// <summary>Head lost (m) at a flow (m³/s), and its slope (m a m³/s).</summary>
    public readonly double LossM(double flow, out double slope)
    {
        if (Shut)
        {
            slope = ShutSlope;
            return ShutSlope * flow;
        }

        if (OneWay && flow < 0)
        {
            double back = -flow, sum = back + Knee;
            slope = (ShutSlope * back * (back + (2 * Knee)) / (sum * sum)) + start;
            return (start * flow) - (ShutSlope * back * back / sum) - lift;
        }

        double size = Math.Abs(flow), loss = FrictionM(size, out slope);
        if (minor > 0)
        {
            double root = Math.Sqrt((size * size) + Straight2);
            loss += minor * size * root;
            slope += minor * ((2 * size * size) + Straight2) / root;
        }

        return (flow < 0 ? -loss : loss) - lift;
    }

    private LinkLaw WithStart()
    {
        _ = LossM(0, out start);
        return this;
    }

    private readonly double FrictionM(double flow, out double slope)
    {
        if (exponent > 0)
        {
            double square = (flow * flow) + Straight2, bent = power * Math.Pow(square, (exponent - 3) / 2);
            slope = bent * ((exponent * flow * flow) + Straight2);
            return bent * square * flow;
        }

        if (flow <= laminarTo)
        {
            slope = laminar;
            return laminar * flow;
        }

        // Same factor as FrictionFactor.Darcy, with d ln f / d ln Re.
        double reynolds = flow * reynoldsPerFlow, factor, bend;
        if (reynolds < 4000)
        {
            bend = (logAt4000 - logAt2000) / Math.Log(2);
            factor = Math.Exp(logAt2000 + (bend * Math.Log(reynolds / 2000)));
        }
        else
        {
            factor = FrictionFactor.Colebrook(reynolds, roughness);
            double smooth = 2.51 / (reynolds * Math.Sqrt(factor)), part = 2 / Math.Log(10) * (2.51 / reynolds) / ((roughness / 3.7) + smooth);
            bend = -2 * part / (1 + part);
        }

        double loss = factor * turbulent * flow * flow;
        slope = (2 + bend) * loss / flow;
        return loss;
    }
}
