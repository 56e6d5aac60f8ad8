using CsCheck;
using Runnel.Science.Pipes;
using Runnel.Science.Water;

namespace Runnel.Science.Tests.Pipes;

public sealed class SuctionAndSiphonTests
{
    [Fact, Trait("source", "steam tables: 2.339 kPa at 20, 7.384 kPa at 40, 101.42 kPa at 100 degC (memory)")]
    public void Water_has_the_handbook_vapour_pressure()
    {
        Assert.Equal(2.339, WaterProperties.VapourPressureKPa(20), 0.005);
        Assert.Equal(7.384, WaterProperties.VapourPressureKPa(40), 0.01);
        Assert.Equal(101.42, WaterProperties.VapourPressureKPa(100), 0.15);
    }

    [Fact]
    public void The_greatest_lift_leaves_the_head_that_the_pump_requires() => Gen.Select(Gen.Double[70, 105], Gen.Double[0, 50], Gen.Double[0, 3], Gen.Double[0.5, 5]).Sample((air, temp, loss, required) =>
    {
        double vapour = WaterProperties.VapourPressureKPa(temp), lift = PumpDemand.GreatestSuctionLiftM(air, vapour, loss, required);
        Assert.Equal(required, PumpDemand.SuctionHeadM(air, vapour, lift, loss), 1e-9);
        Assert.True(lift < 10.34);
        Assert.True(PumpDemand.GreatestSuctionLiftM(air, WaterProperties.VapourPressureKPa(temp + 5), loss, required) < lift);
    });

    [Fact]
    public void A_siphon_runs_as_the_pipe_it_is_and_breaks_where_its_crest_reaches_the_vapour_pressure() =>
        Gen.Select(Gen.Double[0.015, 0.06], Gen.Double[0.1, 2], Gen.Double[0.5, 6]).Sample((bore, fall, length) =>
        {
            var siphon = GravityDrain.SiphonOfPipe(bore, fall, 0.2, 1.5, length, 0.0015);
            var pipe = PipeFlow.AtHeadLoss(fall, length, bore, 0.0015, 2.5);
            Assert.Equal(pipe.VelocityMPerS, siphon.VelocityMPerS, 1e-6);
            Assert.True(GravityDrain.SiphonOfPipe(bore, fall + 0.1, 0.2, 1.5, length, 0.0015).FlowLPerMin > siphon.FlowLPerMin);
            double before = 0.5 * (1.5 + (pipe.Friction * length / bore)), crest = GravityDrain.GreatestCrestM(101.325, 2.34, siphon.VelocityMPerS, before);
            if (crest is < 0 or > 10) return;
            var breaking = GravityDrain.SiphonOfPipe(bore, fall, crest, 1.5, length, 0.0015);
            Assert.Equal(-(101.325 - 2.34) / 9.79, breaking.CrestHeadM, 1e-6);
        });

    [Fact]
    public void A_slower_pump_gives_less_of_everything() => Gen.Double[0.1, 0.99].Sample(ratio =>
    {
        var full = new PumpAffinity(100, 3, 80);
        var slow = full.AtSpeed(ratio);
        Assert.True(slow.FlowLPerMin < 100 && slow.HeadM < 3 && slow.PowerW < 80);
        Assert.Equal(full.PowerW, slow.AtSpeed(Math.Min(2, 1 / ratio)).PowerW, ratio >= 0.5 ? 1e-9 : 80);
    });
}
