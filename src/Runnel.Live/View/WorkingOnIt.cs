using NodaTime;

namespace Runnel.Live.View;

/// <summary>A person's hands are in the loop: notices held, learning paused, the chart marked.</summary>
/// <param name="Since">When they began.</param>
/// <param name="Until">When they meant to be done; it ends then by itself.</param>
/// <param name="By">Who.</param>
/// <param name="Note">At what.</param>
public sealed record WorkingOnIt(Instant Since, Instant Until, string? By, string? Note);

/// <summary>"Pump, air, valve: as before?": asked after work until somebody answers. Equipment left off after cleaning kills fish.</summary>
/// <param name="Key">Names the question when it is answered.</param>
/// <param name="Began">When the work began.</param>
/// <param name="Ended">When it ended.</param>
/// <param name="By">Who worked.</param>
public sealed record ClosingQuestion(string Key, Instant Began, Instant Ended, string? By);
