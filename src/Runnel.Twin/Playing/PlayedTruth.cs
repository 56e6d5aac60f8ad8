using NodaTime;
using Runnel.Twin.Weather;

namespace Runnel.Twin.Playing;

/// <summary>How a played place truly stands at a moment; sums count from its beginning.</summary>
/// <param name="At">When.</param>
/// <param name="Vessels">In the order of the file.</param>
/// <param name="Pumps">In the order of the file.</param>
/// <param name="Valves">In the order of the file.</param>
/// <param name="Weather">Weather of the present ten minutes.</param>
/// <param name="WaterC">Water temperature, °C.</param>
/// <param name="Water">Water that came and went.</param>
public sealed record PlayedTruth(
    Instant At, IReadOnlyList<TrueVessel> Vessels, IReadOnlyList<TruePump> Pumps, IReadOnlyList<TrueValve> Valves, WeatherStep Weather, double WaterC, TrueWater Water);

/// <summary>A vessel.</summary>
/// <param name="Id">Its id.</param>
/// <param name="LevelM">Level above its floor, m.</param>
/// <param name="VolumeL">Water in it, L.</param>
/// <param name="SpilledL">What ran over its rim, L.</param>
public sealed record TrueVessel(string Id, double LevelM, double VolumeL, double SpilledL);

/// <summary>A pump.</summary>
/// <param name="Id">Its id.</param>
/// <param name="IsOn">Whether its switch calls for it.</param>
/// <param name="Turns">Whether it turns.</param>
/// <param name="FlowLPerMin">What it moves.</param>
/// <param name="DeliveredL">What it delivered, L.</param>
public sealed record TruePump(string Id, bool IsOn, bool Turns, double FlowLPerMin, double DeliveredL);

/// <summary>A valve.</summary>
/// <param name="Id">Its id.</param>
/// <param name="IsCalledOpen">Whether it is called open.</param>
/// <param name="FlowLPerMin">What comes through.</param>
/// <param name="LetL">What came through, L.</param>
public sealed record TrueValve(string Id, bool IsCalledOpen, double FlowLPerMin, double LetL);

/// <summary>Water that came and went, L.</summary>
/// <param name="CameL">From outside through valves and hoses.</param>
/// <param name="RainL">As rain.</param>
/// <param name="LostL">To air and plants.</param>
/// <param name="SpilledL">Over rims to the ground.</param>
/// <param name="LeftL">Led away.</param>
/// <param name="LeakedL">Through leaks.</param>
/// <param name="DrawnL">Taken by people.</param>
/// <param name="WaterL">All water at present.</param>
/// <param name="BalanceL">What does not add up: rounding.</param>
public sealed record TrueWater(
    double CameL, double RainL, double LostL, double SpilledL, double LeftL, double LeakedL, double DrawnL, double WaterL, double BalanceL);
