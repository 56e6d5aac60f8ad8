using System.Reflection.Metadata;
using System.Reflection.PortableExecutable;
using System.Xml.Linq;

namespace Runnel.Tests.Architecture;

/// <summary>The assemblies as built and the project files they came from, read without loading them.</summary>
internal static class BuiltAssemblies
{
    /// <summary>The top folder of the repository.</summary>
    internal static readonly string Root = FindRoot();

    /// <summary>Assembly names of all projects in src/.</summary>
    internal static IReadOnlyList<string> Names { get; } =
        [.. Directory.GetFiles(Path.Combine(Root, "src"), "*.csproj", SearchOption.AllDirectories).Select(AssemblyNameOf).Order()];

    /// <summary>Names of all assemblies that this one's code touches.</summary>
    internal static IReadOnlyList<string> ReferencesOf(string assembly)
    {
        using var file = File.OpenRead(PathOf(assembly));
        using var image = new PEReader(file);
        var metadata = image.GetMetadataReader();
        return [.. metadata.AssemblyReferences.Select(h => metadata.GetString(metadata.GetAssemblyReference(h).Name))];
    }

    /// <summary>Names of all types of the runtime and of packages that this one's code touches, e.g. <c>System.IO.File</c>.</summary>
    internal static IReadOnlyList<string> ForeignTypesOf(string assembly)
    {
        using var file = File.OpenRead(PathOf(assembly));
        using var image = new PEReader(file);
        var metadata = image.GetMetadataReader();
        return
        [
            .. metadata.TypeReferences.Select(metadata.GetTypeReference)
                .Select(t => $"{metadata.GetString(t.Namespace)}.{metadata.GetString(t.Name)}"),
        ];
    }

    /// <summary>Names of the members of a foreign type that this one's code touches.</summary>
    internal static IReadOnlyList<string> ForeignMembersOf(string assembly, string type)
    {
        using var file = File.OpenRead(PathOf(assembly));
        using var image = new PEReader(file);
        var metadata = image.GetMetadataReader();
        return
        [
            .. metadata.MemberReferences.Select(metadata.GetMemberReference)
                .Where(m => m.Parent.Kind == HandleKind.TypeReference)
                .Where(m =>
                {
                    var owner = metadata.GetTypeReference((TypeReferenceHandle)m.Parent);
                    return $"{metadata.GetString(owner.Namespace)}.{metadata.GetString(owner.Name)}" == type;
                })
                .Select(m => metadata.GetString(m.Name)),
        ];
    }

    internal static IEnumerable<string> ProjectReferencesOf(string assembly) =>
        XDocument.Load(ProjectOf(assembly)).Descendants("ProjectReference")
            .Select(r => Path.GetFileNameWithoutExtension(((string)r.Attribute("Include")!).Replace('\\', '/')))
            .Select(name => name == "Runnel.Cli" ? "runnel" : name);

    private static string AssemblyNameOf(string project) =>
        XDocument.Load(project).Descendants("AssemblyName").FirstOrDefault()?.Value ?? Path.GetFileNameWithoutExtension(project);

    private static string ProjectOf(string assembly) =>
        Directory.GetFiles(Path.Combine(Root, "src"), "*.csproj", SearchOption.AllDirectories).Single(p => AssemblyNameOf(p) == assembly);

    // Beside the tests where they use it; else where its own build put it.
    private static string PathOf(string assembly)
    {
        string beside = Path.Combine(AppContext.BaseDirectory, assembly + ".dll");
        if (File.Exists(beside)) return beside;
        string project = Path.GetFileNameWithoutExtension(ProjectOf(assembly));
        string configuration = Path.GetFileName(Path.TrimEndingDirectorySeparator(AppContext.BaseDirectory));
        return Path.Combine(Root, "artifacts", "bin", project, configuration, assembly + ".dll");
    }

    private static string FindRoot()
    {
        var folder = new DirectoryInfo(AppContext.BaseDirectory);
        while (folder is not null && !File.Exists(Path.Combine(folder.FullName, "Runnel.slnx"))) folder = folder.Parent;
        return folder?.FullName ?? throw new InvalidOperationException("Runnel.slnx is in no folder above the tests");
    }
}
