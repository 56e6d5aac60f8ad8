using System.Globalization;
using Microsoft.AspNetCore.Components;
using Microsoft.AspNetCore.Http;
using NodaTime;
using NodaTime.Text;
using Runnel.Live;
using Runnel.Place;
using Runnel.Place.Findings;
using Runnel.Records;
using Runnel.Web.Now;
using Runnel.Web.Words;
using Runnel.Web.YourLog;

namespace Runnel.Web.Daybook;

/// <summary>Writes an entry, or corrects one.</summary>
public sealed partial class EntryPage(RunningPlace running, NavigationManager nav) : ComponentBase
{
    internal static readonly (string Name, string Label, string Unit)[] Tests =
    [
        ("ph", "pH", ""), ("ammonia", "Total ammonia", "mg N/L"), ("nitrite", "Nitrite", "mg N/L"), ("nitrate", "Nitrate", "mg N/L"), ("alkalinity", "Alkalinity", "mg/L CaCO₃"),
    ];

    private static readonly LocalDateTimePattern InFields = LocalDateTimePattern.CreateWithInvariantCulture("uuuu-MM-dd'T'HH:mm");

    [Parameter] public string? Kind { get; set; }
    [Parameter] public long? Number { get; set; }
    [CascadingParameter] public required HttpContext Http { get; set; }
    [SupplyParameterFromQuery] public long? At { get; set; }
    [SupplyParameterFromQuery(Name = "notice")] public string? Notice { get; set; }

    private RunningPlace Running => running;
    private EntryKind? Chosen { get; set; }
    private DaybookRow? Row { get; set; }
    private IReadOnlyList<string> Places { get; set; } = [];
    private List<FieldError> Errors { get; } = [];
    private string Amount { get; set; } = "";
    private string AmountHint { get; set; } = "";
    private string? Of { get; set; }
    private string? Note { get; set; }
    private string? By { get; set; }
    private string When { get; set; } = "";

    private LivePlace Live => running.Live!;

    protected override async Task OnInitializedAsync()
    {
        if (running.Live is null) return;
        IReadOnlyList<DaybookRow> rows = await Live.DaybookAsync(Http.RequestAborted);
        Row = Number is { } number ? rows.FirstOrDefault(r => r.Number == number) : null;
        Chosen = Number is null ? EntryKind.Find(Kind) : Row is null ? null : EntryKind.Find(Row.Entry.Entry) ?? EntryKind.Find("note")! with { Entry = Row.Entry.Entry, Name = EntryKind.NameOf(Row.Entry.Entry) };
        if (Chosen is not { } kind)
        {
            Http.Response.StatusCode = StatusCodes.Status404NotFound;
            return;
        }

        Places = kind.Places(Live.Place);
        DaybookEntry? last = Row?.Entry ?? rows.LastOrDefault(r => !r.Struck && r.Entry.Entry == kind.Entry)?.Entry;
        double? before = kind.IsWater ? last?.Litres : GramsIn(last?.Note);
        Amount = (before ?? kind.Usual).ToString("0.##", CultureInfo.InvariantCulture);
        AmountHint = before is { } b && Row is null ? $"Last time {Figures.Number(b, b == Math.Floor(b) ? 0 : 1)} {kind.Unit}, {Times.DayAndClock(last!.Time, Live.Place.Zone)}." : $"Above 0, up to {Figures.Number(kind.Most)} {kind.Unit}.";
        Of = last is not null ? last.Of : Places.Count > 0 ? Places[0] : null;
        Note = Row is null ? null : kind.Unit == "g" ? WithoutGrams(Row.Entry.Note) : Row.Entry.Note;
        By = Row?.Entry.By ?? Person.Of(Http);
        Instant at = Row?.Entry.Time ?? (At is { } asked ? Instant.FromUnixTimeSeconds(Math.Clamp(asked, 0, 4_000_000_000)) : Live.Now);
        When = InFields.Format(at.InZone(Live.Place.Zone).LocalDateTime);
    }

    private string? Invalid(string field) => Errors.Any(e => e.Field == field) ? "true" : null;

    private async Task WriteAsync()
    {
        if (Chosen is not { } kind) return;
        IFormCollection form = Http.Request.Form;
        // What was typed stays in the form when something of it cannot be taken.
        string shown = When;
        (Of, Note, By, When) = (Blank(form["of"]), Blank(form["note"]), Blank(form["by"]), form["when"].ToString());
        if (form.ContainsKey("amount")) Amount = form["amount"].ToString();
        if (Of is not null && Live.Place.FindVessel(Of) is null && Live.Place.FindEquipment(Of) is null) Of = null;
        double? amount = kind.Unit is null ? null : ReadNumber("amount", Amount, kind.Most, kind.Unit);
        string? note = kind.Entry == "water-test" ? TestsIn(form) : Note;
        if (kind.Unit == "g" && amount is { } grams) note = $"{grams.ToString("0.##", CultureInfo.InvariantCulture)} g" + (Note is null ? "" : $"; {Note}");
        if (kind.Entry is "note" or "moved-valve" && Note is null) Errors.Add(new("note", "Nothing is written. Write a few words."));
        Instant time = TimeOf(shown);
        if (Errors.Count > 0)
        {
            Http.Response.StatusCode = StatusCodes.Status422UnprocessableEntity;
            return;
        }

        Person.Remember(Http, By);
        var entry = new DaybookEntry(time, kind.Entry, kind.AsksWhere ? Of : Row?.Entry.Of, kind.IsWater ? amount : null, By, note);
        if (Row is { } row) await Live.CorrectAsync(row.Number, entry, By, Http.RequestAborted);
        else await Live.WriteAsync(entry, null, Http.RequestAborted);
        string? answered = Blank(form["notice"]);
        if (answered is not null && Live.View.Notices.Any(n => n.Key == answered && n.Notice.Cause == CauseNames.UnloggedDraw))
            await Live.AnswerAsync(answered, CauseNames.UnloggedDraw, By, null, Http.RequestAborted);
        nav.NavigateTo("/daybook?saved=1");
    }

    private Instant TimeOf(string shown)
    {
        // Left as it stood: a new entry is of now, to the second; a corrected one keeps its second.
        if (When.Length == 0 || When == shown && At is null) return Row?.Entry.Time ?? Live.Now;
        string minute = When.Length > 16 ? When[..16] : When;
        if (!InFields.Parse(minute).TryGetValue(default, out LocalDateTime local))
        {
            Errors.Add(new("when", "This is no date and time. Write it as 2026-02-01T06:30, or leave it as it was."));
            return Live.Now;
        }

        Instant time = Live.Place.Zone.AtLeniently(local).ToInstant();
        if (time > Live.Now + Duration.FromMinutes(1)) Errors.Add(new("when", $"This lies ahead; it is {Times.DayAndClock(Live.Now, Live.Place.Zone)} at the place. Give a time that has passed."));
        return time;
    }

    private double? ReadNumber(string field, string text, double most, string unit)
    {
        if (double.TryParse(text.Trim().Replace(',', '.'), NumberStyles.AllowDecimalPoint, CultureInfo.InvariantCulture, out double value) && value > 0 && value <= most) return value;
        Errors.Add(new(field, $"“{text.Trim()}” is no amount above 0 and up to {Figures.Number(most)} {unit}. Write digits, for example 8 or 2.5."));
        return null;
    }

    private string? TestsIn(IFormCollection form)
    {
        List<string> told = [];
        foreach (var (name, label, unit) in Tests)
        {
            string text = form[name].ToString().Trim().Replace(',', '.');
            if (text.Length == 0) continue;
            double most = name == "ph" ? 14 : 2000;
            if (!double.TryParse(text, NumberStyles.AllowDecimalPoint, CultureInfo.InvariantCulture, out double value) || value < 0 || value > most)
                Errors.Add(new(name, $"“{text}” is no number from 0 to {Figures.Number(most)}. Write digits, for example 6.8."));
            else told.Add($"{label} {value.ToString("0.###", CultureInfo.InvariantCulture)} {unit}".TrimEnd());
        }

        if (Note is not null) told.Add(Note);
        if (told.Count == 0 && Errors.Count == 0) Errors.Add(new("ph", "Nothing was measured. Fill in what the test showed; the rest may stay empty."));
        return told.Count == 0 ? null : string.Join("; ", told);
    }

    private static string? Blank(string? text) => string.IsNullOrWhiteSpace(text) ? null : text.Trim() is { Length: > 500 } long_ ? long_[..500] : text.Trim();

    private static double? GramsIn(string? note) =>
        note?.Split(' ') is [var number, ..] && double.TryParse(number, NumberStyles.AllowDecimalPoint, CultureInfo.InvariantCulture, out double grams) ? grams : null;

    private static string? WithoutGrams(string? note) => note is null ? null : note.IndexOf("; ", StringComparison.Ordinal) is var at and > 0 ? note[(at + 2)..] : null;
}
