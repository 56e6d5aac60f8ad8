namespace Runnel.Host.Tests.Commands;

public sealed class HelpTests
{
    public static TheoryData<string> Commands => ["diagnose", "new", "inspect", "forecast", "time-left", "import", "export", "backup", "run", "demo", "reckon"];

    [Theory]
    [MemberData(nameof(Commands))]
    public async Task Help_of_every_command_ends_with_a_worked_example(string command)
    {
        var ran = await Cli.RunAsync(command, "--help");
        Assert.Equal(0, ran.Code);
        Assert.Equal("", ran.Error);
        string[] lines = ran.Out.TrimEnd().Split('\n');
        int example = Array.FindLastIndex(lines, l => l.StartsWith("Example:", StringComparison.Ordinal));
        Assert.True(example > 0, ran.Out);
        Assert.All(lines[(example + 1)..], l => Assert.StartsWith("  runnel ", l, StringComparison.Ordinal));
        Assert.Contains(lines[(example + 1)..], l => l.StartsWith($"  runnel {command} ", StringComparison.Ordinal));
    }

    [Fact]
    public async Task No_arguments_show_what_there_is()
    {
        var ran = await Cli.RunAsync();
        Assert.Equal(0, ran.Code);
        foreach (string command in Commands) Assert.Contains(command, ran.Out, StringComparison.Ordinal);
    }
}
