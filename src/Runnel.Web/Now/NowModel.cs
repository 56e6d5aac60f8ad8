using System.Security.Cryptography;
using System.Text;
using NodaTime;
using Runnel.Live.View;
using Runnel.Place;
using Runnel.Place.Findings;
using Runnel.Web.Findings;
using Runnel.Web.Section;
using Runnel.Web.Words;

namespace Runnel.Web.Now;

/// <summary>A row of the latest readings.</summary>
public sealed record ReadingRow(string Name, string Value, string Unit, string Age, bool IsDoubted);

/// <summary>Something that will run out, and when at the earliest.</summary>
public sealed record TimeLeftRow(string What, string AtLeast, string Why, bool IsShort);

/// <summary>What the first page shows of a view, made once for all who look at it.</summary>
public sealed class NowModel
{
    private static readonly Duration AskedFor = Duration.FromDays(3);

    private readonly Lazy<SectionPicture> _wide, _phone, _wall;
    private readonly Lazy<Dictionary<string, string>> _marks;

    public NowModel(LiveView view, (string Wide, string Phone, string Wall) ribbon, string jobs)
    {
        View = view;
        (Ribbon, Jobs) = (ribbon, jobs);
        Standing = [.. view.Notices.Where(n => n.Stands).OrderBy(n => n.Notice.Urgency).ThenBy(n => n.Notice.FirstNoticed)];
        Top = Standing.Count > 0 ? Standing[0] : null;
        ToClose = [.. view.Notices.Where(n => n is { Answer: null, Notice: { Cleared: not null, Urgency: not Urgency.Record } } && view.At - n.Notice.Cleared!.Value < AskedFor).TakeLast(3)];
        Questions = [.. view.Notices.Where(n => n.Answer is null && NoticeEntry.IsQuestion(n.Notice)).TakeLast(3)];
        SectionStanding drawn = SectionOfView.Of(view, Top?.Notice);
        _wide = new(() => SectionDrawing.Draw(view.Place, drawn, SectionSize.Wide));
        _phone = new(() => SectionDrawing.Draw(view.Place, drawn, SectionSize.Phone));
        _wall = new(() => SectionDrawing.Draw(view.Place, drawn, SectionSize.Wall));
        Readings = [.. view.Channels.OrderBy(c => Rank(c.Channel.Measures)).Select(Row)];
        TimeLeft = TimeLeftOf(view, Top?.Notice);
        _marks = new(MakeMarks);
    }

    public LiveView View { get; }

    /// <summary>A day back, a day ahead; empty where there is nothing to show.</summary>
    public (string Wide, string Phone, string Wall) Ribbon { get; }

    /// <summary>How many jobs are left today, and the next.</summary>
    public string Jobs { get; }

    public IReadOnlyList<NoticeStanding> Standing { get; }

    /// <summary>What wants a person first; null: nothing.</summary>
    public NoticeStanding? Top { get; }

    /// <summary>Over, and nobody has said what it was.</summary>
    public IReadOnlyList<NoticeStanding> ToClose { get; }

    public IReadOnlyList<NoticeStanding> Questions { get; }

    public IReadOnlyList<ReadingRow> Readings { get; }

    public IReadOnlyList<TimeLeftRow> TimeLeft { get; }

    public bool HasDrawing => SectionDrawing.CanDraw(View.Place);

    public SectionPicture Wide => _wide.Value;

    public SectionPicture Phone => _phone.Value;

    public SectionPicture Wall => _wall.Value;

    public string Verdict
    {
        get
        {
            if (View.Working is { } work) return $"Someone is working on the loop until {Times.Clock(work.Until.InZone(View.Place.Zone).TimeOfDay)}; notices wait.";
            if (View.Findings is not { } findings) return View.NotYet ?? "Nothing is known yet.";
            if (Top is null && TopNotice.Of(findings) is not null) return "Nothing else asks for you; what stood has been answered.";
            if (Top is not null && !ReferenceEquals(Top.Notice, TopNotice.Of(findings))) return Capital(Causes.Statement(Top.Notice.Cause)) + ".";
            if (Top is null) return findings.Verdict;
            string word = Urgencies.Word(Top.Notice.Urgency) + ":";
            return findings.Verdict.StartsWith(word, StringComparison.OrdinalIgnoreCase) ? findings.Verdict[word.Length..].TrimStart() : findings.Verdict;
        }
    }

    public Urgency? VerdictUrgency => View.Working is null ? Top?.Notice.Urgency : null;

    /// <summary>What stands below the verdict.</summary>
    public string Sub => View.ReadingAgain ? "Late or corrected entries came; the log is being read again." : Standing.Count switch
    {
        0 => Jobs,
        1 => $"Since {Times.DayAndClock(Top!.Notice.Since, View.Place.Zone)}. {Jobs}",
        int n => $"{n} notices stand; this one first. {Jobs}",
    };

    /// <summary>How each part of the page stands: a browser that has another fetches that part anew.</summary>
    public IReadOnlyDictionary<string, string> Marks => _marks.Value;

    private Dictionary<string, string> MakeMarks() => new()
    {
        ["verdict"] = Mark(Verdict, VerdictUrgency, View.Working, string.Join('|', View.Troubles), Sub),
        ["first"] = Mark(Top?.Key, Top?.Notice.Evidence, Top?.Notice.FirstAct, Top?.Notice.TimeLeft, Top?.Acknowledged, string.Join('|', Standing.Select(s => s.Key + s.Acknowledged + s.Notice.FirstAct)),
            string.Join('|', ToClose.Select(c => c.Key)), string.Join('|', Questions.Select(c => c.Key)), View.Closing?.Key, View.Working),
        ["left"] = Mark(string.Join('|', TimeLeft)),
        ["drawing"] = HasDrawing ? Mark(Phone.Svg) : "-",
        ["ribbon"] = Mark(Ribbon.Wide),
        ["readings"] = Mark(string.Join('|', Readings)),
        ["clock"] = Mark(ClockWords),
    };

    public string ClockWords => Times.WeekdayAndClock(View.At.InZone(View.Place.Zone).LocalDateTime);

    internal static string Capital(string words) => words.Length == 0 ? words : char.ToUpperInvariant(words[0]) + words[1..];

    private static string Mark(params object?[] parts) => Convert.ToHexStringLower(SHA256.HashData(Encoding.UTF8.GetBytes(string.Join('\u001f', parts))))[..10];

    /// <summary>What the fish feel first; switches last.</summary>
    private static int Rank(Quantity quantity) => quantity switch
    {
        Quantity.DissolvedOxygen or Quantity.OxygenSaturation => 0,
        Quantity.WaterTemperature => 1,
        Quantity.Ph or Quantity.Tan or Quantity.Nitrite or Quantity.Nitrate or Quantity.Conductivity => 2,
        Quantity.Level => 3,
        Quantity.Power or Quantity.Current or Quantity.Pressure => 5,
        Quantity.Running => 6,
        _ => 4,
    };

    private ReadingRow Row(ChannelStanding c)
    {
        string name = SectionPlan.NameOf(c.Id), unit = Figures.UnitInWords(c.Unit);
        string value = c.Value is not { } v ? "none yet" : c.Channel.Measures == Quantity.Running ? v > 0.5 ? "on" : "off" : Figures.Number(v, v == 0 ? 0 : Math.Min(2, Figures.DecimalsFor(v)));
        string age = c.Health == ChannelHealth.Doubted ? c.Words : c.Time is { } time ? AgeOf(View.At - time) : "";
        if (c.Health == ChannelHealth.Quiet) age += ", late";
        return new(name, value, c.Value is null ? "" : unit, age, c.Health is ChannelHealth.Quiet or ChannelHealth.Doubted);
    }

    /// <summary>Coarse, so that a page need not change every second.</summary>
    private static string AgeOf(Duration age) => age < Duration.FromMinutes(2) ? "just now"
        : age < Duration.FromMinutes(10) ? $"{Times.Span(age)} ago" : age < Duration.FromHours(2) ? $"{Math.Floor(age.TotalMinutes / 10) * 10:0} min ago" : $"{Times.Span(age)} ago";

    private static List<TimeLeftRow> TimeLeftOf(LiveView view, Notice? top)
    {
        List<TimeLeftRow> rows = [];
        if (top?.TimeLeft is { } left) rows.Add(new("Until it does harm", Times.SpanRoundedDown(left), Causes.Statement(top.Cause), true));
        double? useADay = SectionOfView.EstimateOf(view, "use-a-day")?.High;
        foreach (Vessel tank in view.Place.Vessels.Where(v => v.Kind == VesselKind.RainTank))
        {
            if (useADay is not > 0.5 || view.Place.Hydraulics?.Vessels.FirstOrDefault(v => v.Id == tank.Id) is not { } shape) continue;
            if (view.Channels.FirstOrDefault(c => c.Channel.Of == tank.Id && c.Channel.Measures == Quantity.Level && c.Value is not null)?.Value is not { } mm) continue;
            double days = shape.Shape.VolumeM3(Math.Max(0, mm / 1000)) * 1000 / useADay.Value;
            rows.Add(new("Top-up water, if no rain", Times.SpanRoundedDown(Duration.FromDays(Math.Min(days, 3650))), $"{Figures.Number(useADay.Value)} L a day at most", days < 7));
        }

        return rows;
    }
}
