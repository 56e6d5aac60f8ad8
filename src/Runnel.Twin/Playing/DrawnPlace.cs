using System.Globalization;
using System.Text;
using NodaTime;
using Runnel.Science.Pipes;
using Runnel.Twin.Invented;

namespace Runnel.Twin.Playing;

/// <summary>A whole place file drawn by seed: vessels to height, pipes, pump, switches, the household's own rule and a kit. Nobody lives there.</summary>
public sealed class DrawnPlace
{
    private readonly Seeded _draw;
    private readonly StringBuilder _text = new();
    private double _onItsWayL;

    private DrawnPlace(int seed) => _draw = new Seeded(seed, "drawn-place");

    /// <summary>Which kit it has, in words.</summary>
    public string Kit { get; private set; } = "";

    /// <summary>When its log begins: a day in the growing season.</summary>
    public Instant Start { get; private set; }

    /// <summary>The text of its place file.</summary>
    public string Toml => _text.ToString();

    /// <summary>Draws a place.</summary>
    /// <param name="seed">Another seed, another place.</param>
    public static DrawnPlace Draw(int seed)
    {
        var place = new DrawnPlace(seed);
        place.WriteAll();
        return place;
    }

    private void WriteAll()
    {
        var (name, lat, lon, altitude, zone, day) = Surroundings.Draw(_draw);
        Start = zone.AtStartOfDay(day).ToInstant();
        bool isCovered = _draw.Chance(0.4);
        double flow = _draw.Between(28, 75), most = flow * 1.35, siphonFlow = _draw.Chance(0.2) ? _draw.Between(7, 11) : 0;
        int troughs = _draw.Whole(1, 4);
        Line($"# An invented place, drawn by lot: nobody lives here.");
        Line($"[place]\nname = \"{name}\"\nlatitude = \"{Math.Abs(lat):0.##} {(lat < 0 ? 'S' : 'N')}\"\nlongitude = \"{Math.Abs(lon):0.##} {(lon < 0 ? 'W' : 'E')}\"");
        Line($"altitude = \"{altitude:0} m\"\ntime-zone = \"{zone.Id}\"\n");
        double tank = _draw.Between(0.9, 2.2), beds = 0;
        StringBuilder vessels = new();
        double floor = _draw.Between(0.95, 1.15), standpipe = _draw.Between(0.6, 0.85);
        Standing(vessels, "tank", "fish-tank", tank, floor, standpipe, most, "swirl", drain: true);
        double swirl = _draw.Between(0.15, 0.3), filter = _draw.Between(0.2, 0.5);
        double weir = _draw.Between(0.15, 0.25), weirHead = Math.Pow(most / 60_000 / (1.84 * weir), 2.0 / 3);
        vessels.Append(Text($"[[vessel]]\nid = \"swirl\"\nkind = \"solids-separator\"\nfootprint = \"{swirl:0.###} m2\"\nrim = \"{0.64 + weirHead + 0.08:0.###} m\"\nfloor-height = \"0.62 m\"\nspills-to = \"ground\"\n"));
        vessels.Append(Text($"outlet = {{ kind = \"weir\", height = \"640 mm\", width = \"{weir * 1000:0} mm\", to = \"filter\" }}\n\n"));
        _onItsWayL += swirl * weirHead * 1000;
        Standing(vessels, "filter", "biofilter", filter, 0.55, 0.5, most, "trough-1", drain: false);
        for (int i = 1; i <= troughs; i++)
        {
            double area = _draw.Between(0.8, 2.6);
            beds += area;
            Standing(vessels, $"trough-{i}", "trough", area, 0.85 - (0.17 * i), _draw.Between(0.15, 0.24), most, i < troughs ? $"trough-{i + 1}" : "sump", drain: false);
        }

        if (siphonFlow > 0)
        {
            double height = _draw.Between(0.19, 0.25);
            vessels.Append(Text($"[[vessel]]\nid = \"bed\"\nkind = \"media-bed\"\nfootprint = \"{_draw.Between(0.35, 0.7):0.##} m2\"\nvoid-fraction = 0.4\nrim = \"330 mm\"\nfloor-height = \"0.85 m\"\n"));
            vessels.Append(Text($"spills-to = \"ground\"\noutlet = {{ kind = \"siphon\", height = \"{height:0.###} m\", trip = \"{height + 0.004:0.###} m\", break = \"30 mm\", diameter = \"25 mm\", to = \"sump\" }}\n\n"));
        }

        double share = _draw.Between(0.28, 0.5), bandL = _onItsWayL * share, bandM = _draw.Between(0.09, 0.15), footprint = bandL / 1000 / bandM, low = _draw.Between(0.12, 0.18);
        double rest = low + (((0.42 * _onItsWayL) + (0.3 * bandL)) / 1000 / footprint), rim = low + (1.7 * (_onItsWayL + bandL) / 1000 / footprint) + 0.15;
        double open = (tank + beds) * _draw.Between(0.4, 0.8), canopy = beds * _draw.Between(0.9, 1.6);
        Line($"[loop]\nopen-water = \"{open:0.##} m2\"\ncanopy = \"{canopy:0.##} m2\"\nrain-catch = \"{(isCovered ? 0 : open * _draw.Between(0.15, 0.5)):0.##} m2\"\n");
        Line($"[[vessel]]\nid = \"sump\"\nkind = \"sump\"\nfootprint = \"{footprint:0.####} m2\"\nswitch-low = \"{low * 1000:0} mm\"\nswitch-high = \"{(low + bandM) * 1000:0} mm\"");
        Line($"rim = \"{rim:0.###} m\"\nfloor-height = \"0 m\"\nwater-height = \"{Math.Min(rest, rim - 0.05):0.###} m\"\n");
        _text.Append(vessels);
        WriteEquipment(flow, siphonFlow, floor, standpipe, bandL);
        WriteKit(isCovered);
    }

    // A vessel whose standpipe carries the flow with a few centimetres to spare.
    private void Standing(StringBuilder text, string id, string kind, double area, double floorM, double height, double most, string to, bool drain)
    {
        double bore = _draw.Pick(0.05, 0.063, 0.075), head = Standpipe.HeadM(bore, most);
        while (head > 0.06 && bore < 0.1)
        {
            bore += 0.0125;
            head = Standpipe.HeadM(bore, most);
        }

        _onItsWayL += area * head * 1000;
        text.Append(Text($"[[vessel]]\nid = \"{id}\"\nkind = \"{kind}\"\nfootprint = \"{area:0.###} m2\"\nrim = \"{height + head + _draw.Between(0.05, 0.12):0.###} m\"\nfloor-height = \"{floorM:0.###} m\"\n"));
        text.Append(Text($"spills-to = \"ground\"\noutlet = {{ kind = \"standpipe\", height = \"{height:0.###} m\", diameter = \"{bore * 1000:0} mm\", to = \"{to}\" }}\n"));
        if (drain) text.Append(Text($"[vessel.drain]\nlength = \"{_draw.Between(1.5, 4):0.#} m\"\ndiameter = \"{(most > 55 ? 63 : 50)} mm\"\nfall = \"300 mm\"\nfittings = [\"elbow-medium-radius\", \"elbow-medium-radius\"]\n"));
        text.Append('\n');
    }

    private void WriteEquipment(double flow, double siphonFlow, double floor, double standpipe, double bandL)
    {
        double lift = floor + standpipe + 0.15, shutOff = lift * _draw.Between(1.7, 2.3);
        string pipe = "length = \"2.5 m\", diameter = \"" + (flow > 45 ? "40" : "32") + " mm\", fittings = [\"elbow-medium-radius\", \"elbow-medium-radius\"]";
        Line($"[[equipment]]\nid = \"pump\"\nkind = \"pump\"\nfrom = \"sump\"\ncurve = [[\"0 L/min\", \"{shutOff:0.##} m\"], [\"{flow:0.#} L/min\", \"{lift * 1.15:0.##} m\"], [\"{flow * 1.6:0.#} L/min\", \"{lift * 0.55:0.##} m\"]]");
        Line($"lift = \"{lift:0.###} m\"\ncheck-valve = {(_draw.Chance(0.5) ? "true" : "false")}\nrated-power = \"{_draw.Between(35, 110):0} W\"");
        if (siphonFlow > 0) Line($"pipe = {{ length = \"1 m\", diameter = \"40 mm\" }}\nsplit = [{{ to = \"tank\", {pipe} }}, {{ to = \"bed\", length = \"2 m\", diameter = \"16 mm\", end-height = \"300 mm\", k = 30 }}]\n");
        else Line($"to = \"tank\"\npipe = {{ {pipe} }}\n");
        double rate = _draw.Between(4, 12), dose = _onItsWayL * _draw.Between(0.06, 0.12), fillMin = bandL / (flow * _draw.Between(0.13, 0.24));
        Line($"[[equipment]]\nid = \"top-up\"\nkind = \"top-up-valve\"\nfrom = \"tap\"\nto = \"sump\"\nrate = \"{rate:0.##} L/min\"\nafter-fill = \"{fillMin * 60:0} s\"\nrun = \"{dose / rate * 60:0} s\"\n");
    }

    private void WriteKit(bool isCovered)
    {
        Channel("pump", "running", "pump");
        Channel("top-up", "running", "top-up");
        int kit = _draw.Whole(0, 4);
        bool power = kit is 1 or 4, level = kit is 2 or 4, tank = kit is 3 or 4, weather = _draw.Chance(0.7);
        if (power) Channel("pump-power", "power", "pump", "every = \"30 s\"");
        if (level) Channel("sump-level", "level", "sump", "every = \"1 min\"");
        if (tank) Channel("tank-level", "level", "tank", "every = \"2 min\"");
        Channel("water-temperature", "water-temperature", "tank", "every = \"10 min\"");
        Channel("air-temperature", "air-temperature", null, "every = \"10 min\"");
        if (weather)
        {
            Channel("humidity", "relative-humidity", null, "every = \"10 min\"");
            Channel("sun", "solar-irradiance", null, "every = \"10 min\"");
            Channel("wind", "wind-speed", null, "every = \"10 min\"\nheight = \"2 m\"");
            if (!isCovered) Channel("rain", "rain", null, "every = \"10 min\"");
        }

        Kit = "switch" + (power ? " + power" : "") + (level ? " + sump level" : "") + (tank ? " + tank level" : "") + (weather ? " + weather" : "");
    }

    private void Channel(string id, string measures, string? of, string more = "")
    {
        Line($"[[channel]]\nid = \"{id}\"\nmeasures = \"{measures}\"");
        if (of is not null) Line($"of = \"{of}\"");
        if (more.Length > 0) Line($"{more}");
        Line($"");
    }

    private void Line(FormattableString line) => _text.Append(Text(line)).Append('\n');

    private static string Text(FormattableString text) => text.ToString(CultureInfo.InvariantCulture);
}
