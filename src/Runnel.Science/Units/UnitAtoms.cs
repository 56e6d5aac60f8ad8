using System.Collections.Frozen;

namespace Runnel.Science.Units;

/// <summary>Every simple unit this program knows, as a multiple of the SI base units; factors that formulas need too stand in <see cref="Conversions"/>.</summary>
/// <remarks>Symbols and factors follow the Unified Code for Units of Measure (UCUM 2.2); spellings without brackets are those of the
/// trade (gal_us for [gal_us]). Factors of [in_i], [lb_av], [gal_us], [gal_br], bar and m[H2O] are exact by definition.</remarks>
internal static class UnitAtoms
{
    /// <param name="Dimension">What it measures.</param>
    /// <param name="Factor">SI base units in one of it.</param>
    /// <param name="Offset">Added after the factor (Celsius and Fahrenheit only).</param>
    /// <param name="TakesPrefix">Whether milli, kilo and so on may stand before it.</param>
    internal sealed record Atom(Dimension Dimension, double Factor, double Offset = 0, bool TakesPrefix = false);

    private const double Inch = Conversions.MmPerInch / 1000;
    private const double Foot = Conversions.MPerFoot;
    private const double PoundMass = Conversions.GPerPound / 1000;
    private const double UsGallon = Conversions.LPerUsGallon / 1000;
    private const double ImperialGallon = Conversions.LPerImperialGallon / 1000;
    private const double StandardGravity = 9.80665;
    private const double Psi = PoundMass * StandardGravity / (Inch * Inch);

    private static readonly Dimension Length = new(Length: 1);
    private static readonly Dimension Area = new(Length: 2);
    private static readonly Dimension Volume = new(Length: 3);
    private static readonly Dimension Mass = new(Mass: 1);
    private static readonly Dimension Time = new(Time: 1);
    private static readonly Dimension Temperature = new(Temperature: 1);
    private static readonly Dimension Current = new(Current: 1);
    private static readonly Dimension Amount = new(Amount: 1);
    private static readonly Dimension Angle = new(Angle: 1);
    private static readonly Dimension Speed = new(Length: 1, Time: -1);
    private static readonly Dimension Force = new(Length: 1, Mass: 1, Time: -2);
    private static readonly Dimension Pressure = new(Length: -1, Mass: 1, Time: -2);
    private static readonly Dimension Energy = new(Length: 2, Mass: 1, Time: -2);
    private static readonly Dimension Power = new(Length: 2, Mass: 1, Time: -3);
    private static readonly Dimension Voltage = new(Length: 2, Mass: 1, Time: -3, Current: -1);
    private static readonly Dimension Conductance = new(Length: -2, Mass: -1, Time: 3, Current: 2);
    private static readonly Dimension Concentration = new(Length: -3, Mass: 1);

    private static readonly FrozenDictionary<string, Atom> Atoms = new Dictionary<string, Atom>(StringComparer.Ordinal)
    {
        // Length and area
        ["m"] = new(Length, 1, TakesPrefix: true),
        ["[in_i]"] = new(Length, Inch),
        ["in"] = new(Length, Inch),
        ["[ft_i]"] = new(Length, Foot),
        ["ft"] = new(Length, Foot),
        ["ha"] = new(Area, 10_000),

        // Volume. A bare "gal" is left out on purpose: it is two different volumes.
        ["L"] = new(Volume, 0.001, TakesPrefix: true),
        ["l"] = new(Volume, 0.001, TakesPrefix: true),
        ["[gal_us]"] = new(Volume, UsGallon),
        ["gal_us"] = new(Volume, UsGallon),
        ["[gal_br]"] = new(Volume, ImperialGallon),
        ["gal_br"] = new(Volume, ImperialGallon),

        // Mass and amount
        ["g"] = new(Mass, 0.001, TakesPrefix: true),
        ["t"] = new(Mass, 1000, TakesPrefix: true),
        ["[lb_av]"] = new(Mass, PoundMass),
        ["lb"] = new(Mass, PoundMass),
        ["[oz_av]"] = new(Mass, PoundMass / 16),
        ["oz"] = new(Mass, PoundMass / 16),
        ["mol"] = new(Amount, 1, TakesPrefix: true),

        // Time
        ["s"] = new(Time, 1, TakesPrefix: true),
        ["min"] = new(Time, 60),
        ["h"] = new(Time, 3600),
        ["d"] = new(Time, 86_400),
        ["day"] = new(Time, 86_400),
        ["wk"] = new(Time, 604_800),
        ["mo"] = new(Time, 2_629_800),
        ["a"] = new(Time, 31_557_600),
        ["Hz"] = new(Time.Power(-1), 1, TakesPrefix: true),

        // Temperature
        ["K"] = new(Temperature, 1, TakesPrefix: true),
        ["Cel"] = new(Temperature, 1, 273.15),
        ["degC"] = new(Temperature, 1, 273.15),
        ["°C"] = new(Temperature, 1, 273.15),
        ["[degF]"] = new(Temperature, 5.0 / 9, 459.67 * 5 / 9),
        ["degF"] = new(Temperature, 5.0 / 9, 459.67 * 5 / 9),
        ["°F"] = new(Temperature, 5.0 / 9, 459.67 * 5 / 9),

        // Speed
        ["[kn_i]"] = new(Speed, 1852.0 / 3600),
        ["kn"] = new(Speed, 1852.0 / 3600),
        ["mph"] = new(Speed, 5280 * Foot / 3600),

        // Force and pressure
        ["N"] = new(Force, 1, TakesPrefix: true),
        ["Pa"] = new(Pressure, 1, TakesPrefix: true),
        ["bar"] = new(Pressure, 100_000, TakesPrefix: true),
        ["atm"] = new(Pressure, 101_325),
        ["[psi]"] = new(Pressure, Psi),
        ["psi"] = new(Pressure, Psi),
        ["m[H2O]"] = new(Pressure, 1000 * Conversions.KPaPerMWater, TakesPrefix: true),
        // UCUM's own six figures; Conversions.KPaPerMmHg carries all of them.
        ["m[Hg]"] = new(Pressure, 133_322, TakesPrefix: true),

        // Energy, power, electricity
        ["J"] = new(Energy, 1, TakesPrefix: true),
        ["Wh"] = new(Energy, 3600, TakesPrefix: true),
        ["W"] = new(Power, 1, TakesPrefix: true),
        ["VA"] = new(Power, 1, TakesPrefix: true),
        ["A"] = new(Current, 1, TakesPrefix: true),
        ["Ah"] = new(Current.Times(Time), 3600, TakesPrefix: true),
        ["V"] = new(Voltage, 1, TakesPrefix: true),
        ["S"] = new(Conductance, 1, TakesPrefix: true),
        ["Ohm"] = new(Conductance.Power(-1), 1, TakesPrefix: true),

        // Ratios and angle. [ppm] is UCUM's plain ratio; "ppm" without brackets is what water test kits print for mg/L
        // (1 L of fresh water taken as 1 kg).
        ["1"] = new(default, 1),
        ["%"] = new(default, 0.01),
        ["[ppth]"] = new(default, 1e-3),
        ["[ppm]"] = new(default, 1e-6),
        ["ppm"] = new(Concentration, 1e-3),
        ["rad"] = new(Angle, 1, TakesPrefix: true),
        ["deg"] = new(Angle, Math.PI / 180),
        ["°"] = new(Angle, Math.PI / 180),
    }.ToFrozenDictionary(StringComparer.Ordinal);

    private static readonly FrozenDictionary<char, double> Prefixes = new Dictionary<char, double>
    {
        ['n'] = 1e-9,
        ['u'] = 1e-6,
        ['\u00b5'] = 1e-6, // micro sign
        ['\u03bc'] = 1e-6, // Greek mu, which keyboards give as well
        ['m'] = 1e-3,
        ['c'] = 1e-2,
        ['d'] = 1e-1,
        ['h'] = 1e2,
        ['k'] = 1e3,
        ['M'] = 1e6,
        ['G'] = 1e9,
    }.ToFrozenDictionary();

    /// <summary>The spellings that may be written as they stand (without prefixes).</summary>
    internal static IEnumerable<string> Symbols => Atoms.Keys;

    /// <summary>The atom of that symbol, with its prefix worked in; a whole symbol goes before prefix and symbol (min, ha, ft).</summary>
    internal static Atom? Find(string symbol)
    {
        if (Atoms.TryGetValue(symbol, out var whole)) return whole;
        if (symbol.Length < 2 || !Prefixes.TryGetValue(symbol[0], out double prefix)) return null;
        return Atoms.TryGetValue(symbol[1..], out var stem) && stem.TakesPrefix ? stem with { Factor = stem.Factor * prefix } : null;
    }
}
