using Microsoft.AspNetCore.Components;
using Microsoft.AspNetCore.Http;
using Runnel.Science.Reckoning;

namespace Runnel.Web.Reckoner;

public sealed partial class RelationPage : ComponentBase
{
    [Parameter] public required string Name { get; set; }

    [CascadingParameter] public required HttpContext Http { get; set; }

    private AskedSum? Asked { get; set; }

    private Relation Relation => Asked!.Relation;

    private AnswerChart? Chart { get; set; }

    private IReadOnlyList<Asking> Blocks { get; set; } = [];

    // Whatever differs from the usual is not hidden away.
    private bool OpensMore => Relation.Inputs.Any(i => i.Default is not null && Asked!.TextOf(i) != i.Default && Asked.TextOf(i).Length > 0)
        || Blocks.Any(b => b.IsUsual && b.Groups.Skip(1).SelectMany(g => g).Any(i => Asked!.TextOf(i).Length > 0))
        || Asked!.Errors.Any(e => Relation.Find(e.Field)?.Default is not null);

    // The answer itself, in type that is read at arm's length; a look-up whose first figure is missing says the rest in words.
    private string? Headline => Asked?.Answer?.Say(Relation.MainOutput.Name) is { Length: <= 40 } said and not "none" && Relation.MainOutput.Unit != "time" ? said : null;

    protected override void OnInitialized()
    {
        if (Catalogue.Find(Name) is not { } relation)
        {
            Http.Response.StatusCode = StatusCodes.Status404NotFound;
            return;
        }

        Asked = AskedSum.Of(relation, Http.Request.Query);
        Blocks = Asking.Of(relation);
        Chart = AnswerChart.Of(Asked);
        if (Asked.Answer is null) Http.Response.StatusCode = StatusCodes.Status422UnprocessableEntity;
    }

    private static string Capital(string words) => Asking.Capital(words);
}
