using System.Text.RegularExpressions;

namespace Runnel.Tests.Architecture;

/// <summary>Guides name what exists: a file, folder or type that was renamed must be renamed there as well.</summary>
public partial class GuideTests
{
    private static readonly string[] Guides = ["docs/architecture.md", "docs/nomenclature.md", "docs/place-file.md", "CONTRIBUTING.md"];

    public static TheoryData<string> Files => [.. Guides];

    [Theory, MemberData(nameof(Files))]
    public void Links_lead_to_files_that_exist(string guide)
    {
        string folder = Path.GetDirectoryName(Path.Combine(BuiltAssemblies.Root, guide))!;
        string[] broken =
        [
            .. Link().Matches(Read(guide)).Select(m => m.Groups[1].Value)
                .Where(link => !link.Contains("://", StringComparison.Ordinal) && !link.StartsWith('#'))
                .Select(link => link.Split('#')[0])
                .Where(link => !Path.Exists(Path.Combine(folder, link))),
        ];
        Assert.Empty(broken);
    }

    [Theory]
    [InlineData("docs/architecture.md")]
    [InlineData("docs/nomenclature.md")]
    public void Names_from_the_code_exist_in_the_code(string guide)
    {
        string code = string.Join(
            '\n', Directory.GetFiles(Path.Combine(BuiltAssemblies.Root, "src"), "*.cs", SearchOption.AllDirectories).Select(File.ReadAllText));
        HashSet<string> words = [.. Word().Matches(code).Select(m => m.Value)];
        string[] missing =
        [
            .. CodeName().Matches(Read(guide)).Select(m => m.Groups[1].Value)
                .Where(name => !name.StartsWith("Runnel.", StringComparison.Ordinal))
                .SelectMany(name => name.Split('.'))
                .Where(name => !words.Contains(name)),
        ];
        Assert.Empty(missing);
    }

    [Fact]
    public void The_architecture_guide_names_every_project_in_src()
    {
        string guide = Read("docs/architecture.md");
        foreach (string project in Directory.GetDirectories(Path.Combine(BuiltAssemblies.Root, "src")).Select(p => Path.GetFileName(p)))
        {
            Assert.Contains($"`{project}`", guide, StringComparison.Ordinal);
        }
    }

    private static string Read(string guide) => File.ReadAllText(Path.Combine(BuiltAssemblies.Root, guide));

    [GeneratedRegex(@"\]\(([^)\s]+)\)")]
    private static partial Regex Link();

    // A type or member in backquotes, e.g. `LoopReader` or `Diagnosis.Kit`.
    [GeneratedRegex(@"`([A-Z][A-Za-z0-9]+(?:\.[A-Z][A-Za-z0-9]+)*)`")]
    private static partial Regex CodeName();

    [GeneratedRegex(@"\b[A-Za-z_][A-Za-z0-9_]*\b")]
    private static partial Regex Word();
}
