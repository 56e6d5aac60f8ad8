using Runnel.Place;
using Runnel.Tests.Steward.Watches;

namespace Runnel.Tests.Steward.Ledger;

public sealed class WildWeatherTests
{
    [Theory]
    [InlineData(85, 100)]
    [InlineData(-90, 0)]
    [InlineData(55, 250)]
    [InlineData(1e9, -1e9)]
    public void A_sensor_that_says_the_impossible_never_stops_the_reading_of_the_loop(double airC, double humidityPercent)
    {
        var humidity = new Channel("humidity", Quantity.RelativeHumidity);
        var sun = new Channel("sun", Quantity.SolarIrradiance);
        var wind = new Channel("wind", Quantity.WindSpeed);
        var log = new HandMadeLog(humidity, sun, wind);
        log.Cycles(0, 30, 7, 4);
        for (int hour = 0; hour < 30; hour++)
        {
            log.Put(HandMadeLog.Air, hour + 0.2, hour % 3 == 0 ? airC : 20).Put(humidity, hour + 0.2, hour % 2 == 0 ? humidityPercent : 60);
            log.Put(sun, hour + 0.2, hour == 12 ? 1e7 : -50).Put(wind, hour + 0.2, hour == 12 ? 1e6 : -3);
        }

        var hours = log.Read().State.Hours.Hours;
        Assert.All(hours, h => Assert.InRange(h.EvaporationL + h.PlantUseL, -5, 30));
    }
}
