using NodaTime;

namespace Runnel.Place.PlaceFiles;

/// <summary>Reads where readings come from, and checks that it fits together.</summary>
internal static class WiringReader
{
    private const double UsualEveryS = 10;

    internal static Wiring Read(PlaceDraft draft, ProblemList problems)
    {
        var sections = draft.Sections;
        var sources = new List<Source>();
        foreach (var section in sections.Sources)
        {
            if (ReadSource(section, problems) is not { } source) continue;
            if (sources.Exists(s => s.Id == source.Id)) SectionReader.Reject(section, section.Entry("id")!, "an id that is not used yet", $"Give each its own, as in \"{source.Id}-2\"", problems);
            sources.Add(source);
        }

        var clients = sections.Clients.Select(s => ReadClient(s, problems)).OfType<BrokerClient>().ToList();
        var broker = new OwnBroker(
            (int)(sections.Broker?.Number("port") ?? 1883), sections.Broker?.Text("open-to") == "home-network");
        if (broker.OnHomeNetwork && clients.Count == 0)
        {
            problems.Add(
                sections.Broker!.PlaceOf("open-to"), "broker.open-to", "home-network", "[[client]] sections",
                "the broker is open to the home network, and no [[client]] says who may connect",
                "Add a [[client]] with id and password-file for each device, or leave open-to out");
        }

        return new Wiring(broker, clients, sources, ReadFeeds(draft, sources, problems));
    }

    private static Source? ReadSource(SectionValues section, ProblemList problems)
    {
        foreach (string key in (string[])["id", "kind", "address"])
        {
            if (section.Written.Contains(key)) continue;
            problems.AddMissing(section.At, $"{section.Path}.{key}", "", $"{section.Title} has no {key}", Example(section, key));
        }

        if (section.Text("id") is not { } id || KebabNames<SourceKind>.Find(section.Text("kind") ?? "") is not { } kind || section.Text("address") is not { } address) return null;
        bool sound = kind switch
        {
            SourceKind.Poll => Uri.TryCreate(address, UriKind.Absolute, out var url) && url.Scheme is "http" or "https",
            SourceKind.Broker => Uri.TryCreate("mqtt://" + address, UriKind.Absolute, out var host) && host.Host.Length > 0 && host.AbsolutePath.Length <= 1,
            _ => address.IndexOfAny(['\0', '\n']) < 0,
        };
        if (!sound)
        {
            SectionReader.Reject(
                section, section.Entry("address")!, kind == SourceKind.Poll ? "a URL" : "a host and a port",
                $"Write it as in {(kind == SourceKind.Poll ? "\"http://192.168.1.20/readings.json\"" : "\"192.168.1.5:1883\"")}", problems);
            return null;
        }

        return new Source(
            id, kind, address, Duration.FromSeconds(section.Number("every") ?? (kind == SourceKind.Poll ? 6 * UsualEveryS : UsualEveryS)),
            section.Text("user"), section.Text("password-file"));
    }

    private static string Example(SectionValues section, string key) => key switch
    {
        "kind" => $"Add kind = \"...\": one of {string.Join(", ", KebabNames<SourceKind>.All)}",
        "address" => "Add address = \"...\": host and port of a broker, URL of JSON, path of a file or folder",
        _ => "Add id = \"...\": a short name of small letters, digits and hyphens",
    };

    private static BrokerClient? ReadClient(SectionValues section, ProblemList problems)
    {
        foreach (string key in (string[])["id", "password-file"])
        {
            if (section.Written.Contains(key)) continue;
            problems.AddMissing(
                section.At, $"{section.Path}.{key}", "", $"{section.Title} has no {key}",
                key == "id" ? "Add id = \"...\": its user name" : "Add password-file = \"...\": a file that holds its password, and that only you may read");
        }

        var write = Filters(section, "may-write", problems);
        var read = Filters(section, "may-read", problems);
        return section.Text("id") is { } id && section.Text("password-file") is { } file ? new BrokerClient(id, file, write, read) : null;
    }

    private static List<string> Filters(SectionValues section, string key, ProblemList problems)
    {
        if (section.Entry(key) is not { } entry) return [];
        List<TomlNode> items = entry.Value is TomlArray list ? list.Items : [entry.Value];
        var filters = new List<string>();
        foreach (var item in items)
        {
            if (item is TomlScalar { Value: string filter } && IsFilter(filter))
            {
                filters.Add(filter);
                continue;
            }

            SectionReader.Reject(section, entry with { Value = item }, "a topic filter", "Write it as in [\"shed/#\", \"tank/+/level\"]", problems);
        }

        return filters;
    }

    private static List<ChannelFeed> ReadFeeds(PlaceDraft draft, List<Source> sources, ProblemList problems)
    {
        var feeds = new List<ChannelFeed>();
        for (int i = 0; i < draft.Channels.Count; i++)
        {
            var section = draft.Channels[i].Section;
            string? topic = section.Text("topic"), pointer = section.Text("pointer"), timePointer = section.Text("time-pointer");
            if (section.Text("source") is null && topic is null && pointer is null && timePointer is null) continue;
            var source = FindSource(section, sources, problems);
            CheckPointer(section, "pointer", pointer, problems);
            CheckPointer(section, "time-pointer", timePointer, problems);
            if (topic is not null && (!IsFilter(topic) || topic.Contains('#') || topic.Contains('+')))
            {
                SectionReader.Reject(section, section.Entry("topic")!, "one MQTT topic, without + or #", "Write the whole topic, as in \"shed/pump/state\"", problems);
            }
            else if (topic is not null && source is { Kind: not SourceKind.Broker })
            {
                SectionReader.Reject(section, section.Entry("topic")!, "no such key", $"[[source]] {source.Id} has no topics: remove it", problems);
            }
            else if (topic is null && source is { Kind: SourceKind.Broker })
            {
                problems.AddMissing(section.At, $"{section.Path}.topic", "", $"{section.Title} comes from a broker and has no topic", "Add topic = \"...\", as in \"shed/pump/state\"");
            }
            else if (pointer is null && source is { Kind: SourceKind.Poll })
            {
                problems.AddMissing(section.At, $"{section.Path}.pointer", "", $"{section.Title} comes from JSON and has no pointer", "Add pointer = \"/...\": where in the JSON its value stands");
            }

            feeds.Add(new ChannelFeed(i, source?.Id, topic, pointer, timePointer));
        }

        return feeds;
    }

    private static Source? FindSource(SectionValues section, List<Source> sources, ProblemList problems)
    {
        if (section.Text("source") is not { } id) return null;
        if (sources.Find(s => s.Id == id) is { } source) return source;
        string? nearest = NearestName.To(id, sources.Select(s => s.Id));
        SectionReader.Reject(
            section, section.Entry("source")!, "the id of a [[source]]",
            nearest is null ? "Declare it with [[source]], or leave the key out" : $"Write \"{nearest}\"", problems, nearest);
        return null;
    }

    private static void CheckPointer(SectionValues section, string key, string? pointer, ProblemList problems)
    {
        if (pointer is null || pointer.StartsWith('/')) return;
        SectionReader.Reject(section, section.Entry(key)!, "a JSON Pointer", $"Begin it with /, as in \"/{pointer.TrimStart('$', '.').Replace('.', '/')}\"", problems);
    }

    private static bool IsFilter(string filter) => filter.Length is > 0 and < 1000 && filter.IndexOf('\0') < 0;
}
