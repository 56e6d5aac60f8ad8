using Runnel.Exchange.Logs;

namespace Runnel.Exchange.Daybook;

/// <summary>Where the columns of a daybook stand; -1 for those that are not there.</summary>
internal sealed record DaybookColumns(LogShape Shape, int Entry, int Of, int Amount, int Unit, int By, int Note)
{
    private static readonly string[] EntryNames = ["entry", "event", "what", "kind", "action", "activity", "type", "job", "eintrag"];
    private static readonly string[] OfNames = ["of", "where", "vessel", "equipment", "thing", "subject", "item", "tank", "place", "id"];
    private static readonly string[] AmountNames = ["amount", "quantity", "qty", "litres", "liters", "volume", "value", "l", "menge"];
    private static readonly string[] UnitNames = ["unit", "units", "einheit"];
    private static readonly string[] ByNames = ["by", "who", "person", "author", "name", "user"];
    private static readonly string[] NoteNames = ["note", "notes", "remark", "remarks", "comment", "comments", "text", "description"];

    /// <summary>Litres are told by the heading itself.</summary>
    public bool AmountIsLitres => Amount >= 0 && Headings.Plain(Shape.Columns[Amount]) is "litres" or "liters" or "l" or "volume";

    /// <exception cref="UnreadableFileException">There is no header or no column for the entry.</exception>
    public static DaybookColumns Bind(LogShape shape)
    {
        int entry = Find(shape, EntryNames);
        if (shape.HeaderLine == 0 || entry < 0)
        {
            throw new UnreadableFileException(
                Math.Max(1, shape.HeaderLine), 1, $"no column tells what was done (columns: {LogShape.Listed(shape.Columns)})",
                "Give a header line such as time,entry,of,amount,unit,by,note");
        }

        return new(
            shape, entry, Find(shape, OfNames), Find(shape, AmountNames), Find(shape, UnitNames), Find(shape, ByNames), Find(shape, NoteNames));
    }

    private static int Find(LogShape shape, string[] names)
    {
        foreach (string name in names)
        {
            for (int i = 0; i < shape.Columns.Count; i++)
            {
                if (i != shape.Time && i != shape.Clock && Headings.Plain(shape.Columns[i]) == name) return i;
            }
        }

        return -1;
    }
}
