using Runnel.Science.Fish;
using Runnel.Science.Water;
using Runnel.Twin.Oxygen;
using Runnel.Twin.Solving;

namespace Runnel.Tests.Twin.Oxygen;

/// <summary>The loop's oxygen against the closed form for one tank, and against worked cases of the oxygen balance.</summary>
public class OxygenLoopTests
{
    // Minutes to the critical level by the mass balance (exchange at 20 degC, 1.024 a degree) dC/dt = kLa (Cs - C) - D; with no exchange minutes = 60 (C0 - Ccrit) V / (B r + other).
    [Theory]
    [InlineData(5000, 50, 200, 0, 7, 3, 0, 20, 120)]
    [InlineData(5000, 100, 250, 3, 6.5, 3, 0, 20, 37.5)]
    [InlineData(1000, 20, 300, 1, 6, 2, 0, 20, 34.3)]
    [InlineData(5000, 50, 200, 1, 7, 3, 0.15, 25, 147.6)]
    [InlineData(5000, 100, 250, 3, 6.5, 3, 0.1, 27, 40.3)]
    [InlineData(5000, 80, 300, 4, 6, 3, 0.05, 28, 33.3)]
    public void Worked_cases_of_the_oxygen_balance(
        double litres, double kg, double mgPerKgH, double otherGPerH, double startMgPerL, double levelMgPerL, double exchangePerH, double tempC, double minutes)
    {
        double demand = ((kg * mgPerKgH) + (otherGPerH * 1000)) / litres;
        exchangePerH = Aeration.TransferPerH(exchangePerH, tempC);
        var member = Still(litres, demand, startMgPerL, exchangePerH, OxygenSaturation.MgPerL(tempC));
        double hours = TimeLeftForecaster.Passages(member, [(levelMgPerL, 0)], Outage.BothStop, withBackup: false)[0];
        Assert.Equal(minutes, 60 * hours, 0.5);
        Assert.Equal(OxygenAfterAirFailure.HoursTo(levelMgPerL, startMgPerL, member.SaturationMgPerL, exchangePerH, demand), hours, 1e-4);
    }

    [Fact]
    public void Water_that_goes_round_carries_oxygen_and_makes_none()
    {
        var member = Still(800, 0, 4, 0, 9);
        member.FlowLPerH[0] = 2000;
        member.RestVolumeL = 1200;
        member.RestStartMgPerL = 8;
        var loop = new OxygenLoop(member, [(0, 0)]) { Flows = true };
        var solver = new OdeSolver(loop, new SolverOptions { RelativeTolerance = 1e-10, AbsoluteTolerance = 1e-10 });
        solver.Start(0, [4, 8]);
        solver.AdvanceTo(5);
        Assert.Equal((800 * 4) + (1200 * 8), (800 * solver.State[0]) + (1200 * solver.State[1]), 1e-5);
        Assert.Equal(solver.State[0], solver.State[1], 0.01);
    }

    [Fact]
    public void Backup_air_lasts_as_long_as_its_battery()
    {
        var member = Still(1000, 2, 8, 0, 9);
        member.BackupAirPerH[0] = 4;
        member.BackupH = 3;
        double alone = TimeLeftForecaster.Passages(member, [(4, 2)], Outage.BothStop, withBackup: false)[0];
        double with = TimeLeftForecaster.Passages(member, [(4, 2)], Outage.BothStop, withBackup: true)[0];
        Assert.Equal(2, alone, 1e-4);

        // Held at 9 - 2/4 = 8.5 mg/L for three hours, then down by 2 mg/L an hour.
        Assert.Equal(3 + (4.5 / 2), with, 0.01);
    }

    private static OxygenMember Still(double litres, double demandMgPerLH, double startMgPerL, double surfacePerH, double saturationMgPerL)
    {
        var member = new OxygenMember(1) { SaturationMgPerL = saturationMgPerL, RestVolumeL = 1, StillShare = 1, BackupH = double.PositiveInfinity };
        member.VolumeL[0] = litres;
        member.DemandMgPerLH[0] = demandMgPerLH;
        member.StartMgPerL[0] = startMgPerL;
        member.SurfacePerH[0] = surfacePerH;
        return member;
    }
}
