using Runnel.Science.Air;
using Runnel.Science.Sun;
using Runnel.Twin.Weather;

namespace Runnel.Twin.Heat;

/// <summary>What passes between open water and the air over it, for one square metre.</summary>
/// <remarks>
/// Evaporation and convection by one wind function, that of Penman (1956) as in <see cref="Science.Water.OpenWaterEvaporation.PenmanDaily"/>, joined by the
/// psychrometric constant (Bowen 1926); but with the water's own temperature, so that a tank warmed by day evaporates at night. Long-wave radiation of the sky as
/// in FAO Irrigation and Drainage Paper 56 (Allen and others 1998), equation 39. Dew is left out.
/// </remarks>
internal readonly struct WaterSurface
{
    private const double StefanWPerM2K4 = 5.670374e-8, Emissivity = 0.97, Albedo = 0.08, WindA = 1.313, WindB = 1.381, Kelvin = 273.15;

    private readonly double _airC, _vapourKPa, _sunWPerM2, _skyWPerM2, _airRadiatesWPerM2, _mmPerSKPa, _gammaKPaPerC;

    public WaterSurface(in WeatherStep weather, double altitudeM)
    {
        _airC = Math.Clamp(weather.AirTempC, -60, 60);
        _vapourKPa = VapourPressure.FromHumidityKPa(_airC, weather.RelHumidity);
        _sunWPerM2 = weather.SunWPerM2;
        double kelvin = _airC + Kelvin;
        _airRadiatesWPerM2 = StefanWPerM2K4 * kelvin * kelvin * kelvin * kelvin;
        double clouds = Math.Max(0, (1.35 * Math.Min(1, weather.RelativeSolar)) - 0.35);
        _skyWPerM2 = _airRadiatesWPerM2 * (1 - ((0.34 - (0.14 * Math.Sqrt(_vapourKPa))) * clouds));
        _mmPerSKPa = (WindA + (WindB * Math.Min(weather.WindAt2MMPerS, 50))) / 86_400;
        _gammaKPaPerC = Atmosphere.PsychrometricConstantKPaPerC(Atmosphere.PressureKPa(altitudeM));
    }

    public double AirC => _airC;

    /// <summary>Evaporation, mm/s (kg/(m2 s)); never below 0.</summary>
    public double EvaporationMmPerS(double waterC) =>
        _mmPerSKPa * Math.Max(0, VapourPressure.SaturationKPa(Math.Clamp(waterC, -60, 80)) - _vapourKPa);

    /// <summary>Sun taken up, W/m2, under a shade that holds back that share.</summary>
    public double SunWPerM2(double shade) => (1 - Albedo) * (1 - shade) * _sunWPerM2;

    /// <summary>Long-wave radiation taken up less given off, W/m2; a shade radiates like the air.</summary>
    public double LongWaveWPerM2(double waterC, double shade)
    {
        double kelvin = waterC + Kelvin;
        return Emissivity * (((1 - shade) * _skyWPerM2) + (shade * _airRadiatesWPerM2) - (StefanWPerM2K4 * kelvin * kelvin * kelvin * kelvin));
    }

    /// <summary>Change of <see cref="LongWaveWPerM2"/> with the water's temperature.</summary>
    public static double LongWaveSlope(double waterC)
    {
        double kelvin = waterC + Kelvin;
        return -4 * Emissivity * StefanWPerM2K4 * kelvin * kelvin * kelvin;
    }

    /// <summary>Heat from the air by convection for each degree that it is warmer, W/(m2 K).</summary>
    public double ConvectionWPerM2K => _gammaKPaPerC * _mmPerSKPa * SurfaceRadiation.LatentHeatMJPerKg * 1e6;
}
