using System.Collections.Concurrent;
using System.Net;
using System.Security.Cryptography;
using System.Text;
using MQTTnet;
using Runnel.Place;

namespace Runnel.Exchange.Mqtt;

/// <summary>Who may connect to Runnel's broker, and what each may write and read there.</summary>
public sealed class ClientRights
{
    private const int MostAttempts = 5;
    private static readonly TimeSpan AttemptsCountFor = TimeSpan.FromMinutes(1);

    private readonly Dictionary<string, (byte[] Hash, BrokerClient Client)> _clients = new(StringComparer.Ordinal);
    private readonly ConcurrentDictionary<IPAddress, (int Count, long Since)> _failed = new();
    private readonly TimeProvider _clock;

    /// <param name="clients">Those of the place file with their passwords; empty: anyone, and the broker must listen on this machine only.</param>
    /// <param name="clock">For throttling.</param>
    public ClientRights(IEnumerable<(BrokerClient Client, string Password)> clients, TimeProvider clock)
    {
        _clock = clock;
        foreach (var (client, password) in clients) _clients[client.Id] = (Hash(password), client);
    }

    public bool AnyoneMayConnect => _clients.Count == 0;

    /// <summary>The client of that name and password, or null; after a few wrong ones an address waits a minute.</summary>
    public BrokerClient? Check(string? user, byte[]? password, IPAddress? from)
    {
        from ??= IPAddress.None;
        if (_failed.TryGetValue(from, out var failed) && failed.Count >= MostAttempts && _clock.GetElapsedTime(failed.Since) < AttemptsCountFor) return null;
        byte[] given = SHA256.HashData(password ?? []);
        if (user is not null && _clients.TryGetValue(user, out var known) && CryptographicOperations.FixedTimeEquals(known.Hash, given))
        {
            _failed.TryRemove(from, out _);
            return known.Client;
        }

        _failed.AddOrUpdate(
            from, (1, _clock.GetTimestamp()),
            (_, before) => _clock.GetElapsedTime(before.Since) < AttemptsCountFor ? (before.Count + 1, before.Since) : (1, _clock.GetTimestamp()));
        if (_failed.Count > 10_000) _failed.Clear();
        return null;
    }

    public static bool Allows(IReadOnlyList<string> filters, string topic) =>
        filters.Any(f => MqttTopicFilterComparer.Compare(topic, f) == MqttTopicFilterCompareResult.IsMatch);

    /// <summary>A subscription is allowed when nothing can match it that no filter allows: the filter itself, or one plain topic.</summary>
    public static bool AllowsFilter(IReadOnlyList<string> filters, string asked) =>
        filters.Any(f => f == asked || f == "#" || (f.EndsWith("/#", StringComparison.Ordinal) && (asked + "/").StartsWith(f[..^1], StringComparison.Ordinal)))
        || (!asked.Contains('#') && !asked.Contains('+') && Allows(filters, asked));

    private static byte[] Hash(string password) => SHA256.HashData(Encoding.UTF8.GetBytes(password));
}
