using Microsoft.Data.Sqlite;
using NodaTime;
using Runnel.Place;
using Runnel.Records;
using Runnel.Records.Opening;
using static Runnel.Tests.Records.TemporaryRecords;

namespace Runnel.Tests.Records;

public sealed class RecordsFileTests
{
    private static CancellationToken Cancel => TestContext.Current.CancellationToken;

    [Fact]
    public async Task Records_of_every_older_version_are_brought_up_after_a_copy_was_set_aside()
    {
        for (int version = 1; version < Migrations.Scripts.Count; version++)
        {
            using var records = new TemporaryRecords();
            using (var old = RecordsFile.OpenWriter(records.File))
            {
                Migrations.Run(old, records.File, version);
                using var fill = old.CreateCommand();
                fill.CommandText = "INSERT INTO channel VALUES (1, 'a'); INSERT INTO fresh VALUES (1, 0, 2.5);";
                fill.ExecuteNonQuery();
            }

            await using var store = await records.OpenAsync();
            Assert.Equal([new("a", Instant.FromUnixTimeTicks(0), 2.5)], await AllAsync(store));
            Assert.True(File.Exists(Migrations.CopyName(records.File, version)));
        }
    }

    [Fact]
    public async Task Records_of_a_newer_version_are_left_alone()
    {
        using var records = new TemporaryRecords();
        await using (await records.OpenAsync())
        {
        }

        Execute(records.File, "PRAGMA user_version = 99");
        var error = await Assert.ThrowsAsync<RecordsException>(records.OpenAsync);
        Assert.Contains("newer version", error.Message, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Another_programs_database_is_left_alone()
    {
        using var records = new TemporaryRecords();
        Execute(records.File, "CREATE TABLE other (x)");
        var error = await Assert.ThrowsAsync<RecordsException>(records.OpenAsync);
        Assert.Contains("not a file of records", error.Message, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_file_that_is_no_database_is_named_as_such()
    {
        using var records = new TemporaryRecords();
        await File.WriteAllTextAsync(records.File, new string('x', 5000), Cancel);
        var error = await Assert.ThrowsAsync<RecordsException>(records.OpenAsync);
        Assert.Equal(records.File, error.Where);
        Assert.Contains("damaged", error.What, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_damaged_page_is_told_and_not_taken_for_readings()
    {
        using var records = new TemporaryRecords();
        await using (var store = await records.OpenAsync())
        {
            await store.AddAsync([.. Enumerable.Range(0, 50_000).Select(i => new ChannelReading("a", At(i * 10), i % 37))], Cancel);
        }

        using (var file = File.OpenWrite(records.File))
        {
            // Leaves the header and the schema, spoils what follows.
            file.Position = 4096 * 4;
            byte[] spoilt = new byte[4096 * 12];
            new Random(3).NextBytes(spoilt);
            file.Write(spoilt);
        }

        await using var again = await records.OpenAsync();
        var error = await Assert.ThrowsAsync<RecordsException>(() => AllAsync(again));
        Assert.Contains("damaged", error.What, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_folder_that_does_not_exist_is_told()
    {
        using var records = new TemporaryRecords();
        var error = await Assert.ThrowsAsync<RecordsException>(
            () => ReadingStore.OpenAsync(Path.Combine(records.File + "-no", "records.sqlite"), Cancel));
        Assert.Contains("cannot be opened", error.What, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Daybook_entries_are_kept_once()
    {
        using var records = new TemporaryRecords();
        await using var store = await records.OpenAsync();
        DaybookEntry[] entries =
        [
            new(At(60), "drained", "separator", 12, "Ada", null),
            new(At(0), "cleaned", null, null, null, "screens"),
            new(At(60), "drained", "separator", 15, "Ada", null),
        ];
        Assert.Equal(3, await store.Daybook.AddAsync(entries, Cancel));
        Assert.Equal(0, await store.Daybook.AddAsync(entries, Cancel));
        Assert.Equal([entries[1], entries[0], entries[2]], await store.Daybook.ReadAllAsync(Cancel));
    }

    [Fact]
    public async Task The_place_text_is_kept_when_it_changes()
    {
        using var records = new TemporaryRecords();
        await using var store = await records.OpenAsync();
        Assert.Null(await store.PlaceTexts.LatestAsync(Cancel));
        Assert.True(await store.PlaceTexts.KeepAsync("one", At(0), Cancel));
        Assert.False(await store.PlaceTexts.KeepAsync("one", At(1), Cancel));
        Assert.True(await store.PlaceTexts.KeepAsync("two", At(2), Cancel));
        Assert.Equal(new PlaceText(At(2), "two"), await store.PlaceTexts.LatestAsync(Cancel));
    }

    private static void Execute(string file, string sql)
    {
        using var connection = new SqliteConnection($"Data Source={file};Pooling=False");
        connection.Open();
        using var command = connection.CreateCommand();
        command.CommandText = sql;
        command.ExecuteNonQuery();
    }
}
