using NodaTime;
using Runnel.Live;
using Runnel.Live.View;
using Runnel.Place;
using Runnel.Place.Findings;
using Runnel.Place.Water;
using Runnel.Records;
using Runnel.Science.Sun;
using Runnel.Twin.Solving;
using Runnel.Twin.Water;
using Runnel.Web.Words;

namespace Runnel.Web.Now;

/// <summary>Gathers a ribbon: the day back from the records, the day ahead by the twin where the place tells how its water moves.</summary>
internal static class RibbonOfPlace
{
    private const int Buckets = 144;

    public static async Task<DayRibbon> MakeAsync(LivePlace live, LiveView view, CancellationToken cancel)
    {
        Instant now = view.At;
        List<RibbonLane> lanes = [];
        await AddLineAsync(lanes, live, view, "sun", Quantity.SolarIrradiance, fromZero: true, cancel);
        await AddLineAsync(lanes, live, view, "water", Quantity.WaterTemperature, fromZero: false, cancel);
        await AddLineAsync(lanes, live, view, "oxygen", Quantity.DissolvedOxygen, fromZero: true, cancel);
        // What the twin expects of a healthy loop would mislead while this one is in trouble.
        bool isWell = view.Notices.All(n => !n.Stands || n.Notice.Urgency != Urgency.ActNow);
        WaterForecast? ahead = isWell ? await Task.Run(() => Forecast(view), cancel) : null;
        if (view.Findings is { } findings)
        {
            bool IsBack(Instant t) => t > now - DayRibbon.Half && t <= now;
            (Instant, double)[] missing = [.. findings.Evidence.LitresShort.Where(b => IsBack(b.Time)).Select(b => (b.Time, b.Value))];
            if (missing.Length > 1) lanes.Add(new LineLane("short of full", "L", missing, [], FromZero: false) { Gap = Duration.FromHours(3) });
            CyclePoint[] cycles = [.. findings.Evidence.Cycles.Where(c => IsBack(c.Start + Duration.FromSeconds(c.FillS)))];
            if (cycles.Length > 0) lanes.Add(new CycleLane("pump fills", "", cycles) { Expected = Fills(ahead) });
            WaterPulse[] pulses = [.. findings.Evidence.Pulses.Where(p => IsBack(p.Start))];
            if (view.Place.Equipment.Any(e => e.Kind == EquipmentKind.TopUpValve)) lanes.Add(new PulseLane("top-up", "", pulses) { Expected = TopUp(ahead) });
        }

        return new(now, view.Place.Zone, lanes, Nights(view.Place, now));
    }

    private static async Task AddLineAsync(List<RibbonLane> lanes, LivePlace live, LiveView view, string name, Quantity quantity, bool fromZero, CancellationToken cancel)
    {
        if (view.Place.Channels.FirstOrDefault(c => c.Measures == quantity) is not { } channel) return;
        IReadOnlyList<Bucket> buckets = await live.Records.BucketsAsync(channel.Id, view.At - DayRibbon.Half, view.At, Buckets, cancel);
        if (buckets.Count < 2) return;
        lanes.Add(new LineLane(name, Figures.UnitInWords(Quantities.UnitOf(quantity)), [.. buckets.Select(b => (b.Start, b.Mean))], [], fromZero));
    }

    /// <summary>Begins with as much water as makes the twin fill as slowly as the loop does now; a level alone does not tell what is on its way.</summary>
    private static WaterForecast? Forecast(LiveView view)
    {
        if (view.Place.Hydraulics is not { Pumps.Count: > 0 } water || water.Vessels.FirstOrDefault(v => v.Id == water.Pumps[0].From) is not { } sump) return null;
        double[] fills = [.. (view.Findings?.Evidence.Cycles ?? []).Where(c => !c.Disturbed).TakeLast(15).Select(c => c.FillS).Order()];
        if (fills.Length < 5 || water.Pumps[0].OffM is not { } low) return null;
        double observedS = fills[fills.Length / 2], least = low, most = sump.RimM ?? low + 1;
        for (int i = 0; i < 9; i++)
        {
            double middle = (least + most) / 2;
            // No second start within the stretch: far too little water.
            bool tooSlow = !(Run(view.Place, water, sump, middle, 0.15)?.Pumps[0].MeanFillS is { } fill) || fill > observedS;
            (least, most) = tooSlow ? (middle, most) : (least, middle);
        }

        WaterForecast? told = Run(view.Place, water, sump, most, 1);
        // A twin that cannot be brought to run as the loop runs foretells another loop.
        return told?.Pumps[0].MeanFillS is { } meant && meant > observedS / 2 && meant < observedS * 2 ? told : null;
    }

    private static WaterForecast? Run(PlaceDescription place, Hydraulics water, WaterVessel sump, double startM, double days) =>
        Run(place with { Hydraulics = water with { Vessels = [.. water.Vessels.Select(v => ReferenceEquals(v, sump) ? v with { StartM = startM } : v)] } }, days);

    private static WaterForecast? Run(PlaceDescription place, double days)
    {
        try
        {
            WaterForecast told = WaterForecaster.Run(place, new ForecastOptions { Days = days });
            return told.Stop == StopReason.Reached ? told : null;
        }
        catch (ArgumentException)
        {
            // A place that cannot be reckoned is still a place to be looked at.
            return null;
        }
    }

    private static string? Fills(WaterForecast? ahead) => ahead?.Pumps.FirstOrDefault(p => p.MeanFillS is not null) is { MeanFillS: { } fill }
        ? $"expected: a fill of about {Times.Span(Duration.FromSeconds(fill))}" : null;

    private static string? TopUp(WaterForecast? ahead) => ahead?.Valves.Sum(v => v.LetL) is { } litres && litres >= 1 ? $"expected: about {Figures.Rounded(litres, litres)} L" : null;

    private static List<Interval> Nights(PlaceDescription place, Instant now)
    {
        List<Interval> nights = [];
        LocalDate day = (now - DayRibbon.Half).InZone(place.Zone).Date.PlusDays(-1);
        Instant? set = null;
        for (int i = 0; i < 5; i++, day = day.PlusDays(1))
        {
            Instant midnight = place.Zone.AtStartOfDay(day).ToInstant();
            double offset = place.Zone.GetUtcOffset(midnight).Milliseconds / 3_600_000.0;
            SunTimes sun = SunTimes.Of(day.Year, day.Month, day.Day, place.LatitudeDeg, place.LongitudeDeg, offset);
            if (sun.SunriseH is { } rise && set is { } evening && midnight + Duration.FromHours(rise) > evening) nights.Add(new(evening, midnight + Duration.FromHours(rise)));
            set = sun.SunsetH is { } down ? midnight + Duration.FromHours(down) : null;
        }

        return nights;
    }
}
