using CsCheck;
using Runnel.Science.Fish;
using Runnel.Science.Water;

namespace Runnel.Science.Tests.Water;

public sealed class HardnessTests
{
    private static readonly HardnessUnit[] Units = Enum.GetValues<HardnessUnit>();

    [Fact]
    public void Any_unit_converts_there_and_back() => Gen.Select(Gen.Double[0, 1000], Gen.Int[0, Units.Length - 1], Gen.Int[0, Units.Length - 1]).Sample((value, from, to) =>
        Assert.Equal(value, Hardness.Convert(Hardness.Convert(value, Units[from], Units[to]), Units[to], Units[from]), 1e-9));

    [Fact, Trait("source", "APHA Standard Methods 2340 B: 2.497 Ca + 4.118 Mg; a grain a US gallon is 17.12 mg/L (common tables)")]
    public void Hardness_of_calcium_and_magnesium_agrees_with_the_standard_method()
    {
        var parts = Hardness.Parts(40, 10, 80);
        Assert.Equal((2.497 * 40) + (4.118 * 10), parts.TotalMgCaCO3PerL, 0.05);
        Assert.Equal(80, parts.CarbonateMgCaCO3PerL);
        Assert.Equal(parts.TotalMgCaCO3PerL - 80, parts.PermanentMgCaCO3PerL, 1e-12);
        Assert.Equal(0, Hardness.Parts(10, 0, 80).PermanentMgCaCO3PerL);
        Assert.Equal(17.12, Hardness.MgCaCO3PerLOf(HardnessUnit.GrainPerUsGallon), 0.01);
        Assert.Throws<ArgumentOutOfRangeException>(() => Hardness.MgCaCO3PerLOf((HardnessUnit)99));
    }

    [Fact]
    public void Acid_and_the_same_base_undo_each_other() => Gen.Select(Gen.Double[6, 8.5], Gen.Double[30, 200], Gen.Double[0.05, 0.5], Gen.Double[5, 35]).Sample((ph, alkalinity, meq, temp) =>
    {
        double soured = Carbonate.PhAfterAcid(ph, alkalinity, meq, temp), left = alkalinity - (meq * Conversions.MgCaCO3PerMeq);
        Assert.True(soured < ph);
        if (soured is > 4.6 and < 9.9) Assert.Equal(ph, Carbonate.PhAfterBase(soured, left, alkalinity - left, 0, temp), 1e-4);
    });

    [Fact]
    public void Acid_that_takes_all_alkalinity_is_refused() =>
        Assert.Throws<ArgumentOutOfRangeException>("acidMeqPerL", () => Carbonate.PhAfterAcid(7, 50, 1.1, 20));

    [Fact]
    public void Both_published_forms_of_ammonia_agree_within_2_percent() => Gen.Select(Gen.Double[5, 10], Gen.Double[0, 40]).Sample((ph, temp) =>
        Assert.Equal(1, Ammonia.UnionisedFractionBatesPinching(ph, temp) / Ammonia.UnionisedFraction(ph, temp), 0.025));

    [Fact]
    public void Nitrifying_eats_alkalinity_in_step_with_the_nitrogen() => Gen.Double[0, 20].Sample(nitrogen =>
        Assert.Equal(7.146 * nitrogen, 200 - Nitrification.AlkalinityLeftMgCaCO3PerL(200, nitrogen), 0.01));
}
