using NodaTime;

namespace Runnel.Cli.Findings;

/// <summary>Days as they stand, or as weeks from Monday where there are too many of them for a page.</summary>
internal static class CivilBlocks
{
    private const int MostSingleDays = 14;

    public static bool Weekly(int days) => days > MostSingleDays;

    public static IReadOnlyList<IReadOnlyList<T>> Of<T>(IReadOnlyList<T> days, Func<T, LocalDate> date) =>
        Weekly(days.Count)
            ? [.. days.GroupBy(d => date(d).PlusDays(1 - (int)date(d).DayOfWeek)).Select(g => (IReadOnlyList<T>)[.. g])]
            : [.. days.Select(d => (IReadOnlyList<T>)[d])];
}
