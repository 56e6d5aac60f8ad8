namespace Runnel.Twin.Invented;

/// <summary>Draws how the keeper lets water in and out and how the logger writes.</summary>
internal static class HabitDrawing
{
    public static KeeperSpec Keeper(LoopSpec loop, int seed)
    {
        var rng = new Seeded(seed, "keeper");
        bool timer = loop.Kind == LoopKind.PowerChannel;
        bool level = loop.Kind == LoopKind.AlwaysOn;
        double slow = level ? loop.TargetLevelM - rng.Between(0.015, 0.04) : loop.TargetFillS * rng.Between(1.1, 1.3);
        double fast = level ? loop.TargetLevelM + rng.Between(0.05, 0.08) : loop.TargetFillS * rng.Between(0.68, 0.84);
        double topUpL = rng.Between(15, 40), bleedL = rng.Between(15, 35);
        if (!level && !timer)
        {
            // A keeper whose top-ups set off his bleeds has found that out long ago.
            double room = loop.LitresBetween(slow, fast);
            topUpL = Math.Max(5, Math.Min(topUpL, room * rng.Between(0.3, 0.65)));
            bleedL = Math.Max(5, Math.Min(bleedL, room * rng.Between(0.3, 0.65)));
        }

        bool bleeds = timer ? rng.Chance(0.4) : rng.Chance(0.8);
        if (!level && !timer && rng.Chance(0.08))
        {
            // One in twelve opens the tap for long: for an hour or more the pump can hardly return what comes.
            topUpL = rng.Between(45, 80);
            bleeds = false;
        }

        return new KeeperSpec
        {
            HasTopUp = true,
            HasBleed = bleeds,
            SlowAbove = slow,
            FastBelow = fast,
            LastFills = rng.Whole(3, 6),
            CheckEveryS = rng.Pick(300, 600, 900),
            LockOutS = rng.Whole(2, 6) * 600,
            TopUpS = (int)Math.Round(topUpL / loop.TopUpLPerS / 10) * 10,
            BleedS = (int)Math.Round(bleedL / loop.BleedLPerS / 10) * 10,
            DaytimeOnly = rng.Chance(0.2),
            TimerHours = !timer ? [] : rng.Pick<double[]>([7.0], [19.0], [6.5, 18.5], [7.25, 13.0, 20.0]),
            TimerStartLPerDay = (loop.OpenWaterM2 * 4) + (loop.CanopyM2 * 3),
            TimerReviewDays = rng.Whole(2, 5),
            SludgeEveryDays = rng.Chance(0.5) ? rng.Between(5, 12) : 0,
            SludgeL = rng.Between(15, 45),
            JarsLPerWeek = rng.Between(0, 6),
            PauseHourOfWeek = rng.Whole(0, 6) * 24 + rng.Pick(9.0, 11.5, 16.0),
            PauseMinutes = level ? rng.Whole(5, 15) : 0,
        };
    }

    public static LoggerSpec Logger(LoopSpec loop, IReadOnlyList<Happening> story, int seed)
    {
        var rng = new Seeded(seed, "logger");
        bool power = loop.Kind == LoopKind.PowerChannel;
        bool level = loop.Kind == LoopKind.AlwaysOn;
        double weather = level || power ? 0.1 + (rng.Unit() * 0.9) : rng.Unit();
        bool extraLevel = !level && !power && rng.Chance(0.15);
        // A story of a failing sensor needs one.
        if (story.Any(h => h.Kind is HappeningKind.SensorSilent or HappeningKind.SensorFrozen or HappeningKind.SensorJumping
            or HappeningKind.SensorDrifting)) weather = 1;
        return new LoggerSpec
        {
            PumpId = power ? rng.Pick("pump-power", "sump-pump-watts", "plug-2") : rng.Pick("sump-pump", "pump", "float-switch"),
            TopUpId = rng.Pick("top-up-valve", "top-up", "fill-valve"),
            BleedId = rng.Pick("bleed-valve", "bleed"),
            PollS = rng.Chance(0.82) ? 1 : rng.Pick(5, 10, 30),
            RepeatS = level ? rng.Pick(600, 900, 3600) : rng.Chance(0.25) ? rng.Pick(300, 900, 3600) : 0,
            DropEdge = rng.Chance(0.15) ? rng.Between(0.0005, 0.004) : 0,
            DoubleEdge = rng.Chance(0.15) ? rng.Between(0.001, 0.02) : 0,
            WeatherEveryS = rng.Pick(600, 900),
            AirTemperature = weather > 0.12,
            FullWeather = weather > 0.27,
            LevelOf = level ? loop.Sump : extraLevel ? (rng.Chance(0.5) ? loop.Sump : 0) : -1,
            LevelEveryS = rng.Pick(60, 120, 300),
            LevelNoiseMm = rng.Between(0.6, 3),
            PowerEveryS = power ? rng.Pick(10, 15, 30, 60) : 0,
            PowerOnChange = power && rng.Chance(0.35),
            PowerNoise = rng.Between(0.006, 0.03),
        };
    }
}
