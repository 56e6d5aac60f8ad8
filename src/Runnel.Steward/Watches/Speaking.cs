using Runnel.Place.Findings;
using Runnel.Steward.Notices;

namespace Runnel.Steward.Watches;

/// <summary>Raises and clears notices of faults that change the loop's readings: while they stand, nothing is learnt from them.</summary>
internal static class Speaking
{
    public static void RaiseAndHold(this NoticeBook notices, LoopState state, string key, Notice notice)
    {
        if (notices.Stands(key)) return;
        notices.Raise(key, notice);
        state.Holds.Begin(key, notice.Since);
    }

    public static void ClearAndRelease(this NoticeBook notices, LoopState state, string key)
    {
        if (!notices.Stands(key)) return;
        notices.Clear(key, state.Now);
        state.Holds.Release(key, state.Now);
    }
}
