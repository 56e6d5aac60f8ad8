namespace Runnel.Science.Units;

/// <summary>What kind of quantity a unit measures, as powers of the SI base quantities (and of plane angle).</summary>
/// <param name="Length">Power of length.</param>
/// <param name="Mass">Power of mass.</param>
/// <param name="Time">Power of time.</param>
/// <param name="Temperature">Power of thermodynamic temperature.</param>
/// <param name="Current">Power of electric current.</param>
/// <param name="Amount">Power of amount of substance.</param>
/// <param name="Angle">Power of plane angle; kept apart so that degrees are not mistaken for a ratio.</param>
public readonly record struct Dimension(
    int Length = 0, int Mass = 0, int Time = 0, int Temperature = 0, int Current = 0, int Amount = 0, int Angle = 0)
{
    private static readonly Dictionary<Dimension, string> Names = new()
    {
        [new()] = "ratio",
        [new(Length: 1)] = "length",
        [new(Length: 2)] = "area",
        [new(Length: 3)] = "volume",
        [new(Mass: 1)] = "mass",
        [new(Time: 1)] = "time",
        [new(Time: -1)] = "frequency",
        [new(Temperature: 1)] = "temperature",
        [new(Current: 1)] = "current",
        [new(Current: 1, Time: 1)] = "charge",
        [new(Amount: 1)] = "amount",
        [new(Angle: 1)] = "angle",
        [new(Length: 1, Time: -1)] = "speed",
        [new(Length: 3, Time: -1)] = "flow",
        [new(Length: 2, Mass: 1, Time: -3)] = "power",
        [new(Length: 2, Mass: 1, Time: -2)] = "energy",
        [new(Length: 1, Mass: 1, Time: -2)] = "force",
        [new(Length: 2, Mass: 1, Time: -3, Current: -1)] = "voltage",
        [new(Length: 2, Mass: 1, Time: -3, Current: -2)] = "resistance",
        [new(Length: -1, Mass: 1, Time: -2)] = "pressure",
        [new(Length: -3, Mass: 1)] = "concentration",
        [new(Mass: 1, Time: -3)] = "irradiance",
        [new(Mass: 1, Time: -2)] = "irradiation",
        [new(Length: -3, Mass: -1, Time: 3, Current: 2)] = "conductivity",
        [new(Mass: 1, Time: -1)] = "mass flow",
        [new(Mass: 1, Time: -3, Temperature: -1)] = "heat transfer coefficient",
        [new(Length: -3, Amount: 1)] = "molar concentration",
    };

    /// <summary>In a word, e.g. <c>volume</c>; for a dimension without a common word, <c>other kind of quantity</c>.</summary>
    public string Name => Names.GetValueOrDefault(this, "other kind of quantity");

    /// <summary>The dimension of a product.</summary>
    public Dimension Times(Dimension other) => Raised(1, other, 1);

    /// <summary>The dimension of this, raised to a power.</summary>
    public Dimension Power(int exponent) => Raised(exponent, default, 0);

    private Dimension Raised(int mine, Dimension other, int theirs) => new(
        (Length * mine) + (other.Length * theirs),
        (Mass * mine) + (other.Mass * theirs),
        (Time * mine) + (other.Time * theirs),
        (Temperature * mine) + (other.Temperature * theirs),
        (Current * mine) + (other.Current * theirs),
        (Amount * mine) + (other.Amount * theirs),
        (Angle * mine) + (other.Angle * theirs));
}
