using Spectre.Console;

namespace Runnel.Cli;

/// <summary>Shows how far a long piece of work has come: a bar on a screen, now and then a line in a file.</summary>
/// <param name="terminal">Where to show it.</param>
/// <param name="what">One word for the work.</param>
/// <param name="lines">Where there is no screen, tell it in lines; not worth it for work that is soon over.</param>
internal sealed class WorkProgress(Terminal terminal, string what, bool lines)
{
    private const double LineEvery = 0.05;

    /// <summary>Runs the work; it reports the share done, 0 to 1, and the words for it.</summary>
    public async Task<T> RunAsync<T>(Func<Action<double, string>, Task<T>> work) =>
        terminal.ShowsBars ? await WithBarAsync(work) : await work(lines ? Lines() : (_, _) => { });

    private async Task<T> WithBarAsync<T>(Func<Action<double, string>, Task<T>> work)
    {
        var screen = AnsiConsole.Create(new AnsiConsoleSettings { Out = new AnsiConsoleOutput(terminal.Error) });
        return await screen.Progress()
            .AutoClear(true)
            .Columns(new TaskDescriptionColumn(), new ProgressBarColumn(), new PercentageColumn())
            .StartAsync(async context =>
            {
                var bar = context.AddTask(what, maxValue: 1);
                return await work((done, words) =>
                {
                    bar.Description = Markup.Escape($"{what}: {words}");
                    bar.Value = done;
                });
            });
    }

    private Action<double, string> Lines()
    {
        double next = LineEvery;
        return (done, words) =>
        {
            if (done < next) return;
            next = done + LineEvery;
            terminal.Error.WriteLine($"{what}: {words}");
            terminal.Error.Flush();
        };
    }
}
