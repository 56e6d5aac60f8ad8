using System.CommandLine;
using System.Text.Json;
using Runnel.Cli.Findings;
using Runnel.Cli.Inputs;
using Runnel.Place;
using Runnel.Place.PlaceFiles;
using Runnel.Twin.Water;

namespace Runnel.Cli.Places;

/// <summary><c>runnel inspect</c>: whether a place file is sound, and what it says.</summary>
internal static class InspectCommand
{
    public static Command Create(Terminal terminal)
    {
        var file = new Argument<string>("FILE") { Description = "The place file." };
        var json = new Option<bool>("--json") { Description = "Print JSON instead of text." };
        var command = new WorkedCommand(
            "inspect", "Checks a place file for all that diagnose needs, tells what it says, and looks at its water as an engineer would.", "runnel inspect place.toml") { file, json };
        command.SetAction(async (parsed, cancel) =>
        {
            string path = parsed.GetValue(file)!;
            var (read, _) = await PlaceInput.ParseAsync(path, PlaceNeeds.Diagnose, cancel);
            var review = read.Place is { Hydraulics: not null } whole ? await Task.Run(() => WaterReview.Of(whole), cancel).WaitAsync(cancel) : [];
            if (parsed.GetValue(json))
            {
                await terminal.Out.WriteAsync(Json(read, review));
                return read.Place is null ? ExitCodes.CouldNot : ExitCodes.Done;
            }

            if (read.Place is not { } place) throw PlaceInput.Refused(read);
            await terminal.Out.WriteAsync(Text(place, read, review));
            return ExitCodes.Done;
        });
        return command;
    }

    private static string Text(PlaceDescription place, PlaceFileResult read, IReadOnlyList<ReviewLine> review)
    {
        var remarks = read.Remarks;
        var page = new PlainText(80);
        page.Sentence(
            $"{place.Name}: {Wording.Count(place.Vessels.Count, "vessel")}, {Wording.Count(place.Equipment.Count, "piece of equipment", "pieces of equipment")}, "
            + $"{Wording.Count(place.Channels.Count, "channel")}. Nothing is wrong with the file.");
        page.Heading("Channels");
        page.Table(
            ["id", "measures", "of"],
            [.. place.Channels.Select(c => (IReadOnlyList<string>)[c.Id, Quantities.NameOf(c.Measures), c.Of ?? "the place"])]);
        page.Heading("Water");
        foreach (var line in review)
        {
            page.Sentence(line.Told, "           ", $"  {Name(line.Verdict),-7}  ");
        }

        if (review.Count == 0)
        {
            string first = read.HydraulicProblems is [var problem, ..] ? $"{problem.What}. {problem.Remedy}." : "";
            page.Sentence($"The file does not tell enough of it to look further: {first}", "  ");
        }

        if (remarks.Count > 0) page.Heading("Remarks");
        foreach (string remark in remarks) page.Sentence(remark, "  ", "- ");
        return page.ToString();
    }

    private static string Name(ReviewVerdict verdict) => verdict.ToString().ToLowerInvariant();

    private static string Json(PlaceFileResult read, IReadOnlyList<ReviewLine> review) =>
        JsonSerializer.Serialize(
            new
            {
                place = read.Place?.Name,
                problems = read.Problems.Select(p => new
                {
                    file = p.File,
                    line = p.Line,
                    column = p.Column,
                    key = p.KeyPath,
                    found = p.Found,
                    expected = p.Expected,
                    nearest = p.Nearest,
                    what = p.What,
                    remedy = p.Remedy,
                }),
                remarks = read.Remarks,
                review = review.Select(r => new
                {
                    of = r.Of,
                    rule = r.Rule,
                    value = r.Value,
                    limit = r.Limit,
                    unit = r.Unit,
                    margin = r.Margin,
                    source = r.Source,
                    verdict = Name(r.Verdict),
                    told = r.Told,
                }),
            }) + "\n";
}
