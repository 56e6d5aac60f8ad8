using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.OpenApi;
using Microsoft.AspNetCore.Routing;
using Microsoft.Extensions.DependencyInjection;
using Microsoft.OpenApi;
using Runnel.Exchange.Reckoner;
using Runnel.Science.Reckoning;

namespace Runnel.Web.Reckoner;

/// <summary>The reckoner over HTTP: an address for each relation, inputs in the query, problems after RFC 9457, all described in OpenAPI.</summary>
public static class ReckonerEndpoints
{
    public const string DescriptionAddress = "/api/openapi.json";

    public static void AddReckonerDescription(this IServiceCollection services) => services.AddOpenApi(o => o.AddDocumentTransformer((document, _, _) =>
    {
        document.Info = new OpenApiInfo { Title = "Runnel", Version = "1", Description = "The trade's sums: each answer with its units, its meaning, its cautions and its source." };
        return Task.CompletedTask;
    }));

    public static void MapReckoner(this IEndpointRouteBuilder app)
    {
        app.MapOpenApi(DescriptionAddress).ExcludeFromDescription();
        var group = app.MapGroup("/api/reckoner").WithTags("Reckoner");
        group.MapGet("/", () => TypedResults.Text(ReckonerJson.WriteList(Catalogue.All), "application/json"))
            .WithSummary("Everything that can be reckoned, with inputs, units, ranges and sources")
            .Produces(StatusCodes.Status200OK, contentType: "application/json");
        foreach (Relation relation in Catalogue.All)
        {
            group.MapGet("/" + relation.Name, (HttpRequest request) => Answer(relation, request.Query))
                .WithName(relation.Name)
                .WithSummary(relation.Question)
                .WithDescription(relation.Explanation + " Source: " + relation.Source)
                .Produces(StatusCodes.Status200OK, contentType: "application/json")
                .ProducesValidationProblem(StatusCodes.Status422UnprocessableEntity)
                .AddOpenApiOperationTransformer((operation, _, _) =>
                {
                    operation.Parameters = [.. relation.Inputs.Select(i => ParameterOf(relation, i))];
                    return Task.CompletedTask;
                });
        }
    }

    private static IResult Answer(Relation relation, IQueryCollection query)
    {
        var (answer, problems) = relation.Solve(query.SelectMany(q => q.Value.Select(v => KeyValuePair.Create(q.Key, v ?? ""))));
        if (answer is not null) return TypedResults.Text(ReckonerJson.Write(answer), "application/json");
        var errors = problems.GroupBy(p => p.Input).ToDictionary(p => p.Key, p => p.Select(e => $"{e.What}. {e.Remedy}.").ToArray());
        return TypedResults.Problem(
            title: "The inputs cannot be reckoned with.", statusCode: StatusCodes.Status422UnprocessableEntity,
            detail: problems[0].Line, extensions: new Dictionary<string, object?> { ["errors"] = errors });
    }

    private static OpenApiParameter ParameterOf(Relation relation, Input input)
    {
        var schema = new OpenApiSchema
        {
            Type = input.Kind switch { InputKind.Number => JsonSchemaType.Number, InputKind.Whole => JsonSchemaType.Integer, _ => JsonSchemaType.String },
            Format = input.Kind switch { InputKind.Date => "date", InputKind.Time => "date-time", _ => null },
        };
        if (input.Kind is InputKind.Number or InputKind.Whole)
        {
            schema.Minimum = Figure.Of(input.Least);
            schema.Maximum = Figure.Of(input.Greatest);
        }

        if (input.Choices.Count > 0) schema.Enum = [.. input.Choices.Select(c => (System.Text.Json.Nodes.JsonNode)c)];
        string usual = input.Default is { } text ? $" Default {text}." : "";
        string choice = relation.Choices.FirstOrDefault(c => c.Groups.Any(g => g.Contains(input.Name))) is { } one ? $" One of: {one.Words}." : "";
        return new OpenApiParameter
        {
            Name = input.Name,
            In = ParameterLocation.Query,
            Required = !relation.IsOptional(input),
            Schema = schema,
            Example = input.Example,
            Description = $"{input.Words}, {input.Range}.{usual}{choice}",
        };
    }
}
