using NodaTime;
using Runnel.Place;
using Runnel.Tests.Twin.Heat;
using Runnel.Twin.Ensembles;
using Runnel.Twin.Water;
using Runnel.Twin.Weather;

namespace Runnel.Tests.Twin.Ensembles;

public class EnsembleTests
{
    private static readonly Instant Summer = Instant.FromUtc(2026, 1, 1, 0, 0);

    private static readonly PlaceDescription Place = HeatedForecastTests.Read(File.ReadAllText(Path.Combine(AppContext.BaseDirectory, "places", "low-wall-yard.toml")));

    [Fact]
    public void The_same_seed_gives_the_same_quantiles_whatever_the_cores_and_another_seed_others()
    {
        string one = Told(Run(24, 3)), again = Told(Run(24, 3)), other = Told(Run(24, 4));
        Assert.Equal(one, again);
        Assert.NotEqual(one, other);

        static string Told(EnsembleForecast f) => string.Join(' ', f.Vessels.Select(v => v.LevelM[^1]).Append(f.LostL));
    }

    [Fact]
    public void Quantiles_lie_in_order_around_the_place_as_told_and_every_member_balances()
    {
        var ensemble = Run(60, 1);
        Assert.Equal((60, 0), (ensemble.Members, ensemble.Stopped));
        Assert.True(ensemble.IsAveraged);
        Assert.InRange(ensemble.GreatestImbalance, 0, 1e-9);
        Assert.InRange(ensemble.GreatestHeatImbalance, 0, 1e-9);
        foreach (var v in ensemble.Vessels)
        {
            Assert.True(v.LowM.Low <= v.LowM.Middle && v.LowM.Middle <= v.LowM.High);
            Assert.All(v.TempC, q => Assert.True(q.Low <= q.Middle && q.Middle <= q.High));
        }

        // The pump's flow spreads by about its own spread, 4 % and what its head and fittings add: nine tenths less one tenth are 2.56 standard deviations.
        var flow = ensemble.Pumps[0].FlowLPerMin;
        Assert.InRange((flow.High - flow.Low) / 2.56 / flow.Middle, 0.02, 0.06);
        var told = WaterForecaster.Run(Place, new ForecastOptions { Days = 2, Averaged = true, Weather = Weather(0) });
        Assert.InRange(told.Pumps[0].FlowLPerMin / flow.Middle, 0.95, 1.05);
    }

    [Fact]
    public void Without_spread_and_with_one_weather_all_members_are_the_same()
    {
        var none = new MemberSpread(0, 0, 0, 0, 0, 0, 0, 0, 0);
        var (ensemble, first) = Ensemble.Run(Place, new ForecastOptions { Days = 1, Averaged = false }, 3, _ => Weather(7), 1, none, CancellationToken.None);
        Assert.All(ensemble!.Vessels, v => Assert.Equal(v.LevelM[^1].Low, v.LevelM[^1].High));
        Assert.Equal(first.Totals.LostL, ensemble.LostL.Middle);
        Assert.Equal(WaterForecaster.Run(Place, new ForecastOptions { Days = 1, Weather = Weather(7) }).Totals.LostL, first.Totals.LostL, 1e-9);
    }

    private static WeatherSeries Weather(int seed) => HeatedForecastTests.Made(Place, Summer, 2, seed);

    private static EnsembleForecast Run(int members, int seed) =>
        Ensemble.Run(Place, new ForecastOptions { Days = 2 }, members, i => Weather((seed * 1000) + i), seed, null, CancellationToken.None).Forecast!;
}
