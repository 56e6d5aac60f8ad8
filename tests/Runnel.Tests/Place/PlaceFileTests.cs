using Runnel.Place;
using Runnel.Place.PlaceFiles;

namespace Runnel.Tests.Place;

public class PlaceFileTests
{
    [Fact]
    public void The_least_that_diagnose_needs_reads_as_written()
    {
        var place = Good(Sample.Least);

        Assert.Equal("Weir Cottage", place.Name);
        Assert.Equal((-34.2, 150.6, 80), (place.LatitudeDeg, place.LongitudeDeg, place.AltitudeM));
        Assert.Equal("Australia/Sydney", place.Zone.Id);
        Assert.Equal(new LoopTotals(2.5, 6.5, 2.4), place.Loop);
        Assert.Equal(new Vessel("sump", VesselKind.Sump, BandL: 65), Assert.Single(place.Vessels));
        Assert.Equal(
            [new Equipment("sump-pump", EquipmentKind.Pump, From: "sump"), new Equipment("top-up", EquipmentKind.TopUpValve, RateLPerMin: 11.5)],
            place.Equipment);
        Assert.Equal(
            [new Channel("sump-pump", Quantity.Running, "sump-pump"), new Channel("top-up-valve", Quantity.Running, "top-up")],
            place.Channels);
    }

    [Fact]
    public void All_problems_are_listed_at_once_in_the_order_of_their_lines()
    {
        string text = Sample.Least
            .Replace("latitude  = \"34.2 S\"", "latitude  = \"34,2 S\"")
            .Replace("band = \"65 L\"", "bnad = \"65 L\"")
            .Replace("rate = \"11.5 L/min\"", "rate = \"11.5 kW\"")
            .Replace("of       = \"top-up\"", "of       = \"topup\"");

        var problems = PlaceFile.Read(text, "place.toml").Problems;

        Assert.Equal(
            ["place.latitude", "vessel.sump.bnad", "equipment.top-up.rate", "channel.top-up-valve.of"], problems.Select(p => p.KeyPath));
        Assert.Equal([3, 15, 25, 35], problems.Select(p => p.Line));
    }

    [Theory]
    [InlineData("band = \"65 L\"", "bnad = \"65 L\"", "15:1", "[[vessel]] sump has no key bnad", "Write band", "band")]
    [InlineData("band = \"65 L\"", "band = \"65 W\"", "15:8", "where a volume with its unit is expected", "W is a unit of power: write it as in \"65 L\"", null)]
    [InlineData("band = \"65 L\"", "band = 65", "15:8", "band of [[vessel]] sump is 65", "in quotes, as in \"65 L\"", null)]
    [InlineData("band = \"65 L\"", "band = \"65\"", "15:8", "is \"65\"", "Add the unit", null)]
    [InlineData("band = \"65 L\"", "band = \"6,5 L\"", "15:8", "6,5 L", "decimal point", null)]
    [InlineData("band = \"65 L\"", "band = \"65 gal\"", "15:8", "65 gal", "[gal_us] (3.785 L) or [gal_br] (4.546 L)", null)]
    [InlineData("band = \"65 L\"", "band = \"65 gal/min\"", "15:8", "65 gal/min", "write [gal_us]/min or [gal_br]/min", null)]
    [InlineData("band = \"65 L\"", "band = \"65 buckets\"", "15:8", "65 buckets", "buckets is no unit known here", null)]
    [InlineData("band = \"65 L\"", "band = \"0 L\"", "15:8", "more than 0", "Correct the number", null)]
    [InlineData("band = \"65 L\"", "band = [65, \"L\"]", "15:8", "a list", "Write it as in \"65 L\"", null)]
    [InlineData("band = \"65 L\"", "band = 65 L", "15:11", "this line is not TOML", "Put the value in quotes: band = \"65 L\"", null)]
    [InlineData("\"34.2 S\"", "\"34.2\"", "3:13", "degrees from 0 to 90 with N or S", "\"34.2 S\"", null)]
    [InlineData("\"34.2 S\"", "-34.2", "3:13", "degrees from 0 to 90 with N or S", "\"34.2 S\"", null)]
    [InlineData("\"34.2 S\"", "\"94.2 S\"", "3:13", "degrees from 0 to 90 with N or S", "\"34.2 S\"", null)]
    [InlineData("\"150.6 E\"", "\"150.6 N\"", "4:13", "degrees from 0 to 180 with E or W", "\"150.6 E\"", null)]
    [InlineData("\"150.6 E\"", "\"190 E\"", "4:13", "degrees from 0 to 180 with E or W", "\"150.6 E\"", null)]
    [InlineData("\"Australia/Sydney\"", "\"Australia/Sidney\"", "6:13", "time zone", "\"Australia/Sydney\"", "Australia/Sydney")]
    [InlineData("\"Australia/Sydney\"", "\"Sydney\"", "6:13", "time zone", "\"Australia/Sydney\"", "Australia/Sydney")]
    [InlineData("altitude  = \"80 m\"\n", "", "1:1", "diagnose needs altitude in [place]", "altitude = \"80 m\"", null)]
    [InlineData("kind = \"sump\"", "kind = \"smup\"", "14:8", "kind of [[vessel]] sump is \"smup\"", "Write \"sump\"", "sump")]
    [InlineData("kind = \"pump\"", "", "17:1", "[[equipment]] sump-pump has no kind", "one of pump, top-up-valve", null)]
    [InlineData("from = \"sump\"", "from = \"sunp\"", "20:8", "the id of something in this file", "Write \"sump\"", "sump")]
    [InlineData("measures = \"running\"\nof       = \"sump-pump\"", "measures = \"runing\"\nof       = \"sump-pump\"", "29:12", "\"runing\"", "Write \"running\"", "running")]
    [InlineData("of       = \"sump-pump\"", "", "27:1", "measures running, but not of what", "there are: sump-pump, top-up", null)]
    [InlineData("of       = \"sump-pump\"", "of       = \"sump\"", "30:12", "a vessel does not run", "Name the equipment", null)]
    [InlineData("of       = \"top-up\"", "of       = \"sump-pump\"", "35:12", "one channel for the running of sump-pump", "sensed", null)]
    [InlineData("id   = \"top-up\"", "id   = \"sump\"", "23:8", "an id that is not used yet", "\"sump-2\"", null)]
    [InlineData("id   = \"top-up\"", "id   = \"Top Up\"", "23:8", "small letters, digits and hyphens", "Write \"top-up\"", null)]
    [InlineData("[[vessel]]", "[vessel]", "12:1", "vessel is not written as [[vessel]]", "Begin each with [[vessel]]", null)]
    [InlineData("[[vessel]]", "[[vesel]]", "12:1", "there is no section called vesel", "Write [[vessel]]", "vessel")]
    [InlineData("name      = \"Weir Cottage\"", "name      = \"Weir Cottage\"\nname = \"x\"", "3:1", "place.name is given twice", "Keep one", null)]
    [InlineData("name      = \"Weir Cottage\"", "name      = \"Weir Cottage", "2:26", "does not end on this line", "closing quote", null)]
    [InlineData("\"Weir Cottage\"", "\"Weir\\Cottage\"", "2:19", "this line is not TOML", "for a backslash", null)]
    [InlineData("\"Weir Cottage\"", "\"Weir Cottage\" and more", "2:28", "this line is not TOML", "nothing but a # comment behind it", null)]
    [InlineData("[place]", "[place", "1:7", "this line is not TOML: [place", "Write [section]", null)]
    [InlineData("[place]", "colour = 3\n[place]", "1:1", "stands before the first section", "Move it", null)]
    public void Each_mistake_names_place_problem_and_remedy(string right, string wrong, string where, string what, string remedy, string? nearest)
    {
        Assert.Contains(right, Sample.Least, StringComparison.Ordinal);
        var result = PlaceFile.Read(Replaced(Sample.Least, right, wrong), "place.toml");

        Assert.Null(result.Place);
        var problem = result.Problems[0];
        Assert.Equal(where, $"{problem.Line}:{problem.Column}");
        Assert.Contains(what, problem.What, StringComparison.Ordinal);
        Assert.Contains(remedy, problem.Remedy, StringComparison.Ordinal);
        Assert.Equal(nearest, problem.Nearest);
        Assert.StartsWith($"runnel: place.toml:{where}: ", problem.ToString(), StringComparison.Ordinal);
        Assert.EndsWith(".", problem.ToString(), StringComparison.Ordinal);
        Assert.DoesNotContain("\n", problem.ToString(), StringComparison.Ordinal);
    }

    [Fact]
    public void One_mistake_makes_one_problem()
    {
        foreach (string wrong in (string[])["bnad = \"65 L\"", "band = \"65 W\"", "band = 65 L", "band = \"65 L"])
        {
            Assert.Single(PlaceFile.Read(Replaced(Sample.Least, "band = \"65 L\"", wrong), "p").Problems);
        }

        Assert.Single(PlaceFile.Read(Sample.Least.Replace("latitude", "lattitude"), "p").Problems);
        Assert.Single(PlaceFile.Read("", "p").Problems, p => p.KeyPath == "place");
    }

    [Theory]
    [InlineData("footprint = \"0.5 m2\"\nswitch-low = \"100 mm\"\nswitch-high = \"25 cm\"", 75)]
    [InlineData("length = \"1 m\"\nwidth = \"50 cm\"\nswitch-low = \"0.1 m\"\nswitch-high = \"250 mm\"", 75)]
    [InlineData("band = \"0.065 m3\"", 65)]
    [InlineData("band = \"20 [gal_us]\"", 75.70823568)]
    public void A_band_is_told_or_worked_out(string told, double bandL) =>
        Assert.Equal(bandL, Good(Replaced(Sample.Least, "band = \"65 L\"", told)).FindVessel("sump")!.BandL!.Value, 9);

    [Fact]
    public void A_band_upside_down_is_refused()
    {
        string text = Replaced(Sample.Least, "band = \"65 L\"", "footprint = \"0.5 m2\"\nswitch-low = \"300 mm\"\nswitch-high = \"200 mm\"");
        Assert.Contains("a height above switch-low (300 mm)", Assert.Single(PlaceFile.Read(text, "p").Problems).What, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("measures = \"relative-humidity\"\nunit = \"1\"", 0.45, 45)]
    [InlineData("measures = \"air-temperature\"\nunit = \"degF\"", 98.6, 37)]
    [InlineData("measures = \"level\"\nof = \"sump\"\nunit = \"m\"\noffset = -0.2", 0.5, 300)]
    [InlineData("measures = \"level\"\nof = \"sump\"\nscale = -1\noffset = 900", 600, 300)]
    [InlineData("measures = \"flow\"\nunit = \"m3/h\"", 2.4, 40)]
    [InlineData("measures = \"air-pressure\"\nunit = \"hPa\"", 1013.25, 101.325)]
    [InlineData("measures = \"conductivity\"\nunit = \"mS/cm\"", 1.5, 1500)]
    [InlineData("measures = \"nitrate\"\nunit = \"ppm\"", 20, 20)]
    [InlineData("measures = \"nitrate\"\nunit = \"mg/L as N\"", 20, 20)]
    [InlineData("measures = \"ph\"", 6.8, 6.8)]
    [InlineData("measures = \"rain-total\"\nscale = 0.254", 10, 2.54)]
    [InlineData("measures = \"rain\"\nunit = \"[in_i]\"", 1, 25.4)]
    public void A_channel_carries_raw_values_to_the_unit_of_its_quantity(string keys, double raw, double value)
    {
        var channel = Good(Sample.Least + $"\n[[channel]]\nid = \"extra\"\n{keys}\n").Channels[^1];
        Assert.Equal(value, (raw * channel.Scale) + channel.Offset, 9);
    }

    [Theory]
    [InlineData("measures = \"level\"\nunit = \"L\"", "L is a unit of volume, and level is in mm")]
    [InlineData("measures = \"nitrate\"\nunit = \"mg/L as NO3\"", "nitrate x 0.2259")]
    [InlineData("measures = \"ph\"\nunit = \"mg/L\"", "ph has none")]
    [InlineData("measures = \"power\"\nrunning-above = \"0.2 A\"", "A is a unit of current")]
    [InlineData("measures = \"level\"\nrunning-above = \"2 W\"", "power or current")]
    [InlineData("measures = \"level\"\nscale = \"2\"", "without quotes")]
    [InlineData("measures = \"level\"\nscale = 0", "leave it out")]
    [InlineData("measures = \"level\"\nleast = \"5 mm\"\ngreatest = \"2 mm\"", "Correct one of the two")]
    [InlineData("measures = \"level\"\nevery = \"10\"", "Add the unit, as in \"10 s\"")]
    [InlineData("measures = \"level\"\ncolumn = \"sump-pump\"", "Give each channel its own column")]
    [InlineData("measures = \"ph\"\nleast = \"4\"", "without quotes, as in least = 6.5")]
    public void A_channel_that_cannot_be_carried_over_says_why(string keys, string remedy)
    {
        var problem = Assert.Single(PlaceFile.Read(Sample.Least + $"\n[[channel]]\nid = \"extra\"\n{keys}\n", "p").Problems);
        Assert.Contains(remedy, problem.Remedy, StringComparison.Ordinal);
    }

    [Fact]
    public void Limits_are_quantities_or_bare_numbers_in_the_unit_of_the_channel()
    {
        var channels = Good(Sample.Least + """

            [[channel]]
            id = "a"
            measures = "water-temperature"
            unit = "degF"
            least = 32
            greatest = "40 degC"
            """).Channels;
        Assert.Equal(0, channels[^1].Least!.Value, 9);
        Assert.Equal(40, channels[^1].Greatest!.Value, 9);
    }

    [Fact]
    public void A_channel_is_found_by_its_identifier_and_by_its_name_in_the_log()
    {
        var place = Good(Sample.Least + "\n[[channel]]\nid = \"watts\"\nmeasures = \"power\"\nof = \"sump-pump\"\ncolumn = \"Pump (W)\"\n");
        Assert.Equal((2, 2, -1), (place.ChannelIndex("watts"), place.ChannelIndex("Pump (W)"), place.ChannelIndex("pump")));
    }

    [Fact]
    public void What_is_left_blank_or_is_of_the_whole_reads_as_not_told()
    {
        var place = Good(Sample.Least + """

            [[channel]]
            id = "air"
            measures = "air-temperature"
            of = "place"
            unit = ""
            note = ""
            """);
        Assert.Equal(new Channel("air", Quantity.AirTemperature), place.Channels[^1]);
    }

    [Fact]
    public void Sections_for_later_commands_are_kept_and_their_ids_may_be_named()
    {
        Good(Sample.Least + """

            [[zone]]
            id = "orchard"
            anything-at-all = [1, 2, { x = 2026-01-01 }]
            [[supply]]
            id = "roof-panels"
            [dryer]
            area = "1.2 m2"
            [limits]
            water = "500 L/d"
            [[flow]]
            from = "sump"
            [[fish-group]]
            count = 40
            [[planting]]
            [[rule]]
            [rules]
            [[channel]]
            id = "orchard-flow"
            measures = "flow"
            of = "orchard"
            """);
    }

    [Fact]
    public void Dotted_keys_inline_tables_and_sub_tables_read_like_sections()
    {
        var place = Good(Sample.Least
            .Replace("[place]\nname      = ", "place.name = ").Replace("\nlatitude  =", "\nplace.latitude =").Replace("\nlongitude =", "\nplace.longitude =")
            .Replace("\naltitude  =", "\nplace.altitude =").Replace("\ntime-zone =", "\nplace.time-zone =")
            .Replace("band = \"65 L\"", "outlet = { kind = \"siphon\", diameter = \"40 mm\" }\n[vessel.wall]\nthickness = \"3 mm\""));
        Assert.Equal(OutletKind.Siphon, place.Vessels[0].Outlet);
    }

    [Fact]
    public void A_command_that_needs_less_takes_a_shorter_file()
    {
        const string text = "[place]\ntime-zone = \"UTC\"\n[[channel]]\nid = \"t\"\nmeasures = \"air-temperature\"\n";

        Assert.NotNull(PlaceFile.Read(text, "p", PlaceNeeds.Import).Place);
        Assert.NotNull(PlaceFile.Read("", "p", PlaceNeeds.Nothing).Place);
        var problems = PlaceFile.Read(text, "p").Problems;
        Assert.Equal(["place.latitude", "place.longitude", "place.altitude", "channel"], problems.Select(p => p.KeyPath));
        Assert.All(problems, p => Assert.StartsWith("diagnose needs", p.What, StringComparison.Ordinal));
    }

    [Fact]
    public void A_picture_a_log_and_a_pile_of_brackets_each_get_one_clear_problem()
    {
        Assert.Contains("not a text file", Assert.Single(PlaceFile.Read("\u0089PNG\r\n\0\0IHDR", "p").Problems).What, StringComparison.Ordinal);
        const string log = "time,channel,value\n2026-02-01T00:00:00Z,sump-pump,1\n";
        Assert.Contains("like a log", Assert.Single(PlaceFile.Read(log, "p").Problems).What, StringComparison.Ordinal);
        Assert.Contains("characters", Assert.Single(PlaceFile.Read(new string('x', 3_000_000), "p").Problems).What, StringComparison.Ordinal);
        Assert.Contains("deep", Assert.Single(PlaceFile.Read("a = " + new string('[', 100_000), "p").Problems).What, StringComparison.Ordinal);
    }

    [Fact]
    public void Byte_order_mark_and_windows_line_ends_do_not_matter() => Good('\ufeff' + Sample.Least.Replace("\n", "\r\n"));

    private static PlaceDescription Good(string text)
    {
        var result = PlaceFile.Read(text, "place.toml");
        Assert.Empty(result.Problems);
        return result.Place!;
    }

    private static string Replaced(string text, string right, string wrong)
    {
        int at = text.IndexOf(right, StringComparison.Ordinal);
        return text[..at] + wrong + text[(at + right.Length)..];
    }
}
