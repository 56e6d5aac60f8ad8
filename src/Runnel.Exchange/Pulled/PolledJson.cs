using System.Net;
using NodaTime;
using Runnel.Exchange.Intake;
using Runnel.Place;

namespace Runnel.Exchange.Pulled;

/// <summary>Asks a URL for JSON again and again, and takes from it what the pointers of the place file point at.</summary>
public sealed class PolledJson
{
    private readonly Source _source;
    private readonly IReadOnlyList<ChannelFeed> _feeds;
    private readonly PayloadReader _payloads;
    private readonly IntakeLine _line;
    private readonly HttpClient _http;
    private Instant? _lastHeard;
    private string? _trouble = "It has not been asked yet.";

    /// <param name="source">What to ask, and how often.</param>
    /// <param name="place">Names the channels that it feeds.</param>
    /// <param name="payloads">Reads what comes.</param>
    /// <param name="line">Takes it.</param>
    /// <param name="http">Asks; not for any one source alone.</param>
    public PolledJson(Source source, PlaceDescription place, PayloadReader payloads, IntakeLine line, HttpClient http)
    {
        (_source, _payloads, _line, _http) = (source, payloads, line, http);
        _feeds = [.. place.Wiring.Feeds.Where(f => f.SourceId == source.Id)];
    }

    public SourceStanding Standing() => new(_source.Id, _source.Address, _trouble is null, _lastHeard, _trouble);

    public async Task RunAsync(CancellationToken cancel)
    {
        using var turns = new PeriodicTimer(_source.Every.ToTimeSpan());
        do
        {
            await AskAsync(cancel);
        }
        while (await turns.WaitForNextTickAsync(cancel));
    }

    private async Task AskAsync(CancellationToken cancel)
    {
        try
        {
            using var patience = CancellationTokenSource.CreateLinkedTokenSource(cancel);
            patience.CancelAfter(TimeSpan.FromSeconds(10));
            using var answer = await _http.GetAsync(new Uri(_source.Address), HttpCompletionOption.ResponseHeadersRead, patience.Token);
            if (answer.StatusCode != HttpStatusCode.OK)
            {
                _trouble = $"{_source.Address} answers {(int)answer.StatusCode}. Check the address of [[source]] {_source.Id}.";
                return;
            }

            byte[] body = await ReadAsync(answer.Content, patience.Token);
            var received = _payloads.Read(body, _feeds, _line.Now, _source.Address);
            await _line.PutAsync(received, null, cancel);
            (_lastHeard, _trouble) = (_line.Now, null);
        }
#pragma warning disable CA1031 // A source that fails is told on the page and asked again; the others go on.
        catch (Exception error) when (!cancel.IsCancellationRequested)
#pragma warning restore CA1031
        {
            _trouble = error is OperationCanceledException
                ? $"{_source.Address} does not answer within 10 s. It is asked again."
                : $"{_source.Address} cannot be read ({error.GetBaseException().Message.TrimEnd('.')}). It is asked again.";
        }
    }

    /// <summary>The body up to the size that is read; one byte more tells that it is too large.</summary>
    private static async Task<byte[]> ReadAsync(HttpContent content, CancellationToken cancel)
    {
        await using var stream = await content.ReadAsStreamAsync(cancel);
        byte[] body = new byte[PayloadReader.MostBytes + 1];
        int read = await stream.ReadAtLeastAsync(body, body.Length, throwOnEndOfStream: false, cancel);
        return body[..read];
    }
}
