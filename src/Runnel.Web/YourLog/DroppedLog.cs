namespace Runnel.Web.YourLog;

/// <summary>A log that someone dropped, in a folder of its own.</summary>
/// <param name="Id">Unguessable; whoever has the address can see the findings.</param>
/// <param name="Folder">Holds everything about it.</param>
/// <param name="FileName">As the sender called it; shown, never used as a path.</param>
public sealed record DroppedLog(string Id, string Folder, string FileName)
{
    public string LogPath => Path.Combine(Folder, "log.csv");

    /// <summary>The place file, uploaded or written from answers; missing until then.</summary>
    public string PlacePath => Path.Combine(Folder, "place.toml");

    /// <summary>What people wrote down, if they gave it.</summary>
    public string DaybookPath => Path.Combine(Folder, "daybook.csv");

    /// <summary>Answers as entered, for when someone wants to change one.</summary>
    public string AnswersPath => Path.Combine(Folder, "answers.json");

    public bool HasPlace => File.Exists(PlacePath);

    public string PagePath => $"/log/{Id}";
}
