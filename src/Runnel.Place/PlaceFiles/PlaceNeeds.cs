namespace Runnel.Place.PlaceFiles;

/// <summary>What a command cannot do without in a place file.</summary>
/// <param name="Command">Its name, for the problem.</param>
/// <param name="Site">Latitude, longitude and altitude: for sun, evaporation and plant use.</param>
/// <param name="TimeZone">Civil time: for days, and for times without an offset.</param>
/// <param name="Channels">At least one channel.</param>
/// <param name="PumpOrLevel">A channel from which the loop can be read.</param>
public sealed record PlaceNeeds(string Command, bool Site, bool TimeZone, bool Channels, bool PumpOrLevel)
{
    /// <summary>Reading a loop from its log.</summary>
    public static PlaceNeeds Diagnose { get; } = new("diagnose", Site: true, TimeZone: true, Channels: true, PumpOrLevel: true);

    /// <summary>Taking readings in.</summary>
    public static PlaceNeeds Import { get; } = new("import", Site: false, TimeZone: true, Channels: true, PumpOrLevel: false);

    /// <summary>Reckoning what the water will do.</summary>
    public static PlaceNeeds Forecast { get; } = new("forecast", Site: false, TimeZone: false, Channels: false, PumpOrLevel: false) { Hydraulics = true };

    /// <summary>How long fish can go without air.</summary>
    public static PlaceNeeds TimeLeft { get; } = new("time-left", Site: false, TimeZone: false, Channels: false, PumpOrLevel: false) { Fish = true };

    /// <summary>Fish, their tanks and their air, in full.</summary>
    public bool Fish { get; init; }

    /// <summary>Running the place.</summary>
    public static PlaceNeeds Run { get; } = new("run", Site: true, TimeZone: true, Channels: true, PumpOrLevel: true) { Wiring = true };

    /// <summary>Where readings come from, in full.</summary>
    public bool Wiring { get; init; }

    /// <summary>How the water moves, in full.</summary>
    public bool Hydraulics { get; init; }

    /// <summary>A file may be as short as it likes.</summary>
    public static PlaceNeeds Nothing { get; } = new("", Site: false, TimeZone: false, Channels: false, PumpOrLevel: false);

    internal void Check(PlaceDraft draft, ProblemList problems)
    {
        CheckPlace(draft.Sections, problems);
        var all = draft.Sections.Channels;
        if (Channels && all.Count == 0)
        {
            problems.AddMissing(
                new(1, 1), "channel", "[[channel]]", $"{Command} needs at least one [[channel]], and this file has none",
                "Add one for each column of the log, with id and measures");
            return;
        }

        // A channel with a problem of its own may be the very one: then that problem is enough.
        if (PumpOrLevel && !problems.AnyAbout("channel.") && !draft.Channels.Any(c => TellsOfTheLoop(draft, c.Channel)))
        {
            problems.AddMissing(
                all[0].At, "channel", "a channel of the pump or of a level",
                $"{Command} needs a channel that shows how the loop runs, and none of these does",
                "Add a [[channel]] that measures running, power or current of a pump, or level of a vessel");
        }
    }

    private void CheckPlace(PlaceSections sections, ProblemList problems)
    {
        string[] keys = [.. Site ? (string[])["latitude", "longitude", "altitude"] : [], .. TimeZone ? (string[])["time-zone"] : []];
        if (keys.Length == 0) return;
        if (sections.Place is not { } place)
        {
            problems.AddMissing(
                new(1, 1), "place", "[place]", $"{Command} needs the section [place], and this file has none",
                $"Add [place] with name, {string.Join(", ", keys)}");
            return;
        }

        foreach (string key in keys)
        {
            if (place.Written.Contains(key)) continue;
            string example = SectionRules.Place.Find(key)!.Example;
            problems.AddMissing(place.At, $"place.{key}", example, $"{Command} needs {key} in [place]", $"Add it, as in {key} = {example}");
        }
    }

    private static bool TellsOfTheLoop(PlaceDraft draft, Channel channel) => channel.Measures switch
    {
        Quantity.Level => true,
        Quantity.Running or Quantity.Power or Quantity.Current =>
            draft.Equipment.Any(e => e.Equipment.Id == channel.Of && e.Equipment.Kind == EquipmentKind.Pump),
        _ => false,
    };
}
