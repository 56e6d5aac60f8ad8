using Runnel.Place;

namespace Runnel.Twin.Invented;

/// <summary>Draws how the vessels of an invented loop stand to one another: in a chain, in branches, on narrow pipes, with siphon beds.</summary>
internal static class LayoutDrawing
{
    private const double StandpipePerMetre = 1840 * Math.PI; // L/s per m^1.5 and metre of bore: rim as a sharp weir, 1.84 (Francis)

    /// <summary>Tanks with standpipes, a separator, a biofilter and troughs with orifice-like screened drains.</summary>
    public static void Chain(Seeded rng, List<VesselSpec> vessels, double meanFlow, LoopKind kind)
    {
        bool steady = kind == LoopKind.AlwaysOn;
        int tanks = rng.Whole(1, 2);
        double toTroughs = rng.Chance(0.4) ? rng.Between(0.15, 0.4) : 0; // a split valve sends part of the pump's flow straight to the troughs
        double first = tanks == 1 ? 1 : rng.Between(0.4, 0.65);
        int separator = tanks;
        for (int i = 0; i < tanks; i++)
        {
            double area = rng.Between(0.8, 1.7);
            double bore = rng.Pick(0.04, 0.05, 0.063);
            vessels.Add(new VesselSpec
            {
                Id = tanks == 1 ? "fish-tank" : $"fish-tank-{i + 1}",
                Kind = VesselKind.FishTank,
                AreaM2 = area,
                SillM = rng.Between(0.6, 0.95),
                RimM = 0,
                WeirC = StandpipePerMetre * bore,
                OrificeC = 0.6 * Math.PI / 4 * bore * bore * Math.Sqrt(2 * 9.81) * 1000 * rng.Between(0.5, 0.9), // with its screen
                OpenM2 = area * rng.Pick(1.0, 1.0, 0.3),
                PumpShare = (1 - toTroughs) * (i == 0 ? first : 1 - first),
                ToA = separator,
                DelayS = rng.Whole(1, 5),
                FoulWeight = rng.Between(0.6, 1.2),
                Outlet = OutletKind.Standpipe,
            });
        }

        double q = meanFlow * (1 - toTroughs);
        vessels.Add(Separator(rng, to: separator + 1, delayS: (2, 8)));
        bool parallel = rng.Chance(0.5);
        double bioHead = rng.Between(0.01, 0.03);
        vessels.Add(new VesselSpec
        {
            Id = "biofilter",
            Kind = VesselKind.Biofilter,
            AreaM2 = rng.Between(0.25, 0.6),
            SillM = rng.Between(0.5, 0.8),
            RimM = 0,
            WeirC = 300,
            OrificeC = q / Math.Sqrt(bioHead),
            OpenM2 = 0.1,
            ToA = separator + 2,
            ToB = parallel ? separator + 3 : -1,
            ShareA = parallel ? rng.Between(0.4, 0.6) : 1,
            DelayS = rng.Whole(2, 6),
            FoulWeight = rng.Between(0.5, 1.0),
            Outlet = OutletKind.Orifice,
        });
        int troughs = parallel ? 2 : rng.Whole(1, 2);
        double shareA = vessels[^1].ShareA;
        for (int i = 0; i < troughs; i++)
        {
            double area = rng.Between(1.2, 2.6);
            double share = parallel ? (i == 0 ? shareA : 1 - shareA) : 1;
            double through = meanFlow * (parallel ? share : 1);
            double head = steady ? rng.Between(0.006, 0.015) : rng.Between(0.006, 0.02);
            bool last = parallel || i == troughs - 1;
            vessels.Add(new VesselSpec
            {
                Id = $"trough-{i + 1}",
                Kind = VesselKind.Trough,
                AreaM2 = area,
                SillM = rng.Between(0.2, 0.32),
                RimM = 0,
                WeirC = StandpipePerMetre * 0.05,
                OrificeC = through / Math.Sqrt(head),
                OpenM2 = area * rng.Between(0.08, 0.3),
                CanopyShare = rng.Between(0.7, 1.3),
                PumpShare = parallel ? toTroughs * share : (i == 0 ? toTroughs : 0),
                ToA = last ? -1 : separator + 2 + i + 1,
                DelayS = Delay(rng),
                FoulWeight = rng.Between(0.7, 1.4),
                Outlet = rng.Pick(OutletKind.Standpipe, OutletKind.Orifice),
            });
        }
    }

    /// <summary>One header feeds tanks and troughs side by side; each drains to the sump by itself.</summary>
    public static void Branches(Seeded rng, List<VesselSpec> vessels, double meanFlow, LoopKind kind)
    {
        bool steady = kind == LoopKind.AlwaysOn;
        int tanks = rng.Whole(1, 3), troughs = rng.Whole(1, 2);
        double toTanks = rng.Between(0.4, 0.75);
        double[] weights = [.. Enumerable.Range(0, tanks).Select(_ => rng.Between(0.7, 1.3))];
        for (int i = 0; i < tanks; i++)
        {
            double area = rng.Between(0.7, 1.6), share = toTanks * weights[i] / weights.Sum();
            double head = steady ? rng.Between(0.006, 0.02) : rng.Between(0.008, 0.03);
            vessels.Add(new VesselSpec
            {
                Id = tanks == 1 ? "fish-tank" : $"fish-tank-{i + 1}",
                Kind = VesselKind.FishTank,
                AreaM2 = area,
                SillM = rng.Between(0.6, 0.95),
                RimM = 0,
                WeirC = StandpipePerMetre * rng.Pick(0.04, 0.05),
                // Half have a narrow screen or foot hole, half a free rim.
                OrificeC = rng.Chance(0.5) ? meanFlow * share / Math.Sqrt(head) : 2.5 * meanFlow * share / Math.Sqrt(head),
                OpenM2 = area * rng.Pick(1.0, 1.0, 0.3),
                PumpShare = share,
                ToA = tanks,
                DelayS = Delay(rng),
                FoulWeight = rng.Between(0.7, 1.3),
                Outlet = OutletKind.Standpipe,
            });
        }

        vessels.Add(Separator(rng, to: -1, delayS: (1, 4)));
        double toTroughs = 1 - toTanks;
        for (int i = 0; i < troughs; i++)
        {
            double area = rng.Between(1.1, 2.6), share = toTroughs / troughs;
            double head = steady ? rng.Between(0.005, 0.015) : rng.Between(0.005, 0.02);
            vessels.Add(new VesselSpec
            {
                Id = $"trough-{i + 1}",
                Kind = VesselKind.Trough,
                AreaM2 = area,
                SillM = rng.Between(0.2, 0.32),
                RimM = 0,
                WeirC = StandpipePerMetre * 0.05,
                OrificeC = meanFlow * share / Math.Sqrt(head),
                OpenM2 = area * rng.Between(0.08, 0.3),
                CanopyShare = rng.Between(0.7, 1.3),
                PumpShare = share,
                DelayS = Delay(rng),
                FoulWeight = rng.Between(0.7, 1.4),
                Outlet = rng.Pick(OutletKind.Standpipe, OutletKind.Orifice),
            });
        }
    }

    /// <summary>Media beds on bell siphons, fed from the pump's header.</summary>
    public static void Beds(Seeded rng, List<VesselSpec> vessels, double meanFlow)
    {
        int beds = rng.Whole(1, 2);
        double take = rng.Between(0.25, 0.45);
        foreach (var v in vessels)
        {
            v.PumpShare *= 1 - take;
            v.OrificeC *= v.Kind is VesselKind.Trough or VesselKind.FishTank or VesselKind.Biofilter ? 1 - take : 1;
        }

        for (int i = 0; i < beds; i++)
        {
            double voids = rng.Between(0.4, 1.1) * rng.Between(0.38, 0.48);
            double dumpL = rng.Between(18, 45);
            double breakM = rng.Between(0.03, 0.05);
            double deep = dumpL / 1000 / voids;
            double dumpS = rng.Between(60, 140);
            double drop = rng.Between(0.1, 0.25);
            double head = Math.Sqrt((deep / 2) + drop);
            double through = Math.Max((dumpL / dumpS) + (take * meanFlow / beds), 4.5 * take * meanFlow / beds);
            vessels.Add(new VesselSpec
            {
                Id = $"media-bed-{i + 1}",
                Kind = VesselKind.MediaBed,
                AreaM2 = voids,
                SillM = breakM,
                RimM = breakM + deep + 0.09,
                Siphon = true,
                TripM = breakM + deep,
                BreakM = breakM,
                DropM = drop,
                OrificeC = through / head,
                WeirC = 300,
                OpenM2 = 0.05,
                CanopyShare = rng.Between(0.4, 1.0),
                PumpShare = take / beds,
                ToA = -1,
                DelayS = rng.Whole(2, 15),
                FoulWeight = rng.Between(0.7, 1.2),
                Outlet = OutletKind.Siphon,
            });
        }
    }

    /// <summary>Tanks that drain through pipes so narrow that the pipe, not the rim, sets the flow.</summary>
    public static void PipeLimited(Seeded rng, List<VesselSpec> vessels, double meanFlow, double bandL)
    {
        double first = rng.Between(0.4, 0.6);
        double rise = bandL / 1000 / 4;
        for (int i = 0; i < 2; i++)
        {
            double share = i == 0 ? first : 1 - first;
            double area = rng.Between(1.6, 2.6);
            double drop = rng.Between(0.02, 0.15);
            double head = rise + rng.Between(0.03, 0.08);
            vessels.Add(new VesselSpec
            {
                Id = $"fish-tank-{i + 1}",
                Kind = VesselKind.FishTank,
                AreaM2 = area,
                SillM = rng.Between(0.65, 0.9),
                RimM = 0,
                WeirC = StandpipePerMetre * 0.05,
                OrificeC = meanFlow * share / Math.Sqrt(head + drop),
                DropM = drop,
                OpenM2 = area * rng.Pick(1.0, 0.4),
                PumpShare = share,
                ToA = 2,
                DelayS = rng.Whole(5, 40),
                FoulWeight = rng.Between(0.7, 1.3),
                Outlet = OutletKind.Pipe,
            });
            vessels[^1].RimM = vessels[^1].SillM + head + rise + rng.Between(0.1, 0.2);
        }

        vessels.Add(new VesselSpec
        {
            Id = "separator",
            Kind = VesselKind.SolidsSeparator,
            AreaM2 = rng.Between(0.3, 0.6),
            SillM = rng.Between(0.5, 0.7),
            RimM = 1.1,
            WeirC = 1840 * rng.Between(0.2, 0.5),
            OrificeC = 30,
            OpenM2 = 0.1,
            ToA = 3,
            ToB = 4,
            ShareA = rng.Between(0.4, 0.6),
            DelayS = rng.Whole(1, 4),
            FoulWeight = 0.3,
            Outlet = OutletKind.Weir,
        });
        for (int i = 0; i < 2; i++)
        {
            double area = rng.Between(1.5, 3);
            double sill = rng.Between(0.2, 0.3);
            vessels.Add(new VesselSpec
            {
                Id = $"trough-{i + 1}",
                Kind = VesselKind.Trough,
                AreaM2 = area,
                SillM = sill,
                RimM = sill + rng.Between(0.12, 0.2),
                WeirC = StandpipePerMetre * 0.05,
                OrificeC = meanFlow * 0.5 / Math.Sqrt(rng.Between(0.008, 0.02) + 0.1),
                DropM = 0.1,
                OpenM2 = area * rng.Between(0.08, 0.25),
                CanopyShare = rng.Between(0.7, 1.3),
                ToA = -1,
                DelayS = rng.Whole(10, 90),
                FoulWeight = rng.Between(0.7, 1.3),
                Outlet = OutletKind.Pipe,
            });
        }
    }

    /// <summary>A swirl separator of the usual size, its weir into vessel <paramref name="to"/> (-1: the sump).</summary>
    private static VesselSpec Separator(Seeded rng, int to, (int Least, int Most) delayS) => new()
    {
        Id = "separator",
        Kind = VesselKind.SolidsSeparator,
        AreaM2 = rng.Between(0.2, 0.45),
        SillM = rng.Between(0.5, 0.8),
        RimM = 0,
        WeirC = 1840 * rng.Between(0.15, 0.4),
        OrificeC = 30,
        OpenM2 = 0.05,
        ToA = to,
        DelayS = rng.Whole(delayS.Least, delayS.Most),
        FoulWeight = 0.3,
        Outlet = OutletKind.Weir,
    };

    /// <summary>Short pipes mostly; now and then a long return under the garden.</summary>
    private static int Delay(Seeded rng) => rng.Chance(0.12) ? rng.Whole(20, 90) : rng.Whole(1, 8);
}
