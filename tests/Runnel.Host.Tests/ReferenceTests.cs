using System.Reflection;

namespace Runnel.Host.Tests;

/// <summary>The projects' arrows point one way; a new one that points outward fails here.</summary>
public sealed class ReferenceTests
{
    private static readonly Dictionary<string, string[]> Allowed = new()
    {
        ["Runnel.Science"] = [],
        ["Runnel.Place"] = ["Runnel.Science"],
        ["Runnel.Twin"] = ["Runnel.Science", "Runnel.Place"],
        ["Runnel.Steward"] = ["Runnel.Science", "Runnel.Place"],
        ["Runnel.Records"] = ["Runnel.Place"],
        ["Runnel.Exchange"] = ["Runnel.Place"],
        ["Runnel.Web"] = ["Runnel.Science", "Runnel.Place", "Runnel.Twin", "Runnel.Steward", "Runnel.Records", "Runnel.Exchange"],
    };

    // What the inner projects must stay free of: they are pure, so that they run the same live, over a log and in tests.
    private static readonly string[] Outward = ["Microsoft.AspNetCore", "Microsoft.Data", "System.Net", "MQTTnet", "SQLitePCL"];

    public static TheoryData<string> Projects => [.. Allowed.Keys];

    [Theory]
    [MemberData(nameof(Projects))]
    public void A_project_refers_only_inward(string project)
    {
        var references = Assembly.Load(project).GetReferencedAssemblies().Select(r => r.Name!).ToList();
        Assert.Empty(references.Where(r => r.StartsWith("Runnel.", StringComparison.Ordinal)).Except(Allowed[project]));
    }

    [Theory]
    [InlineData("Runnel.Science")]
    [InlineData("Runnel.Place")]
    [InlineData("Runnel.Twin")]
    [InlineData("Runnel.Steward")]
    public void An_inner_project_knows_no_database_and_no_network(string project)
    {
        var references = Assembly.Load(project).GetReferencedAssemblies().Select(r => r.Name!);
        Assert.DoesNotContain(references, r => Outward.Any(o => r.StartsWith(o, StringComparison.Ordinal)));
    }

    [Fact]
    public void Science_needs_nothing_but_the_runtime() =>
        Assert.All(
            Assembly.Load("Runnel.Science").GetReferencedAssemblies(),
            r => Assert.StartsWith("System.", r.Name, StringComparison.Ordinal));
}
