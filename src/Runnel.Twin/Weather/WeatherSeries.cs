using NodaTime;

namespace Runnel.Twin.Weather;

/// <summary>Weather in even steps from a moment on.</summary>
public sealed class WeatherSeries
{
    private readonly WeatherStep[] _steps;

    /// <summary>Takes the steps.</summary>
    /// <param name="start">When the first step begins.</param>
    /// <param name="everyS">Length of each, s.</param>
    /// <param name="steps">One or more.</param>
    /// <exception cref="ArgumentException">There is no step, or its length is not above 0.</exception>
    public WeatherSeries(Instant start, int everyS, IReadOnlyList<WeatherStep> steps)
    {
        ArgumentNullException.ThrowIfNull(steps);
        ArgumentOutOfRangeException.ThrowIfLessThan(everyS, 1);
        if (steps.Count == 0) throw new ArgumentException("there must be one step or more", nameof(steps));
        (Start, EveryS, _steps) = (start, everyS, [.. steps]);
    }

    /// <summary>When the first step begins.</summary>
    public Instant Start { get; }

    /// <summary>Length of a step, s.</summary>
    public int EveryS { get; }

    /// <summary>The steps.</summary>
    public IReadOnlyList<WeatherStep> Steps => _steps;

    /// <summary>The step in which a time lies; the first before the beginning and the last after the end.</summary>
    /// <param name="timeS">s from the start.</param>
    public WeatherStep At(double timeS) => _steps[Math.Clamp((int)(timeS / EveryS), 0, _steps.Length - 1)];

    /// <summary>The step in which a moment lies.</summary>
    /// <param name="time">A moment.</param>
    public WeatherStep At(Instant time) => At((time - Start).TotalSeconds);
}
