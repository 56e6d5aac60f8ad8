using System.CommandLine;
using Runnel.Exchange.Reckoner;
using Runnel.Place.PlaceFiles;
using Runnel.Science.Reckoning;

namespace Runnel.Cli.Reckoner;

/// <summary><c>runnel reckon</c>: the trade's sums, one by one or for a whole table.</summary>
internal static class ReckonCommand
{
    private const string Example = "runnel reckon ammonia --temp_c 25 --ph 8 --tan_mg_n_l 1";

    /// <summary>The command; of the many relations only the one that the arguments name is made ready.</summary>
    public static Command Create(Terminal terminal, IReadOnlyList<string> args)
    {
        var json = new Option<bool>("--json") { Description = "Print JSON instead of text.", Recursive = true };
        var name = new Argument<string?>("NAME")
        {
            Description = "What to reckon; 'runnel reckon list' shows all, and 'runnel reckon NAME --help' its inputs.",
            Arity = ArgumentArity.ZeroOrOne,
        };
        var command = new WorkedCommand("reckon", "Answers the sums of the trade: water tests, doses, air, feed, plants, pipes, weather.", Example) { name, json };
        var rest = new Argument<string[]>("REST") { Arity = ArgumentArity.ZeroOrMore, Hidden = true };
        command.Add(rest);
        command.SetAction(parsed => Unknown(parsed.GetValue(name)));

        var list = new WorkedCommand("list", "Lists everything that can be reckoned.", "runnel reckon list --json");
        list.SetAction(async parsed =>
        {
            await terminal.Out.WriteAsync(parsed.GetValue(json) ? ReckonerJson.WriteList(Catalogue.All) + "\n" : ReckonText.List());
            return ExitCodes.Done;
        });
        command.Add(list);
        if (args.Count > 1 && args[0] == "reckon")
        {
            var named = args.Skip(1).Where(a => !a.StartsWith('-')).Select(Catalogue.Find).FirstOrDefault(r => r is not null);
            if (named is not null)
            {
                name.Hidden = true;
                command.Add(RelationCommand.Create(named, json, terminal));
            }
        }

        return command;
    }

    /// <summary>Names of relations and inputs may be written with hyphens, underscores or capitals, as tables of the field do; here they get their one form.</summary>
    public static IReadOnlyList<string> Normal(IReadOnlyList<string> args) => args is not ["reckon", ..] ? args
        : [.. args.Select((a, i) => a.StartsWith("--", StringComparison.Ordinal) ? Underscored(a) : i == 1 ? Catalogue.Find(a)?.Name ?? a : a)];

    private static string Underscored(string option)
    {
        int end = option.IndexOf('=', StringComparison.Ordinal);
        string name = end < 0 ? option : option[..end];
        return "--" + name[2..].Replace('-', '_').Replace('.', '_').ToLowerInvariant() + option[name.Length..];
    }

    private static int Unknown(string? name)
    {
        if (string.IsNullOrEmpty(name)) throw RefusedException.WrongUsage("reckon", "no relation is named", "See 'runnel reckon list', and 'runnel reckon --help'");
        int limit = Math.Max(2, name.Length / 3);
        string[] near =
        [
            .. Catalogue.All.Select(r => (r.Name, Far: NearestName.Distance(r.Name, name.ToLowerInvariant(), limit))).Where(r => r.Far <= limit)
                .OrderBy(r => r.Far).Take(3).Select(r => r.Name),
        ];
        string remedy = near.Length > 0 ? $"Nearest: {string.Join(", ", near)}; 'runnel reckon list' shows all" : "'runnel reckon list' shows all";
        throw RefusedException.WrongUsage("reckon", $"'{name}' is not known", remedy);
    }
}
