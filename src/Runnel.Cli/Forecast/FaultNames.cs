using Runnel.Place;
using Runnel.Twin.Faults;

namespace Runnel.Cli.Forecast;

/// <summary>Faults as named on the command line.</summary>
internal static class FaultNames
{
    /// <summary>All names, for help.</summary>
    public static string Text() =>
        "Names, with the unit of their rate: " + string.Join(", ", FaultCatalogue.All.Select(k => k.Unit.Length > 0 ? $"{k.Name} ({k.Unit})" : k.Name)) + ".";

    /// <summary>A fault as written.</summary>
    public static PlannedFault Read(string text, PlaceDescription place)
    {
        var read = FaultText.Read(text, place);
        return read.Planned ?? throw RefusedException.WrongUsage("--fault", read.Problem, read.Remedy);
    }

    /// <summary>What went wrong, for people.</summary>
    public static string Told(IReadOnlyList<PlannedFault> faults) =>
        string.Join("; ", faults.Select(f =>
            $"{f.Fault.Name}{(f.Fault.Of is { } of ? $" of {of}" : "")} after {Findings.Wording.Seconds(f.AtS)}: {FaultCatalogue.Find(f.Fault.Name)!.Meaning}"));
}
