using NodaTime;
using Runnel.Cli.Inputs;
using Runnel.Exchange.Logs;
using Runnel.Place;
using Runnel.Twin.Playing;
using Runnel.Twin.Solving;
using Runnel.Twin.Water;

namespace Runnel.Cli.Forecast;

/// <summary>What the kit of a place would read while a forecast's time passes.</summary>
internal static class PlayedReadings
{
    public static Task WriteAsync(string path, PlaceDescription place, ForecastOptions options, Instant start, int seed, CancellationToken cancel)
    {
        PlayedPlace world;
        try
        {
            world = new PlayedPlace(place, start, seed);
        }
        catch (ArgumentException error)
        {
            throw new RefusedException("--readings", error.Message.Split(" (Parameter")[0], "Tell latitude, longitude and altitude in [place], and how its water moves");
        }

        foreach (var planned in options.Faults) world.Inject(planned.Fault, start + Duration.FromSeconds(planned.AtS));
        return OutputFile.WriteAsync(path, async stream =>
        {
            await using var text = new StreamWriter(stream, leaveOpen: true);
            var writer = new LogWriter(text, place);
            var end = start + Duration.FromDays(options.Days);
            // By the hour, so that it can be stopped.
            for (var now = start; now < end;)
            {
                cancel.ThrowIfCancellationRequested();
                now = Instant.Min(end, now + Duration.FromHours(1));
                var stop = world.AdvanceTo(now, reading => writer.Write(reading.Time, place.Channels[reading.Channel].Id, reading.Value));
                if (stop != StopReason.Reached) throw new RefusedException(path, $"the readings could not be played beyond {world.Now} ({stop})", "Look for a vessel that is far too small for its flow");
            }
        });
    }
}
