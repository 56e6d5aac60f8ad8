using CsCheck;
using NodaTime;
using Runnel.Records;
using static Runnel.Tests.Records.TemporaryRecords;

namespace Runnel.Tests.Records;

public sealed class ReadingStoreTests
{
    private static CancellationToken Cancel => TestContext.Current.CancellationToken;

    [Fact]
    public async Task Readings_come_back_in_time_order_over_all_channels()
    {
        using var records = new TemporaryRecords();
        await using var store = await records.OpenAsync();
        await store.AddAsync([new("b", At(20), 2), new("a", At(30), 3), new("a", At(10), 1)], Cancel);

        Assert.Equal([new("a", At(10), 1), new("b", At(20), 2), new("a", At(30), 3)], await AllAsync(store));
    }

    [Fact]
    public async Task Importing_again_does_not_double()
    {
        using var records = new TemporaryRecords();
        var log = Log(channels: 3, hours: 50, everyS: 60);
        await using (var store = await records.OpenAsync())
        {
            Assert.Equal(new Stored(log.Count, 0, 0), await AddInBatchesAsync(store, log, 500));
        }

        await using var again = await records.OpenAsync();
        Assert.Equal(new Stored(0, 0, log.Count), await AddInBatchesAsync(again, log, 777));
        Assert.Equal(log, await AllAsync(again));
    }

    [Fact]
    public async Task A_later_word_on_the_same_time_replaces_the_first()
    {
        using var records = new TemporaryRecords();
        await using var store = await records.OpenAsync();
        var log = Log(channels: 1, hours: 30, everyS: 60);
        await store.AddAsync(log, Cancel);

        // One among packed hours, one among the newest.
        var changed = new[] { log[100] with { Value = -7 }, log[^1] with { Value = -8 } };
        Assert.Equal(new Stored(0, 2, 0), await store.AddAsync(changed, Cancel));

        var all = await AllAsync(store);
        Assert.Equal(log.Count, all.Count);
        Assert.Equal([-7, -8], new[] { all[100].Value, all[^1].Value });
    }

    // Whatever the order, the batches and the repeats: the store holds what a plain dictionary would.
    [Fact]
    public async Task The_store_agrees_with_a_plain_dictionary() =>
        await Gen.Select(Gen.Int[0, 2], Gen.Int[0, 40_000], Gen.Int[-50, 50]).Array[1, 900].Array[1, 6].SampleAsync(
            async batches =>
            {
                using var records = new TemporaryRecords();
                await using var store = await records.OpenAsync();
                var expected = new Dictionary<(string, Instant), double>();
                foreach (var batch in batches)
                {
                    var readings = batch.Select(r => new ChannelReading("c" + r.Item1, At(r.Item2 * 17.0), r.Item3 / 10.0)).ToList();
                    foreach (var r in readings) expected[(r.ChannelId, r.Time)] = r.Value;
                    var stored = await store.AddAsync(readings, Cancel);
                    Assert.Equal(readings.DistinctBy(r => (r.ChannelId, r.Time)).Count(), stored.New + stored.Changed + stored.Known);
                }

                var all = await AllAsync(store);
                Assert.Equal(expected.Count, all.Count);
                Assert.All(all, r => Assert.Equal(expected[(r.ChannelId, r.Time)], r.Value));
                Assert.Equal(all.OrderBy(r => r.Time).Select(r => r.Time), all.Select(r => r.Time));
                Assert.Equal(expected.Count, (await store.CountAsync(Cancel)).Sum(c => c.Count));
            },
            iter: 40, threads: 1);

    [Fact]
    public async Task A_reading_that_is_no_number_is_refused_and_nothing_of_its_batch_is_stored()
    {
        using var records = new TemporaryRecords();
        await using var store = await records.OpenAsync();
        await Assert.ThrowsAsync<ArgumentException>(() => store.AddAsync([new("a", At(0), 1), new("a", At(1), double.NaN)], Cancel));
        Assert.Empty(await AllAsync(store));
    }

    [Fact]
    public async Task Many_writers_share_commits_and_all_is_there()
    {
        using var records = new TemporaryRecords();
        await using var store = await records.OpenAsync();
        await Task.WhenAll(Enumerable.Range(0, 20).Select(async w =>
        {
            for (int i = 0; i < 100; i++) await store.AddAsync([new("c" + w, At(i), i)], Cancel);
        }));
        var counts = await store.CountAsync(Cancel);
        Assert.Equal(20, counts.Count);
        Assert.All(counts, c => Assert.Equal((100, At(0), At(99)), (c.Count, c.First, c.Last)));
    }

    [Fact]
    public async Task A_range_gives_its_first_time_and_not_its_end()
    {
        using var records = new TemporaryRecords();
        await using var store = await records.OpenAsync();
        await store.AddAsync(Log(channels: 1, hours: 20, everyS: 60), Cancel);
        var part = new List<ChannelReading>();
        await foreach (var r in store.ReadAsync(At(36_000), At(36_300), Cancel)) part.Add(r);
        Assert.Equal([At(36_000), At(36_060), At(36_120), At(36_180), At(36_240)], part.Select(r => r.Time));
    }

    [Fact]
    public async Task Buckets_agree_with_sums_over_the_readings_themselves()
    {
        using var records = new TemporaryRecords();
        await using var store = await records.OpenAsync();
        var log = Log(channels: 2, hours: 100, everyS: 37);
        await AddInBatchesAsync(store, log, 1000);
        Instant from = At(10_000);
        Instant to = At(300_000);
        foreach (int count in new[] { 1, 7, 1000 })
        {
            long step = ((to - from).BclCompatibleTicks + count - 1) / count;
            var expected = log.Where(r => r.ChannelId == "c1" && r.Time >= from && r.Time < to)
                .GroupBy(r => (r.Time - from).BclCompatibleTicks / step)
                .Select(g => (from + Duration.FromTicks(g.Key * step), g.LongCount(), g.Min(r => r.Value), g.Max(r => r.Value), g.Sum(r => r.Value)))
                .ToList();
            var buckets = await store.BucketsAsync("c1", from, to, count, Cancel);
            Assert.Equal(expected.Count, buckets.Count);
            Assert.All(expected.Zip(buckets), p =>
            {
                Assert.Equal((p.First.Item1, p.First.Item2, p.First.Item3, p.First.Item4), (p.Second.Start, p.Second.Count, p.Second.Low, p.Second.High));
                Assert.Equal(p.First.Item5, p.Second.Sum, 1e-6);
            });
        }

        Assert.Empty(await store.BucketsAsync("nothing", from, to, 10, Cancel));
    }

    [Fact]
    public async Task A_month_of_mixed_channels_takes_under_four_bytes_a_reading()
    {
        using var records = new TemporaryRecords();
        await using (var store = await records.OpenAsync())
        {
            await AddInBatchesAsync(store, Log(channels: 4, hours: 24 * 30, everyS: 30), 20_000);
        }

        double perReading = new FileInfo(records.File).Length / (4 * 30 * 24 * 120.0);
        Assert.InRange(perReading, 1, 4);
    }

    [Fact]
    public async Task A_slow_channel_stays_compact_too()
    {
        using var records = new TemporaryRecords();
        var log = Log(channels: 10, hours: 24 * 365, everyS: 3600);
        await using (var store = await records.OpenAsync()) await AddInBatchesAsync(store, log, 20_000);
        Assert.InRange(new FileInfo(records.File).Length / (double)log.Count, 1, 8);
    }

    /// <summary>Temperatures with two decimals, each channel its own; in time order.</summary>
    private static List<ChannelReading> Log(int channels, int hours, int everyS)
    {
        var random = new Random(11);
        var log = new List<ChannelReading>();
        for (int s = 0; s < hours * 3600; s += everyS)
        {
            for (int c = 0; c < channels; c++)
            {
                log.Add(new ChannelReading("c" + c, At(s), Math.Round(20 + c + (5 * Math.Sin(s / 14_000.0)) + (random.NextDouble() * 0.2), 2)));
            }
        }

        return log;
    }

    private static async Task<Stored> AddInBatchesAsync(ReadingStore store, List<ChannelReading> log, int size)
    {
        var stored = default(Stored);
        foreach (var batch in log.Chunk(size)) stored += await store.AddAsync(batch, Cancel);
        return stored;
    }
}
