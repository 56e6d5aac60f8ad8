using Runnel.Place.Fish;
using Runnel.Science.Fish;
using Runnel.Science.Water;
using Runnel.Twin.Invented;

namespace Runnel.Twin.Oxygen;

/// <summary>Draws likely loops about what a place file tells: people miscount fish, guess weights, and do not know what their air stones give.</summary>
internal sealed class OxygenDraw(FishKeeping fish, IReadOnlyList<StockedTank> tanks, double altitudeM, double[] flowLPerMin, double restL, TimeLeftOptions options)
{
    /// <summary>Saturation of loop water over that of clean water (ASCE 2-06: 0.95 to 0.98).</summary>
    private const double Beta = 0.97;

    /// <summary>Spreads as standard deviations of logarithms: a weight guessed, a tank measured, air as rated (common practice).</summary>
    private const double WeightSpread = 0.12, CountSpread = 0.05, VolumeSpread = 0.1, FlowSpread = 0.25, AirSpread = 0.35, UptakeSpread = 0.2, SurfaceSpread = 0.5;

    /// <summary>A gas transfer of still water without wind, cm/h at 20 °C for carbon dioxide (Cole and Caraco 1998).</summary>
    private static readonly double StillCmPerH = Aeration.SurfaceK600CmPerH(0);

    /// <summary>Fed fish use 1.5 to 3 times what unfed ones do (Fish Bioenergetics 4.0); over a day about 1.5, after the meal more.</summary>
    private const double UsualActivity = 1.5, WorstActivity = 2.3, ActivitySpread = 0.15;

    public OxygenMember Draw(int number, OutageHour hour)
    {
        // The same loop at both hours.
        var rng = new Seeded((options.Seed * 100_003) + number, "oxygen");
        var member = new OxygenMember(tanks.Count);
        double tempC = Math.Clamp(options.WaterTempC + (0.4 * rng.Normal()) + (hour == OutageHour.Worst ? options.WarmerAtWorstC : 0), 0, 40);
        double saturation = member.SaturationMgPerL = Beta * OxygenSaturation.AtAltitudeMgPerL(tempC, altitudeM);
        double uptake = Spread(rng, UptakeSpread), activity = (hour == OutageHour.Worst ? WorstActivity : UsualActivity) * Spread(rng, ActivitySpread);
        double fall = member.FallShare = rng.Between(0.1, 0.4), rest = member.RestStartMgPerL = saturation * rng.Between(0.75, 0.95);
        member.StillShare = rng.Between(0.3, 1);
        double bacteria = rng.Between(0.05, 0.25), filter = rng.Between(0.3, 0.9), total = 0, wanted = 0;
        for (int i = 0; i < member.Tanks; i++)
        {
            var (tank, groups, mainGPerH, backupGPerH) = tanks[i];
            double litres = member.VolumeL[i] = tank.VolumeL * Spread(rng, VolumeSpread);
            double perH = 0;
            foreach (var stock in groups)
            {
                double weightG = stock.Group.MeanWeightG * Spread(rng, WeightSpread), kg = stock.Group.Count * Spread(rng, CountSpread) * weightG / 1000;
                perH += kg * StockedTank.Uptake(stock, weightG, tempC).MgPerKgH;
            }

            perH *= uptake * activity;
            total += perH;
            member.DemandMgPerLH[i] = perH * (1 + bacteria) / litres;
            member.FlowLPerH[i] = flowLPerMin[i] * 60 * Spread(rng, FlowSpread);
            double k600 = StillCmPerH * Spread(rng, SurfaceSpread);
            member.SurfacePerH[i] = Aeration.SurfaceExchangeCmPerH(k600, tempC) / 100 * tank.SurfaceM2 / (litres / 1000);
            double air = Spread(rng, AirSpread), backup = Spread(rng, AirSpread);
            member.MainAirPerH[i] = air * TransferPerH(mainGPerH, tempC, litres);
            member.BackupAirPerH[i] = backup * TransferPerH(backupGPerH, tempC, litres);
            double guessed = saturation * rng.Between(0.65, 0.9), probe = 0.3 * rng.Normal();
            double flow = member.FlowLPerH[i] / litres, falls = rest + (fall * (saturation - rest)), transfer = member.SurfacePerH[i] + member.MainAirPerH[i];
            double steady = member.MainAirPerH[i] > 0
                ? Math.Clamp(((transfer * saturation) + (flow * falls) - member.DemandMgPerLH[i]) / (transfer + flow), 0, saturation)
                : guessed;
            member.StartMgPerL[i] = options.MeasuredMgPerL.TryGetValue(tank.Vessel, out double measured) ? Math.Max(0, measured + probe) : steady;
            wanted += member.FlowLPerH[i] * (rest - member.StartMgPerL[i]);
        }

        member.RestVolumeL = Math.Max(1, restL * Spread(rng, VolumeSpread));
        member.RestDemandMgPerH = filter * total;

        // The rest of the loop stood where it stands: its own transfer kept it there.
        member.RestTransferPerH = Math.Max(0, member.RestDemandMgPerH + wanted) / member.RestVolumeL / (saturation - rest);
        double health = rng.Between(0.6, 1);
        member.BackupH = fish.Air.Where(a => a.IsBackup).Select(a => BackupBattery.Hours(a, health)).DefaultIfEmpty(double.PositiveInfinity).Min();
        return member;
    }

    private static double TransferPerH(double standardGPerH, double tempC, double litres)
    {
        double at20PerH = standardGPerH * 1000 / (OxygenSaturation.MgPerL(20) * litres);
        return 0.9 * Aeration.TransferPerH(at20PerH, tempC);
    }

    private static double Spread(Seeded rng, double deviation) => Math.Exp(deviation * rng.Normal());
}
