using NodaTime;
using Runnel.Place;
using Runnel.Science.Air;
using Runnel.Science.Plants;
using Runnel.Science.Sun;
using Runnel.Science.Water;

namespace Runnel.Steward.Ledger;

/// <summary>Litres an hour that the weather calls for: evaporation from open water and use by the plants, from what channels there are.
/// What is missing is filled from latitude, date and temperature; a factor learnt from the balance corrects the level of both.</summary>
internal sealed class WeatherUse
{
    /// <summary>Where nothing is told, a small loop: the learnt factor makes up for the rest.</summary>
    private const double OpenWaterDefaultM2 = 2, CanopyDefaultM2 = 4;

    // Common practice: a calm garden, half the sky clear, temperate air.
    private const double CalmWindMPerS = 1, UsualRelativeSolar = 0.6, UsualTempC = 18, UsualHumidity = 0.65;

    /// <summary>A mean hour hotter than this is a sensor in the sun or one that jumps (common practice).</summary>
    private const double GreatestTempC = 45;

    private readonly PlaceDescription _place;
    private readonly Kit _kit;
    private readonly double _openWaterM2;
    private readonly double _canopyM2;
    private readonly HourOfDay _tempC = new(UsualTempC), _humidity = new(UsualHumidity), _windMPerS = new(CalmWindMPerS), _relativeSolar = new(UsualRelativeSolar);
    private double _nightRelativeSolar = 0.6;

    public WeatherUse(PlaceDescription place, Kit kit)
    {
        _place = place;
        _kit = kit;
        _openWaterM2 = place.Loop.OpenWaterM2 ?? OpenWaterDefaultM2;
        _canopyM2 = place.Loop.CanopyM2 ?? CanopyDefaultM2;
    }

    /// <summary>Sets evaporation and plant use of an hour that is over.</summary>
    public void Close(Hour hour)
    {
        var (dayOfYear, angle) = SunAt(hour.Start + Duration.FromMinutes(30));
        double extraterrestrial = SolarHour.ExtraterrestrialMJPerM2(_place.LatitudeDeg, dayOfYear, angle);
        double clearSky = SurfaceRadiation.ClearSkyMJPerM2(_place.AltitudeM, extraterrestrial);
        int of = hour.Start.InUtc().Hour;
        double tempC = _tempC.At(of, hour.AirTempC.Value, -40, GreatestTempC);
        double humidity = _humidity.At(of, hour.RelHumidityPercent.Value / 100, 0.05, 1);
        double wind = _windMPerS.At(of, hour.WindMPerS.Value, 0, 40);
        if (_kit.Wind >= 0) wind = Wind.At2MMPerS(wind, Math.Max(0.5, _place.Channels[_kit.Wind].HeightM ?? 2));
        double solar = hour.IrradianceWPerM2.Value is { } irradiance
            ? Math.Clamp(irradiance * 0.0036, 0, 6)
            : _relativeSolar.At(of, null, 0, 1) * clearSky;
        if (clearSky > 0.3 && hour.IrradianceWPerM2.Value is not null) _relativeSolar.At(of, solar / clearSky, 0, 1);
        if (clearSky > 0.6) _nightRelativeSolar = Math.Clamp(solar / clearSky, 0.3, 1);

        double evaporationMm = OpenWaterHour.PenmanMm(
            _place.LatitudeDeg, _place.AltitudeM, dayOfYear, angle, tempC, humidity, wind, solar, _nightRelativeSolar);
        double et0Mm = ReferenceEvapotranspiration.Hourly(
            _place.LatitudeDeg, _place.AltitudeM, dayOfYear, angle, tempC, humidity, wind, solar, _nightRelativeSolar).Et0Mm;
        hour.EvaporationL = evaporationMm * _openWaterM2;
        hour.PlantUseL = Math.Max(0, et0Mm) * _canopyM2;
    }

    /// <summary>The sun is up at a time.</summary>
    public bool IsDay(Instant time)
    {
        var (dayOfYear, angle) = SunAt(time);
        return SolarHour.ElevationRad(_place.LatitudeDeg, dayOfYear, angle) > 0;
    }

    private (int DayOfYear, double HourAngleRad) SunAt(Instant time)
    {
        var utc = time.InUtc();
        double clockH = utc.TimeOfDay.NanosecondOfDay / 3.6e12;
        double angle = SolarHour.HourAngleRad(clockH, -_place.LongitudeDeg, 0, utc.DayOfYear);
        return (utc.DayOfYear, Math.IEEERemainder(angle, 2 * Math.PI));
    }
}
