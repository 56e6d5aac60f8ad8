using CsCheck;
using Runnel.Records.Packing;

namespace Runnel.Tests.Records;

public sealed class ReadingBlockTests
{
    private static readonly Gen<double> AnyFinite = Gen.Double.Where(double.IsFinite);

    // What sensors send: short decimals, switches, tips times a scale that is no decimal, and anything at all.
    private static readonly Gen<double> AnyValue = Gen.OneOf(
        Gen.Int[-100_000, 100_000].Select(Gen.Int[0, 6], (n, d) => n / Math.Pow(10, d)),
        Gen.Int[0, 1].Select(n => (double)n),
        Gen.Int[0, 40].Select(n => n * 0.2),
        Gen.Const(-0.0),
        AnyFinite);

    private static readonly Gen<Point[]> AnyPoints =
        Gen.Select(
            Gen.OneOf(Gen.Const(10_000_000L), Gen.Const(10_000L), Gen.Const(1L)),
            Gen.Long[-1_000_000_000_000, 1_000_000_000_000],
            Gen.Select(Gen.Int[1, 5000], AnyValue).Array[1, 300],
            (unit, start, steps) =>
            {
                var points = new Point[steps.Length];
                long time = start * unit;
                for (int i = 0; i < steps.Length; i++) points[i] = new Point(time += steps[i].Item1 * unit, steps[i].Item2);
                return points;
            });

    [Fact]
    public void What_is_packed_comes_back_to_the_last_bit() =>
        AnyPoints.Sample(
            points =>
            {
                var back = ReadingBlock.Unpack(ReadingBlock.Pack(points));
                return back.Length == points.Length && back.Zip(points).All(p =>
                    p.First.Time == p.Second.Time && BitConverter.DoubleToInt64Bits(p.First.Value) == BitConverter.DoubleToInt64Bits(p.Second.Value));
            },
            iter: 2000);

    [Fact]
    public void A_changed_byte_is_never_taken_for_readings() =>
        Gen.Select(AnyPoints, Gen.Int[0, int.MaxValue], Gen.Int[1, 255]).Sample(
            (points, place, change) =>
            {
                byte[] bytes = ReadingBlock.Pack(points);
                bytes[place % bytes.Length] ^= (byte)change;
                Assert.Throws<InvalidDataException>(() => ReadingBlock.Unpack(bytes));
            },
            iter: 500);

    [Fact]
    public void A_temperature_every_ten_seconds_takes_under_three_bytes_a_reading()
    {
        var noise = new Random(7);
        var points = new Point[360];
        for (int i = 0; i < points.Length; i++)
        {
            points[i] = new Point(i * 100_000_000L, Math.Round(20 + Math.Sin(i / 60.0) + (noise.NextDouble() * 0.1), 2));
        }

        Assert.InRange(ReadingBlock.Pack(points).Length / 360.0, 1, 3);
    }

    [Theory]
    [InlineData(0L)]
    [InlineData(-1L)]
    [InlineData(35_999_999_999L)]
    [InlineData(36_000_000_000L)]
    [InlineData(-36_000_000_000L)]
    [InlineData(-36_000_000_001L)]
    public void Hours_are_counted_down_also_before_1970(long time)
    {
        long hour = Times.Hour(time);
        Assert.InRange(time - (hour * Times.PerHour), 0, Times.PerHour - 1);
        Assert.Equal(hour, Times.HourOfKey(Times.Key(3, hour)));
        Assert.Equal(3, Times.ChannelOfKey(Times.Key(3, hour)));
    }
}
