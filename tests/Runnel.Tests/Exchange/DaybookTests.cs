using System.Globalization;
using System.Text;
using NodaTime;
using Runnel.Exchange;
using Runnel.Exchange.Daybook;
using Runnel.Place;

namespace Runnel.Tests.Exchange;

public sealed class DaybookTests
{
    private static readonly PlaceDescription Place = Logs.Place with
    {
        Vessels = [new Vessel("separator", VesselKind.SolidsSeparator), new Vessel("fish-tank-1", VesselKind.FishTank)],
        Equipment = [new Equipment("split-valve", EquipmentKind.ZoneValve)],
    };

    [Fact]
    public void Entries_are_read_with_litres_of_and_note()
    {
        var book = Read(
            """
            time,entry,of,amount,unit,by,note
            2026-02-01T08:10:00+11:00,drained,separator,20,L,Ada,"dark, as always"
            2026-02-02 07:30,Filled by hand,,0.05,m3,Ben,
            2026-02-03 07:30,moved-valve,split-valve,,,,a quarter turn
            2026-02-03 18:00,carried-off,Fish Tank 1,2500,mL,,
            """);
        Assert.Equal(
            [
                new DaybookEntry(Instant.FromUtc(2026, 1, 31, 21, 10), "drained", "separator", 20, "Ada", "dark, as always"),
                new DaybookEntry(Instant.FromUtc(2026, 2, 1, 20, 30), "filled-by-hand", null, 50, "Ben", null),
                new DaybookEntry(Instant.FromUtc(2026, 2, 2, 20, 30), "moved-valve", "split-valve", null, null, "a quarter turn"),
                new DaybookEntry(Instant.FromUtc(2026, 2, 3, 7, 0), "carried-off", "fish-tank-1", 2.5, null, null),
            ],
            book.Entries);
        Assert.Empty(book.Skipped);
        Assert.Empty(book.Remarks);
    }

    [Fact]
    public void Water_of_an_unknown_thing_still_counts()
    {
        var book = Read("time,entry,of,amount,unit\n2026-02-01 08:00,drained,seperator,20,L\n2026-02-02 08:00,drained,seperator,20,L\n");
        Assert.All(book.Entries, e => Assert.Equal((null, 20.0, "seperator"), (e.Of, e.Litres, e.Note)));
        Assert.Equal(["\"seperator\" is not in the place file (line 2, nearest: separator): 2 entries are counted for the loop as a whole."], book.Remarks);
    }

    [Theory]
    [InlineData("20", "L", 20.0)]
    [InlineData("20", "litres", 20.0)]
    [InlineData("1", "gal_us", 3.785411784)]
    [InlineData("1", "US gal", 3.785411784)]
    [InlineData("1", "[gal_br]", 4.54609)]
    [InlineData("1", "imp gal", 4.54609)]
    [InlineData("0,5", "m³", 500.0)]
    [InlineData("20 L", "", 20.0)]
    [InlineData("0.02 m3", "", 20.0)]
    [InlineData("20", "", 20.0)]
    [InlineData("500", "ml", 0.5)]
    [InlineData("500", "ML", 0.5)]
    [InlineData("2", "hl", 200.0)]
    [InlineData("two buckets", "", null)]
    [InlineData("-5", "L", null)]
    [InlineData("20", "buckets", null)]
    public void Amounts_of_water_become_litres(string amount, string unit, double? litres)
    {
        var book = Read($"time;entry;of;amount;unit\n2026-02-01 08:00;drained;;{amount};{unit}\n");
        Assert.Equal(litres, book.Entries.Single().Litres is { } read ? Math.Round(read, 9) : null);
        Assert.Equal(litres is null, book.Entries.Single().Note is not null);
        Assert.Equal(litres is null, book.Remarks.Any(r => r.Contains("not understood", StringComparison.Ordinal)));
    }

    [Theory]
    [InlineData("gal")]
    [InlineData("Gallons")]
    public void A_gallon_of_no_country_gives_no_litres(string unit)
    {
        var book = Read($"time;entry;of;amount;unit\n2026-02-01 08:00;drained;;5;{unit}\n");
        Assert.Equal((null, $"5 {unit}"), (book.Entries.Single().Litres, book.Entries.Single().Note));
        Assert.Contains("[gal_us] (3.785 L) or [gal_br] (4.546 L)", Assert.Single(book.Remarks), StringComparison.Ordinal);
    }

    [Fact]
    public void What_is_not_water_is_kept_in_words()
    {
        var book = Read("time,entry,of,amount,unit,by,note\n2026-02-01 08:00,fed,fish-tank-1,35,g,Ada,eager\n");
        Assert.Equal((null, "35 g; eager"), (book.Entries.Single().Litres, book.Entries.Single().Note));
        Assert.Empty(book.Remarks);
    }

    [Fact]
    public void Rows_without_a_time_are_skipped_and_the_rest_is_sorted()
    {
        var book = Read("When;What;Who\n03.02.2026 08:00;cleaned;Ada\n;drained;Ben\nlast week;drained;Ben\n01.02.2026;note it;Cy\n;;\n");
        Assert.Equal(["note-it", "cleaned"], book.Entries.Select(e => e.Entry));
        Assert.Equal(2, book.Skipped.Sum(s => s.Count));
        Assert.Equal(3, book.Skipped[0].FirstLine);
    }

    [Fact]
    public void A_file_that_is_no_daybook_is_refused()
    {
        Assert.Contains("no column tells what was done", Refused("time,channel,value\n2026-02-01 10:00,sump-pump,1\n").What, StringComparison.Ordinal);
        Assert.Equal("the file is empty", Refused("").What);
    }

    [Fact]
    public void A_daybook_with_nothing_in_it_yet_is_no_error() => Assert.Empty(Read("time,entry,of,amount,unit,by,note\n").Entries);

    [Fact]
    public void Every_entry_that_was_written_is_there_in_whatever_order()
    {
        string[] rows = [.. Enumerable.Range(0, 50).Select(i => string.Create(CultureInfo.InvariantCulture, $"2026-02-{1 + (i * 7 % 28):00} 08:{i:00},drained,,{i},L"))];
        var book = Read("time,entry,of,amount,unit\n" + string.Join('\n', rows));
        Assert.Equal(Enumerable.Range(0, 50).Sum(), book.Entries.Sum(e => e.Litres));
        Assert.True(book.Entries.Zip(book.Entries.Skip(1)).All(p => p.First.Time <= p.Second.Time));
    }

    private static DaybookFile Read(string text) =>
        DaybookReader.Read(new MemoryStream(Encoding.UTF8.GetBytes(text)), Place, TestContext.Current.CancellationToken);

    private static UnreadableFileException Refused(string text) => Assert.Throws<UnreadableFileException>(() => Read(text));
}
