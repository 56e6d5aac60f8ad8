using CsCheck;
using Runnel.Science.Air;
using Runnel.Science.Pipes;
using Runnel.Science.Plants;
using Runnel.Science.Sun;
using Runnel.Science.Water;

namespace Runnel.Science.Tests.Air;

public sealed class AirAndSunPropertyTests
{
    private static readonly Gen<(double Latitude, int Day)> Places = Gen.Select(Gen.Double[-90, 90], Gen.Int[1, 366]);

    [Fact]
    public void Saturation_rises_with_its_slope() => Gen.Double[-40, 70].Sample(t =>
    {
        double numeric = (VapourPressure.SaturationKPa(t + 0.01) - VapourPressure.SaturationKPa(t - 0.01)) / 0.02;
        Assert.Equal(1, VapourPressure.SlopeKPaPerC(t) / numeric, 1e-3);
    });

    [Fact]
    public void Hours_add_up_to_the_day_at_every_latitude() => Places.Sample(p =>
    {
        double sum = 0;
        for (int h = 0; h < 24; h++)
            sum += SolarHour.ExtraterrestrialBetweenMJPerM2(p.Latitude, p.Day, -Math.PI + (h * Math.PI / 12), Math.Min(Math.PI, -Math.PI + ((h + 1) * Math.PI / 12)));
        double day = SolarDay.ExtraterrestrialMJPerM2Day(p.Latitude, p.Day);
        Assert.Equal(day, sum, 1e-9);
        Assert.InRange(day, -1e-12, 52);
        Assert.InRange(SolarDay.DaylightHours(p.Latitude, p.Day), 0, 24);
    });

    [Fact]
    public void The_sun_stands_at_the_horizon_at_sunset() => Gen.Select(Gen.Double[-60, 60], Gen.Int[1, 366]).Sample(p =>
        Assert.Equal(0, SolarHour.ElevationRad(p.Item1, p.Item2, SolarDay.SunsetHourAngleRad(p.Item1, p.Item2)), 1e-7));

    [Fact]
    public void Longitudes_past_a_turn_mean_the_same_place()
    {
        double east = SolarHour.HourAngleRad(12.5, -0.12, 0, 187);
        Assert.Equal(east, SolarHour.HourAngleRad(12.5, 359.88, 360, 187), 1e-12);
        Assert.Equal(east, SolarHour.HourAngleRad(12.5, 359.88, 0, 187), 1e-12);
    }

    [Fact]
    public void Evapotranspiration_rises_with_sun_dryness_and_wind() => Gen.Select(Gen.Double[-50, 50], Gen.Int[1, 366], Gen.Double[5, 35], Gen.Double[0.3, 6]).Sample((lat, day, t, wind) =>
    {
        double moist = VapourPressure.SaturationKPa(t), solar = 0.6 * SolarDay.ExtraterrestrialMJPerM2Day(lat, day);
        // Net radiation held: drier air also radiates more away, which can outweigh its thirst in still air.
        double Et0(double net, double vapour) => ReferenceEvapotranspiration.PenmanMonteithMmPerDay(t, net, 0, wind, moist, vapour, 100);
        Assert.True(Et0(0.5 * solar, 0.6 * moist) > Et0(0.5 * solar, moist));
        Assert.True(Et0(0.5 * solar + 1, moist) > Et0(0.5 * solar, moist));
        Assert.True(OpenWaterEvaporation.PenmanDaily(lat, 100, day, t + 8, t, moist, wind + 1, solar).EvaporationMm
            > OpenWaterEvaporation.PenmanDaily(lat, 100, day, t + 8, t, moist, wind, solar).EvaporationMm);
    });

    [Fact]
    public void Polar_night_still_has_an_answer()
    {
        var day = ReferenceEvapotranspiration.Daily(75, 10, 355, -20, -25, 0.08, 3, 0);
        Assert.True(double.IsFinite(day.Et0Mm));
        Assert.Equal(0, SolarDay.ExtraterrestrialMJPerM2Day(75, 355));
    }

    [Fact]
    public void Sump_times_and_flows_undo_each_other() => Gen.Select(Gen.Double[1, 500], Gen.Double[0.1, 100], Gen.Double[0.05, 200]).Sample((band, inflow, more) =>
    {
        var times = SumpCycle.Times(band, inflow, inflow + more);
        var flows = SumpCycle.Flows(band, times.FillMin, times.RunMin);
        Assert.Equal(1, flows.InflowLPerMin / inflow, 1e-9);
        Assert.Equal(1, flows.PumpLPerMin / (inflow + more), 1e-9);
        Assert.True(times.StartsPerH <= SumpCycle.MostStartsPerH(band, inflow + more) * (1 + 1e-9));
        Assert.Equal(times.RunMin * 1.0, SumpCycle.RunOfLinearPumpS(band / 1000, inflow / 60000, (inflow + more) / 60000, 1e-12, 1) / 60, times.RunMin * 1e-4);
    });

    [Fact]
    public void What_is_out_of_range_or_no_number_is_refused()
    {
        Assert.Throws<ArgumentOutOfRangeException>("altitudeM", () => Atmosphere.PressureKPa(double.NaN));
        Assert.Throws<ArgumentOutOfRangeException>("altitudeM", () => Atmosphere.PressureKPa(9000));
        Assert.Throws<ArgumentOutOfRangeException>("airTempC", () => VapourPressure.SaturationKPa(200));
        Assert.Throws<ArgumentOutOfRangeException>("dayOfYear", () => SolarDay.DeclinationRad(0));
        Assert.Throws<ArgumentOutOfRangeException>("latitudeDeg", () => SolarDay.DaylightHours(91, 10));
        Assert.Throws<ArgumentOutOfRangeException>("minTempC", () => ReferenceEvapotranspiration.HargreavesMmPerDay(10, 12, 30));
        Assert.Throws<ArgumentOutOfRangeException>("inflowLPerMin", () => SumpCycle.Times(20, 40, 40));
        var fault = Assert.Throws<ArgumentOutOfRangeException>(() => RainCatch.YieldL(10, 5, 1.2));
        Assert.Contains("runoffCoefficient must be from 0 to 1", fault.Message, StringComparison.Ordinal);
    }
}
