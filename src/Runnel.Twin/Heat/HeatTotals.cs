namespace Runnel.Twin.Heat;

/// <summary>Heat in and out of all water over a time, MJ, counted from water at 0 °C; what leaves is below 0.</summary>
/// <param name="SunMJ">Sun taken up.</param>
/// <param name="LongWaveMJ">Long-wave radiation, net.</param>
/// <param name="ConvectionMJ">From the air.</param>
/// <param name="EvaporationMJ">With vapour.</param>
/// <param name="WallsMJ">Through walls, floors and covers.</param>
/// <param name="EquipmentMJ">From heaters and pumps.</param>
/// <param name="CameMJ">With rain and water from outside.</param>
/// <param name="LeftMJ">With water that spilled, left, or went through plants.</param>
/// <param name="StoredMJ">Change in all water.</param>
/// <param name="MovedMJ">Everything that moved, whatever its way: the measure for the balance.</param>
public sealed record HeatTotals(
    double SunMJ, double LongWaveMJ, double ConvectionMJ, double EvaporationMJ, double WallsMJ, double EquipmentMJ, double CameMJ, double LeftMJ, double StoredMJ, double MovedMJ)
{
    /// <summary>What does not add up: rounding.</summary>
    public double BalanceMJ => SunMJ + LongWaveMJ + ConvectionMJ + EvaporationMJ + WallsMJ + EquipmentMJ + CameMJ + LeftMJ - StoredMJ;
}
