using Runnel.Place;

namespace Runnel.Twin.Invented;

/// <summary>Draws an invented loop of each kind within ranges that are common practice in small household loops.</summary>
internal static class LoopDrawing
{
    public static LoopSpec Draw(LoopKind kind, int seed)
    {
        var rng = new Seeded(seed, $"loop {kind}");
        var around = Surroundings.Draw(rng);
        bool cover = rng.Chance(0.3);

        double bandL, fillS, runS;
        switch (kind)
        {
            case LoopKind.PowerChannel:
                (bandL, fillS, runS) = (rng.Between(150, 300), rng.Between(20, 38) * 60, rng.Between(9, 20) * 60);
                break;
            case LoopKind.SiphonBed:
                (bandL, fillS, runS) = (rng.Between(60, 95), rng.Between(5, 8) * 60, rng.Between(2.2, 4.5) * 60);
                break;
            case LoopKind.AlwaysOn:
                (bandL, fillS, runS) = (60, 0, 0);
                break;
            default:
                (bandL, fillS, runS) = (rng.Between(45, 85), rng.Between(5, 9) * 60, rng.Between(2.1, 4.9) * 60);
                break;
        }

        double meanFlow = kind == LoopKind.AlwaysOn ? rng.Between(25, 60) / 60 : bandL / fillS;
        double pumpFlow = kind == LoopKind.AlwaysOn ? meanFlow : meanFlow + (bandL / runS);
        // What goes over the siphons comes back in gushes while the pump runs, so the pump must be the stronger.
        if (kind == LoopKind.SiphonBed) pumpFlow *= rng.Between(1.3, 1.55);
        double canopy = rng.Between(3, 9);
        double sumpArea = kind switch
        {
            LoopKind.PowerChannel => rng.Between(0.8, 1.3),
            LoopKind.AlwaysOn => rng.Between(0.4, 0.9),
            _ => rng.Between(0.25, 0.5),
        };
        double low = rng.Between(0.15, 0.25);
        double high = low + (bandL / 1000 / sumpArea);

        var vessels = new List<VesselSpec>();
        switch (kind)
        {
            case LoopKind.PowerChannel: LayoutDrawing.PipeLimited(rng, vessels, meanFlow, bandL); break;
            default:
                if (rng.Chance(0.88)) LayoutDrawing.Branches(rng, vessels, meanFlow, kind);
                else LayoutDrawing.Chain(rng, vessels, meanFlow, kind);
                if (kind != LoopKind.AlwaysOn) HoldAFill(vessels, meanFlow, bandL * rng.Between(0.65, 1.5));
                Rims(rng, vessels, meanFlow);
                if (kind == LoopKind.SiphonBed) LayoutDrawing.Beds(rng, vessels, meanFlow);
                break;
        }

        double inTransit = vessels.Where(v => !v.Siphon).Sum(v => v.AreaM2 * 1000 * TransitHead(v, meanFlow)) + vessels.Where(v => v.Siphon).Sum(v => v.AreaM2 * 1000 * v.TripM);
        double room = (inTransit / 1000 / sumpArea * (kind == LoopKind.AlwaysOn ? rng.Between(1.1, 1.5) : rng.Between(0.8, 1.5))) + 0.12; // some sumps are too small for all that comes down
        double target = low + 0.15;
        vessels.Add(new VesselSpec
        {
            Id = "sump",
            Kind = VesselKind.Sump,
            AreaM2 = sumpArea,
            SillM = 9,
            RimM = (kind == LoopKind.AlwaysOn ? target : high) + room,
            OpenM2 = rng.Chance(0.5) ? sumpArea : 0.1 * sumpArea,
        });
        int sump = vessels.Count - 1;
        foreach (var v in vessels)
        {
            if (v.ToA < 0) v.ToA = sump;
        }

        double canopySum = vessels.Sum(v => v.CanopyShare);
        foreach (var v in vessels) v.CanopyShare /= canopySum;
        double lift = rng.Between(1.1, 2.2);
        return new LoopSpec
        {
            Kind = kind,
            Name = around.Name,
            LatitudeDeg = around.Lat,
            LongitudeDeg = around.Lon,
            AltitudeM = around.Altitude,
            Zone = around.Zone,
            FirstDay = around.FirstDay,
            UnderCover = cover,
            Vessels = [.. vessels],
            SwitchLowM = low,
            SwitchHighM = high,
            InletM = rng.Between(0.04, 0.09),
            TargetLevelM = target,
            PumpFlowLPerS = pumpFlow,
            LiftM = lift,
            HeadRatio = rng.Between(1.4, 3.2),
            RiserL = rng.Between(2.5, 7),
            RunWatts = Math.Round(pumpFlow * 60 * rng.Between(1.2, 2.6) + 20),
            StandbyWatts = rng.Between(0.3, 4),
            TopUpLPerS = rng.Between(6, 15) / 60,
            BleedLPerS = rng.Between(6, 14) / 60,
            CanopyM2 = canopy,
            CanopyGrowthPerDay = rng.Chance(0.3) ? 0 : rng.Between(0.01, 0.05),
            CanopyMostM2 = canopy * rng.Between(1.1, 1.8),
            RainCatchM2 = cover ? 0 : rng.Between(0.5, 2.8),
            SplashLPerDay = rng.Between(0.2, 2.5),
            SwitchJitter = rng.BetweenLog(0.008, 0.03),
            AgeingPerDay = rng.Chance(0.5) ? 0 : rng.Between(0, 0.0006),
            TargetFillS = fillS,
            VoltageWander = rng.Between(0.001, 0.006),
            EvaporationFactor = rng.Between(0.75, 1.15),
            StomataSPerM = rng.Between(50, 120),
        };
    }

    private static double TransitHead(VesselSpec v, double meanFlow) =>
        v.OrificeC > 0 ? Math.Max(0.008, Math.Pow(meanFlow * 0.7 / v.OrificeC, 2) - v.DropM) : 0.01;

    /// <summary>
    /// What fills the sump while the pump rests is water on its way above the sills: so there must be about a band's worth of it.
    /// Narrows or widens the drains until the water on its way at the mean flow is <paramref name="wantedL"/>.
    /// </summary>
    private static void HoldAFill(List<VesselSpec> vessels, double meanFlow, double wantedL)
    {
        for (int round = 0; round < 6; round++)
        {
            double[] through = Through(vessels, meanFlow);
            double held = 0;
            for (int i = 0; i < vessels.Count; i++) held += vessels[i].AreaM2 * 1000 * vessels[i].HeadAt(through[i]);
            double factor = Math.Clamp(Math.Sqrt(held / wantedL), 0.5, 2);
            foreach (var v in vessels.Where(v => v.Kind is VesselKind.Trough or VesselKind.FishTank)) v.OrificeC = Math.Min(v.OrificeC * factor, 8);
        }
    }

    /// <summary>Mean flow through each vessel, L/s.</summary>
    public static double[] Through(IReadOnlyList<VesselSpec> vessels, double meanFlow)
    {
        double[] through = new double[vessels.Count];
        for (int i = 0; i < vessels.Count; i++)
        {
            var v = vessels[i];
            through[i] += v.PumpShare * meanFlow;
            if (v.ToA >= 0 && v.ToA < vessels.Count) through[v.ToA] += through[i] * v.ShareA;
            if (v.ToB >= 0 && v.ToB < vessels.Count) through[v.ToB] += through[i] * (1 - v.ShareA);
        }

        return through;
    }

    private static void Rims(Seeded rng, List<VesselSpec> vessels, double meanFlow)
    {
        double[] through = Through(vessels, meanFlow);
        for (int i = 0; i < vessels.Count; i++)
            vessels[i].RimM = vessels[i].SillM + Math.Max(rng.Between(0.08, 0.2), vessels[i].HeadAt(2 * through[i]) + 0.04);
    }
}
