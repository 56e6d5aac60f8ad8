using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Http.Features;
using Microsoft.AspNetCore.Routing;
using Runnel.Exchange;
using Runnel.Exchange.Intake;
using Runnel.Exchange.Logs;
using Runnel.Live;
using Runnel.Live.Sources;

namespace Runnel.Web.Api;

/// <summary>Readings that are posted: SenML, JSON or CSV. The answer comes when they are on the disk.</summary>
public static class PostedReadings
{
    private const int MostCsvBytes = 16 * 1024 * 1024;

    public static void MapPostedReadings(this IEndpointRouteBuilder app) =>
        app.MapPost("/api/readings", TakeAsync).WithTags("The running place").DisableAntiforgery()
            .WithSummary("Takes readings: SenML (application/senml+json), JSON, or a log as CSV (text/csv); answers when they are on the disk")
            .Accepts<string>("application/json", "application/senml+json", "text/csv")
            .Produces(StatusCodes.Status200OK, contentType: "application/json")
            .ProducesProblem(StatusCodes.Status413PayloadTooLarge).ProducesProblem(StatusCodes.Status422UnprocessableEntity);

    private static async Task<IResult> TakeAsync(HttpContext http, LivePlace live, PlaceSources sources)
    {
        bool csv = http.Request.ContentType?.StartsWith("text/csv", StringComparison.OrdinalIgnoreCase) == true;
        int most = csv ? MostCsvBytes : PayloadReader.MostBytes;
        if (http.Features.Get<IHttpMaxRequestBodySizeFeature>() is { IsReadOnly: false } limit) limit.MaxRequestBodySize = most + 1;
        if (await ReadAsync(http.Request, most, http.RequestAborted) is not { } body)
        {
            return TypedResults.Problem(
                statusCode: StatusCodes.Status413PayloadTooLarge, title: $"More than {most / 1024} kB at once.", detail: "Send the readings in parts.");
        }

        Received received;
        try
        {
            received = csv ? ReadCsv(body, live, http.RequestAborted) : sources.Payloads.ReadNamed(body, live.Now, "posted");
        }
        catch (UnreadableFileException error)
        {
            return TypedResults.Problem(statusCode: StatusCodes.Status422UnprocessableEntity, title: $"Line {error.Line}: {error.What}.", detail: error.Remedy + ".");
        }

        await sources.Line.StoreAsync(received, http.RequestAborted);
        string answer = NowJson.Text(json =>
        {
            json.WriteStartObject();
            json.WriteNumber("readings", received.Readings.Count);
            json.WriteStartArray("refused");
            foreach (var refusal in received.Refused)
            {
                json.WriteStartObject();
                json.WriteString("reason", refusal.Reason);
                json.WriteString("example", refusal.Example);
                json.WriteEndObject();
            }

            json.WriteEndArray();
            json.WriteEndObject();
        });
        return received.Readings.Count > 0 || received.Refused.Count == 0
            ? LiveEndpoints.Text(answer)
            : TypedResults.Problem(
                statusCode: StatusCodes.Status422UnprocessableEntity, title: "None of it could be taken.",
                detail: $"{received.Refused[0].Reason} ({received.Refused[0].Example}).");
    }

    private static Received ReadCsv(byte[] body, LivePlace live, CancellationToken cancel)
    {
        using var stream = new MemoryStream(body);
        var log = LogReader.Read(stream, live.Place, LogReadOptions.Default with { Now = live.Now }, null, cancel);
        return new Received(log.Readings, [.. log.Skipped.Select(s => new Refusal(s.Reason, $"{s.Count} rows, first in line {s.FirstLine}"))]);
    }

    private static async Task<byte[]?> ReadAsync(HttpRequest request, int most, CancellationToken cancel)
    {
        if (request.ContentLength > most) return null;
        using var body = new MemoryStream();
        byte[] part = new byte[64 * 1024];
        int read;
        while ((read = await request.Body.ReadAsync(part, cancel)) > 0)
        {
            body.Write(part, 0, read);
            if (body.Length > most) return null;
        }

        return body.ToArray();
    }
}
