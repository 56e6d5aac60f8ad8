using System.Globalization;
using System.Text;
using NodaTime;
using Runnel.Place;

namespace Runnel.Twin.Invented;

/// <summary>The place as its keeper would write it down: measured with a bucket and a tape, so not quite as it is.</summary>
internal static class PlaceOnPaper
{
    public static (PlaceDescription Place, string Toml) Write(LoopSpec loop, KeeperSpec habit, LoggerSpec logging, int seed)
    {
        var rng = new Seeded(seed, "paper");
        double Near(double value, double spread, double step) => Math.Round(value * (1 + (spread * rng.Normal())) / step) * step;

        var totals = new LoopTotals(Round2(Near(loop.OpenWaterM2, 0.06, 0.1)), Round2(Near(loop.CanopyM2, 0.1, 0.5)),
            loop.RainCatchM2 == 0 ? 0 : Round2(Near(loop.RainCatchM2, 0.05, 0.1)));
        bool steady = loop.Kind == LoopKind.AlwaysOn;
        var vessels = new List<Vessel>();
        foreach (var v in loop.Vessels)
        {
            bool sump = v.Kind == VesselKind.Sump;
            // Some keepers measure the sump with a tape, some with a bucket.
            bool levelHere = logging.LevelOf >= 0 && loop.Vessels[logging.LevelOf] == v;
            double? band = sump && !steady ? Round2(Near(loop.BandL, 0.02, 1)) : null;
            double? footprint = levelHere || (sump && steady) ? Round2(Near(v.AreaM2, 0.02, 0.01)) : null;
            double? low = null, high = null;
            if (sump && !steady && rng.Chance(0.3))
            {
                footprint ??= Round2(Near(v.AreaM2, 0.015, 0.005));
                (low, high) = (Math.Round(loop.SwitchLowM, 3), Math.Round(loop.SwitchHighM, 3));
                band = footprint * (high - low) * 1000;
            }

            vessels.Add(new Vessel(v.Id, v.Kind, BandL: band, FootprintM2: footprint, SwitchLowM: low, SwitchHighM: high, Outlet: v.Outlet));
        }

        double topUp = Round2(Near(loop.TopUpLPerS * 60, 0.006, 0.05)), bleed = Round2(Near(loop.BleedLPerS * 60, 0.006, 0.05));
        var equipment = new List<Equipment>
        {
            new("pump", EquipmentKind.Pump, From: "sump", RatedPowerW: loop.Kind == LoopKind.PowerChannel ? loop.RunWatts : null),
            new("top-up", EquipmentKind.TopUpValve, To: "sump", RateLPerMin: topUp),
        };
        if (habit.HasBleed) equipment.Add(new("bleed", EquipmentKind.BleedValve, From: "sump", RateLPerMin: bleed));

        var channels = new List<Channel>();
        bool power = loop.Kind == LoopKind.PowerChannel;
        Duration? every = power && !logging.PowerOnChange ? Duration.FromSeconds(logging.PowerEveryS) : null;
        channels.Add(new Channel(logging.PumpId, power ? Quantity.Power : Quantity.Running, Of: "pump", Every: every));
        channels.Add(new Channel(logging.TopUpId, Quantity.Running, Of: "top-up"));
        if (habit.HasBleed) channels.Add(new Channel(logging.BleedId, Quantity.Running, Of: "bleed"));
        var weatherEvery = Duration.FromSeconds(logging.WeatherEveryS);
        if (logging.LevelOf >= 0)
        {
            string id = logging.LevelOf == loop.Sump ? "sump-level" : "tank-level";
            channels.Add(new Channel(id, Quantity.Level, Of: loop.Vessels[logging.LevelOf].Id, Every: Duration.FromSeconds(logging.LevelEveryS)));
        }

        if (logging.AirTemperature) channels.Add(new Channel("air-temperature", Quantity.AirTemperature, Every: weatherEvery));
        if (logging.FullWeather)
        {
            channels.Add(new Channel("relative-humidity", Quantity.RelativeHumidity, Every: weatherEvery));
            channels.Add(new Channel("solar-irradiance", Quantity.SolarIrradiance, Every: weatherEvery));
            channels.Add(new Channel("wind-speed", Quantity.WindSpeed, Every: weatherEvery, HeightM: 2));
            if (!loop.UnderCover) channels.Add(new Channel("rain", Quantity.Rain, Every: weatherEvery));
        }

        var place = new PlaceDescription(loop.Name, loop.LatitudeDeg, loop.LongitudeDeg, loop.AltitudeM, loop.Zone, totals, vessels, equipment, channels);
        return (place, Toml(place));
    }

    private static double Round2(double x) => Math.Round(x, 2);

    private static string Toml(PlaceDescription p)
    {
        var text = new StringBuilder();
        void Line(FormattableString s) => text.Append(s.ToString(CultureInfo.InvariantCulture)).Append('\n');
        string Side(double deg, char plus, char minus) => string.Create(CultureInfo.InvariantCulture, $"{Math.Abs(deg)} {(deg < 0 ? minus : plus)}");
        Line($"# An invented place: nobody lives here.");
        Line($"[place]");
        Line($"name      = \"{p.Name}\"");
        Line($"latitude  = \"{Side(p.LatitudeDeg, 'N', 'S')}\"");
        Line($"longitude = \"{Side(p.LongitudeDeg, 'E', 'W')}\"");
        Line($"altitude  = \"{p.AltitudeM} m\"");
        Line($"time-zone = \"{p.Zone.Id}\"");
        Line($"");
        Line($"[loop]");
        Line($"open-water = \"{p.Loop.OpenWaterM2} m2\"");
        Line($"canopy     = \"{p.Loop.CanopyM2} m2\"");
        Line($"rain-catch = \"{p.Loop.RainCatchM2} m2\"");
        foreach (var v in p.Vessels)
        {
            Line($"");
            Line($"[[vessel]]");
            Line($"id   = \"{v.Id}\"");
            Line($"kind = \"{Kebab(v.Kind.ToString())}\"");
            if (v.BandL is { } band && v.SwitchLowM is null) Line($"band = \"{band} L\"");
            if (v.FootprintM2 is { } area) Line($"footprint = \"{area} m2\"");
            if (v.SwitchLowM is { } low) Line($"switch-low  = \"{Math.Round(low * 1000)} mm\"");
            if (v.SwitchHighM is { } high) Line($"switch-high = \"{Math.Round(high * 1000)} mm\"");
            if (v.Outlet is { } outlet) Line($"outlet = \"{Kebab(outlet.ToString())}\"");
        }

        foreach (var e in p.Equipment)
        {
            Line($"");
            Line($"[[equipment]]");
            Line($"id   = \"{e.Id}\"");
            Line($"kind = \"{Kebab(e.Kind.ToString())}\"");
            if (e.From is { } from) Line($"from = \"{from}\"");
            if (e.To is { } to) Line($"to   = \"{to}\"");
            if (e.RateLPerMin is { } rate) Line($"rate = \"{rate} L/min\"");
            if (e.RatedPowerW is { } watts) Line($"power = \"{watts} W\"");
        }

        foreach (var c in p.Channels)
        {
            Line($"");
            Line($"[[channel]]");
            Line($"id       = \"{c.Id}\"");
            Line($"measures = \"{Quantities.NameOf(c.Measures)}\"");
            if (c.Of is { } of) Line($"of       = \"{of}\"");
            if (c.Every is { } every) Line($"every    = \"{every.TotalSeconds} s\"");
            if (c.HeightM is { } height) Line($"height   = \"{height} m\"");
        }

        return text.ToString();
    }

    private static string Kebab(string name)
    {
        var text = new StringBuilder();
        foreach (char c in name)
        {
            if (char.IsUpper(c) && text.Length > 0) text.Append('-');
            text.Append(char.ToLowerInvariant(c));
        }

        return text.ToString();
    }
}
