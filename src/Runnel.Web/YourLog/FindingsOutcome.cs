using Runnel.Web.Findings;

namespace Runnel.Web.YourLog;

/// <summary>What came of reading a dropped log.</summary>
public abstract record FindingsOutcome;

/// <summary>It was read.</summary>
public sealed record Found(FindingsDrawings Findings) : FindingsOutcome;

/// <summary>It could not be read; each entry says where, what and what helps.</summary>
public sealed record NotReadable(IReadOnlyList<string> Problems) : FindingsOutcome;
