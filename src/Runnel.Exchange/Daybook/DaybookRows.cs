using Runnel.Exchange.Csv;
using Runnel.Exchange.Logs;
using Runnel.Place;
using Runnel.Place.PlaceFiles;

namespace Runnel.Exchange.Daybook;

/// <summary>Takes the rows of a daybook one by one.</summary>
internal sealed class DaybookRows(DaybookColumns columns, PlaceDescription place)
{
    private static readonly HashSet<string> AboutWater = ["drained", "filled-by-hand", "carried-off"];
    private readonly TimeText _times = new();
    private readonly SortedDictionary<string, (int Count, long Line)> _unknownOf = new(StringComparer.Ordinal);
    private (int Count, long Line, string First) _noAmount;
    private (int Count, long Line) _assumedLitres;
    private (int Count, long Line) _plainGallons;

    public SkipTally Tally { get; } = new();

    /// <summary>Entries in file order, their times not yet settled.</summary>
    public List<DaybookEntry> Entries { get; } = [];

    /// <summary>The written time of each entry.</summary>
    public RawReadings Times { get; } = new();

    public void Take(CsvRows row)
    {
        if (row.Fault != CsvFault.None)
        {
            Tally.Add(row.Fault == CsvFault.TextAfterQuote ? "text after the closing quote" : "a quote that is never closed", row.Line);
            return;
        }

        string entry = NameOf(Field(row, columns.Entry));
        string note = Field(row, columns.Note);
        string written = columns.Shape.Clock >= 0 ? $"{Field(row, columns.Shape.Time)} {Field(row, columns.Shape.Clock)}" : Field(row, columns.Shape.Time);
        if (entry.Length == 0 && note.Length == 0 && string.IsNullOrWhiteSpace(written)) return;
        var time = _times.Read(written);
        if (time.Kind == TimeKind.None)
        {
            if (!Tally.Again("time not understood", 0, row.Line))
                Tally.First("time not understood", 0, row.Line, string.IsNullOrWhiteSpace(written) ? "no time" : $"time not understood (first: \"{written.Trim()}\")");
            return;
        }

        if (columns.Shape.Offset is { } offset && time.Kind == TimeKind.Local)
            time = time with { Kind = TimeKind.Moment, Ticks = time.Ticks - offset.Ticks };
        if (entry.Length == 0)
        {
            if (note.Length == 0)
            {
                Tally.Add("nothing is said to have been done", row.Line);
                return;
            }

            entry = "note";
        }

        double? litres = LitresOf(row, entry, ref note);
        string? of = OfOf(row, ref note);
        Times.Add(0, time, Entries.Count, row.Line);
        Entries.Add(new DaybookEntry(default, entry, of, litres, NullIfEmpty(Field(row, columns.By)), NullIfEmpty(note)));
    }

    public List<string> Remarks()
    {
        var remarks = new List<string>();
        foreach (var (of, (count, line)) in _unknownOf)
        {
            string near = NearestName.To(of, Declared()) is { } known ? $", nearest: {known}" : "";
            remarks.Add($"\"{of}\" is not in the place file (line {line}{near}): {Entry(count)} counted for the loop as a whole.");
        }

        if (_noAmount.Count > 0)
            remarks.Add($"The amount of {Entry(_noAmount.Count)} not understood (first: \"{_noAmount.First}\" in line {_noAmount.Line}): taken without litres.");
        if (_assumedLitres.Count > 0)
            remarks.Add($"The amount of {Entry(_assumedLitres.Count)} without a unit (first in line {_assumedLitres.Line}): taken as litres.");
        if (_plainGallons.Count > 0)
            remarks.Add($"The amount of {Entry(_plainGallons.Count)} in gallons of no country (first in line {_plainGallons.Line}): taken without litres. Write [gal_us] (3.785 L) or [gal_br] (4.546 L).");
        return remarks;
    }

    private static string Entry(int count) => count == 1 ? "1 entry is" : $"{count} entries are";

    private double? LitresOf(CsvRows row, string entry, ref string note)
    {
        string amount = Field(row, columns.Amount);
        string unit = Field(row, columns.Unit);
        if (amount.Length == 0) return null;
        if (unit.Length == 0 && ValueText.SplitUnit(amount, out var number, out var behind)) (amount, unit) = (number.ToString(), behind.ToString());
        double value = 0;
        bool isNumber = amount.Length > 0 && ValueText.TryNumber(amount, columns.Shape.Separator == ',', out value) && value >= 0;
        double? factor = unit.Length > 0 ? WaterUnits.Find(unit) : columns.AmountIsLitres || AboutWater.Contains(entry) ? 1 : null;
        if (isNumber && factor is { } litres)
        {
            if (unit.Length == 0 && !columns.AmountIsLitres) Count(ref _assumedLitres, row.Line);
            return value * litres;
        }

        // What is not water, or not understood, is kept in words.
        note = $"{Field(row, columns.Amount)} {Field(row, columns.Unit)}".Trim() + (note.Length > 0 ? $"; {note}" : "");
        if (isNumber && WaterUnits.IsPlainGallon(unit)) Count(ref _plainGallons, row.Line);
        else if (!isNumber || AboutWater.Contains(entry))
            _noAmount = (_noAmount.Count + 1, _noAmount.Count == 0 ? row.Line : _noAmount.Line, _noAmount.Count == 0 ? $"{amount} {unit}".Trim() : _noAmount.First);
        return null;
    }

    private string? OfOf(CsvRows row, ref string note)
    {
        string of = Field(row, columns.Of);
        if (of.Length == 0) return null;
        string plain = Headings.Plain(of);
        if (plain is "loop" or "place" or "all" or "whole loop" or "the loop") return null;
        foreach (string id in Declared())
        {
            if (Headings.Plain(id) == plain) return id;
        }

        _unknownOf[of] = _unknownOf.TryGetValue(of, out var seen) ? (seen.Count + 1, seen.Line) : (1, row.Line);
        note = note.Length > 0 ? $"{of}: {note}" : of;
        return null;
    }

    private IEnumerable<string> Declared() =>
        place.Vessels.Select(v => v.Id).Concat(place.Equipment.Select(e => e.Id)).Concat(place.Channels.Select(c => c.Id));

    private static void Count(ref (int Count, long Line) tally, long line) => tally = (tally.Count + 1, tally.Count == 0 ? line : tally.Line);

    private static string NameOf(string entry) => Headings.Plain(entry).Replace(' ', '-');

    private static string? NullIfEmpty(string text) => text.Length == 0 ? null : text;

    private static string Field(CsvRows row, int column) => column >= 0 && column < row.Count ? row[column].Trim().ToString() : "";
}
