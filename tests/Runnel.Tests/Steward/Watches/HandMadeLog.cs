using NodaTime;
using Runnel.Place;
using Runnel.Place.Findings;
using Runnel.Steward;
using Runnel.Steward.Notices;

namespace Runnel.Tests.Steward.Watches;

/// <summary>A log written by hand, stretch by stretch, of an invented loop. Times are hours from its beginning.</summary>
internal sealed class HandMadeLog
{
    public static readonly Instant Start = Instant.FromUtc(2026, 3, 2, 0, 0);
    private readonly List<Reading> _readings = [];
    private readonly List<DaybookEntry> _daybook = [];
    private readonly Random _random = new(12);

    public HandMadeLog(params ReadOnlySpan<Channel> more) => Place = MakePlace(60, [.. More(more)]);

    private HandMadeLog(double? bandL, Channel[] channels, double? tankRimM = null) => Place = MakePlace(bandL, channels, tankRimM);

    public static HandMadeLog Of(double? bandL, double? tankRimM, params Channel[] channels) => new(bandL, channels, tankRimM);

    public HandMadeLog(PlaceDescription place) => Place = place;

    public PlaceDescription Place { get; }

    public static readonly Channel PumpSwitch = new("pump", Quantity.Running, "pump");
    public static readonly Channel PumpPower = new("pump-power", Quantity.Power, "pump");
    public static readonly Channel TopUp = new("top-up", Quantity.Running, "top-up");
    public static readonly Channel Bleed = new("bleed", Quantity.Running, "bleed");
    public static readonly Channel Air = new("air", Quantity.AirTemperature);
    public static readonly Channel Rain = new("rain", Quantity.Rain);
    public static readonly Channel SumpLevel = new("sump-level", Quantity.Level, "sump");
    public static readonly Channel TankLevel = new("tank-level", Quantity.Level, "tank");

    private static Channel[] More(ReadOnlySpan<Channel> more) => [PumpSwitch, TopUp, Bleed, Air, Rain, .. more];

    private static PlaceDescription MakePlace(double? bandL, Channel[] channels, double? tankRimM = null) => new(
        "Invented", -34, 150, 80, DateTimeZone.Utc, new LoopTotals(2, 5, 2),
        [new Vessel("tank", VesselKind.FishTank, RimM: tankRimM), new Vessel("sump", VesselKind.Sump, BandL: bandL)],
        [new Equipment("pump", EquipmentKind.Pump, From: "sump"), new Equipment("top-up", EquipmentKind.TopUpValve, RateLPerMin: 10),
         new Equipment("bleed", EquipmentKind.BleedValve, RateLPerMin: 10)],
        channels);

    public static Instant At(double hours) => Start + Duration.FromSeconds(Math.Round(hours * 3600));

    public HandMadeLog Put(Channel channel, double hours, double value)
    {
        _readings.Add(new Reading(Place.ChannelIndex(channel.Id), At(hours), value));
        return this;
    }

    public HandMadeLog Write(DaybookEntry entry)
    {
        _daybook.Add(entry);
        return this;
    }

    /// <summary>Fills and runs, in minutes, each scattered by a few per cent, from one hour to another; gives the hour of the last edge,
    /// a pump-off.</summary>
    public double Cycles(double from, double to, double fillMin, double runMin, double scatter = 0.03) =>
        Cycles(from, to, _ => fillMin, _ => runMin, scatter);

    public double Cycles(double from, double to, Func<double, double> fillMin, Func<double, double> runMin, double scatter = 0.03)
    {
        double at = from;
        while (true)
        {
            double on = at + (fillMin(at) / 60 * (1 + (scatter * Wobble())));
            double off = on + (runMin(at) / 60 * (1 + (scatter * Wobble())));
            if (off > to) return at;
            Put(PumpSwitch, on, 1);
            Put(PumpSwitch, off, 0);
            at = off;
        }
    }

    /// <summary>Readings every ten minutes of a smooth daily course with a little noise.</summary>
    public HandMadeLog Course(Channel channel, double from, double to, double mean = 18, double swing = 6, double noise = 0.15, double everyMin = 10)
    {
        for (double t = from; t < to; t += everyMin / 60)
        {
            double value = mean + (swing * Math.Sin(2 * Math.PI * (t - 9) / 24)) + (noise * Wobble());
            Put(channel, t, Math.Round(value, 1));
        }

        return this;
    }

    public HandMadeLog Open(Channel valve, double from, double minutes) => Put(valve, from, 1).Put(valve, from + (minutes / 60), 0);

    public double Wobble()
    {
        // Sum of four evens: near normal, never wild.
        double sum = 0;
        for (int i = 0; i < 4; i++) sum += _random.NextDouble() - 0.5;
        return sum * 1.73;
    }

    public IReadOnlyList<Notice> Notices(double? untilHour = null, Func<PlaceDescription, IReadOnlyList<IWatch>>? watches = null) =>
        Read(untilHour, watches).Notices.Notices;

    public LoopReader Read(double? untilHour = null, Func<PlaceDescription, IReadOnlyList<IWatch>>? watches = null)
    {
        var reader = new LoopReader(Place, (watches ?? AllWatches.For)(Place));
        var until = untilHour is { } h ? At(h) : Instant.MaxValue;
        var entries = new Queue<DaybookEntry>(_daybook.OrderBy(e => e.Time));
        foreach (var reading in _readings.OrderBy(r => r.Time).Where(r => r.Time <= until))
        {
            while (entries.Count > 0 && entries.Peek().Time < reading.Time) reader.Take(entries.Dequeue());
            reader.Take(reading);
        }

        return reader;
    }
}

internal static class NoticeChecks
{
    public static Notice One(this IReadOnlyList<Notice> notices, string cause) =>
        Assert.Single(notices, n => n.Causes.Any(c => c.Name == cause));

    public static double HoursAfter(this Notice notice, double hour) => (notice.FirstNoticed - HandMadeLog.At(hour)).TotalHours;
}
