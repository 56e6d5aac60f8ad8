using NodaTime;

namespace Runnel.Twin.Invented;

/// <summary>Invented weather on a ten-minute grid: sun by geometry, cloud spells, heat and cold spells, storms, wind, humidity by dew point.</summary>
internal sealed class Weather
{
    public const int StepS = 600;

    public Weather(int steps)
    {
        AirC = new double[steps];
        RhPercent = new double[steps];
        SunWPerM2 = new double[steps];
        WindMPerS = new double[steps];
        RainMm = new double[steps];
    }

    public double[] AirC { get; }
    public double[] RhPercent { get; }
    public double[] SunWPerM2 { get; }
    public double[] WindMPerS { get; }

    /// <summary>Rain in each step, mm.</summary>
    public double[] RainMm { get; }

    public static Weather Make(LoopSpec loop, Instant start, int steps, IReadOnlyList<Happening> story, int seed)
    {
        var rng = new Seeded(seed, "weather");
        var w = new Weather(steps);
        double cold = Math.Abs(loop.LatitudeDeg);
        double annualMean = 27 - (0.42 * Math.Max(0, cold - 15)) - (loop.AltitudeM * 0.006) + rng.Between(-1, 1);
        double season = 3 + (0.17 * (cold - 15));
        double swing = rng.Between(4, 7.5);
        double wet = rng.Between(0.06, 0.3); // storms a day
        double gust = rng.Between(0.8, 2.2);
        double dryness = rng.Between(0.5, 5);
        double spell = rng.Normal(), cloud = rng.Unit(), dewSpell = 0, windSpell = 0, flicker = 0, airNoise = 0;
        double rainLeft = 0, rainRate = 0;
        double steps6 = 144;
        for (int k = 0; k < steps; k++)
        {
            double day = k / steps6;
            if (k % 144 == 0)
            {
                spell = (0.8 * spell) + (0.6 * rng.Normal());
                // Cloud spells: mostly fair, some days shut in.
                cloud = Math.Clamp((0.55 * cloud) + (0.45 * Math.Pow(rng.Unit(), 1.4)), 0, 1);
                dewSpell = (0.7 * dewSpell) + rng.Normal();
                windSpell = (0.6 * windSpell) + (0.35 * rng.Normal());
            }

            double heat = 0;
            foreach (var h in story)
            {
                if (h.Kind == HappeningKind.HeatWave && day >= h.OnsetDay && day < h.EndDay) heat = h.Size;
                if (h.Kind == HappeningKind.Storm && (int)(h.OnsetDay * 144) == k)
                {
                    rainLeft = h.Size;
                    rainRate = h.Size / rng.Between(2, 6) / 6;
                }
            }

            if (heat == 0 && rainLeft <= 0 && rng.Chance(wet / 144 * (0.4 + (1.5 * cloud))))
            {
                rainLeft = Math.Min(60, rng.Exponential(7));
                rainRate = rainLeft / rng.Between(0.5, 8) / 6;
            }

            var local = start.Plus(Duration.FromSeconds((k * StepS) + (StepS / 2)));
            double sin = SinElevation(loop.LatitudeDeg, loop.LongitudeDeg, local);
            flicker = (0.85 * flicker) + (0.3 * rng.Normal());
            double cover = heat > 0 ? 0.1 * cloud : rainLeft > 0 ? Math.Max(0.85, cloud) : cloud;
            double through = Math.Clamp(1 - (0.72 * cover) + (0.12 * flicker * Math.Min(1, 0.3 + (2 * cover * (1 - cover)))), 0.08, 1.02);
            double clear = sin > 0 ? 1090 * Math.Pow(sin, 1.2) * Math.Exp(-0.11 / Math.Max(0.03, sin)) : 0;
            double sun = clear * through;

            double wet1 = 0;
            if (rainLeft > 0)
            {
                wet1 = Math.Min(rainLeft, rainRate * Math.Exp(0.5 * rng.Normal()));
                rainLeft -= wet1;
            }

            double doy = local.InUtc().DayOfYear;
            double phase = Math.Cos(2 * Math.PI * (doy - (loop.LatitudeDeg < 0 ? 15 : 197)) / 365.25);
            double solarHour = SolarHour(loop.LongitudeDeg, local);
            double wave = Math.Cos(2 * Math.PI * (solarHour - 15) / 24) + (0.2 * Math.Cos(4 * Math.PI * (solarHour - 14) / 24));
            airNoise = (0.9 * airNoise) + (0.15 * rng.Normal());
            double air = annualMean + (season * phase) + (2.6 * spell) + heat + (swing * (1 - (0.6 * cover)) * wave) + airNoise - (wet1 > 0 ? 2 : 0);
            double dew = annualMean + (season * phase) + (1.6 * spell) - swing - dryness + (1.5 * dewSpell) + (wet1 > 0 ? 5 : 0) + (2 * cover);
            double wind = Math.Max(0.1, gust * Math.Exp(windSpell) * (0.6 + (0.5 * Math.Max(0, wave))) * Math.Exp(0.25 * rng.Normal()));
            if (loop.UnderCover)
            {
                air += sun * 0.006;
                dew += 2.5;
                sun *= 0.68;
                wind = 0.15 + (0.12 * wind);
            }

            double humid = 100 * VapourKPa(Math.Min(dew, air - 0.15)) / VapourKPa(air);
            w.AirC[k] = air;
            w.RhPercent[k] = Math.Clamp(humid, 8, 100);
            w.SunWPerM2[k] = sun;
            w.WindMPerS[k] = wind;
            w.RainMm[k] = wet1;
        }

        return w;
    }

    /// <summary>Saturation vapour pressure, kPa, by the Magnus form (coefficients of Alduchov and Eskridge 1996, from memory).</summary>
    public static double VapourKPa(double c) => 0.61094 * Math.Exp(17.625 * c / (c + 243.04));

    private static double SolarHour(double longitudeDeg, Instant time)
    {
        double utcHour = time.InUtc().TimeOfDay.TickOfDay / (double)NodaConstants.TicksPerHour;
        double h = (utcHour + (longitudeDeg / 15)) % 24;
        return h < 0 ? h + 24 : h;
    }

    private static double SinElevation(double latitudeDeg, double longitudeDeg, Instant time)
    {
        double doy = time.InUtc().DayOfYear;
        double declination = -23.44 * Math.PI / 180 * Math.Cos(2 * Math.PI * (doy + 10) / 365.25);
        double hourAngle = Math.PI / 12 * (SolarHour(longitudeDeg, time) - 12);
        double lat = latitudeDeg * Math.PI / 180;
        return (Math.Sin(lat) * Math.Sin(declination)) + (Math.Cos(lat) * Math.Cos(declination) * Math.Cos(hourAngle));
    }
}
