using System.CommandLine;
using System.Globalization;
using Runnel.Cli.Inputs;
using Runnel.Exchange;
using Runnel.Exchange.Reckoner;
using Runnel.Science.Reckoning;

namespace Runnel.Cli.Reckoner;

/// <summary><c>runnel reckon NAME</c>: one relation, its inputs as options.</summary>
internal static class RelationCommand
{
    public static Command Create(Relation relation, Option<bool> json, Terminal terminal)
    {
        var table = new Option<string?>("--table") { Description = "Reckon every row of this CSV, whose columns are named as the inputs.", HelpName = "FILE" };
        var to = new Option<string?>("--to") { Description = "Write the table to this file instead of the screen.", HelpName = "FILE" };
        var command = new WorkedCommand(relation.Name, $"{relation.Question} {relation.Explanation}", Example(relation)) { table, to };
        // Takes whatever is no option, so that a wrong name is told with the right ones.
        var rest = new Argument<string[]>("REST") { Arity = ArgumentArity.ZeroOrMore, Hidden = true };
        command.Add(rest);
        var inputs = relation.Inputs.ToDictionary(i => i, i => OptionOf(relation, i));
        foreach (var option in inputs.Values) command.Add(option);
        var inOtherUnits = relation.Inputs.SelectMany(i => i.InOtherUnits.Select(o => (o.Name, Option: new Option<string[]>("--" + o.Name) { Arity = ArgumentArity.ZeroOrMore, Hidden = true }))).ToArray();
        foreach (var (_, option) in inOtherUnits) command.Add(option);
        command.SetAction(async (parsed, cancel) =>
        {
            if (parsed.GetValue(rest) is [var extra, ..]) throw Extra(relation, extra);
            var given = new List<KeyValuePair<string, string>>();
            foreach (var (input, option) in inputs)
            {
                if (parsed.GetResult(option) is not { Implicit: false }) continue;
                string[] texts = parsed.GetValue(option) ?? [];
                if (texts.Length == 0) throw Refused([new Problem(input.Name, "is named without a value", $"Give {input.Words}, {input.Range}")]);
                given.AddRange(texts.Select(text => KeyValuePair.Create(input.Name, text.Length == 0 ? " \"\"" : text)));
            }

            given.AddRange(inOtherUnits.SelectMany(o => (parsed.GetValue(o.Option) ?? []).Select(text => KeyValuePair.Create(o.Name, text))));
            if (parsed.GetValue(table) is { } file)
            {
                if (parsed.GetValue(json)) throw RefusedException.WrongUsage("--json", "a table comes back as a table", "Leave out --json or --table");
                return await TableAsync(relation, given, file, parsed.GetValue(to), terminal, cancel);
            }

            if (parsed.GetValue(to) is not null) throw RefusedException.WrongUsage("--to", "there is no table to write", "Give --table with it");
            var (answer, problems) = relation.Solve(given);
            if (answer is null) throw Refused(problems);
            await terminal.Out.WriteAsync(parsed.GetValue(json) ? ReckonerJson.Write(answer) + "\n" : ReckonText.Of(answer));
            return ExitCodes.Done;
        });
        return command;
    }

    private static async Task<int> TableAsync(
        Relation relation, List<KeyValuePair<string, string>> forAll, string path, string? to, Terminal terminal, CancellationToken cancel)
    {
        TableReckoned done = new(0, 0, 0, "");
        try
        {
            if (to is null) done = await RunAsync(terminal.Out);
            else
            {
                await OutputFile.WriteAsync(to, async stream =>
                {
                    await using var writer = new StreamWriter(stream, leaveOpen: true);
                    done = await RunAsync(writer);
                });
            }
        }
        catch (UnreadableFileException error)
        {
            throw new RefusedException($"{path}:{error.Line}:{error.Column}", error.What, error.Remedy);
        }

        if (done.Refused == 0) return ExitCodes.Done;
        string what = done.Refused == 1 ? $"1 of {done.Rows} rows was refused" : $"{done.Refused} of {done.Rows} rows were refused, this one first";
        await terminal.Error.WriteLineAsync("runnel: " + RefusedException.Line($"{path}:{done.FirstRefused}", $"{what}: {done.FirstReason}", "The column error says why, row by row"));
        return ExitCodes.CouldNot;

        async Task<TableReckoned> RunAsync(TextWriter writer)
        {
            using var file = path == "-" ? Console.OpenStandardInput() : InputFile.Open(path);
            return await Task.Run(() => ReckonerTable.Run(relation, forAll, file, writer, cancel), cancel);
        }
    }

    private static Option<string[]> OptionOf(Relation relation, Input input)
    {
        string need = input.Default is { } text ? $"default {text}" : relation.IsOptional(input) ? "see below" : "needed";
        var choice = relation.Choices.FirstOrDefault(c => c.Groups.Any(g => g.Contains(input.Name)));
        if (choice is not null) need = $"{choice.Words}{(input.Default is { } usual ? $"; default {usual}" : choice.MayBeNone ? "; may be left out" : "")}";
        else if (input is { Optional: true, Default: null }) need = "may be left out";
        return new Option<string[]>("--" + input.Name, [.. input.AlsoNamed.Select(n => "--" + n)])
        {
            Description = $"{input.Words}: {input.Range} ({need}{(input.InOtherUnits.Count > 0 ? "; also " + string.Join(", ", input.InOtherUnits.Select(o => "--" + o.Name)) : "")}).",
            HelpName = input.Kind is InputKind.Number or InputKind.Whole && input.Unit != "1" ? input.Unit : "VALUE",
            Arity = ArgumentArity.ZeroOrMore,
        };
    }

    private static string Example(Relation relation) =>
        $"runnel reckon {relation.Name} {string.Join(" ", relation.ExampleInputs.Select(i => AsPeopleSay(relation.Find(i.Key)!, i.Value)))}";

    // A pipe of 40 mm rather than of 0.04 m, where the input has a name for it.
    private static string AsPeopleSay(Input input, string value) =>
        input.InOtherUnits.FirstOrDefault(o => o.Unit == input.UnitOnPages) is { Name: { } name, Unit: { } symbol } && UnitChoices.Of(input).FirstOrDefault(u => u.Symbol == symbol) is { } unit
            ? string.Create(CultureInfo.InvariantCulture, $"--{name} {(double.Parse(value, CultureInfo.InvariantCulture) - unit.Offset) / unit.Scale:G6}") : $"--{input.Name} {Quoted(value)}";

    private static string Quoted(string value) => value.AsSpan().IndexOfAny(" ;()") >= 0 ? $"\"{value}\"" : value;

    private static RefusedException Extra(Relation relation, string token)
    {
        string name = token.TrimStart('-').Split('=')[0];
        return token.StartsWith('-') && !double.TryParse(token, out _)
            ? Refused([new Problem(name, $"is no input of {relation.Name}", $"Its inputs are {string.Join("; ", relation.Inputs.Select(i => $"--{i.Name}, {i.Range}"))}")])
            : RefusedException.WrongUsage($"reckon {relation.Name}", $"'{token}' stands alone", "Name the input before each value, as in its --help");
    }

    private static RefusedException Refused(IReadOnlyList<Problem> problems) => new(
        ExitCodes.WrongUsage,
        [.. problems.Select(p => RefusedException.Line(p.Input.Length == 0 ? "inputs" : $"--{p.Input.Replace(" or ", " or --", StringComparison.Ordinal)}", p.What, p.Remedy))]);
}
