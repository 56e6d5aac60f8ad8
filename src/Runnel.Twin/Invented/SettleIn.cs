namespace Runnel.Twin.Invented;

/// <summary>Brings a new plant to the state its keeper likes before the log begins.</summary>
internal static class SettleIn
{
    public static void Run(Plant plant, LoopSpec loop)
    {
        if (loop.Kind == LoopKind.AlwaysOn)
        {
            plant.Manual = true;
            plant.SwitchOn = true;
            for (int i = 0; i < 36; i++)
            {
                // Water is added in small parts until it stands where it should.
                plant.RunUntil(plant.Clock + 1200);
                plant.AddToSump((loop.TargetLevelM - plant.SumpLevel) * loop.Vessels[^1].AreaM2 * 1000);
            }

            return;
        }

        long off = -1;
        double fills = 0;
        int count = 0;
        plant.OnEdge = (at, on) =>
        {
            if (!on) off = at;
            else if (off >= 0)
            {
                fills += at - off;
                count++;
            }

            return (loop.SwitchLowM, loop.SwitchHighM);
        };
        int rounds = loop.Kind == LoopKind.PowerChannel ? 60 : 40;
        long span = (long)(loop.TargetFillS * (loop.Kind == LoopKind.SiphonBed ? 6 : 3.5));
        for (int i = 0; i < rounds; i++)
        {
            plant.RunUntil(plant.Clock + span);
            if (count == 0)
            {
                if (plant.SwitchOn) plant.AddToSump(-Math.Min(8, Math.Max(0, (plant.SumpLevel - loop.InletM) * loop.Vessels[^1].AreaM2 * 500)));
                else plant.AddToSump(0.12 * loop.BandL);
                continue;
            }

            double off1 = Math.Clamp((fills / count / loop.TargetFillS) - 1, -0.5, 0.5);
            plant.AddToSump(off1 * loop.BandL * 0.5);
            fills = 0;
            count = 0;
        }

        plant.OnEdge = null;
    }
}
