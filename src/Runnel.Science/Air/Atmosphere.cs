namespace Runnel.Science.Air;

/// <summary>Air pressure and the psychrometric constant after FAO-56.</summary>
/// <remarks>Allen, Pereira, Raes and Smith (1998), FAO Irrigation and Drainage Paper 56, chapter 3.</remarks>
public static class Atmosphere
{
    /// <summary>Mean air pressure at an altitude, kPa.</summary>
    /// <param name="altitudeM">Altitude above sea level, m, -450 to 6000.</param>
    /// <returns>Pressure, kPa.</returns>
    /// <exception cref="ArgumentOutOfRangeException">The altitude is NaN or out of range.</exception>
    /// <remarks>FAO-56 equation 7: simplified gas law for a standard atmosphere of 20 °C. Weather moves it by about 3 %.</remarks>
    public static double PressureKPa(double altitudeM)
    {
        Require.InRange(altitudeM, -450, 6000);
        return 101.3 * Math.Pow((293 - (0.0065 * altitudeM)) / 293, 5.26);
    }

    /// <summary>Psychrometric constant, kPa/°C.</summary>
    /// <param name="pressureKPa">Air pressure, kPa, 40 to 110.</param>
    /// <returns>Psychrometric constant, kPa/°C.</returns>
    /// <exception cref="ArgumentOutOfRangeException">The pressure is NaN or out of range.</exception>
    /// <remarks>FAO-56 equation 8, with its rounded coefficient 0.665e-3 (latent heat 2.45 MJ/kg).</remarks>
    public static double PsychrometricConstantKPaPerC(double pressureKPa)
    {
        Require.InRange(pressureKPa, 40, 110);
        return 0.665e-3 * pressureKPa;
    }
}
