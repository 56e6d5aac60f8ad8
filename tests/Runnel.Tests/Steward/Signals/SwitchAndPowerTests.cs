using Runnel.Tests.Steward.Watches;
using static Runnel.Tests.Steward.Watches.HandMadeLog;

namespace Runnel.Tests.Steward.Signals;

public class SwitchAndPowerTests
{
    [Fact]
    public void A_switch_beside_power_by_the_minute_gives_cycles_to_the_second()
    {
        var log = new HandMadeLog(PumpPower);
        double last = log.Cycles(0, 48, fillMin: 7.3, runMin: 4.2, scatter: 0);
        for (double t = 0.0031; t < last; t += 1.0 / 60)
        {
            double within = t % (11.5 / 60) * 60;
            log.Put(PumpPower, t, Math.Round((within >= 7.3 ? 60 : 1) + (0.5 * log.Wobble()), 1));
        }

        var cycles = log.Read().State.Cycles.Cycles;
        Assert.InRange(cycles.Count, 180, 251);
        foreach (var cycle in cycles.Skip(5))
        {
            Assert.Equal(438, cycle.FillS, 1.5);
            Assert.Equal(252, cycle.RunS, 1.5);
        }
    }
}
