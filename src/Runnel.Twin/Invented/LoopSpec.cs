using NodaTime;
using Runnel.Place;

namespace Runnel.Twin.Invented;

/// <summary>An invented place as it truly is, drawn once per seed. Litres, metres, seconds unless named.</summary>
internal sealed record LoopSpec
{
    public required LoopKind Kind { get; init; }
    public required string Name { get; init; }
    public required double LatitudeDeg { get; init; }
    public required double LongitudeDeg { get; init; }
    public required double AltitudeM { get; init; }
    public required DateTimeZone Zone { get; init; }
    public required LocalDate FirstDay { get; init; }
    public required bool UnderCover { get; init; }

    /// <summary>Upstream first, the sump last.</summary>
    public required VesselSpec[] Vessels { get; init; }
    public int Sump => Vessels.Length - 1;
    public required double SwitchLowM { get; init; }
    public required double SwitchHighM { get; init; }
    public double BandL => (SwitchHighM - SwitchLowM) * Vessels[^1].AreaM2 * 1000;
    public required double InletM { get; init; }

    public required double PumpFlowLPerS { get; init; }
    public required double LiftM { get; init; }

    /// <summary>Shut-off head over lift at the duty point; near 1 is a flat, weak pump.</summary>
    public required double HeadRatio { get; init; }
    public required double RiserL { get; init; }
    public required double RunWatts { get; init; }
    public required double StandbyWatts { get; init; }

    public required double TopUpLPerS { get; init; }
    public required double BleedLPerS { get; init; }
    public required double CanopyM2 { get; init; }
    public required double CanopyGrowthPerDay { get; init; }
    public required double CanopyMostM2 { get; init; }
    public required double RainCatchM2 { get; init; }
    public required double SplashLPerDay { get; init; }
    public required double SwitchJitter { get; init; }
    public required double AgeingPerDay { get; init; }
    public required double TargetFillS { get; init; }

    /// <summary>D: sump level that the keeper wants, m.</summary>
    public double TargetLevelM { get; set; }
    public required double VoltageWander { get; init; }
    public required double EvaporationFactor { get; init; }
    public required double StomataSPerM { get; init; }
    public double OpenWaterM2 => Vessels.Sum(v => v.OpenM2);

    /// <summary>Litres that more water it takes, about, to bring the fill from one time to another.</summary>
    public double LitresBetween(double slowFillS, double fastFillS) => OnItsWay(BandL / fastFillS) - OnItsWay(BandL / slowFillS);

    private double OnItsWay(double flow)
    {
        double litres = 0;
        double[] through = LoopDrawing.Through(Vessels, flow);
        for (int i = 0; i < Vessels.Length - 1; i++)
        {
            if (!Vessels[i].Siphon) litres += Vessels[i].AreaM2 * 1000 * Vessels[i].HeadAt(through[i]);
        }

        return litres;
    }
}

/// <summary>How the keeper lets water in and out.</summary>
internal sealed record KeeperSpec
{
    public required bool HasTopUp { get; init; }
    public required bool HasBleed { get; init; }

    /// <summary>Top up when the mean of the last fills is above this, s (D: level below, m).</summary>
    public double SlowAbove { get; set; }

    /// <summary>Bleed when it is below this, s (D: level above, m).</summary>
    public double FastBelow { get; set; }
    public required int LastFills { get; init; }
    public required int CheckEveryS { get; init; }
    public required int LockOutS { get; init; }
    public required int TopUpS { get; init; }
    public required int BleedS { get; init; }
    public required bool DaytimeOnly { get; init; }

    /// <summary>C: hours of day at which the timer opens the top-up; empty: by rule.</summary>
    public required double[] TimerHours { get; init; }

    /// <summary>Daily litres with which the timer starts out.</summary>
    public required double TimerStartLPerDay { get; init; }

    /// <summary>Days between the keeper's corrections of the timer.</summary>
    public required int TimerReviewDays { get; init; }

    /// <summary>Days between logged separator drains, 0: none.</summary>
    public required double SludgeEveryDays { get; init; }
    public required double SludgeL { get; init; }

    /// <summary>Litres a week in jars and buckets that nobody writes down.</summary>
    public required double JarsLPerWeek { get; init; }

    /// <summary>D: hour of week of the pause, and its minutes; 0 minutes: none.</summary>
    public required double PauseHourOfWeek { get; init; }
    public required int PauseMinutes { get; init; }

    public KeeperSpec WithBleed() => this with { HasBleed = true };
}

/// <summary>How the logger writes.</summary>
internal sealed record LoggerSpec
{
    public required string PumpId { get; init; }
    public required string TopUpId { get; init; }
    public required string BleedId { get; init; }

    /// <summary>Edges are seen at multiples of this, s.</summary>
    public required int PollS { get; init; }

    /// <summary>Repeat of switch states, s; 0: at changes only.</summary>
    public required int RepeatS { get; init; }
    public required double DropEdge { get; init; }
    public required double DoubleEdge { get; init; }
    public required int WeatherEveryS { get; init; }
    public required bool AirTemperature { get; init; }
    public required bool FullWeather { get; init; }

    /// <summary>Vessel with a level channel, or -1.</summary>
    public required int LevelOf { get; init; }
    public required int LevelEveryS { get; init; }
    public required double LevelNoiseMm { get; init; }

    /// <summary>0: no power channel; else a row each so many s.</summary>
    public required int PowerEveryS { get; init; }

    /// <summary>Power rows at changes only, with a row now and then.</summary>
    public required bool PowerOnChange { get; init; }
    public required double PowerNoise { get; init; }
}
