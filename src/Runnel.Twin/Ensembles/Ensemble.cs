using Runnel.Place;
using Runnel.Science.Statistics;
using Runnel.Twin.Solving;
using Runnel.Twin.Water;
using Runnel.Twin.Weather;

namespace Runnel.Twin.Ensembles;

/// <summary>Three quantiles of a figure over the members of an ensemble.</summary>
/// <param name="Low">A tenth of the members lie below it.</param>
/// <param name="Middle">Half.</param>
/// <param name="High">Nine tenths.</param>
public readonly record struct Quantiles(double Low, double Middle, double High);

/// <summary>A vessel over the members of an ensemble.</summary>
/// <param name="Id">Its id.</param>
/// <param name="SpillShare">Share of members in which it spills, 0 to 1.</param>
/// <param name="SpilledL">What runs over, L.</param>
/// <param name="HighM">Highest level, m.</param>
/// <param name="LowM">Lowest level, m.</param>
/// <param name="LowC">Lowest temperature, °C; null without weather.</param>
/// <param name="HighC">Highest temperature, °C.</param>
/// <param name="LevelM">Level at each sample, m.</param>
/// <param name="TempC">Temperature at each sample, °C; empty without weather.</param>
public sealed record VesselQuantiles(
    string Id, double SpillShare, Quantiles SpilledL, Quantiles HighM, Quantiles LowM, Quantiles? LowC, Quantiles? HighC, IReadOnlyList<Quantiles> LevelM,
    IReadOnlyList<Quantiles> TempC);

/// <summary>A pump over the members of an ensemble.</summary>
/// <param name="Id">Its id.</param>
/// <param name="Starts">Starts.</param>
/// <param name="RunS">Time it ran, s.</param>
/// <param name="FlowLPerMin">Flow while it ran, L/min.</param>
public sealed record PumpQuantiles(string Id, Quantiles Starts, Quantiles RunS, Quantiles FlowLPerMin);

/// <summary>Many forecasts of the same place, as it might be under weather as it might come.</summary>
/// <param name="Members">How many were reckoned to the end.</param>
/// <param name="Stopped">How many stopped early and are left out.</param>
/// <param name="TimesS">Times of the samples, s.</param>
/// <param name="Vessels">In the order of the file.</param>
/// <param name="Pumps">In the order of the file.</param>
/// <param name="CameL">From outside, L.</param>
/// <param name="RainL">As rain, L.</param>
/// <param name="LostL">To air and plants, L.</param>
/// <param name="SpilledL">Spilled, L.</param>
/// <param name="GreatestImbalance">Greatest water that does not add up in any member, as a share of its water.</param>
/// <param name="GreatestHeatImbalance">Likewise heat.</param>
/// <param name="IsAveraged">Whether flows were averaged over pump cycles.</param>
public sealed record EnsembleForecast(
    int Members, int Stopped, IReadOnlyList<double> TimesS, IReadOnlyList<VesselQuantiles> Vessels, IReadOnlyList<PumpQuantiles> Pumps, Quantiles CameL, Quantiles RainL,
    Quantiles LostL, Quantiles SpilledL, double GreatestImbalance, double GreatestHeatImbalance, bool IsAveraged);

/// <summary>Runs ensembles on all cores. The same seed gives the same figures, however many cores there are.</summary>
public static class Ensemble
{
    /// <summary>From so many members on flows are averaged over pump cycles unless told otherwise.</summary>
    public const int AverageFromMembers = 20;

    /// <summary>Runs an ensemble.</summary>
    /// <param name="place">A place that tells how its water moves.</param>
    /// <param name="options">What all members share; its weather is not used.</param>
    /// <param name="members">How many.</param>
    /// <param name="weather">Makes the weather of a member by its number; or null for a steady loss.</param>
    /// <param name="seed">Another seed, other members.</param>
    /// <param name="spread">How far the place may be off; null: as documented.</param>
    /// <param name="cancel">Stops the run.</param>
    /// <returns>Quantiles; where all members stopped early, the forecast of the first.</returns>
    public static (EnsembleForecast? Forecast, WaterForecast First) Run(
        PlaceDescription place, ForecastOptions options, int members, Func<int, WeatherSeries>? weather, int seed, MemberSpread? spread, CancellationToken cancel)
    {
        ArgumentNullException.ThrowIfNull(place);
        ArgumentNullException.ThrowIfNull(options);
        ArgumentOutOfRangeException.ThrowIfLessThan(members, 2);
        if (place.Hydraulics is null) throw new ArgumentException("the place does not tell how its water moves", nameof(place));
        spread ??= new();
        // Averaging takes a fraction of the time; what it smooths, minutes within a pump cycle, lies within the quantiles' own width.
        var shared = options with { Averaged = options.Averaged ?? (members >= AverageFromMembers || options.Days > ForecastOptions.AverageFromDays) };
        var all = new WaterForecast[members];
        Parallel.For(0, members, new ParallelOptions { CancellationToken = cancel }, i =>
        {
            var (drawn, own) = spread.Draw(place, shared, seed, i);
            all[i] = WaterForecaster.Run(drawn, own with { Weather = weather?.Invoke(i) });
        });
        WaterForecast[] reached = [.. all.Where(f => f.Stop == StopReason.Reached)];
        return (reached.Length == 0 ? null : Count(reached, members - reached.Length), all[0]);
    }

    private static EnsembleForecast Count(WaterForecast[] all, int stopped)
    {
        var first = all[0];
        double[] row = new double[all.Length];
        bool heated = first.Heat is not null;
        int samples = all.Min(f => f.Samples.Count);
        var vessels = first.Vessels.Select((vessel, v) => new VesselQuantiles(
            vessel.Id, all.Count(f => f.Vessels[v].SpilledL >= 0.05) / (double)all.Length, Of(f => f.Vessels[v].SpilledL), Of(f => f.Vessels[v].HighM), Of(f => f.Vessels[v].LowM),
            heated ? Of(f => f.Vessels[v].Temperatures!.LowC) : null, heated ? Of(f => f.Vessels[v].Temperatures!.HighC) : null,
            [.. Enumerable.Range(0, samples).Select(s => Of(f => f.Samples[s].LevelM[v]))], heated ? [.. Enumerable.Range(0, samples).Select(s => Of(f => f.Samples[s].TempC[v]))] : []));
        var pumps = first.Pumps.Select((pump, p) => new PumpQuantiles(pump.Id, Of(f => f.Pumps[p].Starts), Of(f => f.Pumps[p].RunS), Of(f => f.Pumps[p].FlowLPerMin)));
        return new(
            all.Length, stopped, [.. first.Samples.Take(samples).Select(s => s.TimeS)], [.. vessels], [.. pumps], Of(f => f.Totals.CameL), Of(f => f.Totals.RainL), Of(f => f.Totals.LostL),
            Of(f => f.Totals.SpilledL), all.Max(f => Math.Abs(f.Totals.BalanceL) / Math.Max(1e-9, f.Totals.WaterL)),
            heated ? all.Max(f => Math.Abs(f.Heat!.BalanceMJ) / Math.Max(1e-9, f.Heat.MovedMJ)) : 0, all.All(f => f.IsAveraged));

        Quantiles Of(Func<WaterForecast, double> of)
        {
            for (int i = 0; i < row.Length; i++) row[i] = of(all[i]);
            Array.Sort(row);
            return new(Robust.QuantileOfSorted(row, 0.1), Robust.QuantileOfSorted(row, 0.5), Robust.QuantileOfSorted(row, 0.9));
        }
    }
}
