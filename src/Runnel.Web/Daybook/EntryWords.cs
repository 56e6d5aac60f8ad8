using Runnel.Place;
using Runnel.Web.Section;
using Runnel.Web.Words;

namespace Runnel.Web.Daybook;

/// <summary>An entry in a line.</summary>
internal static class EntryWords
{
    public static string Of(DaybookEntry entry)
    {
        string words = EntryKind.NameOf(entry.Entry);
        if (entry.Litres is { } litres) words += $" {Figures.Number(litres, litres == Math.Floor(litres) ? 0 : 1)} L";
        if (entry.Of is { } of) words += $", {SectionPlan.NameOf(of)}";
        if (!string.IsNullOrEmpty(entry.Note)) words += $": {entry.Note}";
        return words;
    }
}
