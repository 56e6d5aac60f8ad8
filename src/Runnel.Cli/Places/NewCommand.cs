using System.CommandLine;
using Runnel.Cli.Inputs;
using Runnel.Exchange;
using Runnel.Exchange.Survey;
using Runnel.Place.PlaceFiles;

namespace Runnel.Cli.Places;

/// <summary><c>runnel new</c>: from a log to a place file, and on to the findings.</summary>
internal static class NewCommand
{
    public static Command Create(Terminal terminal)
    {
        var log = new Option<string>("--from-log") { Description = "The log to make it for.", HelpName = "LOG.csv", Required = true };
        var to = new Option<string>("--to") { Description = "The place file to write.", HelpName = "FILE", DefaultValueFactory = _ => "place.toml" };
        var replace = new Option<bool>("--replace") { Description = "Write over a place file that is there." };
        var yes = new Option<bool>("--yes") { Description = "Ask nothing: take the guesses and the options as they are." };
        var only = new Option<bool>("--no-diagnose") { Description = "Write the place file and stop." };
        var channels = new Option<string[]>("--channel")
        {
            Description = "What a channel of the log is, such as \"Pump=running:sump-pump\"; \"Kettle=\" leaves it out. May be given several times.",
            HelpName = "NAME=MEASURES[:OF]",
        };
        var command = new WorkedCommand(
            "new",
            "Writes a first place file for a log: guesses the channels, asks what a log cannot tell, then runs diagnose.",
            "runnel new --from-log LOG.csv\n"
            + "runnel new --from-log LOG.csv --yes --time-zone Australia/Sydney --band \"65 L\" --top-up-rate \"11.5 L/min\"")
        {
            log, to, replace, yes, only, channels,
        };
        var told = NewAnswers.Questions.Select(q => (q.Field, Option: new Option<string?>(q.Option) { Description = $"{q.Words.TrimEnd('?')}. {q.Hint}", HelpName = "ANSWER" })).ToList();
        foreach (var (_, option) in told) command.Add(option);
        command.SetAction(async (parsed, cancel) =>
        {
            string logFile = parsed.GetValue(log)!;
            string placeFile = parsed.GetValue(to)!;
            if (File.Exists(placeFile) && !parsed.GetValue(replace))
            {
                throw new RefusedException(placeFile, "there is a place file already", "Name another with --to, or add --replace to write over it");
            }

            var survey = await SurveyAsync(logFile, terminal, cancel);
            var answers = new NewAnswers(survey);
            foreach (var (field, option) in told) answers.Set(field, parsed.GetValue(option));
            foreach (string change in parsed.GetValue(channels) ?? [])
            {
                if (answers.Change(change) is { } error) throw RefusedException.WrongUsage("--channel", error, "Write NAME=MEASURES:OF");
            }

            var complete = await new NewDialogue(terminal, survey, answers).RunAsync(!parsed.GetValue(yes), cancel);
            await WriteAsync(placeFile, complete);
            await terminal.TellAsync($"{placeFile}: written. Look it over; its comments say what each line is for.");
            return parsed.GetValue(only) ? ExitCodes.Done : await DiagnoseCommand.RunAsync(new(placeFile, logFile), terminal, cancel);
        });
        return command;
    }

    private static Task<LogSurvey> SurveyAsync(string path, Terminal terminal, CancellationToken cancel) =>
        LogInput.WithFileAsync(path, "looking", terminal, (file, progress) => LogSurveyor.Look(file, progress, cancel), cancel);

    private static async Task WriteAsync(string path, PlaceAnswers answers)
    {
        string text = PlaceFileWriter.Write(answers);
        // What is written must be readable: a refusal now is better than a file that the next command rejects.
        var read = PlaceFile.Read(text, path, PlaceNeeds.Diagnose);
        if (read.Place is null) throw PlaceInput.Refused(read);
        await OutputFile.WriteAsync(path, async stream =>
        {
            await using var writer = new StreamWriter(stream, leaveOpen: true);
            await writer.WriteAsync(text);
        });
    }
}
