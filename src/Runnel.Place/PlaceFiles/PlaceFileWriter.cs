using System.Globalization;
using System.Text;

namespace Runnel.Place.PlaceFiles;

/// <summary>Writes the text of a first place file, with comments that say what each line is for.</summary>
public static class PlaceFileWriter
{
    private static readonly (string Id, VesselKind Kind)[] Vessels =
    [
        ("sump", VesselKind.Sump), ("fish-tank", VesselKind.FishTank), ("trough", VesselKind.Trough), ("media-bed", VesselKind.MediaBed),
        ("biofilter", VesselKind.Biofilter), ("rain-tank", VesselKind.RainTank),
    ];

    private static readonly (string Id, EquipmentKind Kind)[] Equipment =
    [
        ("sump-pump", EquipmentKind.Pump), ("top-up", EquipmentKind.TopUpValve), ("bleed", EquipmentKind.BleedValve),
        ("main-air", EquipmentKind.MainAir), ("backup-air", EquipmentKind.BackupAir), ("heater", EquipmentKind.Heater),
        ("cooler", EquipmentKind.Cooler), ("fan", EquipmentKind.Fan), ("light", EquipmentKind.Light), ("feeder", EquipmentKind.Feeder),
        ("battery", EquipmentKind.Battery), ("panels", EquipmentKind.Panels), ("zone-valve", EquipmentKind.ZoneValve),
    ];

    /// <summary>What a channel can be of, in the order in which it is best offered.</summary>
    public static IReadOnlyList<string> Things { get; } = [.. Equipment.Select(e => e.Id), .. Vessels.Select(v => v.Id)];

    /// <summary>An identifier made from a log's column name that none of <paramref name="taken"/> has.</summary>
    public static string IdFor(string column, IReadOnlyCollection<string> taken)
    {
        ArgumentNullException.ThrowIfNull(column);
        ArgumentNullException.ThrowIfNull(taken);
        string stem = SectionReader.Kebab(column);
        if (stem.Length == 0) stem = "channel";
        if (stem.Length > 50) stem = stem[..50].TrimEnd('-');
        string id = stem;
        for (int i = 2; taken.Contains(id); i++) id = string.Create(CultureInfo.InvariantCulture, $"{stem}-{i}");
        return id;
    }

    /// <summary>The text of the file. It reads back without problems for <c>diagnose</c> where a channel shows the pump or a level.</summary>
    /// <exception cref="ArgumentException">A channel is of something that is none of <see cref="Things"/>.</exception>
    public static string Write(PlaceAnswers answers)
    {
        ArgumentNullException.ThrowIfNull(answers);
        var text = new StringBuilder();
        WritePlace(text, answers);
        WriteLoop(text, answers);
        WriteVessels(text, answers);
        WriteEquipment(text, answers);
        WriteChannels(text, answers);
        return text.ToString();
    }

    private static void WritePlace(StringBuilder text, PlaceAnswers answers)
    {
        Comment(text, "The place file: what stands where, and what each channel of the log measures.");
        Comment(text, "Quantities are texts of a number and a unit. Lines that begin with # are for you: nothing reads them.");
        text.Append("\n[place]\n");
        Line(text, "name", Quoted(answers.Name));
        Line(text, "latitude", Angle(answers.LatitudeDeg, 'N', 'S'));
        Line(text, "longitude", Angle(answers.LongitudeDeg, 'E', 'W'));
        Line(text, "altitude", Quantity(answers.AltitudeM, "m"), "above the sea; thinner air holds less oxygen");
        Line(text, "time-zone", Quoted(answers.TimeZone), "days are counted in it, and times without an offset");
    }

    private static void WriteLoop(StringBuilder text, PlaceAnswers answers)
    {
        text.Append("\n[loop]\n");
        LineOrHint(text, "open-water", answers.OpenWaterM2, "m2", 2.5, "water surface that can evaporate");
        LineOrHint(text, "canopy", answers.CanopyM2, "m2", 6.5, "leaf area over the ground, seen from above");
        LineOrHint(text, "rain-catch", answers.RainCatchM2, "m2", 2.4, "area from which rain runs into the loop; \"0 m2\" under cover");
    }

    private static void WriteVessels(StringBuilder text, PlaceAnswers answers)
    {
        foreach (string id in ThingsIn(answers).Prepend("sump").Distinct())
        {
            if (KindOf(id, Vessels) is not { } kind) continue;
            text.Append("\n[[vessel]]\n");
            Line(text, "id", Quoted(id));
            Line(text, "kind", Quoted(KebabNames<VesselKind>.Of(kind)));
            if (id != "sump") continue;
            LineOrHint(text, "band", answers.BandL, "L", 65, "water between the two switch levels; leave out where the pump always runs");
            if (answers.BandL is not null) continue;
            Comment(text, "or: footprint = \"0.5 m2\", switch-low = \"150 mm\", switch-high = \"280 mm\" (above the floor)");
        }
    }

    private static void WriteEquipment(StringBuilder text, PlaceAnswers answers)
    {
        foreach (string id in ThingsIn(answers).Prepend("sump-pump").Distinct())
        {
            if (KindOf(id, Equipment) is not { } kind) continue;
            text.Append("\n[[equipment]]\n");
            Line(text, "id", Quoted(id));
            Line(text, "kind", Quoted(KebabNames<EquipmentKind>.Of(kind)));
            switch (kind)
            {
                case EquipmentKind.Pump:
                    Line(text, "from", "\"sump\"");
                    break;
                case EquipmentKind.TopUpValve:
                    LineOrHint(text, "rate", answers.TopUpRateLPerMin, "L/min", 10, "time a bucket filling: it turns seconds into litres");
                    break;
                case EquipmentKind.BleedValve:
                    LineOrHint(text, "rate", answers.BleedRateLPerMin, "L/min", 10, "time a bucket filling");
                    break;
            }
        }
    }

    private static void WriteChannels(StringBuilder text, PlaceAnswers answers)
    {
        foreach (var channel in answers.Channels)
        {
            text.Append("\n[[channel]]\n");
            Line(text, "id", Quoted(channel.Id));
            if (channel.Column is { } column && column != channel.Id) Line(text, "column", Quoted(column), "its name in the log");
            Line(text, "measures", Quoted(Quantities.NameOf(channel.Measures)));
            if (channel.Of is { } of) Line(text, "of", Quoted(of));
            if (channel.Unit is { Length: > 0 } unit) Line(text, "unit", Quoted(unit), "of the values in the log");
            if (channel.Scale != 1) Line(text, "scale", channel.Scale.ToString("R", CultureInfo.InvariantCulture), "raw values times this");
            if (channel.Offset != 0) Line(text, "offset", channel.Offset.ToString("R", CultureInfo.InvariantCulture), "and then plus this");
            if (channel.Measures is Runnel.Place.Quantity.Power or Runnel.Place.Quantity.Current)
            {
                string example = channel.Measures == Runnel.Place.Quantity.Power ? "20 W" : "0.2 A";
                Comment(text, $"running-above = \"{example}\"   # from here on it runs; left out, this is learnt");
            }
        }
    }

    private static IEnumerable<string> ThingsIn(PlaceAnswers answers)
    {
        foreach (string? of in answers.Channels.Select(c => c.Of))
        {
            if (of is null) continue;
            bool known = KindOf(of, Vessels) is not null || KindOf(of, Equipment) is not null;
            yield return known ? of : throw new ArgumentException($"{of} is none of: {string.Join(", ", Things)}", nameof(answers));
        }
    }

    // A second of a kind is numbered: fish-tank-2.
    private static T? KindOf<T>(string id, (string Id, T Kind)[] known)
        where T : struct
    {
        string stem = id.TrimEnd("0123456789".ToCharArray());
        stem = stem.Length < id.Length ? stem.TrimEnd('-') : id;
        foreach (var thing in known)
        {
            if (thing.Id == stem) return thing.Kind;
        }

        return null;
    }

    private static void LineOrHint(StringBuilder text, string key, double? value, string unit, double example, string why)
    {
        if (value is { } known) Line(text, key, Quantity(known, unit), why);
        else Comment(text, $"{key} = {Quantity(example, unit)}   # not told yet: {why}");
    }

    private static void Line(StringBuilder text, string key, string value, string? why = null)
    {
        string line = $"{key,-10} = {value}";
        text.Append(why is null ? line : $"{line,-36} # {why}").Append('\n');
    }

    private static void Comment(StringBuilder text, string comment) => text.Append("# ").Append(comment).Append('\n');

    private static string Quantity(double value, string unit) => Quoted($"{Number(value)} {unit}");

    private static string Angle(double degrees, char plus, char minus) => Quoted($"{Number(Math.Abs(degrees))} {(degrees < 0 ? minus : plus)}");

    private static string Number(double value) => value.ToString("0.######", CultureInfo.InvariantCulture);

    private static string Quoted(string value)
    {
        var quoted = new StringBuilder("\"");
        foreach (var rune in value.EnumerateRunes())
        {
            if (rune.Value is '"' or '\\') quoted.Append('\\').Append((char)rune.Value);
            else if (Rune.IsControl(rune) || rune.Value is 0xFFFD or 0xFEFF) quoted.Append(CultureInfo.InvariantCulture, $"\\u{rune.Value:X4}");
            else quoted.Append(rune.ToString());
        }

        return quoted.Append('"').ToString();
    }
}
