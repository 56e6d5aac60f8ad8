using Runnel.Place.Findings;
using Runnel.Web.Hosting;

namespace Runnel.Web.Findings;

/// <summary>The findings of the invented log, made once on first need.</summary>
public sealed class InventedLog(RunnelPagesOptions options)
{
    private readonly Lazy<Diagnosis?> _findings = new(() => options.InventedLog?.Invoke());

    public Diagnosis? Findings => _findings.Value;
}
