using Runnel.Place;

namespace Runnel.Steward;

/// <summary>Which channels of a place tell the reading core what. Positions are those of the place's channels; -1: not there.</summary>
internal sealed class Kit
{
    public int PumpRunning { get; private init; } = -1;
    public bool PumpSensed { get; private init; }
    public int PumpPower { get; private init; } = -1;
    public int TopUpRunning { get; private init; } = -1;
    public int TopUpVolume { get; private init; } = -1;
    public int BleedRunning { get; private init; } = -1;
    public int BleedVolume { get; private init; } = -1;
    public int SumpLevel { get; private init; } = -1;
    public IReadOnlyList<int> OtherLevels { get; private init; } = [];
    public int AirTemperature { get; private init; } = -1;
    public int Humidity { get; private init; } = -1;
    public int Sun { get; private init; } = -1;
    public int Wind { get; private init; } = -1;
    public int Rain { get; private init; } = -1;
    public int WaterTemperature { get; private init; } = -1;

    public Vessel? Sump { get; private init; }
    public Equipment? TopUp { get; private init; }
    public Equipment? Bleed { get; private init; }
    public Equipment? FloatValve { get; private init; }
    public bool HasSiphon { get; private init; }

    /// <summary>Water between the switch levels, L, or null where the sump has no switches.</summary>
    public double? BandL => Sump?.BandL;

    /// <summary>The pump's running is seen somehow.</summary>
    public bool HasPump => PumpRunning >= 0 || PumpPower >= 0;

    public static Kit Of(PlaceDescription place)
    {
        var pump = place.Equipment.FirstOrDefault(e => e.Kind == EquipmentKind.Pump);
        var topUp = place.Equipment.FirstOrDefault(e => e.Kind == EquipmentKind.TopUpValve);
        var bleed = place.Equipment.FirstOrDefault(e => e.Kind == EquipmentKind.BleedValve);
        var sump = place.FindVessel(pump?.From) is { Kind: VesselKind.Sump } from
            ? from
            : place.Vessels.FirstOrDefault(v => v.Kind == VesselKind.Sump);
        int At(Quantity measures, string? of) => Position(place, c => c.Measures == measures && of is not null && c.Of == of);
        int Metered(string? of) =>
            ((Quantity[])[Quantity.Volume, Quantity.VolumeTotal, Quantity.Flow]).Select(m => At(m, of)).FirstOrDefault(p => p >= 0, -1);
        int Anywhere(Quantity measures) => Position(place, c => c.Measures == measures);
        int running = At(Quantity.Running, pump?.Id);
        int power = At(Quantity.Power, pump?.Id);
        int level = At(Quantity.Level, sump?.Id);
        return new Kit
        {
            Sump = sump,
            TopUp = topUp,
            Bleed = bleed,
            FloatValve = place.Equipment.FirstOrDefault(e => e.Kind == EquipmentKind.FloatValve),
            HasSiphon = place.Vessels.Any(v => v.Outlet == OutletKind.Siphon),
            PumpRunning = running,
            PumpSensed = running >= 0 && place.Channels[running].Seen == SeenAs.Sensed,
            PumpPower = power >= 0 ? power : At(Quantity.Current, pump?.Id),
            TopUpRunning = At(Quantity.Running, topUp?.Id),
            TopUpVolume = Metered(topUp?.Id),
            BleedRunning = At(Quantity.Running, bleed?.Id),
            BleedVolume = Metered(bleed?.Id),
            SumpLevel = level,
            OtherLevels = [.. Enumerable.Range(0, place.Channels.Count)
                .Where(i => i != level && place.Channels[i].Measures == Quantity.Level
                    && place.FindVessel(place.Channels[i].Of) is { Kind: not VesselKind.RainTank })],
            AirTemperature = Anywhere(Quantity.AirTemperature),
            Humidity = Anywhere(Quantity.RelativeHumidity),
            Sun = Anywhere(Quantity.SolarIrradiance),
            Wind = Anywhere(Quantity.WindSpeed),
            Rain = Anywhere(Quantity.Rain) is >= 0 and var r ? r : Anywhere(Quantity.RainTotal),
            WaterTemperature = Anywhere(Quantity.WaterTemperature),
        };
    }

    /// <summary>The kit in the words of the findings.</summary>
    public IReadOnlyList<string> Describe()
    {
        var words = new List<string>();
        if (PumpRunning >= 0) words.Add(PumpSensed ? "pump-running-sensed" : "pump-running");
        if (PumpPower >= 0) words.Add("pump-power");
        if (TopUpRunning >= 0) words.Add("top-up-running");
        if (TopUpVolume >= 0) words.Add("top-up-volume");
        if (BleedRunning >= 0) words.Add("bleed-running");
        if (BleedVolume >= 0) words.Add("bleed-volume");
        if (SumpLevel >= 0) words.Add("sump-level");
        if (OtherLevels.Count > 0) words.Add("vessel-level");
        if (AirTemperature >= 0) words.Add(Humidity >= 0 && Sun >= 0 ? "weather" : "air-temperature");
        if (Rain >= 0) words.Add("rain");
        return words;
    }

    private static int Position(PlaceDescription place, Predicate<Channel> wanted)
    {
        for (int i = 0; i < place.Channels.Count; i++)
        {
            if (wanted(place.Channels[i])) return i;
        }

        return -1;
    }
}
