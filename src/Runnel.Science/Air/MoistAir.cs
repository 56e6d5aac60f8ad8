namespace Runnel.Science.Air;

/// <summary>State of moist air. Humidity ratio, enthalpy and volume are per kg of DRY air, density per m³ of moist air.</summary>
/// <param name="DryBulbC">Dry bulb, °C.</param>
/// <param name="PressurePa">Air pressure, Pa.</param>
/// <param name="HumidityRatio">Water over dry air, kg/kg.</param>
/// <remarks>ASHRAE Handbook Fundamentals (2017), chapter 1, ideal-gas relations. Against the real-gas table 2 the humidity ratio is up to
/// 1 % low. Below 0 °C vapour and wet bulb are over ice.</remarks>
public readonly record struct MoistAir(double DryBulbC, double PressurePa, double HumidityRatio)
{
    // Ratio of the molar masses of water and dry air, and the least humidity ratio that the solvers keep their footing on.
    private const double MolarRatio = 0.621945, LeastRatio = 1e-7;

    /// <summary>Vapour pressure, Pa.</summary>
    public double VapourPressurePa => PressurePa * HumidityRatio / (MolarRatio + HumidityRatio);

    /// <summary>Relative humidity, 0 to 1.</summary>
    public double RelHumidity => VapourPressurePa / SaturationPressure.OfTemperaturePa(DryBulbC);

    /// <summary>Vapour pressure deficit, Pa.</summary>
    public double DeficitPa => SaturationPressure.OfTemperaturePa(DryBulbC) - VapourPressurePa;

    /// <summary>Enthalpy, kJ per kg of dry air, from 0 °C.</summary>
    /// <remarks>Equation 30.</remarks>
    public double EnthalpyKJPerKg => EnthalpyOf(DryBulbC, HumidityRatio);

    /// <summary>Volume, m³ per kg of dry air.</summary>
    /// <remarks>Equation 26.</remarks>
    public double VolumeM3PerKg => 287.042 * (DryBulbC + 273.15) * (1 + (1.607858 * HumidityRatio)) / PressurePa;

    /// <summary>Density, kg of moist air per m³.</summary>
    public double DensityKgPerM3 => (1 + HumidityRatio) / VolumeM3PerKg;

    /// <summary>Dew point, or frost point below 0 °C, °C.</summary>
    public double DewPointC => SaturationPressure.TemperatureC(
        PressurePa * Math.Max(HumidityRatio, LeastRatio) / (MolarRatio + Math.Max(HumidityRatio, LeastRatio)));

    /// <summary>Wet bulb (thermodynamic, over ice below 0 °C), °C.</summary>
    /// <remarks>Equations 33 and 35, solved by bisection between dew point and dry bulb.</remarks>
    public double WetBulbC
    {
        get
        {
            double low = Math.Min(DewPointC, DryBulbC), high = DryBulbC;
            while (high - low > 1e-6)
            {
                double middle = (low + high) / 2;
                if (RatioOfWetBulb(DryBulbC, middle, PressurePa) > HumidityRatio) high = middle;
                else low = middle;
            }

            return (low + high) / 2;
        }
    }

    /// <summary>Air of a dry bulb and relative humidity.</summary>
    /// <param name="dryBulbC">Dry bulb, °C, -100 to 200.</param>
    /// <param name="relHumidity">Relative humidity, 0 to 1.</param>
    /// <param name="pressurePa">Air pressure, Pa, 20,000 to 200,000, and above the vapour pressure.</param>
    /// <returns>State.</returns>
    /// <exception cref="ArgumentOutOfRangeException">An input is NaN or out of range.</exception>
    public static MoistAir FromHumidity(double dryBulbC, double relHumidity, double pressurePa)
    {
        Require.InRange(relHumidity, 0, 1);
        return FromVapour(dryBulbC, relHumidity * SaturationPressure.OfTemperaturePa(dryBulbC), pressurePa);
    }

    /// <summary>Air of a dry bulb and dew point.</summary>
    /// <param name="dryBulbC">Dry bulb, °C, -100 to 200.</param>
    /// <param name="dewPointC">Dew point, °C, up to the dry bulb.</param>
    /// <param name="pressurePa">Air pressure, Pa, 20,000 to 200,000, and above the vapour pressure.</param>
    /// <returns>State.</returns>
    /// <exception cref="ArgumentOutOfRangeException">An input is NaN or out of range.</exception>
    public static MoistAir FromDewPoint(double dryBulbC, double dewPointC, double pressurePa)
    {
        Require.InRange(dewPointC, -100, dryBulbC);
        return FromVapour(dryBulbC, SaturationPressure.OfTemperaturePa(dewPointC), pressurePa);
    }

    /// <summary>Air of a dry and wet bulb.</summary>
    /// <param name="dryBulbC">Dry bulb, °C, -100 to 200.</param>
    /// <param name="wetBulbC">Wet bulb, °C, up to the dry bulb.</param>
    /// <param name="pressurePa">Air pressure, Pa, 20,000 to 200,000.</param>
    /// <returns>State.</returns>
    /// <exception cref="ArgumentOutOfRangeException">An input is NaN or out of range; also when no air is so dry at that wet bulb.</exception>
    public static MoistAir FromWetBulb(double dryBulbC, double wetBulbC, double pressurePa)
    {
        Require.InRange(dryBulbC, -100, 200);
        Require.InRange(wetBulbC, -100, dryBulbC);
        Require.InRange(pressurePa, 20_000, 200_000);
        double ratio = RatioOfWetBulb(dryBulbC, wetBulbC, pressurePa);
        if (!(ratio >= 0)) throw new ArgumentOutOfRangeException(nameof(wetBulbC), wetBulbC, "wetBulbC is lower than dry air gives at this dryBulbC");
        return new MoistAir(dryBulbC, pressurePa, ratio);
    }

    /// <summary>Air of a dry bulb and vapour pressure.</summary>
    /// <param name="dryBulbC">Dry bulb, °C, -100 to 200.</param>
    /// <param name="vapourPressurePa">Vapour pressure, Pa, up to saturation.</param>
    /// <param name="pressurePa">Air pressure, Pa, 20,000 to 200,000, and above the vapour pressure.</param>
    /// <returns>State.</returns>
    /// <exception cref="ArgumentOutOfRangeException">An input is NaN or out of range.</exception>
    public static MoistAir FromVapour(double dryBulbC, double vapourPressurePa, double pressurePa)
    {
        Require.InRange(dryBulbC, -100, 200);
        Require.InRange(vapourPressurePa, 0, SaturationPressure.OfTemperaturePa(dryBulbC) * (1 + 1e-12));
        Require.InRange(pressurePa, Math.Max(20_000, vapourPressurePa * 1.001), 200_000);
        return new MoistAir(dryBulbC, pressurePa, RatioOf(vapourPressurePa, pressurePa));
    }

    /// <summary>Air of a dry bulb and humidity ratio.</summary>
    /// <param name="dryBulbC">Dry bulb, °C, -100 to 200.</param>
    /// <param name="humidityRatio">Water over dry air, kg/kg, up to saturation.</param>
    /// <param name="pressurePa">Air pressure, Pa, 20,000 to 200,000.</param>
    /// <returns>State.</returns>
    /// <exception cref="ArgumentOutOfRangeException">An input is NaN or out of range.</exception>
    public static MoistAir FromRatio(double dryBulbC, double humidityRatio, double pressurePa)
    {
        Require.InRange(humidityRatio, 0, 10);
        return FromVapour(dryBulbC, pressurePa * humidityRatio / (MolarRatio + humidityRatio), pressurePa);
    }

    /// <summary>Air of a wet bulb and dew point.</summary>
    /// <param name="wetBulbC">Wet bulb, °C, -100 to 100.</param>
    /// <param name="dewPointC">Dew point, °C, up to the wet bulb.</param>
    /// <param name="pressurePa">Air pressure, Pa, 20,000 to 200,000.</param>
    /// <returns>State.</returns>
    /// <exception cref="ArgumentOutOfRangeException">An input is NaN or out of range; also when the dry bulb would pass 200 °C.</exception>
    /// <remarks>Equation 33 (over ice 35) solved for the dry bulb, in which it is linear.</remarks>
    public static MoistAir FromWetBulbAndDewPoint(double wetBulbC, double dewPointC, double pressurePa)
    {
        Require.InRange(wetBulbC, -100, 100);
        Require.InRange(dewPointC, -100, wetBulbC);
        double wetPa = SaturationPressure.OfTemperaturePa(wetBulbC), vapourPa = SaturationPressure.OfTemperaturePa(dewPointC);
        Require.InRange(pressurePa, Math.Max(20_000, wetPa * 1.001), 200_000);
        double saturated = RatioOf(wetPa, pressurePa), ratio = RatioOf(vapourPa, pressurePa);
        double dryBulbC = wetBulbC >= 0
            ? (((2501 - (2.326 * wetBulbC)) * saturated) + (1.006 * wetBulbC) - (ratio * (2501 - (4.186 * wetBulbC)))) / ((1.86 * ratio) + 1.006)
            : (((2830 - (0.24 * wetBulbC)) * saturated) + (1.006 * wetBulbC) - (ratio * (2830 - (2.1 * wetBulbC)))) / ((1.86 * ratio) + 1.006);
        if (!(dryBulbC <= 200)) throw new ArgumentOutOfRangeException(nameof(dewPointC), dewPointC, "dewPointC is too far below wetBulbC: the dry bulb would pass 200");
        return new MoistAir(dryBulbC, pressurePa, ratio);
    }

    /// <summary>Air of a dew point and relative humidity.</summary>
    /// <param name="dewPointC">Dew point, or frost point below 0 °C, °C, -100 to 100.</param>
    /// <param name="relHumidity">Relative humidity, above 0 to 1.</param>
    /// <param name="pressurePa">Air pressure, Pa, 20,000 to 200,000, and above the vapour pressure.</param>
    /// <returns>State.</returns>
    /// <exception cref="ArgumentOutOfRangeException">An input is NaN or out of range; also when the dry bulb would pass 200 °C.</exception>
    public static MoistAir FromDewPointAndHumidity(double dewPointC, double relHumidity, double pressurePa)
    {
        Require.InRange(dewPointC, -100, 100);
        double vapourPa = SaturationPressure.OfTemperaturePa(dewPointC);
        Require.InRange(relHumidity, vapourPa / SaturationPressure.OfTemperaturePa(200), 1);
        Require.InRange(pressurePa, Math.Max(20_000, vapourPa * 1.001), 200_000);
        return new MoistAir(SaturationPressure.TemperatureC(vapourPa / relHumidity), pressurePa, RatioOf(vapourPa, pressurePa));
    }

    /// <summary>Air of a wet bulb and relative humidity.</summary>
    /// <param name="wetBulbC">Wet bulb, °C, -100 to 100.</param>
    /// <param name="relHumidity">Relative humidity, 0 to 1.</param>
    /// <param name="pressurePa">Air pressure, Pa, 20,000 to 200,000, and above the vapour pressure.</param>
    /// <returns>State.</returns>
    /// <exception cref="ArgumentOutOfRangeException">An input is NaN or out of range; also when the dry bulb would pass 200 °C.</exception>
    /// <remarks>Bisection on the dry bulb: the ratio of that humidity rises with it, that of the wet bulb falls.</remarks>
    public static MoistAir FromWetBulbAndHumidity(double wetBulbC, double relHumidity, double pressurePa)
    {
        Require.InRange(wetBulbC, -100, 100);
        Require.InRange(relHumidity, 0, 1);
        Require.InRange(pressurePa, Math.Max(20_000, SaturationPressure.OfTemperaturePa(wetBulbC) * 1.001), 200_000);
        double low = wetBulbC, high = 200;
        if (Excess(high) < 0) throw new ArgumentOutOfRangeException(nameof(relHumidity), relHumidity, "relHumidity is so low that the dry bulb would pass 200");
        while (high - low > 1e-9)
        {
            double middle = (low + high) / 2;
            if (Excess(middle) < 0) low = middle;
            else high = middle;
        }

        double dryBulbC = (low + high) / 2;
        return new MoistAir(dryBulbC, pressurePa, Math.Max(0, RatioOfWetBulb(dryBulbC, wetBulbC, pressurePa)));

        double Excess(double dryBulb)
        {
            // Air hotter than boiling holds any amount: no ratio is too much there.
            double vapourPa = relHumidity * SaturationPressure.OfTemperaturePa(dryBulb);
            return vapourPa >= 0.999 * pressurePa ? 1 : RatioOf(vapourPa, pressurePa) - RatioOfWetBulb(dryBulb, wetBulbC, pressurePa);
        }
    }

    /// <summary>Enthalpy of moist air, kJ per kg of dry air.</summary>
    /// <param name="dryBulbC">Dry bulb, °C.</param>
    /// <param name="humidityRatio">Water over dry air, kg/kg.</param>
    /// <returns>Enthalpy, kJ/kg, from dry air and liquid water at 0 °C.</returns>
    /// <exception cref="ArgumentOutOfRangeException">An input is NaN or out of range.</exception>
    /// <remarks>ASHRAE Handbook Fundamentals (2017), chapter 1, equation 30.</remarks>
    public static double EnthalpyOf(double dryBulbC, double humidityRatio)
    {
        Require.InRange(dryBulbC, -100, 200);
        Require.NotNegative(humidityRatio);
        return (1.006 * dryBulbC) + (humidityRatio * (2501 + (1.86 * dryBulbC)));
    }

    private static double RatioOf(double vapourPressurePa, double pressurePa) => MolarRatio * vapourPressurePa / (pressurePa - vapourPressurePa);

    private static double RatioOfWetBulb(double dryBulbC, double wetBulbC, double pressurePa)
    {
        double saturated = RatioOf(SaturationPressure.OfTemperaturePa(wetBulbC), pressurePa);
        return wetBulbC >= 0
            ? (((2501 - (2.326 * wetBulbC)) * saturated) - (1.006 * (dryBulbC - wetBulbC))) / (2501 + (1.86 * dryBulbC) - (4.186 * wetBulbC))
            : (((2830 - (0.24 * wetBulbC)) * saturated) - (1.006 * (dryBulbC - wetBulbC))) / (2830 + (1.86 * dryBulbC) - (2.1 * wetBulbC));
    }
}
