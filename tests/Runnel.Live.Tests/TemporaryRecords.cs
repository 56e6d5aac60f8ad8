using Runnel.Records;

namespace Runnel.Live.Tests;

/// <summary>A folder of its own for one test, gone afterwards.</summary>
public sealed class TemporaryRecords : IDisposable
{
    private readonly DirectoryInfo _folder = Directory.CreateTempSubdirectory("runnel-live-");

    public string Folder => _folder.FullName;

    public string File => Path.Combine(_folder.FullName, "records.sqlite");

    public Task<ReadingStore> OpenAsync() => ReadingStore.OpenAsync(File, TestContext.Current.CancellationToken);

    public void Dispose() => _folder.Delete(recursive: true);
}
