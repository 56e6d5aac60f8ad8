using Runnel.Cli.Findings;
using Runnel.Exchange.Survey;
using Runnel.Place.PlaceFiles;
using Runnel.Web.YourLog;

namespace Runnel.Cli.Places;

/// <summary>Shows what was guessed, and asks what a log cannot tell; a line an answer, an empty line for "as proposed".</summary>
internal sealed class NewDialogue(Terminal terminal, LogSurvey survey, NewAnswers answers)
{
    /// <summary>Who answers wrongly this often is better served by the options and the help.</summary>
    private const int MostRounds = 5;

    private bool _ended;

    /// <summary>The answers; what is still missing when the input ends is refused with the option that gives it.</summary>
    public async Task<PlaceAnswers> RunAsync(bool ask, CancellationToken cancel)
    {
        await terminal.Error.WriteAsync(Guesses());
        if (ask) await ConfirmColumnsAsync(cancel);
        if (!answers.IsSet("zone") && !ask && NewAnswers.ZoneOfThisComputer() is { } zone)
        {
            answers.Set("zone", zone);
            await terminal.TellAsync($"the time zone is taken as that of this computer, {zone}.");
        }

        for (int round = 0; ; round++)
        {
            if (ask) await AskAsync(cancel);
            if (answers.Check(out var errors) is { } complete) return complete;
            if (!ask || _ended || round == MostRounds)
            {
                throw new RefusedException(ExitCodes.WrongUsage, [.. errors.Select(e => RefusedException.Line(e.Option, e.Words, $"Give it with {e.Option}"))]);
            }

            foreach (var (option, words) in errors)
            {
                await terminal.Error.WriteLineAsync(words);
                if (option == "--channel") await ConfirmColumnsAsync(cancel);
                else answers.Forget(option);
            }
        }
    }

    private string Guesses()
    {
        var page = new PlainText(80);
        page.Sentence($"The log: {survey.Rows} rows over {Wording.Plain(survey.Days, 1)} days, {survey.FirstTime} to {survey.LastTime}.");
        foreach (string remark in survey.Remarks) page.Sentence(remark, "  ", "- ");
        for (int i = 0; i < survey.Channels.Count; i++)
        {
            page.Sentence($"{survey.Channels[i].Name}: {answers.Choice(i)?.Value ?? "left out"}", "  ");
            page.Sentence(GuessWords.Why(survey.Channels[i]), "      ");
        }

        return page.ToString();
    }

    private async Task ConfirmColumnsAsync(CancellationToken cancel)
    {
        while (await AnswerAsync("Enter where this is right; else NAME=MEASURES[:OF], or NAME= to leave one out:", cancel) is { Length: > 0 } change)
        {
            if (answers.Change(change) is { } error) await terminal.Error.WriteLineAsync($"Not understood: {error}.");
        }
    }

    private async Task AskAsync(CancellationToken cancel)
    {
        foreach (var question in NewAnswers.Questions)
        {
            if (answers.IsSet(question.Field) || !answers.IsWanted(question)) continue;
            string? proposed = question.Field == "zone" ? NewAnswers.ZoneOfThisComputer() : null;
            await terminal.Error.WriteLineAsync($"  ({question.Hint})");
            if (await AnswerAsync($"{question.Words}{(proposed is null ? "" : $" [{proposed}]")}:", cancel) is not { } answer) return;
            answers.Set(question.Field, answer.Length == 0 ? proposed ?? "" : answer);
        }
    }

    private async Task<string?> AnswerAsync(string question, CancellationToken cancel)
    {
        if (_ended) return null;
        await terminal.Error.WriteAsync(question + " ");
        await terminal.Error.FlushAsync(cancel);
        // A console reads on the calling thread whatever it is asked, so it gets one of its own: Ctrl-C must not wait for Enter.
        string? line = await Task.Run(terminal.In.ReadLine, cancel).WaitAsync(cancel);
        // What is typed on a screen brings its own line break; what comes from a file does not.
        if (!terminal.CanAsk) await terminal.Error.WriteLineAsync();
        _ended = line is null;
        return line?.Trim();
    }
}
