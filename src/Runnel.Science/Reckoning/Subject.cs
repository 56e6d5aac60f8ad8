namespace Runnel.Science.Reckoning;

/// <summary>What a group of relations is about, as the keeper asks it.</summary>
/// <param name="Name">Kebab-case, for addresses.</param>
/// <param name="Question">The question that all of them serve.</param>
public sealed record Subject(string Name, string Question)
{
    internal static readonly Subject None = new("", "");
}
