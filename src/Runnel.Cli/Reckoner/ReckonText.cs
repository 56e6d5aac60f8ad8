using System.Globalization;
using Runnel.Cli.Findings;
using Runnel.Science.Reckoning;

namespace Runnel.Cli.Reckoner;

/// <summary>Answers as text for people at a terminal.</summary>
internal static class ReckonText
{
    private const int Width = 100;
    private const int MostInColumn = 32;

    public static string Of(Answer answer)
    {
        var relation = answer.Relation;
        var text = new PlainText(Width);
        string[] names = [.. relation.Outputs.Select(o => o.Name)], figures = [.. relation.Outputs.Select((o, i) => Shown(answer.Values[i], o.Unit))];
        // A list of many figures stands under its words, lest it push all others off the screen.
        int nameWidth = names.Max(n => n.Length), figureWidth = figures.Where(f => f.Length <= MostInColumn).DefaultIfEmpty("").Max(f => f.Length);
        for (int i = 0; i < names.Length; i++)
        {
            bool isLong = figures[i].Length > MostInColumn;
            text.Line($"{names[i].PadRight(nameWidth)}  {(isLong ? "below" : figures[i]).PadRight(figureWidth)}  {relation.Outputs[i].Words}");
            if (isLong) text.Sentence(figures[i]);
        }

        text.Blank().Sentence(answer.Meaning);
        foreach (string caution in relation.Cautions) text.Sentence("Caution: " + caution);
        return text.Blank().Sentence("Source: " + relation.Source).ToString();
    }

    public static string List()
    {
        var text = new PlainText(Width);
        int width = Catalogue.All.Max(r => r.Name.Length);
        foreach (var subject in Catalogue.Subjects)
        {
            text.Heading(subject.Question);
            foreach (var relation in Catalogue.All.Where(r => r.Subject == subject)) text.Line($"{relation.Name.PadRight(width)}  {relation.Question}");
        }

        return text.Blank().Line("runnel reckon NAME --help shows inputs, units and ranges.").ToString().TrimStart('\n');
    }

    private static string Shown(Value value, string unit) => value.IsNone ? "none"
        : value.Text ?? Figure.WithUnit(value.Number.ToString("G7", CultureInfo.InvariantCulture), unit);
}
