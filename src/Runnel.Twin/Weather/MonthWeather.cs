namespace Runnel.Twin.Weather;

/// <summary>What the drawing of days and hours needs of a climate, month by month.</summary>
internal sealed class MonthWeather
{
    /// <summary>How strongly the clouds of a day and of a moment move the sun's share.</summary>
    public const double DaySlope = 1.0, MomentSlope = 0.8;

    /// <summary>Dry days' lows less wet days', K: nights under rain clouds are milder. Common practice.</summary>
    public const double DryLessWetLowK = -1;

    // Share of the sun that a day with rain lets through, over that of a dry one; Bristow and Campbell (1984) have 0.75 at the least, others down to half.
    private const double WetSunOverDry = 0.6;

    // Least and greatest share of clear-sky sun that comes through clouds; common practice.
    private const double DarkestSky = 0.06, ClearestSky = 1;

    public MonthWeather(ClimateYear year)
    {
        Year = year;
        (High, Low, Wind) = (new(year.HighC), new(year.LowC), new(year.WindAt2MMPerS));
        double[] clear = ClearSkyMJPerM2Day(year);
        for (int m = 0; m < 12; m++)
        {
            double wet = WetShare[m] = Math.Clamp(year.RainDays[m] / ClimateYear.DaysOfMonth[m], 0, 1);
            double mean = RainMmOfWetDay[m] = year.RainDays[m] > 0 ? Math.Max(year.RainDayFromMm, year.RainMm[m] / year.RainDays[m]) : year.RainDayFromMm;
            RainShape[m] = Math.Clamp(mean / Math.Max(0.1, (1.83 * mean) - 2.16), 0.45, 3);
            double season = year.SeasonOf(m), spread = year.SpreadK[m], parts = wet * (1 - wet);
            // Rain cools the days of the warm season, and is no matter in the cold one: as in two daily records.
            double cooler = DryLessWetHighK[m] = Math.Min(3, spread) * season;
            // A month's own warming or cooling spreads its days too: evenly, hence the twelfth.
            double drift = (year.HighC[(m + 1) % 12] - year.HighC[(m + 11) % 12]) / 2;
            ResidualHighK[m] = Math.Sqrt(Math.Max(0.4 * spread * spread, (spread * spread) - (parts * cooler * cooler) - (drift * drift / 12)));
            // Nights differ less than days, and in the warm season by half.
            ResidualLowK[m] = spread * (1 - (0.4 * season));

            double ratio = clear[m] > 0.05 ? year.SolarMJPerM2Day[m] / clear[m] : 0.5, drySun = ratio / (1 - (wet * (1 - WetSunOverDry)));
            // A sun that the usual haze does not let through needs clearer air, not more than a cloudless sky.
            SkyScale[m] = clear[m] > 0.05 ? Math.Clamp(ratio / 0.9, 1, 1.15) : 1;
            drySun = Math.Min(drySun, 0.97 * SkyScale[m]) / SkyScale[m];
            double wetSun = wet > 0 ? Math.Clamp(((ratio / SkyScale[m]) - ((1 - wet) * drySun)) / wet, 0.1, 1) : drySun * WetSunOverDry;
            double slope = Math.Sqrt((DaySlope * DaySlope) + (MomentSlope * MomentSlope));
            (DrySun[m], WetSun[m]) = (new(drySun, DarkestSky, ClearestSky, slope), new(wetSun, DarkestSky, ClearestSky, slope));

            double humidity = year.RelHumidity[m], moister = Math.Min(0.1, 0.5 * (1 - humidity));
            (DryHumidity[m], WetHumidity[m]) = (new(humidity - (wet * moister), 0.03, 1, 0.6), new(humidity + ((1 - wet) * moister), 0.03, 1, 0.6));
        }
    }

    public ClimateYear Year { get; }

    public MonthlyCourse High { get; }

    public MonthlyCourse Low { get; }

    public MonthlyCourse Wind { get; }

    public double[] WetShare { get; } = new double[12];

    public double[] RainMmOfWetDay { get; } = new double[12];

    public double[] RainShape { get; } = new double[12];

    public double[] DryLessWetHighK { get; } = new double[12];

    public double[] ResidualHighK { get; } = new double[12];

    public double[] ResidualLowK { get; } = new double[12];

    /// <summary>Over the usual clear sky, 1 to 1.15.</summary>
    public double[] SkyScale { get; } = new double[12];

    public BoundedShare[] DrySun { get; } = new BoundedShare[12];

    public BoundedShare[] WetSun { get; } = new BoundedShare[12];

    public BoundedShare[] DryHumidity { get; } = new BoundedShare[12];

    public BoundedShare[] WetHumidity { get; } = new BoundedShare[12];

    private static double[] ClearSkyMJPerM2Day(ClimateYear year)
    {
        var sky = new ClearSkyDay(year.LatitudeDeg, year.LongitudeDeg, year.AltitudeM);
        double[] hours = new double[24];
        double[] ofDay = new double[367];
        // A year that is no leap year; every third day will do.
        double first = new DateTimeOffset(2025, 1, 1, 0, 0, 0, TimeSpan.Zero).ToUnixTimeSeconds() - (year.LongitudeDeg * 240);
        for (int d = 1; d <= 366; d++)
        {
            if (d % 3 == 1)
            {
                sky.MeansWPerM2(first + ((d - 1) * 86_400.0), 3600, hours);
                ofDay[d] = hours.Sum() * 0.0036;
            }
            else
            {
                ofDay[d] = ofDay[d - 1];
            }
        }

        return ClimateYear.MonthMeans((d, _) => ofDay[d]);
    }
}
