using Microsoft.AspNetCore.Http;

namespace Runnel.Web.Now;

/// <summary>The pages of a running place.</summary>
internal static class PlacePages
{
    public static readonly IReadOnlyList<(string Href, string Name, string What)> All =
    [
        ("/", "Now", "How it stands"),
        ("/round", "Round", "Today's jobs, with their reasons"),
        ("/add", "Add", "Write down what was done or seen"),
        ("/water", "Water", "Cycles, litres by day, estimates, all that was noticed"),
        ("/daybook", "Daybook", "What people did and saw; correct it here"),
        ("/place", "Place", "What is described, its channels, what the kit can see"),
        ("/log/new", "Your log", "Drop a log of any pump and read it"),
        ("/reckoner", "Reckoner", "The trade's sums"),
    ];

    public static readonly IReadOnlyList<(string Href, string Name)> Bar = [("/", "Now"), ("/round", "Round"), ("/add", "Add"), ("/more", "More")];

    public static bool IsAt(string href, PathString path) => href == "/" ? path == "/" : href == "/log/new" ? path.StartsWithSegments("/log") : path.StartsWithSegments(href);

    public static bool IsBarAt(string href, PathString path) => href == "/more" ? !Bar.Take(3).Any(b => IsAt(b.Href, path)) : IsAt(href, path);
}
