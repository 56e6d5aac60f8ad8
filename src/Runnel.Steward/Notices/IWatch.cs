using Runnel.Place;

namespace Runnel.Steward.Notices;

/// <summary>A detector for one kind of trouble. It sees the state as it is at a tick, never what comes later.</summary>
internal interface IWatch
{
    /// <summary>Looks at the state at <see cref="LoopState.Now"/>, and raises or clears its notices.</summary>
    void Look(LoopState state, NoticeBook notices);

    /// <summary>Hears every reading, after the state has taken it; for watches that judge a channel reading by reading.</summary>
    void Hear(LoopState state, in Reading reading)
    {
    }
}
