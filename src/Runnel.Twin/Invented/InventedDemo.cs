using NodaTime;

namespace Runnel.Twin.Invented;

/// <summary>
/// The invented 60-day log that the pages show before a household drops its own. Six weeks of an ordinary summer: the loop is learnt,
/// the keeper's naive rule tops up, lettuce is cut, a storm comes, someone empties the separator and writes nothing down. From day 44
/// on the drains foul a little every day: fills grow slow, and the rule pours in water that the loop does not lack.
/// </summary>
public static class InventedDemo
{
    /// <summary>Name of the story.</summary>
    public const string StoryName = "demo";

    private const int Seed = 15;
    private const int Days = 60;

    /// <summary>Makes it; always the same.</summary>
    public static InventedLog Make()
    {
        var loop = LoopDrawing.Draw(LoopKind.SwitchLog, Seed) with
        {
            Name = "Quince Terrace",
            LatitudeDeg = -33.4,
            LongitudeDeg = 149.6,
            AltitudeM = 720,
            Zone = DateTimeZoneProviders.Tzdb["Australia/Sydney"],
            FirstDay = new LocalDate(2025, 1, 6),
            UnderCover = false,
            RainCatchM2 = 1.6,
            CanopyM2 = 7,
            CanopyMostM2 = 9.5,
            CanopyGrowthPerDay = 0.03,
            SwitchJitter = 0.014,
            SplashLPerDay = 0.8,
            AgeingPerDay = 0,
        };
        var habit = HabitDrawing.Keeper(loop, Seed) with
        {
            HasBleed = true,
            SlowAbove = loop.TargetFillS * 1.2,
            FastBelow = loop.TargetFillS * 0.72,
            CheckEveryS = 600,
            LockOutS = 2400,
            TopUpS = 120,
            DaytimeOnly = false,
            SludgeEveryDays = 9,
            SludgeL = 25,
            JarsLPerWeek = 2,
        };
        IReadOnlyList<Happening> story =
        [
            new(HappeningKind.Harvest, 17.40, 0.35),
            new(HappeningKind.Storm, 25.6, 38),
            new(HappeningKind.SludgeDrainedUnlogged, 33.0 + (8.0 / 24) + (10.0 / 1440), 42),
            new(HappeningKind.DrainFouling, 44, 0.055),
        ];
        var logging = HabitDrawing.Logger(loop, story, Seed) with
        {
            PumpId = "sump-pump",
            TopUpId = "top-up-valve",
            BleedId = "bleed-valve",
            PollS = 1,
            RepeatS = 0,
            DropEdge = 0,
            DoubleEdge = 0,
            WeatherEveryS = 600,
            AirTemperature = true,
            FullWeather = true,
            LevelOf = -1,
        };
        return InventedLogs.Make(loop, habit, logging, story, StoryName, Seed, Days);
    }
}
