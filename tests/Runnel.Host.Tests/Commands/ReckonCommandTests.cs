using System.Globalization;
using System.Text.Json;

namespace Runnel.Host.Tests.Commands;

public sealed class ReckonCommandTests
{
    private static readonly string[] Good = ["reckon", "ammonia", "--temp_c", "24", "--ph", "8", "--tan_mg_n_l", "1"];

    // Source: UF/IFAS Extension FA16, worked example: 1 mg/L at pH 8 and 24 °C holds 0.0502 mg/L of un-ionised ammonia.
    [Fact]
    public async Task Json_gives_results_units_and_source_and_nothing_else()
    {
        var ran = await Cli.RunAsync([.. Good, "--json"]);
        Assert.Equal((0, ""), (ran.Code, ran.Error));
        using var json = JsonDocument.Parse(ran.Out);
        Assert.Equal("ammonia", json.RootElement.GetProperty("relation").GetString());
        Assert.Equal(0.0502, json.RootElement.GetProperty("results").GetProperty("f_nh3").GetDouble(), 0.0001);
        Assert.Equal(0.0502, json.RootElement.GetProperty("results").GetProperty("nh3_mg_n_l").GetDouble(), 0.0001);
        Assert.Equal("mg/L as N", json.RootElement.GetProperty("units").GetProperty("nh3_mg_n_l").GetString());
        Assert.Contains("Emerson", json.RootElement.GetProperty("source").GetString(), StringComparison.Ordinal);
    }

    [Fact]
    public async Task Text_says_what_the_figure_means_and_where_it_comes_from()
    {
        var ran = await Cli.RunAsync(Good);
        Assert.Equal(0, ran.Code);
        Assert.Contains("Harm begins at 0.05 mg/L", ran.Out, StringComparison.Ordinal);
        Assert.Contains("Caution:", ran.Out, StringComparison.Ordinal);
        Assert.Contains("Source: Emerson", ran.Out, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_value_may_carry_its_unit_and_a_name_its_hyphens()
    {
        var own = await Cli.RunAsync("reckon", "ammonia", "--temp-c", "75.2 degF", "--ph", "8", "--tan-mg-n-l", "1");
        Assert.Equal((await Cli.RunAsync(Good)).Out, own.Out);
    }

    [Fact]
    public async Task Names_are_taken_as_the_field_writes_them()
    {
        var own = await Cli.RunAsync("reckon", "friction-factor", "--re", "50000", "--ed", "0.001", "--form", "colebrook");
        Assert.Equal(0, own.Code);
        Assert.Equal(own.Out.Split('\n')[0], (await Cli.RunAsync("reckon", "Friction_Factor", "--Re", "50000", "--eD", "0.001", "--form", "colebrook")).Out.Split('\n')[0]);
        Assert.Equal(own.Out.Split('\n')[0], (await Cli.RunAsync("reckon", "colebrook", "--Re", "50000", "--relative-roughness", "0.001")).Out.Split('\n')[0]);
    }

    [Fact]
    public async Task A_name_may_end_with_another_unit_of_the_same_kind()
    {
        string[] rest = ["--length_m", "6", "--roughness_mm", "0.007", "--minor_k", "3"];
        var own = await Cli.RunAsync(["reckon", "pipe", "--flow_m3_s", "20 L/min", "--diameter_m", "40 mm", .. rest]);
        Assert.Equal(0, own.Code);
        Assert.Equal(own.Out, (await Cli.RunAsync(["reckon", "pipe", "--flow_l_min", "20", "--diameter-mm", "40", .. rest])).Out);
        (await Cli.RunAsync(["reckon", "pipe", "--flow_l_min", "20", "--flow_m3_s", "0.001", "--diameter_mm", "40", .. rest])).OneError(2, "--flow_m3_s");
        string file = Path.Combine(Directory.CreateTempSubdirectory("reckon").FullName, "pipes.csv");
        await File.WriteAllTextAsync(file, "flow_l_min,diameter_mm,length_m,roughness_mm,minor_k\n20,40,6,0.007,3\n", TestContext.Current.CancellationToken);
        var inTable = await Cli.RunAsync("reckon", "pipe", "--table", file);
        Assert.Equal(0, inTable.Code);
        Assert.Contains(",0.0272884", inTable.Out, StringComparison.Ordinal);
        // Beside the input's own column one in another unit is only passed through.
        await File.WriteAllTextAsync(file, "flow_l_min,flow_m3_s,diameter_mm,length_m,roughness_mm,minor_k\n99,0.00033333333333333333,40,6,0.007,3\n", TestContext.Current.CancellationToken);
        Assert.Contains(",0.0272884", (await Cli.RunAsync("reckon", "pipe", "--table", file)).Out, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_table_of_pipes_comes_back_with_its_own_columns_and_all_digits()
    {
        string file = Path.Combine(Directory.CreateTempSubdirectory("reckon").FullName, "pipes.csv");
        await File.WriteAllTextAsync(file, "case;V_L;Q_L_min;P_L_min\nsmall;20;10;40\nnever;20;50;40\n", TestContext.Current.CancellationToken);
        var ran = await Cli.RunAsync("reckon", "sump-cycle", "--table", file);
        Assert.Equal(1, ran.Code);
        string[] lines = ran.Out.TrimEnd().Split('\n');
        Assert.StartsWith("case;V_L;Q_L_min;P_L_min;fill_s;run_s", lines[0], StringComparison.Ordinal);
        Assert.Contains(";0.666666666666667;", lines[1], StringComparison.Ordinal);
        Assert.Contains("is not below pump_l_min", lines[2], StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("--temp_c", "no number", "--temp_c", "NaN", "--ph", "8", "--tan_mg_n_l", "1")]
    [InlineData("--temp_c", "no number", "--temp_c", "24,5", "--ph", "8", "--tan_mg_n_l", "1")]
    [InlineData("--temp_c", "out of range", "--temp_c", "51", "--ph", "8", "--tan_mg_n_l", "1")]
    [InlineData("--temp_c", "out of range", "--temp_c", "-1", "--ph", "8", "--tan_mg_n_l", "1")]
    [InlineData("--temp_c", "is given twice", "--temp_c", "24", "--ph", "8", "--temp_c", "25", "--tan_mg_n_l", "1")]
    [InlineData("--temp_c", "is missing", "--ph", "8", "--tan_mg_n_l", "1")]
    [InlineData("--temp_c", "without a value", "--ph", "8", "--tan_mg_n_l", "1", "--temp_c")]
    [InlineData("--salt", "is no input of ammonia", "--temp_c", "24", "--ph", "8", "--tan_mg_n_l", "1", "--salt", "3")]
    public async Task Wrong_inputs_are_told_in_one_line_with_name_unit_and_range(string where, string what, params string[] inputs)
    {
        string line = (await Cli.RunAsync(["reckon", "ammonia", .. inputs])).OneError(2, where + ": ");
        Assert.Contains(what, line, StringComparison.Ordinal);
        Assert.Contains("0 to 50 degC", line, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Inputs_that_stand_for_each_other_are_not_given_together()
    {
        string both = (await Cli.RunAsync("reckon", "oxygen-saturation", "--temp_c", "20", "--pressure_kpa", "101.325", "--altitude_m", "900")).OneError(2, "--altitude_m");
        Assert.Contains("Give only one of them", both, StringComparison.Ordinal);
        string half = (await Cli.RunAsync(
            "reckon", "eto-daily", "--latitude_deg", "-27", "--elevation_m", "20", "--day_of_year", "15", "--tmax_c", "30", "--tmin_c", "20", "--rhmax_pct", "80"))
            .OneError(2, "--rhmin_pct");
        Assert.Contains("missing beside rhmax_pct", half, StringComparison.Ordinal);
    }

    [Fact]
    public async Task An_unknown_name_is_told_with_the_nearest()
    {
        string line = (await Cli.RunAsync("reckon", "amonia", "--ph", "8")).OneError(2, "reckon");
        Assert.Contains("ammonia", line, StringComparison.Ordinal);
    }

    [Fact]
    public async Task The_list_tells_scripts_all_they_need()
    {
        var ran = await Cli.RunAsync("reckon", "list", "--json");
        Assert.Equal((0, ""), (ran.Code, ran.Error));
        using var json = JsonDocument.Parse(ran.Out);
        var ammonia = json.RootElement.EnumerateArray().Single(r => r.GetProperty("relation").GetString() == "ammonia");
        var temp = ammonia.GetProperty("inputs")[0];
        Assert.Equal(("temp_c", "degC"), (temp.GetProperty("name").GetString(), temp.GetProperty("unit").GetString()));
        Assert.Equal((0, 50), (temp.GetProperty("least").GetDouble(), temp.GetProperty("greatest").GetDouble()));
        Assert.Equal(JsonValueKind.Null, temp.GetProperty("default").ValueKind);
        Assert.False(temp.GetProperty("optional").GetBoolean());
        Assert.Equal("f_nh3", ammonia.GetProperty("results")[0].GetProperty("name").GetString());
    }

    [Fact]
    public async Task A_table_comes_back_with_every_column_and_the_results_beside_them()
    {
        using var folder = new TableFolder("Ort,temp_c,ph,tan_mg_n_l,\"note, mine\"\r\n\"Teich \"\"A\"\", Süd\",24,8,1,\"two\nlines\"\r\nB,24,8,2,\r\n");
        var ran = await Cli.RunAsync("reckon", "ammonia", "--table", folder.Path);
        Assert.Equal((0, ""), (ran.Code, ran.Error));
        Assert.StartsWith(
            "Ort,temp_c,ph,tan_mg_n_l,\"note, mine\",f_nh3,nh3_mg_n_l,nh3_mg_l,error\r\n\"Teich \"\"A\"\", Süd\",24,8,1,\"two\nlines\",0.050", ran.Out, StringComparison.Ordinal);
        string[] last = ran.Out.TrimEnd().Split("\r\n")[^1].Split(',');
        Assert.Equal(2 * 0.0502, double.Parse(last[6], CultureInfo.InvariantCulture), 0.0002);
    }

    [Fact]
    public async Task A_row_that_is_refused_says_why_and_the_others_are_still_reckoned()
    {
        using var folder = new TableFolder("id,temp_c,ph,tan_mg_n_l\n1,24,8,1\n2,24,99,1\n3,24,,1\n4,24,8,1\n5,24,8,1,9\n6,\"24,8\n");
        var ran = await Cli.RunAsync("reckon", "ammonia", "--table", folder.Path);
        Assert.Equal(1, ran.Code);
        Assert.StartsWith($"runnel: {folder.Path}:3: 4 of 6 rows were refused", ran.Error, StringComparison.Ordinal);
        string[] rows = ran.Out.TrimEnd().Split("\r\n");
        Assert.Equal(7, rows.Length);
        Assert.EndsWith(",", rows[1], StringComparison.Ordinal);
        Assert.Contains("ph: 99 is out of range. Give pH, 0 to 14.", rows[2], StringComparison.Ordinal);
        Assert.Contains("ph: is missing", rows[3], StringComparison.Ordinal);
        Assert.EndsWith(",", rows[4], StringComparison.Ordinal);
        Assert.Contains("5 fields", rows[5], StringComparison.Ordinal);
        Assert.Contains("quote", rows[6], StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_spreadsheet_with_semicolons_and_decimal_commas_comes_back_in_its_own_manner()
    {
        using var folder = new TableFolder("sep=;\r\nTemp_C;PH;Ort\r\n24,0;8,0;\"a;b\"\r\n");
        var ran = await Cli.RunAsync("reckon", "ammonia", "--table", folder.Path, "--tan_mg_n_l", "1");
        Assert.Equal(0, ran.Code);
        Assert.StartsWith("Temp_C;PH;Ort;f_nh3;nh3_mg_n_l;nh3_mg_l;error\r\n24,0;8,0;\"a;b\";0,050", ran.Out, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_file_without_any_input_is_no_table_for_it()
    {
        using var folder = new TableFolder("a,b\n1,2\n");
        string line = (await Cli.RunAsync("reckon", "ammonia", "--table", folder.Path)).OneError(1, folder.Path + ":1:1");
        Assert.Contains("temp_c, ph, tan_mg_n_l", line, StringComparison.Ordinal);
        (await Cli.RunAsync("reckon", "ammonia", "--table", folder.Path, "--json")).OneError(2, "--json");
        (await Cli.RunAsync("reckon", "ammonia", "--table", folder.Path + "x")).OneError(1, folder.Path + "x");
    }

    [Fact]
    public async Task Times_are_written_with_their_offset()
    {
        var ran = await Cli.RunAsync("reckon", "sun", "--latitude_deg", "-27.47", "--longitude_deg_east", "153.03", "--time", "2024-03-20T12:00:00+10:00", "--json");
        using var json = JsonDocument.Parse(ran.Out);
        string rise = json.RootElement.GetProperty("results").GetProperty("sunrise").GetString()!;
        Assert.StartsWith("2024-03-20T05:", rise, StringComparison.Ordinal);
        Assert.EndsWith("+10:00", rise, StringComparison.Ordinal);
        (await Cli.RunAsync("reckon", "sun", "--latitude_deg", "0", "--longitude_deg_east", "0", "--time", "2024-03-20T12:00:00")).OneError(2, "--time");
    }

    private sealed class TableFolder : IDisposable
    {
        private readonly DirectoryInfo folder = Directory.CreateTempSubdirectory("runnel-table-");

        public TableFolder(string text) => File.WriteAllText(Path, text);

        public string Path => System.IO.Path.Combine(folder.FullName, "in.csv");

        public void Dispose() => folder.Delete(recursive: true);
    }
}
