using NodaTime;
using Runnel.Records;

namespace Runnel.Tests.Records;

/// <summary>A folder of its own for one test, gone afterwards.</summary>
public sealed class TemporaryRecords : IDisposable
{
    private readonly DirectoryInfo _folder = Directory.CreateTempSubdirectory("runnel-records-");

    public string File => Path.Combine(_folder.FullName, "records.sqlite");

    public Task<ReadingStore> OpenAsync() => ReadingStore.OpenAsync(File, TestContext.Current.CancellationToken);

    public static Instant At(double seconds) => Instant.FromUtc(2026, 2, 1, 0, 0) + Duration.FromSeconds(seconds);

    public static async Task<List<ChannelReading>> AllAsync(ReadingStore store)
    {
        var all = new List<ChannelReading>();
        await foreach (var reading in store.ReadAllAsync(TestContext.Current.CancellationToken)) all.Add(reading);
        return all;
    }

    public void Dispose() => _folder.Delete(recursive: true);
}
