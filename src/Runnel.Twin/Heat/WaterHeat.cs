using Runnel.Science.Statistics;
using Runnel.Twin.Weather;

namespace Runnel.Twin.Heat;

/// <summary>The heat of all water of a loop: each vessel well mixed, water carrying its heat along.</summary>
/// <remarks>
/// In each step flows are steady and volumes change evenly; the equations, linear but for a long-wave term that is straightened at the step's beginning, are
/// solved by a diagonally implicit Runge-Kutta method of order 2 (L-stable, Alexander 1977, SIAM J. Numer. Anal. 14:1006-1021), so that a small vessel with a
/// great flow through it does no harm. What leaves one term enters another by the same numbers, and the balance closes to rounding.
/// </remarks>
internal sealed class WaterHeat
{
    /// <summary>Heat that a cubic metre of water takes for a degree, MJ/(m3 K): 998.2 kg/m3 and 4.184 kJ/(kg K) at 20 °C, common handbook values.</summary>
    public const double MJPerM3K = 4.1765;

    private const double Gamma = 0.29289321881345254; // 1 - 1/sqrt(2)

    // A thermostat is full on so far below its setting, K.
    private const double ThermostatBandK = 0.5;

    // A litre's tenth: below it a vessel counts as empty.
    private const double LeastM3 = 1e-4;

    private readonly HeatVessel[] _vessels;
    private readonly double _altitudeM;
    private readonly double[] _heatMJ, _tempC, _matrix, _right, _volume, _openShare, _first;
    private readonly bool[] _frozen;
    private readonly double[] _sums = new double[10], _startSums = new double[1];

    /// <param name="vessels">Vessels and lines.</param>
    /// <param name="altitudeM">Above the sea, m.</param>
    /// <param name="volumesM3">Water in each at the beginning.</param>
    /// <param name="tempsC">Its temperature.</param>
    public WaterHeat(HeatVessel[] vessels, double altitudeM, ReadOnlySpan<double> volumesM3, ReadOnlySpan<double> tempsC)
    {
        (_vessels, _altitudeM) = (vessels, altitudeM);
        int n = vessels.Length;
        _frozen = new bool[n];
        (_heatMJ, _tempC, _matrix, _right, _volume, _openShare, _first) = (new double[n], tempsC.ToArray(), new double[n * n], new double[n], new double[n], new double[n], new double[n]);
        for (int i = 0; i < n; i++) _startSums[0] += _heatMJ[i] = MJPerM3K * volumesM3[i] * tempsC[i];
    }

    /// <summary>Temperatures now, °C.</summary>
    public ReadOnlySpan<double> TempsC => _tempC;

    /// <summary>What each would evaporate at its present temperature, m3/s.</summary>
    public void Evaporation(in WeatherStep weather, Span<double> intoM3PerS)
    {
        var air = new WaterSurface(weather, _altitudeM);
        for (int i = 0; i < _vessels.Length; i++) intoM3PerS[i] = _vessels[i].OpenM2 * air.EvaporationMmPerS(_tempC[i]) / 1000;
    }

    /// <summary>Goes on by a stretch of time.</summary>
    /// <param name="lengthS">Its length, s.</param>
    /// <param name="steps">In so many equal steps.</param>
    /// <param name="weather">Weather.</param>
    /// <param name="beforeM3">Water in each before.</param>
    /// <param name="afterM3">Water in each after: what it was, and what came less what left.</param>
    /// <param name="moved">Water that moved, without what evaporated.</param>
    /// <param name="evaporatedM3">What each gave to the air.</param>
    /// <param name="pumpW">Heat that pumps gave each, W.</param>
    public void Advance(
        double lengthS, int steps, in WeatherStep weather, ReadOnlySpan<double> beforeM3, ReadOnlySpan<double> afterM3, ReadOnlySpan<MovedWater> moved,
        ReadOnlySpan<double> evaporatedM3, ReadOnlySpan<double> pumpW)
    {
        var air = new WaterSurface(weather, _altitudeM);
        for (int k = 0; k < steps; k++)
        {
            double from = k / (double)steps, by = 1.0 / steps;
            Step(lengthS, from, by, air, beforeM3, afterM3, moved, evaporatedM3, pumpW);
        }
    }

    /// <summary>Heat in and out so far.</summary>
    public HeatTotals Totals()
    {
        double stored = -_startSums[0];
        foreach (double heat in _heatMJ) stored += heat;
        return new(_sums[0], _sums[1], _sums[2], _sums[3], _sums[4], _sums[5], _sums[6], _sums[7], stored, _sums[8]);
    }

    private void Step(
        double lengthS, double from, double by, in WaterSurface air, ReadOnlySpan<double> beforeM3, ReadOnlySpan<double> afterM3, ReadOnlySpan<MovedWater> moved,
        ReadOnlySpan<double> evaporatedM3, ReadOnlySpan<double> pumpW)
    {
        int n = _vessels.Length;
        double stepS = by * lengthS;
        Span<double> start = stackalloc double[n], stage = stackalloc double[n];
        _tempC.CopyTo(start);
        Volumes(beforeM3, afterM3, from + (Gamma * by));
        Stage(stage, start, Gamma * stepS, lengthS, air, moved, evaporatedM3, pumpW);
        _first.AsSpan().Clear();
        Tally(stage, start, (1 - Gamma) * stepS, lengthS, air, moved, evaporatedM3, pumpW, _first);
        for (int i = 0; i < n; i++) _heatMJ[i] += _first[i];

        Volumes(beforeM3, afterM3, from + by);
        Stage(stage, start, Gamma * stepS, lengthS, air, moved, evaporatedM3, pumpW);
        _first.AsSpan().Clear();
        Tally(stage, start, Gamma * stepS, lengthS, air, moved, evaporatedM3, pumpW, _first);
        for (int i = 0; i < n; i++)
        {
            _heatMJ[i] += _first[i];
            _tempC[i] = stage[i];
        }
    }

    private void Volumes(ReadOnlySpan<double> beforeM3, ReadOnlySpan<double> afterM3, double share)
    {
        for (int i = 0; i < _vessels.Length; i++)
        {
            _volume[i] = Math.Max(0, beforeM3[i] + ((afterM3[i] - beforeM3[i]) * share));
            // A puddle has no surface to speak of, and takes the heat to evaporate from its ground.
            _openShare[i] = Math.Clamp(_volume[i] / 0.005 / Math.Max(1e-9, _vessels[i].OpenM2 + _vessels[i].CoveredM2), 0, 1);
        }
    }

    // Temperatures at which the heat so far and what a share of the step brings fill the volumes.
    private void Stage(
        Span<double> temps, ReadOnlySpan<double> start, double seconds, double lengthS, in WaterSurface air, ReadOnlySpan<MovedWater> moved,
        ReadOnlySpan<double> evaporatedM3, ReadOnlySpan<double> pumpW)
    {
        int n = _vessels.Length;
        Array.Clear(_frozen);
        while (true)
        {
            Array.Clear(_matrix);
            for (int i = 0; i < n; i++)
            {
                var (atStart, slope) = Exchange(i, start[i], air);
                double flow = seconds / lengthS * evaporatedM3[i];
                _right[i] = _heatMJ[i] + (seconds * 1e-6 * (atStart - (slope * start[i]) + pumpW[i])) - (flow * _openShare[i] * LatentMJPerM3(start[i]));
                // Where there is next to no water, it keeps the temperature it had.
                double hold = (_volume[i] < LeastM3 ? LeastM3 : 1e-9) * MJPerM3K;
                _right[i] += hold * start[i];
                _matrix[(i * n) + i] = (MJPerM3K * (_volume[i] + flow)) - (seconds * 1e-6 * slope) + hold;
            }

            foreach (var move in moved)
            {
                double carries = MJPerM3K * move.M3 * seconds / lengthS;
                if (move.From >= 0) _matrix[(move.From * n) + move.From] += carries;
                if (move.To < 0) continue;
                if (move.From >= 0) _matrix[(move.To * n) + move.From] -= carries;
                else _right[move.To] += carries * move.TempC;
            }

            // Water that would be colder than ice stays at 0 degrees, and what it lacks is ice.
            for (int i = 0; i < n; i++)
            {
                if (!_frozen[i]) continue;
                _matrix.AsSpan(i * n, n).Clear();
                (_matrix[(i * n) + i], _right[i]) = (1, 0);
            }

            DenseSystem.Solve(_matrix, _right);
            _right.CopyTo(temps);
            bool more = false;
            for (int i = 0; i < n; i++)
            {
                if (temps[i] >= 0 || _frozen[i]) continue;
                more = _frozen[i] = true;
            }

            if (!more) return;
        }
    }

    private void Tally(
        ReadOnlySpan<double> temps, ReadOnlySpan<double> start, double seconds, double lengthS, in WaterSurface air, ReadOnlySpan<MovedWater> moved,
        ReadOnlySpan<double> evaporatedM3, ReadOnlySpan<double> pumpW, Span<double> into)
    {
        for (int i = 0; i < _vessels.Length; i++)
        {
            var vessel = _vessels[i];
            double area = vessel.OpenM2 * _openShare[i], scale = seconds * 1e-6, turn = temps[i] - start[i];
            Add(0, scale * area * air.SunWPerM2(vessel.Shade), into, i);
            Add(1, scale * area * (air.LongWaveWPerM2(start[i], vessel.Shade) + (WaterSurface.LongWaveSlope(start[i]) * turn)), into, i);
            Add(2, scale * area * air.ConvectionWPerM2K * (air.AirC - temps[i]), into, i);
            double flow = seconds / lengthS * evaporatedM3[i];
            Add(3, -flow * ((_openShare[i] * LatentMJPerM3(start[i])) + (MJPerM3K * temps[i])), into, i);
            Add(4, scale * vessel.ThroughWallsWPerK(_volume[i]) * (air.AirC - temps[i]), into, i);
            var (power, slope) = Heater(vessel, start[i]);
            Add(5, scale * (power + (slope * turn) + pumpW[i]), into, i);
        }

        foreach (var move in moved)
        {
            double carries = MJPerM3K * move.M3 * seconds / lengthS, heat = carries * (move.From >= 0 ? temps[move.From] : move.TempC);
            if (move.From >= 0) into[move.From] -= heat;
            if (move.To >= 0) into[move.To] += heat;
            if (move.From < 0 && move.To >= 0) _sums[6] += heat;
            if (move.To < 0 && move.From >= 0) _sums[7] -= heat;
            _sums[8] += Math.Abs(heat);
        }
    }

    private void Add(int sum, double heat, Span<double> into, int vessel)
    {
        into[vessel] += heat;
        _sums[sum] += heat;
        _sums[8] += Math.Abs(heat);
    }

    // All but evaporation, at a temperature, W; and how it changes with it, W/K.
    private (double AtW, double SlopeWPerK) Exchange(int i, double tempC, in WaterSurface air)
    {
        var vessel = _vessels[i];
        double area = vessel.OpenM2 * _openShare[i], walls = vessel.ThroughWallsWPerK(_volume[i]), convection = area * air.ConvectionWPerM2K;
        var (power, slope) = Heater(vessel, tempC);
        double at = (area * (air.SunWPerM2(vessel.Shade) + air.LongWaveWPerM2(tempC, vessel.Shade))) + ((walls + convection) * (air.AirC - tempC)) + power;
        return (at, (area * WaterSurface.LongWaveSlope(tempC)) - walls - convection + slope);
    }

    private static (double PowerW, double SlopeWPerK) Heater(HeatVessel vessel, double tempC)
    {
        double below = vessel.HeatToC - tempC;
        if (vessel.HeaterW <= 0 || below <= 0) return (0, 0);
        return below >= ThermostatBandK ? (vessel.HeaterW, 0) : (vessel.HeaterW * below / ThermostatBandK, -vessel.HeaterW / ThermostatBandK);
    }

    // Harrison (1963), as in FAO Irrigation and Drainage Paper 56, annex 3, equation 3-1: 2.501 - 0.002361 T MJ/kg; a kilogram taken for a litre.
    private static double LatentMJPerM3(double tempC) => 1000 * (2.501 - (0.002361 * tempC));
}
