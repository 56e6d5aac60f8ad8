using System.Globalization;
using NodaTime;
using NodaTime.Text;
using Runnel.Place;
using Runnel.Place.PlaceFiles;
using Runnel.Science.Units;

namespace Runnel.Twin.Faults;

/// <summary>A fault as read from text, or what is wrong with the text.</summary>
/// <param name="Planned">What was read; null where there is a problem.</param>
/// <param name="Problem">What is wrong.</param>
/// <param name="Remedy">What to write instead.</param>
public sealed record FaultReading(PlannedFault? Planned, string Problem = "", string Remedy = "");

/// <summary>Reads faults as people write them: NAME[:THING]@TIME[,RATE], as in <c>drain-fouling:trout-tank@5 d,8 %/d</c>.</summary>
/// <remarks>A leak may also tell the height of its hole and its hours: <c>leak:trout-tank@5 d,6 L/h,300 mm,20:00-06:00</c>.</remarks>
public static class FaultText
{
    private const string Form = "Write NAME[:THING]@TIME[,RATE], as in --fault \"pump-stopped@6 h\" or --fault \"drain-fouling:trout-tank@5 d,8 %/d\"";
    private static readonly LocalTimePattern Clock = LocalTimePattern.CreateWithInvariantCulture("H':'mm");

    /// <summary>Reads one.</summary>
    /// <param name="text">As written.</param>
    /// <param name="place">The place whose parts it may name.</param>
    public static FaultReading Read(string text, PlaceDescription place)
    {
        ArgumentNullException.ThrowIfNull(text);
        ArgumentNullException.ThrowIfNull(place);
        string[] halves = text.Split('@', 2, StringSplitOptions.TrimEntries), what = halves[0].Split(':', 2, StringSplitOptions.TrimEntries);
        if (FaultCatalogue.Find(what[0]) is not { } kind)
        {
            string? near = NearestName.To(what[0], FaultCatalogue.All.Select(k => k.Name));
            return new(null, $"there is no fault {what[0]}", near is null ? "See runnel forecast --help for their names" : $"Did you mean {near}? See runnel forecast --help for all names");
        }

        var fits = kind.Fits(place);
        if (fits.Count == 0) return new(null, $"{kind.Name} fits nothing at this place", "Choose another fault, or describe the part in the place file");
        string? of = what.Length > 1 ? what[1] : null;
        if (of is not null && !fits.Contains(of))
        {
            return new(null, $"{kind.Name} cannot be of {of}", $"Write one of: {string.Join(", ", fits)}");
        }

        if (halves.Length < 2) return new(null, $"{kind.Name} does not tell when it begins", Form);
        string[] parts = halves[1].Split(',', StringSplitOptions.TrimEntries);
        if (Amount(parts[0], "h") is not (>= 0 and var hours)) return new(null, "its time is not understood", "Write a time from the beginning with its unit, as in --fault \"pump-stopped@6 h\"");
        var fault = new Fault(kind.Name, of);
        foreach (string part in parts[1..])
        {
            if (With(fault, kind, part) is not { } more) return new(null, $"{part} is not understood for {kind.Name}", RateForm(kind));
            fault = more;
        }

        return new(new(fault, hours * 3600));
    }

    private static Fault? With(Fault fault, FaultKind kind, string part)
    {
        if (HoursOf(part) is { } hours) return kind.Name == "leak" ? fault with { Hours = hours } : null;
        if (kind.Unit.Length > 0 && fault.Rate is null && Amount(part, kind.Unit) is { } rate) return Allowed(kind, rate) ? fault with { Rate = rate } : null;
        return kind.Name == "leak" && Amount(part, "m") is >= 0 and var height ? fault with { HeightM = height } : null;
    }

    // A level may shift down as well as up; all else is more than nothing. What is a share of a whole is no more than the whole.
    private static bool Allowed(FaultKind kind, double rate) =>
        double.IsFinite(rate) && (kind.Name.StartsWith("switch-", StringComparison.Ordinal) || (rate > 0 && (kind.Unit != "%" || kind.Name == "valve-moved" || rate <= 1)));

    private static double? Amount(string text, string unit)
    {
        bool isShare = unit.StartsWith('%');
        var measure = Measure.Read(text);
        if (measure.Fault == MeasureFault.NoUnit) return isShare || unit == "1" ? measure.Value : null;
        var wanted = Unit.Of(unit);
        if (measure.Fault != MeasureFault.None || measure.Unit!.Dimension != wanted.Dimension) return null;
        return measure.Unit.To(wanted, measure.Value) / (isShare ? 100 : 1);
    }

    private static DailyHours? HoursOf(string text)
    {
        string[] ends = text.Split('-', StringSplitOptions.TrimEntries);
        return ends.Length == 2 && Clock.Parse(ends[0]) is { Success: true } from && Clock.Parse(ends[1]) is { Success: true } to ? new(from.Value, to.Value) : null;
    }

    private static string RateForm(FaultKind kind)
    {
        if (kind.Unit.Length == 0) return $"{kind.Name} takes a time only: --fault \"{kind.Name}@5 d\"";
        double usual = kind.Unit.StartsWith('%') ? kind.Usual * 100 : kind.Usual;
        string more = kind.Name == "leak" ? ", and if you like the height of the hole and its hours: \"leak@5 d,6 L/h,300 mm,20:00-06:00\"" : "";
        return string.Create(CultureInfo.InvariantCulture, $"Write its rate as in --fault \"{kind.Name}@5 d,{usual:0.##} {kind.Unit}\"{more}");
    }
}
