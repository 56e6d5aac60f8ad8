using Runnel.Place;
using Runnel.Science.Air;
using Runnel.Science.Sun;

namespace Runnel.Twin.Weather;

/// <summary>A climate in full: twelve values a year of each quantity, what the place file leaves out filled in.</summary>
public sealed class ClimateYear
{
    /// <summary>Days of each month; February as the mean over four years.</summary>
    internal static readonly double[] DaysOfMonth = [31, 28.25, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31];

    // Means over all longitudes near sea level by latitude, every ten degrees; Sellers (1965), Physical Climatology, from memory and rounded.
    private static readonly double[] MeanByLatitudeC = [26.5, 26.5, 25, 20, 14, 6, -1, -10, -17, -22];

    // Half of what lies between the coldest and the warmest month in the northern half of the globe; oceans halve it in the southern. As above.
    private static readonly double[] SwingByLatitudeK = [1, 1.5, 4, 7, 10, 12.5, 15, 17, 17, 16];

    private ClimateYear(double latitudeDeg, double longitudeDeg, double altitudeM) =>
        (LatitudeDeg, LongitudeDeg, AltitudeM) = (latitudeDeg, longitudeDeg, altitudeM);

    /// <summary>Degrees north; south is negative.</summary>
    public double LatitudeDeg { get; }

    /// <summary>Degrees east; west is negative.</summary>
    public double LongitudeDeg { get; }

    /// <summary>Above the sea, m.</summary>
    public double AltitudeM { get; }

    /// <summary>Mean of the days' highest air temperatures, °C, by month.</summary>
    public IReadOnlyList<double> HighC { get; private init; } = [];

    /// <summary>Mean of the days' lowest air temperatures, °C.</summary>
    public IReadOnlyList<double> LowC { get; private init; } = [];

    /// <summary>Standard deviation of the days' highest temperatures about their month's mean, K.</summary>
    public IReadOnlyList<double> SpreadK { get; private init; } = [];

    /// <summary>Mean relative humidity, 0 to 1.</summary>
    public IReadOnlyList<double> RelHumidity { get; private init; } = [];

    /// <summary>Mean wind 2 m above the ground, m/s.</summary>
    public IReadOnlyList<double> WindAt2MMPerS { get; private init; } = [];

    /// <summary>Rain of the month, mm.</summary>
    public IReadOnlyList<double> RainMm { get; private init; } = [];

    /// <summary>Days of the month with rain.</summary>
    public IReadOnlyList<double> RainDays { get; private init; } = [];

    /// <summary>Least rain of a day that counts as one with rain, mm.</summary>
    public double RainDayFromMm { get; private init; } = 1;

    /// <summary>Mean solar radiation on the level, MJ/m2 and day.</summary>
    public IReadOnlyList<double> SolarMJPerM2Day { get; private init; } = [];

    /// <summary>What was not told and was put in instead, in words for people.</summary>
    public IReadOnlyList<string> FilledIn { get; private init; } = [];

    /// <summary>The climate of a place.</summary>
    /// <param name="place">Needs latitude, longitude and altitude; its climate may be told in part or not at all.</param>
    /// <returns>The climate in full.</returns>
    /// <exception cref="ArgumentException">The place has no latitude, longitude or altitude.</exception>
    public static ClimateYear Of(PlaceDescription place)
    {
        ArgumentNullException.ThrowIfNull(place);
        if (!double.IsFinite(place.LatitudeDeg + place.LongitudeDeg + place.AltitudeM)) throw new ArgumentException("the place has no latitude, longitude or altitude", nameof(place));
        return Of(place.Climate ?? new(), place.LatitudeDeg, place.LongitudeDeg, place.AltitudeM);
    }

    /// <summary>A climate where it is told, at a site.</summary>
    /// <param name="told">What is known; the rest is filled in.</param>
    /// <param name="latitudeDeg">Degrees north, -90 to 90.</param>
    /// <param name="longitudeDeg">Degrees east, -180 to 180.</param>
    /// <param name="altitudeM">Above the sea, m.</param>
    /// <returns>The climate in full.</returns>
    public static ClimateYear Of(Climate told, double latitudeDeg, double longitudeDeg, double altitudeM)
    {
        ArgumentNullException.ThrowIfNull(told);
        List<string> filled = [];
        double[] high = [.. told.HighC ?? []], low = [.. told.LowC ?? []];
        if (high.Length == 0 || low.Length == 0)
        {
            filled.Add("temperatures from the latitude alone (rough)");
            (high, low) = FromLatitude(latitudeDeg, altitudeM);
        }

        double[] mean = [.. high.Zip(low, (h, l) => (h + l) / 2)];
        double warmest = mean.Max(), coldest = mean.Min();
        // Between a sea climate and one inland: checked against two daily records. Common practice has nothing better from monthly means alone.
        double[] spread = [.. told.SpreadK ?? mean.Select(m => Between(1.3 + (0.15 * (warmest - coldest)), 1.6 + (0.1 * (warmest - coldest)), Season(m)))];
        double[] rain = [.. told.RainMm ?? []], days = [.. told.RainDays ?? []];
        if (rain.Length == 0 || days.Length == 0)
        {
            filled.Add("rain of 70 mm on 9 days a month (rough)");
            (rain, days) = ([.. Enumerable.Repeat(70.0, 12)], [.. Enumerable.Repeat(9.0, 12)]);
        }

        if (told.WindMPerS is null) filled.Add("wind of 2 m/s");
        double[] wind = [.. told.WindMPerS?.Select(w => Wind.At2MMPerS(w, told.WindHeightM)) ?? Enumerable.Repeat(2.0, 12)];
        double[] solar = [.. told.SolarMJPerM2Day ?? FromSunshine(told, latitudeDeg) ?? []];
        if (solar.Length == 0)
        {
            filled.Add("sun from the range of temperatures");
            solar = MonthMeans((d, m) => SurfaceRadiation.FromTemperatureRangeMJPerM2Day(high[m], low[m], SolarDay.ExtraterrestrialMJPerM2Day(latitudeDeg, d)));
        }

        if (told.RelHumidity is null && told.DewPointC is null) filled.Add("dew points like the lowest temperatures");
        double[] humidity = [.. told.RelHumidity ?? Enumerable.Range(0, 12).Select(m => HumidityOf(told.DewPointC?[m] ?? low[m], high[m], low[m]))];
        return new(latitudeDeg, longitudeDeg, altitudeM)
        {
            HighC = high,
            LowC = low,
            SpreadK = spread,
            RelHumidity = humidity,
            WindAt2MMPerS = wind,
            RainMm = rain,
            RainDays = days,
            RainDayFromMm = told.RainDayFromMm,
            SolarMJPerM2Day = solar,
            FilledIn = filled,
        };

        double Season(double m) => warmest - coldest < 0.5 ? 0.5 : (m - coldest) / (warmest - coldest);
    }

    /// <summary>0 in the coldest month to 1 in the warmest.</summary>
    internal double SeasonOf(int month)
    {
        double least = double.MaxValue, most = double.MinValue;
        for (int m = 0; m < 12; m++)
        {
            double mean = (HighC[m] + LowC[m]) / 2;
            (least, most) = (Math.Min(least, mean), Math.Max(most, mean));
        }

        return most - least < 0.5 ? 0.5 : (((HighC[month] + LowC[month]) / 2) - least) / (most - least);
    }

    /// <summary>Means over the days of each month of what depends on the day of the year.</summary>
    internal static double[] MonthMeans(Func<int, int, double> ofDayAndMonth)
    {
        double[] means = new double[12];
        int day = 0;
        for (int month = 0; month < 12; month++)
        {
            int count = (int)DaysOfMonth[month];
            for (int i = 0; i < count; i++) means[month] += ofDayAndMonth(++day, month) / count;
        }

        return means;
    }

    private static double[]? FromSunshine(Climate told, double latitudeDeg) => told.SunshineH is not { } sunshine ? null
        : MonthMeans((d, m) => SurfaceRadiation.FromSunshineMJPerM2Day(sunshine[m], SolarDay.DaylightHours(latitudeDeg, d), SolarDay.ExtraterrestrialMJPerM2Day(latitudeDeg, d)));

    // Mean over a mean day's course of what that vapour is of saturation, never above it.
    private static double HumidityOf(double dewPointC, double highC, double lowC)
    {
        double vapour = VapourPressure.FromDewPointKPa(dewPointC), sum = 0;
        for (int i = 0; i < 24; i++)
        {
            double temp = ((highC + lowC) / 2) - ((highC - lowC) / 2 * Math.Cos(2 * Math.PI * (i + 0.5) / 24));
            sum += Math.Min(1, vapour / VapourPressure.SaturationKPa(temp)) / 24;
        }

        return Math.Clamp(sum, 0.05, 0.98);
    }

    private static (double[] High, double[] Low) FromLatitude(double latitudeDeg, double altitudeM)
    {
        double at = Math.Abs(latitudeDeg) / 10;
        int i = Math.Min(8, (int)at);
        // 6.5 K lower for each kilometre: ICAO standard atmosphere.
        double mean = Between(MeanByLatitudeC[i], MeanByLatitudeC[i + 1], at - i) - (0.0065 * altitudeM);
        double swing = Between(SwingByLatitudeK[i], SwingByLatitudeK[i + 1], at - i) * (latitudeDeg < 0 ? 0.5 : 1);
        // Warmest a month after the longest day, in mid-July or mid-January.
        int warmest = latitudeDeg < 0 ? 0 : 6;
        double[] means = [.. Enumerable.Range(0, 12).Select(m => mean + (swing * Math.Cos(Math.PI / 6 * (m - warmest))))];
        return ([.. means.Select(m => m + 5)], [.. means.Select(m => m - 5)]);
    }

    private static double Between(double from, double to, double share) => from + ((to - from) * share);
}
