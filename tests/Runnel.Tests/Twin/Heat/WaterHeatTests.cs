using System.Text.Json;
using Runnel.Place.Water;
using Runnel.Science.Air;
using Runnel.Science.Water;
using Runnel.Twin.Heat;
using Runnel.Twin.Weather;

namespace Runnel.Tests.Twin.Heat;

public class WaterHeatTests
{
    private static readonly double[] NoPump = [0], NoVapour = [0];

    // Still, dark, overcast and as moist as can be: no sun, no sky, no evaporation.
    private static readonly WeatherStep Dull = new(10, 1, 0, 0, 0, 0);

    // Closed form: Newton's law of cooling through walls alone, T = Ta + (T0 - Ta) exp(-UA t / (rho c V)).
    [Fact]
    public void A_covered_tank_cools_as_the_exponential_of_its_walls()
    {
        var shape = LevelVolume.Upright(1.2);
        var tank = new HeatVessel(shape, 0, 1.2, 0, 6);
        double[] volume = [0.9];
        double perS = tank.ThroughWallsWPerK(0.9) / (WaterHeat.MJPerM3K * 1e6 * 0.9);
        Assert.Equal(6 * ((2 * Math.Sqrt(Math.PI * 1.2) * 0.75) + 2.4), tank.ThroughWallsWPerK(0.9), 1e-9);
        var heat = new WaterHeat([tank], 0, volume, [25.0]);
        for (int hour = 1; hour <= 48; hour++)
        {
            heat.Advance(3600, 2, Dull, volume, volume, [], NoVapour, NoPump);
            Assert.Equal(10 + (15 * Math.Exp(-perS * 3600 * hour)), heat.TempsC[0], 2e-4);
        }
    }

    // Steady state: heater against walls; and under a given sky and sun the temperature at which what comes and goes is the same, found here by bisection.
    [Fact]
    public void Left_alone_a_tank_comes_to_where_gains_and_losses_meet()
    {
        double[] volume = [0.5];
        var heated = new HeatVessel(LevelVolume.Upright(1), 0, 1, 0, 5, HeaterW: 40, HeatToC: 30);
        var heat = new WaterHeat([heated], 0, volume, [10.0]);
        for (int hour = 0; hour < 24 * 60; hour++) heat.Advance(3600, 1, Dull, volume, volume, [], NoVapour, NoPump);
        Assert.Equal(10 + (40 / heated.ThroughWallsWPerK(0.5)), heat.TempsC[0], 1e-3);

        var weather = new WeatherStep(20, 0.5, 2, 150, 0, 0.6);
        var open = new HeatVessel(LevelVolume.Upright(1), 1, 0, 0.2, 5);
        heat = new WaterHeat([open], 100, volume, [10.0]);
        double[] vapour = [0];
        for (int hour = 0; hour < 24 * 60; hour++)
        {
            heat.Evaporation(weather, vapour);
            vapour[0] *= 3600;
            // What evaporates is made good with water as warm.
            heat.Advance(3600, 2, weather, volume, volume, [new(-1, 0, vapour[0], heat.TempsC[0])], vapour, NoPump);
        }

        double low = 0, high = 60;
        for (int i = 0; i < 60; i++)
        {
            double t = (low + high) / 2, air = 5.670374e-8 * Math.Pow(293.15, 4), vapourKPa = 0.5 * VapourPressure.SaturationKPa(20);
            double sky = air * (1 - ((0.34 - (0.14 * Math.Sqrt(vapourKPa))) * ((1.35 * 0.6) - 0.35)));
            double mmPerSKPa = (1.313 + (1.381 * 2)) / 86_400, gamma = 0.665e-3 * Atmosphere.PressureKPa(100);
            double gain = (0.92 * 0.8 * 150) + (0.97 * ((0.8 * sky) + (0.2 * air) - (5.670374e-8 * Math.Pow(t + 273.15, 4))))
                + (gamma * mmPerSKPa * 2.45e6 * (20 - t)) + (open.ThroughWallsWPerK(0.5) * (20 - t))
                - (mmPerSKPa * (VapourPressure.SaturationKPa(t) - vapourKPa) * (2.501 - (0.002361 * t)) * 1e6);
            if (gain > 0) low = t;
            else high = t;
        }

        Assert.Equal(low, heat.TempsC[0], 0.01);
    }

    // Closed form: a stirred tank fed with water of one temperature, T = Tin + (T0 - Tin) exp(-q t / V); and the mean of two waters that meet.
    [Fact]
    public void Water_that_flows_in_mixes()
    {
        double[] volume = [0.6], grown = [0.9];
        var closed = new HeatVessel(null, 0, 0, 0, 0);
        var heat = new WaterHeat([closed], 0, volume, [30.0]);
        for (int step = 0; step < 8; step++) heat.Advance(900, 4, Dull, volume, volume, [new(-1, 0, 0.15, 10), new(0, -1, 0.15)], NoVapour, NoPump);
        Assert.Equal(10 + (20 * Math.Exp(-8 * 0.15 / 0.6)), heat.TempsC[0], 5e-3);

        heat = new WaterHeat([closed], 0, volume, [30.0]);
        heat.Advance(600, 1, Dull, volume, grown, [new(-1, 0, 0.3, 15)], NoVapour, NoPump);
        Assert.Equal(25, heat.TempsC[0], 1e-6);
        Assert.Equal(0.3 * 15 * WaterHeat.MJPerM3K, heat.Totals().CameMJ, 1e-9);
    }

    // Published/heat.json: the same three vessels by LSODA of SciPy, from a program written apart.
    [Fact]
    public void Three_vessels_in_a_ring_under_sun_and_night_agree_with_an_independent_integration()
    {
        var published = JsonDocument.Parse(File.ReadAllText(Path.Combine(AppContext.BaseDirectory, "Published", "heat.json"))).RootElement.GetProperty("temps").EnumerateArray().ToList();
        HeatVessel[] vessels =
        [
            new(LevelVolume.Upright(1.2), 1.2, 0, 0.3, 6), new(LevelVolume.Upright(2), 1, 1, 0, 2), new(LevelVolume.Upright(0.8), 0.8, 0, 0.9, 10),
        ];
        double[] before = [0.9, 0.4, 0.2], after = [.. before], vapour = [2e-8 * 3600, 3e-8 * 3600, 1e-8 * 3600], pump = [0, 0, 50];
        var heat = new WaterHeat(vessels, 60, before, [14.0, 18.0, 10.0]);
        double litre = 30 * 60 / 1000.0;
        MovedWater[] moved = [new(0, 1, litre), new(1, 2, litre), new(2, 0, litre), new(-1, 2, 2e-6 * 3600, 12)];
        for (int hour = 0; hour < 72; hour++)
        {
            int h = hour % 24;
            double turn = 2 * Math.PI * (h - 2) / 24, sun = h is >= 6 and <= 18 ? 800 * Math.Sin(Math.PI * (h - 6) / 12) : 0;
            var weather = new WeatherStep(15 - (6 * Math.Cos(turn)), 0.7 + (0.2 * Math.Cos(turn)), 2 + Math.Sin(2 * Math.PI * (h - 9) / 24), sun, 0, 0.7);
            for (int i = 0; i < 3; i++) after[i] = before[i] - vapour[i] + (i == 2 ? 2e-6 * 3600 : 0);
            heat.Advance(3600, 4, weather, before, after, moved, vapour, pump);
            after.CopyTo(before, 0);
            for (int i = 0; i < 3; i++) Assert.Equal(published[hour][i].GetDouble(), heat.TempsC[i], 0.01);
        }

        var totals = heat.Totals();
        Assert.InRange(Math.Abs(totals.BalanceMJ) / totals.MovedMJ, 0, 1e-12);
    }

    // Penman's equation (constants as in McMahon and others 2013) is what this surface gives once the water's own temperature has settled.
    [Fact]
    public void A_shallow_open_pan_evaporates_as_Penman_has_it()
    {
        var weather = new WeatherStep(22, 0.55, 1.8, 180, 0, 0.5);
        double[] volume = [0.05], vapour = [0];
        var heat = new WaterHeat([new(LevelVolume.Upright(1), 1, 0, 0, 0)], 50, volume, [20.0]);
        for (int hour = 0; hour < 200; hour++)
        {
            heat.Evaporation(weather, vapour);
            vapour[0] *= 600;
            heat.Advance(600, 1, weather, volume, volume, [new(-1, 0, vapour[0], heat.TempsC[0])], vapour, NoPump);
        }

        // By the hour, sun over clear-sky sun as told by the weather: 0.5 at night, which the equation takes where the sun is down at the hour's middle.
        double net = (0.92 * 180 * 0.0036) - Science.Sun.SurfaceRadiation.NetLongwaveMJPerM2Hour(22, 0.55 * VapourPressure.SaturationKPa(22), 0.5);
        double slope = VapourPressure.SlopeKPaPerC(22), gamma = Atmosphere.PsychrometricConstantKPaPerC(Atmosphere.PressureKPa(50));
        double penman = ((slope * net / 2.45) + (gamma * (1.313 + (1.381 * 1.8)) / 24 * 0.45 * VapourPressure.SaturationKPa(22))) / (slope + gamma);
        double hourly = OpenWaterHour.PenmanMm(0, 50, 80, Math.PI, 22, 0.55, 1.8, 180 * 0.0036, 0.5);
        Assert.Equal(penman, hourly, 1e-6);
        Assert.InRange(vapour[0] * 6 * 1000 / penman, 0.93, 1.07);
    }
}
