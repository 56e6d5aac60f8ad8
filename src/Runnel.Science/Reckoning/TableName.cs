namespace Runnel.Science.Reckoning;

/// <summary>
/// The name under which a published table knows a relation, with what differs in its columns. Such a table is then reckoned as it stands, by the
/// name of its kind of rows, and the results bear the names of its columns.
/// </summary>
/// <param name="Name">Name of the kind of rows, kebab-case.</param>
/// <param name="Of">The relation.</param>
internal sealed partial record TableName(string Name, string Of)
{
    /// <summary>Columns under another name than the input's.</summary>
    public Dictionary<string, string> Columns { get; init; } = [];

    /// <summary>Results that the table names otherwise: its name, and the result's own.</summary>
    public Dictionary<string, string> Results { get; init; } = [];

    /// <summary>Inputs that the kind of rows says by itself.</summary>
    public Dictionary<string, string> Says { get; init; } = [];

    /// <summary>Inputs that the kind of rows has another use for.</summary>
    public string[] Without { get; init; } = [];

    /// <summary>The relation in the table's terms: its own results, and beside them those that the table names otherwise.</summary>
    public Relation Made(Relation own)
    {
        int[] again = [.. Results.Values.Select(r => own.Outputs.Index().First(o => o.Item.Name == r).Index)];
        return own with
        {
            Name = Name,
            AlsoCalled = [],
            Inputs = [.. own.Inputs.Where(i => !Without.Contains(i.Name)).Select(InItsTerms)],
            Choices = [.. own.Choices.Select(c => c with { Groups = [.. c.Groups.Where(g => !g.Any(Without.Contains))] })],
            Outputs = [.. own.Outputs, .. Results.Select(r => own.Outputs.First(o => o.Name == r.Value) with { Name = r.Key })],
            Reckon = g =>
            {
                var values = own.Reckon(g);
                return [.. values, .. again.Select(i => values[i])];
            },
        };
    }

    private Input InItsTerms(Input own)
    {
        var input = own.Also([.. own.AlsoNamed, .. Columns.Where(c => c.Value == own.Name).Select(c => c.Key)]);
        return Says.TryGetValue(own.Name, out string? said) ? input.Or(said) : input;
    }
}
