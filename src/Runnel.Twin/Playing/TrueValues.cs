using Runnel.Place;
using Runnel.Place.Water;
using Runnel.Twin.Faults;
using Runnel.Twin.Water;
using Runnel.Twin.Weather;

namespace Runnel.Twin.Playing;

/// <summary>What each channel of a place would read if it were perfect.</summary>
internal sealed class TrueValues
{
    // Shares of a pump's rated power, common practice for small submersible pumps: standing magnetic losses, and what grows with the flow.
    private const double IdlePower = 0.7, DryPower = 0.55, StandbyW = 0.4, MainsV = 230, AirKPa = 18;

    private readonly Hydraulics _water;
    private readonly WaterLoop _loop;
    private readonly StandingFaults _faults;
    private readonly Part[] _parts;
    private readonly double[] _usualFlow;
    private readonly double _stalledPower, _airPressureKPa;
    private readonly bool[] _runs;

    public TrueValues(PlaceDescription place, WaterLoop loop, StandingFaults faults, ReadOnlySpan<double> state, int seed)
    {
        (_water, _loop, _faults) = (place.Hydraulics!, loop, faults);
        _parts = [.. place.Channels.Select(c => PartOf(place, c))];
        _runs = [.. place.Equipment.Select(e => e.Kind == EquipmentKind.MainAir)];
        _usualFlow = [.. _water.Pumps.Select(_ => 0.0)];
        for (int i = 0; i < _usualFlow.Length; i++) _usualFlow[i] = Math.Max(1e-6, _loop.LawFlowM3PerS(i, state));
        // A seized motor hums along at more than its rated power, or its thermal switch has cut it off: by seed.
        _stalledPower = new Invented.Seeded(seed, "stalled").Chance(0.4) ? 1.35 : 0.03;
        _airPressureKPa = 101.325 * Math.Pow(1 - (2.25577e-5 * place.AltitudeM), 5.25588);
    }

    /// <summary>Weather of the present step.</summary>
    public WeatherStep Weather { get; set; }

    public double WaterC { get; set; }

    /// <summary>Rain since the beginning, mm.</summary>
    public double RainMm { get; set; }

    /// <summary>Whether this world knows what the channel measures.</summary>
    public bool Knows(int channel) => _parts[channel].Kind != PartKind.Unknown;

    /// <summary>Whether the channel tells of a switch or a motor.</summary>
    public bool IsRunning(int channel) => _parts[channel].Measures == Quantity.Running;

    public bool Runs(int channel)
    {
        var part = _parts[channel];
        bool live = part.Equipment < 0 || (_faults.Equipment[part.Equipment] is { HasPower: true, IsUnplugged: false });
        return part.Kind switch
        {
            PartKind.Pump => part.Sensed ? _loop.Switches.Turns(part.Index) : live && _loop.Switches.IsOn(part.Index),
            PartKind.Valve => live && (part.Sensed ? _loop.Switches.Passes(part.Index) : _loop.Switches.IsOpen(part.Index)),
            _ => part.Equipment >= 0 && EquipmentRuns(part.Equipment),
        };
    }

    public double Of(int channel, double timeS, ReadOnlySpan<double> state)
    {
        var part = _parts[channel];
        return part.Measures switch
        {
            Quantity.Running => Runs(channel) ? 1 : 0,
            Quantity.Power => PowerW(part, timeS, state),
            Quantity.Current => PowerW(part, timeS, state) / MainsV,
            Quantity.Level => _loop.LevelM(part.Index, state) * 1000,
            Quantity.Flow => (part.Kind == PartKind.Pump ? _loop.PumpFlowM3PerS(part.Index, timeS, state) : _loop.ValveFlowM3PerS(part.Index, timeS, state)) * 60_000,
            Quantity.Volume or Quantity.VolumeTotal => state[(part.Kind == PartKind.Pump ? _loop.FirstPumped : _loop.FirstLet) + part.Index] * 1000,
            Quantity.Pressure => part.Equipment >= 0 && EquipmentRuns(part.Equipment) ? AirKPa * _faults.Equipment[part.Equipment].Strength.At(timeS) : 0,
            Quantity.WaterTemperature => WaterC,
            Quantity.AirTemperature => Weather.AirTempC,
            Quantity.RelativeHumidity => Weather.RelHumidity * 100,
            Quantity.SolarIrradiance => Weather.SunWPerM2,
            Quantity.WindSpeed => Weather.WindAt2MMPerS,
            Quantity.Rain or Quantity.RainTotal => RainMm,
            _ => _airPressureKPa,
        };
    }

    private double PowerW(Part part, double timeS, ReadOnlySpan<double> state)
    {
        if (part.Kind != PartKind.Pump)
        {
            return part.Equipment >= 0 && EquipmentRuns(part.Equipment) ? part.RatedW * (0.6 + (0.4 * _faults.Equipment[part.Equipment].Strength.At(timeS))) : StandbyW;
        }

        var now = _loop.Condition.Pumps[part.Index];
        if (!now.HasPower || now.IsUnplugged) return 0;
        if (!_loop.Switches.IsOn(part.Index)) return StandbyW;
        double volts = now.Wander * now.Wander;
        if (now.Stalls) return part.RatedW * _stalledPower * volts;
        if (now.IsDry) return part.RatedW * DryPower * volts;
        double flow = _loop.PumpFlowM3PerS(part.Index, timeS, state) / _usualFlow[part.Index];
        return part.RatedW * (IdlePower + ((1 - IdlePower) * flow)) * volts;
    }

    private bool EquipmentRuns(int equipment) => _runs[equipment] && _faults.Equipment[equipment] is { HasPower: true, IsUnplugged: false, Stands: false };

    private static Part PartOf(PlaceDescription place, Channel channel)
    {
        var water = place.Hydraulics!;
        int equipment = place.Equipment.ToList().FindIndex(e => e.Id == channel.Of);
        int pump = water.Pumps.ToList().FindIndex(p => p.Id == channel.Of), valve = water.Valves.ToList().FindIndex(v => v.Id == channel.Of);
        double rated = equipment >= 0 ? place.Equipment[equipment].RatedPowerW ?? (pump >= 0 ? 60 : 40) : 0;
        var kind = pump >= 0 ? PartKind.Pump : valve >= 0 ? PartKind.Valve : equipment >= 0 ? PartKind.Equipment : PartKind.Place;
        int index = Math.Max(pump, valve);
        var part = new Part(kind, channel.Measures, index, equipment, rated, channel.Seen == SeenAs.Sensed);
        bool known = channel.Measures switch
        {
            Quantity.Running or Quantity.Power or Quantity.Current => equipment >= 0,
            Quantity.Level => (index = water.IndexOf(channel.Of)) >= 0,
            Quantity.Flow or Quantity.Volume or Quantity.VolumeTotal => index >= 0,
            Quantity.Pressure => equipment >= 0 && pump < 0,
            Quantity.WaterTemperature or Quantity.AirTemperature or Quantity.RelativeHumidity or Quantity.SolarIrradiance or Quantity.WindSpeed or Quantity.Rain
                or Quantity.RainTotal or Quantity.AirPressure => true,
            _ => false,
        };
        return part with { Index = index, Kind = known ? kind : PartKind.Unknown };
    }

    private enum PartKind
    {
        Unknown,
        Place,
        Pump,
        Valve,
        Equipment,
    }

    private readonly record struct Part(PartKind Kind, Quantity Measures, int Index, int Equipment, double RatedW, bool Sensed);
}
