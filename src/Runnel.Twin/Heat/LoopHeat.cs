using Runnel.Place;
using Runnel.Place.Water;
using Runnel.Science.Air;
using Runnel.Science.Plants;
using Runnel.Science.Sun;
using Runnel.Twin.Water;
using Runnel.Twin.Weather;

namespace Runnel.Twin.Heat;

/// <summary>Joins a loop's water, its heat and the weather: what evaporates, rains and is drunk by plants in each stretch, and what heat the water carried in it.</summary>
internal sealed class LoopHeat
{
    // Water from mains, well or spring comes as warm as the air was over the month before; common practice for shallow pipes.
    private const double GroundDays = 30;

    // Small vegetables in full growth, FAO Irrigation and Drainage Paper 56, table 12, from memory.
    private const double CropCoefficient = 1.05;

    private readonly WaterLoop _loop;
    private readonly WeatherSeries _weather;
    private readonly WaterHeat _heat;
    private readonly double _latitudeDeg, _longitudeDeg, _altitudeM, _canopyM2, _plantUse, _evaporation;
    private readonly double[] _rainCatchM2, _canopyShare, _vapourM3PerS, _plantsM3PerS, _pumpW, _ratedW, _evaporated, _net;
    private readonly (int From, int To, int Sum)[] _links;
    private readonly List<MovedWater> _moved = [];
    private readonly int[] _pumpFrom;
    private double _groundC;

    public LoopHeat(PlaceDescription place, WaterLoop loop, ReadOnlySpan<double> start, ForecastOptions options)
    {
        var water = place.Hydraulics!;
        (_loop, _weather) = (loop, options.Weather!);
        (_plantUse, _evaporation) = (options.PlantUseFactor, options.EvaporationFactor);
        (_latitudeDeg, _longitudeDeg, _altitudeM) = (place.LatitudeDeg, place.LongitudeDeg, place.AltitudeM);
        int count = water.Vessels.Count, nodes = loop.FirstSpilled;
        double[] open = LoopBuilder.OpenM2OfEach(place.Loop, water);
        double all = open.Sum(), catchM2 = place.Loop.RainCatchM2 ?? all;
        _rainCatchM2 = [.. open.Select(m2 => all > 0 ? catchM2 * m2 / all : 0)];
        _canopyM2 = place.Loop.CanopyM2 ?? 0;
        _canopyShare = CanopyShares(water, open);
        (_vapourM3PerS, _plantsM3PerS, _evaporated, _net, _pumpW) = (new double[nodes], new double[count], new double[nodes], new double[nodes], new double[nodes]);
        _ratedW = [.. water.Pumps.Select(p => p.PowerW ?? 0)];
        _pumpFrom = [.. water.Pumps.Select(p => water.IndexOf(p.From))];
        _links = [.. Links(water, loop)];

        HeatVessel[] vessels = new HeatVessel[nodes];
        for (int i = 0; i < nodes; i++) vessels[i] = i < count ? VesselOf(water, i, open[i]) : new(null, 0, 0, 0, 0);
        double first = MeanAirC(3);
        _groundC = MeanAirC(GroundDays);
        double[] temps = new double[nodes];
        Array.Fill(temps, options.WaterTempC ?? Math.Max(1, first + options.WaterTempOffK));
        _heat = new(vessels, double.IsFinite(_altitudeM) ? _altitudeM : 0, start[..nodes], temps);
    }

    /// <summary>Temperatures of vessels and lines now, °C.</summary>
    public ReadOnlySpan<double> TempsC => _heat.TempsC;

    public HeatTotals Totals => _heat.Totals();

    /// <summary>Sets what the air takes and gives from now on.</summary>
    public void SetWeather(double timeS, double lengthS)
    {
        var step = _weather.At(timeS + (lengthS / 2));
        _heat.Evaporation(step, _vapourM3PerS);
        double plants = _canopyM2 > 0 ? _canopyM2 * CropCoefficient * Et0MmPerS(timeS + (lengthS / 2), step) / 1000 : 0;
        for (int i = 0; i < _plantsM3PerS.Length; i++)
        {
            _plantsM3PerS[i] = plants * _plantUse * _canopyShare[i];
            _vapourM3PerS[i] *= _evaporation;
            _loop.Condition.Vessels[i].LossM3PerS = _vapourM3PerS[i] + _plantsM3PerS[i];
            _loop.Condition.Vessels[i].RainM3PerS = step.RainMm / 1000 / _weather.EveryS * _rainCatchM2[i];
        }

        _groundC += (step.AirTempC - _groundC) * (1 - Math.Exp(-lengthS / (GroundDays * 86_400)));
    }

    /// <summary>Lets heat follow the water over a stretch that was reckoned.</summary>
    public void Follow(double timeS, double lengthS, ReadOnlySpan<double> before, ReadOnlySpan<double> after, ReadOnlySpan<double> pumpRunS)
    {
        if (lengthS <= 0) return;
        var step = _weather.At(timeS + (lengthS / 2));
        double sourceC = Math.Max(1, _groundC), rainC = Math.Max(0, step.AirTempC);
        _moved.Clear();
        for (int i = 0; i < _net.Length; i++) _net[i] = after[i] - before[i];
        foreach (var (from, to, sum) in _links) Move(from, to, after[sum] - before[sum], sourceC);
        for (int p = 0; p < _pumpFrom.Length; p++)
        {
            // Into its line went what the line now holds more, and what came out at its ends.
            int line = _loop.FirstLine + p;
            Move(_pumpFrom[p], line, after[line] - before[line] + (after[_loop.FirstPumped + p] - before[_loop.FirstPumped + p]), sourceC);
        }

        for (int i = 0; i < _plantsM3PerS.Length; i++)
        {
            double lost = after[_loop.FirstLost + i] - before[_loop.FirstLost + i], rate = _vapourM3PerS[i] + _plantsM3PerS[i];
            _evaporated[i] = rate > 0 ? lost * _vapourM3PerS[i] / rate : 0;
            _net[i] += _evaporated[i];
            Move(i, -1, lost - _evaporated[i], 0);
            Move(-1, i, _loop.Condition.Vessels[i].RainM3PerS * lengthS, rainC);
        }

        // What is left over leaked, was drawn, or came through a hose.
        for (int i = 0; i < _net.Length; i++)
        {
            if (_net[i] < 0) Move(i, -1, -_net[i], 0);
            else if (_net[i] > 0) Move(-1, i, _net[i], sourceC);
        }

        Array.Clear(_pumpW);
        for (int p = 0; p < _pumpFrom.Length; p++) _pumpW[_pumpFrom[p]] += _ratedW[p] * pumpRunS[p] / lengthS;
        _heat.Advance(
            lengthS, Math.Max(1, (int)Math.Ceiling(lengthS / 1800)), step, before[.._net.Length], after[.._net.Length], System.Runtime.InteropServices.CollectionsMarshal.AsSpan(_moved), _evaporated, _pumpW);
    }

    private void Move(int from, int to, double m3, double outsideC)
    {
        if (m3 == 0 || from == to) return;
        if (m3 < 0) (from, to, m3) = (to, from, -m3);
        if (from >= 0) _net[from] += m3;
        if (to >= 0) _net[to] -= m3;
        _moved.Add(new(from, to, m3, outsideC));
    }

    private static IEnumerable<(int From, int To, int Sum)> Links(Hydraulics water, WaterLoop loop)
    {
        for (int i = 0; i < water.Vessels.Count; i++)
        {
            if (water.Vessels[i].Outlet is { } outlet) yield return (i, water.IndexOf(outlet.To), loop.FirstThrough + i);
            yield return (i, water.IndexOf(water.Vessels[i].SpillsTo), loop.FirstSpilled + i);
        }

        for (int v = 0; v < water.Valves.Count; v++) yield return (water.IndexOf(water.Valves[v].From), water.IndexOf(water.Valves[v].To), loop.FirstLet + v);
        for (int p = 0; p < water.Pumps.Count; p++)
        {
            for (int end = 0; end < water.Pumps[p].Ends.Count; end++) yield return (loop.FirstLine + p, water.IndexOf(water.Pumps[p].Ends[end].To), loop.FirstEnd(p) + end);
        }
    }

    // Plants stand in troughs and beds where there are any; else all open water feeds them.
    private static double[] CanopyShares(Hydraulics water, double[] open)
    {
        double[] shares = [.. water.Vessels.Select(v => v.Kind is VesselKind.Trough or VesselKind.MediaBed ? v.Shape.AreaM2(0) : 0)];
        double all = shares.Sum();
        if (all == 0) (shares, all) = (open, open.Sum());
        return [.. shares.Select(s => all > 0 ? s / all : 0)];
    }

    private static HeatVessel VesselOf(Hydraulics water, int i, double openM2)
    {
        var vessel = water.Vessels[i];
        // Rain tanks have lids, and stones cover beds; a cover or an open surface that is told counts before that.
        double area = vessel.Shape.AreaM2(vessel.RimM ?? vessel.Outlet?.HeightM ?? 0), told = vessel.Thermal.CoverShare is { } cover ? Math.Min(openM2, area * (1 - cover)) : openM2;
        var heater = water.Heaters.FirstOrDefault(h => h.Of == vessel.Id);
        return new(vessel.Shape, told, Math.Max(0, area - told), vessel.Thermal.ShadeShare ?? 0, vessel.Thermal.WallWPerM2K ?? ThermalVessel.UsualWallWPerM2K, heater?.PowerW ?? 0, heater?.ToC ?? 0);
    }

    private double MeanAirC(double days)
    {
        double sum = 0;
        int count = 0;
        for (double t = 0; t < days * 86_400 && t < _weather.Steps.Count * (double)_weather.EveryS; t += _weather.EveryS, count++) sum += _weather.At(t).AirTempC;
        return count > 0 ? sum / count : _weather.Steps[0].AirTempC;
    }

    private double Et0MmPerS(double timeS, in WeatherStep step)
    {
        double unixS = _weather.Start.ToUnixTimeSeconds() + timeS, solarS = unixS + (_longitudeDeg * 240);
        int day = ClearSkyDay.DayOfYear(solarS);
        double hourAngle = (((solarS % 86_400) - 43_200) / 43_200 * Math.PI) + (SolarHour.SeasonalCorrectionH(day) * Math.PI / 12);
        // The relation is for air of this world; sensors know hotter and wetter.
        double tempC = Math.Clamp(step.AirTempC, -50, 60), rh = Math.Min(step.RelHumidity, 9.99 / VapourPressure.SaturationKPa(tempC));
        double mm = ReferenceEvapotranspiration.Hourly(
            _latitudeDeg, _altitudeM, day, Math.Clamp(hourAngle, -2 * Math.PI, 2 * Math.PI), tempC, rh, Math.Min(step.WindAt2MMPerS, 50),
            step.SunWPerM2 * 0.0036, Math.Clamp(step.RelativeSolar, 0.3, 1)).Et0Mm;
        return Math.Max(0, mm) / 3600;
    }
}
