using NodaTime;
using Runnel.Tests.Twin.Playing;
using Runnel.Twin.Faults;

namespace Runnel.Tests.Twin.Faults;

public class FaultTextTests
{
    [Fact]
    public void Name_part_time_and_rate_are_read()
    {
        Assert.Equal(new PlannedFault(new Fault("pump-stopped"), 6 * 3600), Read("pump-stopped@6 h").Planned);
        Assert.Equal(new PlannedFault(new Fault("drain-fouling", "perch-tank", 0.08), 5 * 86_400), Read("drain-fouling:perch-tank@5 d,8 %/d").Planned);
        Assert.Equal(0.05, Read("pump-weakening@1 d,0.05").Planned!.Fault.Rate!.Value, 1e-12);
        Assert.Equal(-12, Read("switch-shifted@1 d,-12 mm").Planned!.Fault.Rate!.Value, 1e-9);
        Assert.Equal(
            new PlannedFault(new Fault("leak", "swirl", 6) { HeightM = 0.3, Hours = new(new LocalTime(20, 0), new LocalTime(6, 0)) }, 3600),
            Read("leak:swirl@1 h,6 L/h,300 mm,20:00-6:00").Planned);
    }

    [Theory]
    [InlineData("pump-stoped@6 h", "there is no fault pump-stoped", "pump-stopped")]
    [InlineData("drain-fouling:swril@6 h", "cannot be of swril", "perch-tank")]
    [InlineData("pump-stopped", "does not tell when", "@TIME")]
    [InlineData("pump-stopped@soon", "its time", "6 h")]
    [InlineData("pump-stopped@6", "its time", "6 h")]
    [InlineData("pump-stopped@6 h,3 %/d", "not understood", "time only")]
    [InlineData("leak@6 h,fast", "not understood", "6 L/h")]
    [InlineData("leak@6 h,-6 L/h", "not understood", "6 L/h")]
    [InlineData("check-valve-leaking@6 h", "fits nothing", "place file")]
    [InlineData("siphon-stuck@6 h", "fits nothing", "place file")]
    public void What_is_wrong_is_told_with_a_remedy(string text, string problem, string remedy)
    {
        var read = Read(text);

        Assert.Null(read.Planned);
        Assert.Contains(problem, read.Problem, StringComparison.Ordinal);
        Assert.Contains(remedy, read.Remedy, StringComparison.Ordinal);
    }

    private static FaultReading Read(string text) => FaultText.Read(text, PlayedPlaceTests.Demo());
}
