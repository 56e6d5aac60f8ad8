using Runnel.Place.Findings;
using Runnel.Steward;
using Runnel.Twin.Invented;
using Runnel.Web.Hosting;

namespace Runnel.Web.Findings;

/// <summary>The findings of the invented log, made once.</summary>
public sealed class InventedLog(RunnelPagesOptions options)
{
    private readonly Lazy<FindingsDrawings?> _findings = new(() => options.InventedLog?.Invoke() is { } found ? new FindingsDrawings(found) : null);

    /// <summary>Null where the host shows none. The first caller waits while the log is made and read.</summary>
    public FindingsDrawings? Findings => _findings.Value;

    /// <summary>Makes the twin's invented log and reads it as any other.</summary>
    public static Diagnosis FromTheTwin()
    {
        var made = InventedDemo.Make();
        return Diagnose.Log(made.Place, made.Log, made.Daybook);
    }
}
