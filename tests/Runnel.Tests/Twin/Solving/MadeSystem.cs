using Runnel.Twin.Solving;

namespace Runnel.Tests.Twin.Solving;

internal delegate void RateLaw(double time, ReadOnlySpan<double> y, Span<double> rates);

internal delegate EventOutcome Answer(double time, Span<double> y, ReadOnlySpan<int> events);

/// <summary>A system put together from lambdas.</summary>
internal sealed class MadeSystem(int count, RateLaw law, RateLaw? eventValues = null, EventDirection[]? directions = null, Answer? answer = null, Band? band = null)
    : OdeSystem(count, directions?.Length ?? 0, band)
{
    public List<(double Time, int Event)> Told { get; } = [];

    public override void Rates(double time, ReadOnlySpan<double> state, Span<double> rates) => law(time, state, rates);

    public override void EventValues(double time, ReadOnlySpan<double> state, Span<double> values) => eventValues!(time, state, values);

    public override EventDirection DirectionOf(int index) => directions![index];

    public override EventOutcome Happened(double time, Span<double> state, ReadOnlySpan<int> events)
    {
        foreach (int e in events) Told.Add((time, e));
        return answer?.Invoke(time, state, events) ?? EventOutcome.Continue;
    }
}
