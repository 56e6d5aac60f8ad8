using System.Globalization;
using Runnel.Exchange.Logs;
using Runnel.Place;

namespace Runnel.Exchange.Survey;

/// <summary>
/// Says what each channel of a log probably measures: from its name where it tells, checked against its values; else from its values alone.
/// The usual ranges are common practice for gardens.
/// </summary>
internal static class ChannelGuesses
{
    public static IReadOnlyList<FoundChannel> Make(IReadOnlyList<(string Name, string? Unit, ChannelStatistics Statistics)> found)
    {
        var units = new LogUnits();
        var guesses = found.Select(f => ByName(f.Name, f.Unit, f.Statistics, units)).ToList();
        OnePumpPower(found, guesses);
        UnnamedSwitches.Fill(found, guesses);
        for (int i = 0; i < found.Count; i++)
        {
            if (guesses[i] is null && !found[i].Statistics.IsSwitch) guesses[i] = ByValues(found[i].Statistics);
        }

        return [.. found.Select((f, i) => new FoundChannel(f.Name, f.Statistics, guesses[i]))];
    }

    /// <summary>Of several powers of which none is named as the pump's, the one that goes up and down most often is; the others stay open.</summary>
    private static void OnePumpPower(IReadOnlyList<(string Name, string? Unit, ChannelStatistics Statistics)> found, List<ChannelGuess?> guesses)
    {
        int[] powers = [.. Enumerable.Range(0, found.Count)
            .Where(i => guesses[i] is { Measures: Quantity.Power or Quantity.Current, Equipment: EquipmentKind.Pump })];
        int[] unnamed = [.. powers.Where(i => NameWords.ThingOf(NameWords.Words(found[i].Name)) is null)];
        bool named = unnamed.Length < powers.Length;
        int most = named || unnamed.Length == 0 ? -1 : unnamed.MaxBy(i => found[i].Statistics.ChangesPerDay);
        foreach (int i in unnamed.Where(i => i != most && (named || unnamed.Length > 1))) guesses[i] = null;
    }

    private static ChannelGuess? ByName(string name, string? beside, ChannelStatistics s, LogUnits units)
    {
        var (unit, unitIsSure) = HeadingUnit.Of(name, beside);
        string words = NameWords.Words(name);
        if (Quantities.Find(name.Trim().ToLowerInvariant()) is { } exact && !s.IsSwitch)
            return Checked(exact, exact is Quantity.Power or Quantity.Current ? EquipmentKind.Pump : null, NameWords.VesselOf(words), s, unit, units, "the name is that of the quantity", Certainty.Sure);
        if (s.IsSwitch) return NameWords.ThingOf(words) is { } thing ? Switch(thing.Kind, thing.Phrase, s) : null;
        if (s.Readings == 0) return null;
        if (NameWords.QuantityOf(words) is { } named)
        {
            var quantity = named.Quantity;
            if (quantity == Quantity.Rain && s.NeverFalls && s.ShareZero < 0.9 && s.Readings > 20) quantity = Quantity.RainTotal;
            if (quantity == Quantity.Pressure && (units.To(Quantity.AirPressure, unit) is { Scale: > 0.09 and < 0.11 } || s.Mean is > 850 and < 1090)) quantity = Quantity.AirPressure;
            if (quantity == Quantity.Volume && s.NeverFalls && s.Readings > 20) quantity = Quantity.VolumeTotal;
            var equipment = quantity is Quantity.Power or Quantity.Current ? NameWords.ThingOf(words)?.Kind ?? EquipmentKind.Pump : NameWords.ThingOf(words)?.Kind;
            if (quantity is not (Quantity.Power or Quantity.Current or Quantity.Flow or Quantity.Volume or Quantity.VolumeTotal)) equipment = null;
            return Checked(quantity, equipment, NameWords.VesselOf(words), s, unit, units, $"the name says \"{named.Phrase}\"", Certainty.Likely);
        }

        // A single letter at the end of a name is more often a label ("probe A") than a unit; W is worth the guess, since plugs tell nothing else.
        var byUnit = unitIsSure || unit.Length > 1 || unit is "W" ? HeadingUnit.QuantitiesOf(unit, units) : [];
        if (byUnit.Count == 1)
        {
            EquipmentKind? thing = NameWords.ThingOf(words)?.Kind ?? (byUnit[0] is Quantity.Power or Quantity.Current ? EquipmentKind.Pump : null);
            return Checked(byUnit[0], thing, NameWords.VesselOf(words), s, unit, units, $"its unit is {unit}", Certainty.Likely);
        }

        if (NameWords.ThingOf(words) is { Kind: EquipmentKind.Pump } && s.Least >= -1 && s.Greatest > 5 && s.ChangesPerDay >= 2)
            return new(Quantity.Power, EquipmentKind.Pump, null, Certainty.Likely, $"the name says \"pump\" and the values go from {N(s.Least)} to {N(s.Greatest)} {N(s.ChangesPerDay)} times a day, as its power would");
        return null;
    }

    private static ChannelGuess Switch(EquipmentKind kind, string phrase, ChannelStatistics s)
    {
        string pattern = $"it switches {N(s.ChangesPerDay)} times a day" + (s.ShareOn is { } on ? $" and is on {Percent(on)} of the time" : "");
        bool fits = kind switch
        {
            EquipmentKind.Pump => s.ShareOn is > 0.01 && s.ChangesPerDay >= 2,
            EquipmentKind.TopUpValve or EquipmentKind.BleedValve => s.ShareOn is null or < 0.3,
            _ => true,
        };
        string reason = $"the name says \"{phrase}\"; {pattern}";
        return new(Quantity.Running, kind, null, fits ? Certainty.Sure : Certainty.Guess, fits ? reason : $"{reason}, which is odd for it");
    }

    private static ChannelGuess Checked(
        Quantity quantity, EquipmentKind? equipment, VesselKind? vessel, ChannelStatistics s, string unit, LogUnits units, string reason,
        Certainty certainty)
    {
        var told = unit.Length > 0 ? units.To(quantity, unit) : null;
        var (scale, offset) = told ?? (1, 0);
        bool unitKnown = told is not null;
        if (unitKnown && (scale, offset) != (1, 0)) reason += $", in {unit}";
        if (!unitKnown && quantity == Quantity.AirPressure && s.Mean is > 700 and < 1100) (scale, reason) = (0.1, reason + ", and the values are hPa");
        if (!unitKnown && quantity == Quantity.RelativeHumidity && s.Greatest is > 0 and <= 1.05) (scale, reason) = (100, reason + ", and the values are fractions");
        double least = (Math.Min(s.Least, s.Greatest) * scale) + offset, greatest = (s.Greatest * scale) + offset;
        var (usualLeast, usualGreatest) = UsualRange(quantity);
        double mean = (s.Mean * scale) + offset;
        if (mean < usualLeast || mean > usualGreatest)
            return new(quantity, equipment, vessel, Certainty.Guess, $"{reason}, but values from {N(least)} to {N(greatest)} {Quantities.UnitOf(quantity)} are odd for it".TrimEnd(), scale, offset);
        if (unitKnown || (quantity is Quantity.SolarIrradiance or Quantity.AirTemperature && s.DailyCycle > 0.3)) certainty = Certainty.Sure;
        return new(quantity, equipment, vessel, certainty, $"{reason}; values from {N(least)} to {N(greatest)} {Quantities.UnitOf(quantity)}".TrimEnd(), scale, offset);
    }

    /// <summary>Where the mean of such a channel lies in a garden.</summary>
    private static (double Least, double Greatest) UsualRange(Quantity quantity) => quantity switch
    {
        Quantity.AirTemperature => (-30, 45),
        Quantity.WaterTemperature => (-1, 42),
        Quantity.RelativeHumidity => (5, 100),
        Quantity.SolarIrradiance => (0, 700),
        Quantity.WindSpeed => (0, 25),
        Quantity.Rain => (0, 20),
        Quantity.AirPressure => (50, 108),
        Quantity.Ph => (3, 11),
        Quantity.DissolvedOxygen => (0, 25),
        Quantity.OxygenSaturation or Quantity.SoilMoisture or Quantity.BatteryCharge => (0, 200),
        Quantity.Power or Quantity.Current or Quantity.Conductivity => (0, 1e5),
        _ => (double.MinValue, double.MaxValue),
    };

    /// <summary>From values alone nothing is sure.</summary>
    private static ChannelGuess? ByValues(ChannelStatistics s)
    {
        if (s.Readings < 50) return null;
        string range = $"values from {N(s.Least)} to {N(s.Greatest)}";
        string daily = $"{range}, {Percent(s.DailyCycle)} of their change going with the hour of the day";
        if (s.Least >= -20 && s.Least <= 5 && s.Greatest is > 250 and < 1600 && s.DailyCycle > 0.4)
            return new(Quantity.SolarIrradiance, null, null, Certainty.Guess, $"{daily} and low at night, as sunshine does");
        if (s.Least >= -5 && s.Greatest > 8 && s.ChangesPerDay >= 6 && s.DailyCycle < 0.4 && s.Mean < 0.85 * s.Greatest)
            return new(Quantity.Power, EquipmentKind.Pump, null, Certainty.Guess, $"{range}, low and high changing {N(s.ChangesPerDay)} times a day, as the power of a cycling pump");
        if (s.Least >= 0 && s.Greatest <= 60 && s.ShareZero > 0.8 && s.Mean < 1)
            return new(Quantity.Rain, null, null, Certainty.Guess, $"{range}, zero for {Percent(s.ShareZero)} of the rows, as rain");
        if (s.Least >= 5 && s.Greatest is > 70 and <= 101 && s.DailyCycle > 0.1)
            return new(Quantity.RelativeHumidity, null, null, Certainty.Guess, $"{daily}, as humidity in percent");
        if (s.Least is > 850 and < 1100 && s.Greatest < 1100 && s.Greatest - s.Least < 120)
            return new(Quantity.AirPressure, null, null, Certainty.Guess, $"{range}, as air pressure in hPa", 0.1);
        if (s.Least > -30 && s.Greatest < 50 && s.DailyCycle > 0.25 && s.Greatest - s.Least > 6)
            return new(Quantity.AirTemperature, null, null, Certainty.Guess, $"{daily}, as air temperature");
        if (s.Least > 0 && s.Greatest < 40 && s.Greatest - s.Least < 15 && s.DailyCycle > 0.03 && s.ShareZero == 0)
            return new(Quantity.WaterTemperature, null, null, Certainty.Guess, $"{daily}, as water temperature");
        return null;
    }

    internal static string N(double value) => value.ToString(Math.Abs(value) >= 100 ? "0" : Math.Abs(value) >= 10 ? "0.#" : "0.##", CultureInfo.InvariantCulture);

    internal static string Percent(double share) => (share * 100).ToString(share < 0.02 ? "0.#" : "0", CultureInfo.InvariantCulture) + " %";
}
