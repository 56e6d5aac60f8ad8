using NodaTime;
using Runnel.Place;
using Runnel.Twin.Weather;

namespace Runnel.Twin.Playing;

/// <summary>Weather of a played place, made as far as it is asked for.</summary>
internal sealed class PlayedWeather
{
    /// <summary>Length of a step, s.</summary>
    public const int StepS = 600;

    private const int ChunkDays = 40;
    private readonly WeatherGenerator _generator;
    private readonly Instant _start;
    private readonly int _seed;
    private WeatherSeries _chunk;
    private int _at;

    public PlayedWeather(PlaceDescription place, Instant start, int seed)
    {
        (_generator, _start, _seed) = (new(ClimateYear.Of(place)), start, seed);
        _chunk = Make(0);
    }

    /// <summary>The weather of the step in which a time lies, s from the start.</summary>
    public WeatherStep At(double timeS)
    {
        int at = Math.Max(0, (int)(timeS / (ChunkDays * 86_400.0)));
        if (at != _at) _chunk = Make(_at = at);
        return _chunk.At(timeS - (at * ChunkDays * 86_400.0));
    }

    private WeatherSeries Make(int chunk) => _generator.Make(_start.Plus(Duration.FromDays(chunk * ChunkDays)), ChunkDays, _seed + (7919 * chunk), StepS);
}
