using NodaTime;
using Runnel.Live;
using Runnel.Live.View;
using Runnel.Place.Findings;
using Runnel.Records;
using Runnel.Twin.Water;
using Runnel.Web.Findings;
using Runnel.Web.Hosting;
using Runnel.Web.Round;
using Runnel.Web.Words;

namespace Runnel.Web.Now;

/// <summary>The running place as the pages see it: what is costly to make is made once for all who look.</summary>
public sealed class RunningPlace(RunnelPagesOptions options, TimeProvider clock) : IDisposable
{
    private static readonly TimeSpan RibbonEvery = TimeSpan.FromSeconds(60);

    private readonly SemaphoreSlim _turn = new(1, 1);
    private readonly Lazy<Task<IReadOnlyList<ReviewLine>>> _review = new(() => Task.Run<IReadOnlyList<ReviewLine>>(() =>
    {
        try
        {
            return options.Live?.Place is { Hydraulics: not null } place ? WaterReview.Of(place) : [];
        }
        catch (ArgumentException)
        {
            return [];
        }
    }));

    private NowModel? _model;
    private FindingsDrawings? _drawings;
    private (string Wide, string Phone, string Wall) _ribbon = ("", "", "");
    private long? _ribbonMadeAt;
    private bool _ribbonHadFindings;

    public LivePlace? Live => options.Live;

    public FaultBench? Faults { get; } = options.Faults ?? (options.Demo is { } demo ? FaultBench.Of(demo) : null);

    /// <summary>The first page for the view in force.</summary>
    public async Task<NowModel> ModelAsync(CancellationToken cancel)
    {
        LiveView view = Live!.View;
        if (_model is { } made && made.View.Number == view.Number) return made;
        await _turn.WaitAsync(cancel);
        try
        {
            if (_model is { } other && other.View.Number >= view.Number) return other;
            await RenewRibbonAsync(view, cancel);
            return _model = new NowModel(view, _ribbon, JobsLeft(view, await Live.DaybookAsync(cancel)));
        }
        finally
        {
            _turn.Release();
        }
    }

    /// <summary>The charts of what is understood now; null until there is something.</summary>
    public FindingsDrawings? Drawings
    {
        get
        {
            Diagnosis? findings = Live?.View.Findings;
            if (findings is null) return null;
            if (_drawings is { } made && ReferenceEquals(made.Diagnosis, findings)) return made;
            return _drawings = new FindingsDrawings(findings);
        }
    }

    /// <summary>The design review of the place, reckoned once: it does not change while the place runs. Empty where it cannot be reckoned.</summary>
    public Task<IReadOnlyList<ReviewLine>> ReviewAsync() => _review.Value;

    private static string JobsLeft(LiveView view, IReadOnlyList<DaybookRow> rows)
    {
        RoundJob[] left = [.. RoundJobs.Of(view, rows).Where(j => j.DoneAs is null)];
        if (left.Length == 0) return "No job is left today.";
        string next = left[0].What.TrimEnd('.');
        if (next.IndexOf(". ", StringComparison.Ordinal) is var end and > 0) next = next[..end];
        return left.Length == 1 ? $"One job is left today: {char.ToLowerInvariant(next[0])}{next[1..]}." : $"{Figures.Number(left.Length)} jobs are left today. Next: {char.ToLowerInvariant(next[0])}{next[1..]}.";
    }

    private async Task RenewRibbonAsync(LiveView view, CancellationToken cancel)
    {
        bool news = view.Findings is not null && !_ribbonHadFindings;
        if (_ribbonMadeAt is { } at && !news && clock.GetElapsedTime(at) < RibbonEvery) return;
        DayRibbon ribbon = await RibbonOfPlace.MakeAsync(Live!, view, cancel);
        _ribbon = ribbon.Lanes.Count == 0 ? ("", "", "") : (RibbonDrawing.Draw(ribbon, "wide"), RibbonDrawing.Draw(ribbon, "phone"), RibbonDrawing.Draw(ribbon, "wall"));
        (_ribbonMadeAt, _ribbonHadFindings) = (clock.GetTimestamp(), view.Findings is not null);
    }

    public void Dispose() => _turn.Dispose();
}
