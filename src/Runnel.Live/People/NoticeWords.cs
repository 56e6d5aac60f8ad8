using System.Collections.Concurrent;
using NodaTime;
using NodaTime.Text;
using Runnel.Live.View;
using Runnel.Place.Findings;
using Runnel.Records;

namespace Runnel.Live.People;

/// <summary>What people said, by what it is about; the last word of each kind holds.</summary>
internal sealed class NoticeWords
{
    private static readonly InstantPattern InKeys = InstantPattern.CreateWithInvariantCulture("uuuuMMdd'T'HHmmss'Z'");
    private readonly ConcurrentDictionary<string, Acknowledgement> _acknowledged = new(StringComparer.Ordinal);
    private readonly ConcurrentDictionary<string, ClosingAnswer> _answered = new(StringComparer.Ordinal);

    public const string Acknowledged = "acknowledged";
    public const string Answered = "answered";

    public void Take(Saying saying)
    {
        if (saying.Word == Acknowledged) _acknowledged[saying.About] = new(saying.At, saying.By);
        else if (saying.Word == Answered) _answered[saying.About] = new(saying.At, saying.Was, saying.By, saying.Note);
    }

    public ClosingAnswer? AnswerTo(string about) => _answered.GetValueOrDefault(about);

    public IReadOnlyList<NoticeStanding> Standings(IReadOnlyList<Notice> notices)
    {
        var standings = new List<NoticeStanding>(notices.Count);
        var used = new Dictionary<string, int>(StringComparer.Ordinal);
        foreach (var notice in notices)
        {
            string key = $"{InKeys.Format(notice.FirstNoticed)}-{notice.Cause}";
            int times = used[key] = used.GetValueOrDefault(key) + 1;
            if (times > 1) key = FormattableString.Invariant($"{key}-{times}");
            standings.Add(new(key, notice, _acknowledged.GetValueOrDefault(key), _answered.GetValueOrDefault(key)));
        }

        return standings;
    }

    public static string KeyOfWork(Instant began) => "work-" + InKeys.Format(began);
}
