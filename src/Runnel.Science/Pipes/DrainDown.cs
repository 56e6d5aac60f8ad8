namespace Runnel.Science.Pipes;

/// <summary>Time that tanks take to drain through a hole, s.</summary>
/// <remarks>Torricelli with a discharge coefficient, falling head; no vortex, no pipe behind the hole.</remarks>
public static class DrainDown
{
    /// <summary>Upright tank of constant plan.</summary>
    /// <param name="tankAreaM2">Plan of the tank, m².</param>
    /// <param name="orificeDiameterM">Diameter of the hole, m.</param>
    /// <param name="fromM">Level at the start, m over the hole.</param>
    /// <param name="toM">Level at the end, m, 0 to the start.</param>
    /// <param name="coefficient">Discharge coefficient.</param>
    /// <param name="gravityMPerS2">Gravity, m/s².</param>
    /// <returns>Seconds.</returns>
    /// <exception cref="ArgumentOutOfRangeException">An input is NaN or out of range.</exception>
    public static double UprightS(
        double tankAreaM2, double orificeDiameterM, double fromM, double toM = 0, double coefficient = 0.61, double gravityMPerS2 = PipeFlow.GravityMPerS2)
    {
        Require.Positive(tankAreaM2);
        Require.NotNegative(fromM);
        Require.InRange(toM, 0, fromM);
        return 2 * tankAreaM2 / Outflow(orificeDiameterM, coefficient, gravityMPerS2) * (Math.Sqrt(fromM) - Math.Sqrt(toM));
    }

    /// <summary>Cone with its tip at the hole.</summary>
    /// <param name="halfAngleTan">Tangent of half the angle: radius over height.</param>
    /// <param name="orificeDiameterM">Diameter of the hole, m.</param>
    /// <param name="fromM">Level at the start, m over the hole.</param>
    /// <param name="toM">Level at the end, m, 0 to the start.</param>
    /// <param name="coefficient">Discharge coefficient.</param>
    /// <param name="gravityMPerS2">Gravity, m/s².</param>
    /// <returns>Seconds.</returns>
    /// <exception cref="ArgumentOutOfRangeException">An input is NaN or out of range.</exception>
    public static double ConeS(
        double halfAngleTan, double orificeDiameterM, double fromM, double toM = 0, double coefficient = 0.61, double gravityMPerS2 = PipeFlow.GravityMPerS2)
    {
        Require.Positive(halfAngleTan);
        Require.NotNegative(fromM);
        Require.InRange(toM, 0, fromM);
        return 0.4 * Math.PI * halfAngleTan * halfAngleTan / Outflow(orificeDiameterM, coefficient, gravityMPerS2) * (Math.Pow(fromM, 2.5) - Math.Pow(toM, 2.5));
    }

    /// <summary>Level at which inflow and outflow balance, m.</summary>
    /// <param name="inflowM3PerS">Inflow, m³/s.</param>
    /// <param name="outflowConstant">Outflow over the root of the level, m^2.5/s: coefficient x area x sqrt(2g).</param>
    /// <returns>Level, m over the hole.</returns>
    /// <exception cref="ArgumentOutOfRangeException">An input is NaN or out of range.</exception>
    public static double BalanceM(double inflowM3PerS, double outflowConstant)
    {
        Require.NotNegative(inflowM3PerS);
        Require.Positive(outflowConstant);
        return inflowM3PerS / outflowConstant * (inflowM3PerS / outflowConstant);
    }

    /// <summary>Upright tank with a steady inflow, from one level to another.</summary>
    /// <param name="tankAreaM2">Plan of the tank, m².</param>
    /// <param name="outflowConstant">Outflow over the root of the level, m^2.5/s.</param>
    /// <param name="inflowM3PerS">Inflow, m³/s, above 0.</param>
    /// <param name="fromM">Level at the start, m.</param>
    /// <param name="toM">Level at the end, m.</param>
    /// <returns>Seconds; infinite where the level never gets there.</returns>
    /// <exception cref="ArgumentOutOfRangeException">An input is NaN or out of range.</exception>
    /// <remarks>Closed form of A dh/dt = Q - c sqrt h.</remarks>
    public static double WithInflowS(double tankAreaM2, double outflowConstant, double inflowM3PerS, double fromM, double toM)
    {
        Require.Positive(tankAreaM2);
        Require.Positive(inflowM3PerS);
        Require.NotNegative(fromM);
        Require.NotNegative(toM);
        double balance = BalanceM(inflowM3PerS, outflowConstant);
        if (fromM == toM) return 0;
        if (fromM == balance || (toM - balance) * (fromM - balance) <= 0 || Math.Abs(toM - balance) >= Math.Abs(fromM - balance)) return double.PositiveInfinity;
        double c = outflowConstant, start = Math.Sqrt(fromM), end = Math.Sqrt(toM);
        return -2 * tankAreaM2 / (c * c) * ((c * (end - start)) + (inflowM3PerS * Math.Log((inflowM3PerS - (c * end)) / (inflowM3PerS - (c * start)))));
    }

    /// <summary>Two upright tanks joined by a hole under water, until their levels are equal.</summary>
    /// <param name="firstAreaM2">Plan of the one, m².</param>
    /// <param name="secondAreaM2">Plan of the other, m².</param>
    /// <param name="differenceM">Difference of the levels at the start, m.</param>
    /// <param name="orificeDiameterM">Diameter of the hole, m.</param>
    /// <param name="coefficient">Discharge coefficient.</param>
    /// <param name="gravityMPerS2">Gravity, m/s².</param>
    /// <returns>Seconds.</returns>
    /// <exception cref="ArgumentOutOfRangeException">An input is NaN or out of range.</exception>
    public static double EqualiseS(
        double firstAreaM2, double secondAreaM2, double differenceM, double orificeDiameterM, double coefficient = 0.61, double gravityMPerS2 = PipeFlow.GravityMPerS2)
    {
        Require.Positive(firstAreaM2);
        Require.Positive(secondAreaM2);
        Require.NotNegative(differenceM);
        return 2 * firstAreaM2 * secondAreaM2 / (firstAreaM2 + secondAreaM2) * Math.Sqrt(differenceM) / Outflow(orificeDiameterM, coefficient, gravityMPerS2);
    }

    /// <summary>Upright tank that drains through a pipe.</summary>
    /// <param name="tankAreaM2">Plan of the tank, m².</param>
    /// <param name="fromM">Level at the start, m over the end of the pipe.</param>
    /// <param name="toM">Level at the end, m over the end of the pipe, above 0 to the start.</param>
    /// <param name="lengthM">Length of the pipe, m.</param>
    /// <param name="diameterM">Its bore, m.</param>
    /// <param name="roughnessMm">Its roughness, mm.</param>
    /// <param name="minorK">Sum of K with inlet and outlet, above 0.</param>
    /// <param name="viscosityM2PerS">Kinematic viscosity, m²/s.</param>
    /// <returns>Seconds.</returns>
    /// <exception cref="ArgumentOutOfRangeException">An input is NaN or out of range.</exception>
    /// <remarks>Steady flow of <see cref="PipeFlow.AtHeadLoss"/> at each level, summed over the logarithm of the level by Simpson's rule.</remarks>
    public static double ThroughPipeS(
        double tankAreaM2, double fromM, double toM, double lengthM, double diameterM, double roughnessMm, double minorK, double viscosityM2PerS = 1.004e-6)
    {
        Require.Positive(tankAreaM2);
        Require.InRange(fromM, 1e-4, 1000);
        Require.InRange(toM, 1e-4, fromM);
        Require.InRange(minorK, 1e-3, 1e6);
        const int Parts = 64;
        double low = Math.Log(toM), width = (Math.Log(fromM) - low) / Parts, sum = 0;
        for (int i = 0; i <= Parts; i++)
        {
            double level = Math.Exp(low + (i * width));
            sum += (i is 0 or Parts ? 1 : i % 2 == 1 ? 4 : 2) * level / PipeFlow.AtHeadLoss(level, lengthM, diameterM, roughnessMm, minorK, viscosityM2PerS).FlowM3PerS;
        }

        return tankAreaM2 * sum * width / 3;
    }

    private static double Outflow(double orificeDiameterM, double coefficient, double gravityMPerS2) =>
        Orifice.FlowM3PerS(orificeDiameterM, 1, coefficient, gravityMPerS2);
}
