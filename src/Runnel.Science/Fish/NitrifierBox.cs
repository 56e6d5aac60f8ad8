namespace Runnel.Science.Fish;

/// <summary>State of a well-mixed system with a filter: nitrogen in mg N/L, nitrifiers in mg COD for each litre of system water.</summary>
/// <param name="Tan">Total ammonia nitrogen, mg N/L.</param>
/// <param name="No2">Nitrite nitrogen, mg N/L.</param>
/// <param name="No3">Nitrate nitrogen, mg N/L.</param>
/// <param name="AmmoniaOxidisers">Ammonia oxidisers, mg COD/L.</param>
/// <param name="NitriteOxidisers">Nitrite oxidisers, mg COD/L.</param>
public readonly record struct NitrifierState(double Tan, double No2, double No3, double AmmoniaOxidisers, double NitriteOxidisers);

/// <summary>What does not change in the box.</summary>
/// <param name="WaterTempC">Water temperature, °C.</param>
/// <param name="Ph">pH.</param>
/// <param name="DoMgPerL">Oxygen, mg/L.</param>
/// <param name="VolumeL">System water, L.</param>
/// <param name="MediaM2">Surface of the media, m².</param>
/// <param name="LoadMgNPerLDay">Ammonia coming in, mg N/L and day.</param>
public readonly record struct NitrifierSurroundings(double WaterTempC, double Ph, double DoMgPerL, double VolumeL, double MediaM2, double LoadMgNPerLDay);

/// <summary>Two-step nitrification with limited room on the media. A real start scatters by a factor of two around it.</summary>
/// <remarks>Rates, yields and decay: Hiatt and Grady (2008), Water Environ. Res. 80:2145-2156, table 2, at 20 °C; temperature factors from the activation
/// energies of Vannecke and Volcke (2015, supplement); pH factor of the UCT model (Ekama and Wentzel; WRC 1984). Half saturations 0.7 and 0.5 mg N/L, decay factor
/// 1.04 and the ceilings of 0.6 and 0.9 g N/(m² day) at 20 °C are chosen within the published ranges. Alkalinity is taken as enough.</remarks>
public static class NitrifierBox
{
    private const double Growth20 = 0.78, Decay20 = 0.096, YieldAmmonia = 0.18, YieldNitrite = 0.06, CeilingAmmonia = 0.6, CeilingNitrite = 0.9;

    /// <summary>Change a day.</summary>
    /// <param name="state">State.</param>
    /// <param name="around">Surroundings.</param>
    /// <returns>Derivatives, a day.</returns>
    /// <exception cref="ArgumentOutOfRangeException">A surrounding is NaN or out of range.</exception>
    public static NitrifierState ChangePerDay(NitrifierState state, NitrifierSurroundings around) => ChangePerDay(state, Rates.In(around));

    internal static NitrifierState ChangePerDay(NitrifierState state, in Rates rates)
    {
        // A solver may step a little below 0.
        double tan = Math.Max(0, state.Tan), no2 = Math.Max(0, state.No2);
        double toNitrite = rates.Ammonia * tan / (0.7 + tan) * state.AmmoniaOxidisers;
        double toNitrate = rates.Nitrite * no2 / (0.5 + no2) * 0.2 / (0.2 + (tan * rates.FreeShare)) * state.NitriteOxidisers;
        return new NitrifierState(
            rates.Load - toNitrite,
            toNitrite - toNitrate,
            toNitrate,
            (YieldAmmonia * toNitrite * Free(state.AmmoniaOxidisers, rates.RoomAmmonia)) - (rates.Decay * state.AmmoniaOxidisers),
            (YieldNitrite * toNitrate * Free(state.NitriteOxidisers, rates.RoomNitrite)) - (rates.Decay * state.NitriteOxidisers));
    }

    private static double Free(double taken, double room) => room > 0 ? 1 - (taken / room) : 0;

    /// <summary>What the surroundings make of the constants: it does not change over a run.</summary>
    internal readonly record struct Rates(double Load, double Ammonia, double Nitrite, double FreeShare, double Decay, double RoomAmmonia, double RoomNitrite)
    {
        /// <summary>The fastest rate there can be, 1/d: a solver's steps must stay below its inverse.</summary>
        public double FastestPerDay => 1 + Decay + Math.Max(Ammonia * RoomAmmonia / 0.7, Nitrite * RoomNitrite / 0.5) + (Ammonia * YieldAmmonia) + (Nitrite * YieldNitrite);

        public static Rates In(NitrifierSurroundings around)
        {
            Require.InRange(around.WaterTempC, 0, 45);
            Require.NotNegative(around.DoMgPerL);
            Require.Positive(around.VolumeL);
            Require.NotNegative(around.MediaM2);
            double oxygen = around.DoMgPerL, warm = around.WaterTempC - 20, byPh = Nitrification.PhFactor(around.Ph);
            double growthAmmonia = Growth20 * Math.Pow(1.096, warm), growthNitrite = Growth20 * Math.Pow(1.061, warm);
            // Room for as many as would turn over the ceiling's rate at 20 °C.
            double area = 1000 * around.MediaM2 / around.VolumeL;
            return new Rates(
                around.LoadMgNPerLDay, growthAmmonia / YieldAmmonia * oxygen / (0.6 + oxygen) * byPh, growthNitrite / YieldNitrite * oxygen / (1.2 + oxygen) * byPh,
                Water.Ammonia.UnionisedFraction(around.Ph, around.WaterTempC), Decay20 * Math.Pow(1.04, warm), CeilingAmmonia * area * YieldAmmonia / Growth20, CeilingNitrite * area * YieldNitrite / Growth20);
        }
    }
}
