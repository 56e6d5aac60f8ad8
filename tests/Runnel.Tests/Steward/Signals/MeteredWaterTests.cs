using Runnel.Place;
using Runnel.Steward.Ledger;
using Runnel.Steward.Signals;
using Runnel.Tests.Steward.Watches;

namespace Runnel.Tests.Steward.Signals;

public sealed class MeteredWaterTests
{
    [Theory]
    [InlineData(Quantity.VolumeTotal)]
    [InlineData(Quantity.Volume)]
    [InlineData(Quantity.Flow)]
    public void A_meter_on_the_valves_gives_the_ledger_its_litres(Quantity measures)
    {
        Channel topUp = new("top-up-meter", measures, "top-up"), bleed = new("bleed-meter", measures, "bleed");
        var log = HandMadeLog.Of(60, null, HandMadeLog.PumpSwitch, topUp, bleed, HandMadeLog.TopUp);
        log.Cycles(0, 96, 8, 4);
        Meter(log, topUp, 12, measures);
        Meter(log, bleed, 5, measures);
        // The valve's own switch says when, and must not be counted beside the meter.
        for (int day = 0; day < 4; day++) log.Open(HandMadeLog.TopUp, (24 * day) + 9, 3);
        var days = DayLedger.Of(log.Read().State, new LedgerDoubts([]));
        Assert.Equal(4 * 12, days.Sum(d => d.TopUp.L), 0.01);
        Assert.Equal(4 * 5, days.Sum(d => d.Bleed.L), 0.01);
    }

    [Fact]
    public void A_running_count_of_rain_is_taken_by_its_steps()
    {
        var rain = new Channel("gauge", Quantity.RainTotal);
        var log = HandMadeLog.Of(60, null, HandMadeLog.PumpSwitch, rain);
        log.Cycles(0, 48, 8, 4);
        double total = 412;
        for (int i = 0; i < 48 * 6; i++)
        {
            if (i is >= 60 and < 70) total += 1;
            if (i == 100) total = 0; // the gauge's battery was changed
            log.Put(rain, i / 6.0, total);
        }

        // Ten millimetres on 2 m2.
        Assert.Equal(20, DayLedger.Of(log.Read().State, new LedgerDoubts([])).Sum(d => d.Rain.L), 0.01);
    }

    [Fact]
    public void A_flow_is_believed_for_a_quarter_of_an_hour_and_not_over_a_gap()
    {
        var meter = new MeteredWater(new Channel("flow", Quantity.Flow, "top-up"));
        Assert.Equal(0, meter.Take(HandMadeLog.At(0), 2));
        Assert.Equal(20, meter.Take(HandMadeLog.At(1.0 / 6), 2), 1e-9);
        Assert.Equal(30, meter.Take(HandMadeLog.At(8), 2), 1e-9);
    }

    /// <summary>Litres let through once a day, over four minutes, as that kind of meter writes them; the count is set back on the third day.</summary>
    private static void Meter(HandMadeLog log, Channel meter, double litres, Quantity measures)
    {
        double count = 730;
        for (int day = 0; day < 4; day++)
        {
            double at = (24 * day) + 9;
            log.Put(meter, at - 0.5, measures == Quantity.VolumeTotal ? count : 0);
            if (day == 2) count = 0;
            if (measures == Quantity.Flow) log.Put(meter, at, 0);
            for (int minute = 1; minute <= 4; minute++)
            {
                count += litres / 4;
                double value = measures switch { Quantity.VolumeTotal => count, Quantity.Volume => litres / 4, _ => minute < 4 ? litres / 3 : 0 };
                log.Put(meter, at + (minute / 60.0), value);
            }
        }
    }
}
