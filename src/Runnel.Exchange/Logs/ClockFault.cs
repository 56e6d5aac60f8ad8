namespace Runnel.Exchange.Logs;

/// <summary>A stretch of rows written while the clock was wrong. Positions count in the order of writing.</summary>
/// <param name="First">Position of its first row.</param>
/// <param name="Last">Position of its last row.</param>
/// <param name="Before">Last good time before it, ticks; the first good time where the log begins with it.</param>
/// <param name="After">Its first time, ticks.</param>
/// <param name="Least">Its least time, ticks.</param>
/// <param name="Greatest">Its greatest time, ticks.</param>
/// <param name="Reason">Why its rows are not taken, for people.</param>
internal sealed record ClockFault(int First, int Last, long Before, long After, long Least, long Greatest, string Reason)
{
    public const string WentBack = "the clock went back to a time that the log had already covered";
    public const string FarOff = "time far from the rest of the log: the clock was wrong";
    public const string Impossible = "impossible time: the clock was not set";
}
