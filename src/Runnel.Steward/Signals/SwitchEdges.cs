using NodaTime;

namespace Runnel.Steward.Signals;

/// <summary>The last edges of the switch of something whose power tells whether it truly runs: power is read every so often, a switch to the second.</summary>
internal sealed class SwitchEdges
{
    private bool? _on;
    private Instant _onAt = Instant.MinValue, _offAt = Instant.MinValue;

    public void Take(Instant time, bool on)
    {
        if (_on == on) return;
        if (_on is not null) (_onAt, _offAt) = on ? (time, _offAt) : (_onAt, time);
        _on = on;
    }

    /// <summary>The last edge of that kind after a time, or null.</summary>
    public Instant? Last(bool on, Instant after) => (on ? _onAt : _offAt) is var at && at > after ? at : null;
}
