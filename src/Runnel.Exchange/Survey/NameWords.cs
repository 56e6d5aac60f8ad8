using System.Text;
using Runnel.Exchange.Logs;
using Runnel.Place;

namespace Runnel.Exchange.Survey;

/// <summary>What the words of a column's name point to.</summary>
internal static class NameWords
{
    private static readonly (EquipmentKind Kind, string[] Phrases)[] Things =
    [
        (EquipmentKind.TopUpValve, ["top up", "topup", "top off", "fill", "refill", "filling", "make up", "makeup", "inlet", "fill valve", "water in", "nachspeisung", "nachfuellung", "nachfüllung"]),
        (EquipmentKind.BleedValve, ["bleed", "drain", "drain valve", "dump", "waste", "purge", "spill", "outlet", "water out", "ablass"]),
        (EquipmentKind.BackupAir, ["backup air", "spare air", "emergency air", "backup blower"]),
        (EquipmentKind.MainAir, ["air pump", "airpump", "air", "blower", "aerator", "aeration", "belüfter"]),
        (EquipmentKind.Heater, ["heater", "heating", "heizung", "heizer"]),
        (EquipmentKind.Cooler, ["cooler", "chiller", "cooling"]),
        (EquipmentKind.Fan, ["fan", "vent", "ventilator"]),
        (EquipmentKind.Light, ["light", "lights", "lamp", "lighting", "licht"]),
        (EquipmentKind.Feeder, ["feeder"]),
        (EquipmentKind.Pump, ["pump", "sump pump", "sumppump", "main pump", "pumpe", "lift pump", "circulation", "circ", "float switch", "sump switch", "float"]),
        (EquipmentKind.ZoneValve, ["zone", "irrigation", "sprinkler", "watering"]),
    ];

    private static readonly (Quantity Quantity, string[] Phrases)[] Measured =
    [
        (Quantity.WaterTemperature, ["water temp", "water temperature", "watertemp", "tank temp", "tank temperature", "sump temp", "pond temp", "temp water", "temperature water", "wassertemperatur", "water t"]),
        (Quantity.AirTemperature, ["air temp", "air temperature", "airtemp", "outdoor temp", "outdoor temperature", "outside temp", "outside temperature", "ambient", "temp air", "temp out", "temp outdoor", "lufttemperatur", "dry bulb", "temperature", "temp"]),
        (Quantity.RelativeHumidity, ["relative humidity", "humidity", "rel humidity", "hum", "rh", "luftfeuchte", "luftfeuchtigkeit"]),
        (Quantity.SolarIrradiance, ["solar irradiance", "irradiance", "solar radiation", "radiation", "solar", "sun", "sunlight", "pyranometer", "ghi", "globalstrahlung"]),
        (Quantity.WindSpeed, ["wind speed", "windspeed", "wind", "anemometer", "windgeschwindigkeit"]),
        (Quantity.RainTotal, ["rain total", "total rain", "rainfall total", "rain counter", "cumulative rain", "rain accumulated", "rain year"]),
        (Quantity.Rain, ["rain", "rainfall", "precipitation", "precip", "rain gauge", "regen", "niederschlag"]),
        (Quantity.SoilMoisture, ["soil moisture", "soil", "bodenfeuchte"]),
        (Quantity.OxygenSaturation, ["oxygen saturation", "do saturation", "do sat", "o2 saturation"]),
        (Quantity.DissolvedOxygen, ["dissolved oxygen", "oxygen", "do", "o2"]),
        (Quantity.Ph, ["ph"]),
        (Quantity.Conductivity, ["conductivity", "ec", "leitfähigkeit"]),
        (Quantity.AirPressure, ["air pressure", "barometer", "barometric", "barometric pressure", "baro", "atmospheric pressure", "luftdruck"]),
        (Quantity.BatteryVoltage, ["battery voltage", "batt voltage", "batt v", "battery v", "batt volts"]),
        (Quantity.BatteryCharge, ["battery charge", "battery", "batt", "soc", "state of charge"]),
        (Quantity.Current, ["current", "amps", "amp", "ampere", "strom"]),
        (Quantity.Power, ["power", "watts", "watt", "leistung", "load"]),
        (Quantity.Level, ["level", "depth", "water level", "sump level", "tank level", "height", "pegel", "wasserstand", "distance"]),
        (Quantity.Flow, ["flow", "flow rate", "flowrate", "durchfluss", "lpm"]),
        (Quantity.VolumeTotal, ["volume total", "total volume", "water total", "total litres", "total liters", "meter", "litre count"]),
        (Quantity.Volume, ["volume", "litres", "liters", "pulses", "pulse"]),
        (Quantity.Pressure, ["pressure", "druck"]),
        (Quantity.Weight, ["weight", "mass", "gewicht"]),
    ];

    private static readonly (VesselKind Kind, string[] Phrases)[] Vessels =
    [
        (VesselKind.Sump, ["sump"]), (VesselKind.FishTank, ["fish tank", "fish", "tank"]), (VesselKind.MediaBed, ["media bed", "grow bed", "growbed", "bed"]),
        (VesselKind.Trough, ["trough", "channel bed", "raft"]), (VesselKind.RainTank, ["rain tank", "cistern", "tank rain"]), (VesselKind.Biofilter, ["biofilter", "filter"]),
    ];

    /// <summary>Lower-case words with single blanks between, a capital inside a name beginning a word, figures apart.</summary>
    public static string Words(string name)
    {
        var split = new StringBuilder(name.Length + 8);
        for (int i = 0; i < name.Length; i++)
        {
            bool camel = i > 0 && char.IsUpper(name[i]) && char.IsLower(name[i - 1]);
            bool figure = i > 0 && char.IsAsciiDigit(name[i]) != char.IsAsciiDigit(name[i - 1]) && char.IsAsciiLetterOrDigit(name[i - 1]);
            if (camel || figure) split.Append(' ');
            split.Append(name[i] is '/' or ':' ? ' ' : name[i]);
        }

        return Headings.Plain(split.ToString());
    }

    /// <summary>The equipment a name points to, and the words that do; longer phrases first.</summary>
    public static (EquipmentKind Kind, string Phrase)? ThingOf(string words) => Longest(words, Things);

    /// <summary>The quantity a name points to, and the words that do.</summary>
    public static (Quantity Quantity, string Phrase)? QuantityOf(string words) => Longest(words, Measured);

    /// <summary>The vessel a name points to.</summary>
    public static VesselKind? VesselOf(string words) => Longest(words, Vessels)?.Item1;

    private static (T, string)? Longest<T>(string words, (T Kind, string[] Phrases)[] table)
    {
        (T, string)? best = null;
        string padded = $" {words} ";
        foreach (var (kind, phrases) in table)
        {
            foreach (string phrase in phrases)
            {
                if (phrase.Length > (best?.Item2.Length ?? 0) && padded.Contains($" {phrase} ", StringComparison.Ordinal)) best = (kind, phrase);
            }
        }

        return best;
    }
}
