namespace Runnel.Tests.Architecture;

/// <summary>References between projects go one way; what a project may not touch is named here, and a new arrow fails.</summary>
public class ProjectArrowsTests
{
    private static readonly Dictionary<string, string[]> MayReference = new()
    {
        ["Runnel.Science"] = [],
        ["Runnel.Place"] = ["Runnel.Science"],
        ["Runnel.Twin"] = ["Runnel.Science", "Runnel.Place"],
        ["Runnel.Steward"] = ["Runnel.Science", "Runnel.Place"],
        ["Runnel.Trials"] = ["Runnel.Science", "Runnel.Place", "Runnel.Twin", "Runnel.Steward"],
        ["Runnel.Records"] = ["Runnel.Science", "Runnel.Place"],
        ["Runnel.Exchange"] = ["Runnel.Science", "Runnel.Place"],
        ["Runnel.Live"] = ["Runnel.Science", "Runnel.Place", "Runnel.Twin", "Runnel.Steward", "Runnel.Records", "Runnel.Exchange"],
        ["Runnel.Web"] =
        [
            "Runnel.Science", "Runnel.Place", "Runnel.Twin", "Runnel.Steward", "Runnel.Trials", "Runnel.Records", "Runnel.Exchange",
            "Runnel.Live",
        ],
        ["runnel"] =
        [
            "Runnel.Science", "Runnel.Place", "Runnel.Twin", "Runnel.Steward", "Runnel.Trials", "Runnel.Records", "Runnel.Exchange",
            "Runnel.Live", "Runnel.Web",
        ],
    };

    // Packages that may stand beside the runtime's own assemblies; a project that is not named here may use what it likes.
    private static readonly Dictionary<string, string[]> MayUsePackages = new()
    {
        ["Runnel.Science"] = [],
        ["Runnel.Place"] = ["NodaTime", "Tomlyn"],
        ["Runnel.Twin"] = ["NodaTime", "MathNet.Numerics"],
        ["Runnel.Steward"] = ["NodaTime"],
        ["Runnel.Trials"] = ["NodaTime"],
    };

    // Types that would bring the disk, the network or a clock into what must follow from its input alone.
    private static readonly string[] Outward =
    [
        "System.IO.File", "System.IO.FileInfo", "System.IO.FileStream", "System.IO.Directory", "System.IO.DirectoryInfo",
        "System.Net", "System.Console", "System.Diagnostics.Process", "System.Diagnostics.Stopwatch", "System.TimeProvider",
        "System.Threading.Timer", "System.Threading.PeriodicTimer", "System.Data", "NodaTime.SystemClock", "Microsoft.AspNetCore",
        "Microsoft.Extensions",
    ];

    // Besides, where nothing may depend on chance or on what runs beside it. (The twin's chance is seeded and handed in, and its
    // ensembles may run side by side.)
    private static readonly string[] ChanceAndThreads =
    [
        "System.Random", "System.Guid", "System.Security.Cryptography", "System.Threading.Thread",
        "System.Threading.ThreadPool", "System.Threading.Tasks",
    ];

    public static TheoryData<string> Assemblies => [.. BuiltAssemblies.Names];

    [Fact]
    public void Every_project_in_src_has_its_place_in_the_order()
    {
        string[] unknown = [.. BuiltAssemblies.Names.Except(MayReference.Keys)];
        Assert.Empty(unknown);
        Assert.True(BuiltAssemblies.Names.Count >= 8, "the projects in src/ were not found");
    }

    [Theory, MemberData(nameof(Assemblies))]
    public void References_between_projects_go_one_way(string assembly)
    {
        string[] outward =
        [
            .. BuiltAssemblies.ReferencesOf(assembly).Where(r => r.StartsWith("Runnel.", StringComparison.Ordinal) || r == "runnel")
                .Except(MayReference[assembly]),
        ];
        Assert.True(outward.Length == 0, $"{assembly} must not reference {string.Join(", ", outward)}");
    }

    [Theory, MemberData(nameof(Assemblies))]
    public void Project_files_ask_for_no_more_than_the_order_allows(string assembly)
    {
        // An unused project reference leaves no trace in the assembly, so that the file itself is read as well.
        string[] asked = [.. BuiltAssemblies.ProjectReferencesOf(assembly)];
        Assert.Empty(asked.Except(MayReference[assembly]));
    }

    [Theory]
    [InlineData("Runnel.Science")]
    [InlineData("Runnel.Place")]
    [InlineData("Runnel.Twin")]
    [InlineData("Runnel.Steward")]
    public void What_is_computed_from_its_input_uses_no_other_package(string assembly)
    {
        string[] foreign =
        [
            .. BuiltAssemblies.ReferencesOf(assembly)
                .Where(r => !IsIn(r, "Runnel") && !IsIn(r, "System") && r != "Microsoft.CSharp")
                .Except(MayUsePackages[assembly]),
        ];
        Assert.True(foreign.Length == 0, $"{assembly} must not use {string.Join(", ", foreign)}");
    }

    [Theory]
    [InlineData("Runnel.Science", true)]
    [InlineData("Runnel.Place", true)]
    [InlineData("Runnel.Steward", true)]
    [InlineData("Runnel.Twin", false)]
    public void What_is_computed_from_its_input_has_no_disk_network_clock_thread_or_chance(string assembly, bool banChanceAndThreads)
    {
        string[] banned = banChanceAndThreads ? [.. Outward, .. ChanceAndThreads] : Outward;
        string[] touched =
        [
            .. BuiltAssemblies.ForeignTypesOf(assembly).Where(t => banned.Any(b => IsIn(t, b))),

            // Every iterator asks for the thread it runs on; all else that the environment tells differs from run to run.
            .. BuiltAssemblies.ForeignMembersOf(assembly, "System.Environment")
                .Where(m => m is not ("get_CurrentManagedThreadId" or "get_NewLine")),
        ];
        Assert.True(touched.Length == 0, $"{assembly} must not touch {string.Join(", ", touched)}");
    }

    private static bool IsIn(string name, string area) => name == area || name.StartsWith(area + ".", StringComparison.Ordinal);
}
