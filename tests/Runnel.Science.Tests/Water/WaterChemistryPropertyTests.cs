using CsCheck;
using Runnel.Science.Water;

namespace Runnel.Science.Tests.Water;

public sealed class WaterChemistryPropertyTests
{
    [Fact]
    public void Carbon_dioxide_and_ph_undo_each_other() =>
        Gen.Select(Gen.Double[5.5, 9], Gen.Double[5, 300], Gen.Double[2, 38]).Sample((ph, alkalinity, temp) =>
        {
            double co2 = Carbonate.CO2MgPerL(ph, alkalinity, temp);
            if (co2 is > 1e-4 and < 500) Assert.Equal(ph, Carbonate.PhFromCO2(co2, alkalinity, temp), 1e-9);
        });

    [Fact]
    public void Unionised_share_rises_with_ph_and_warmth() => Gen.Select(Gen.Double[5, 9.9], Gen.Double[0, 45]).Sample((ph, temp) =>
    {
        double share = Ammonia.UnionisedFraction(ph, temp);
        Assert.True(Ammonia.UnionisedFraction(ph + 0.1, temp) > share);
        Assert.True(Ammonia.UnionisedFraction(ph, temp + 1) > share);
        Assert.Equal(0.05, Ammonia.UnionisedMgNPerL(Ammonia.TanLimitMgNPerL(0.05, ph, temp), ph, temp), 1e-12);
    });

    [Fact]
    public void Oxygen_falls_with_warmth_salt_and_height() => Gen.Select(Gen.Double[0, 38], Gen.Double[0, 38], Gen.Double[0, 4000]).Sample((temp, salt, height) =>
    {
        double here = OxygenSaturation.AtAltitudeMgPerL(temp, height, salt);
        Assert.True(OxygenSaturation.AtAltitudeMgPerL(temp + 1, height, salt) < here);
        Assert.True(OxygenSaturation.AtAltitudeMgPerL(temp, height, salt + 1) < here);
        Assert.True(OxygenSaturation.AtAltitudeMgPerL(temp, height + 100, salt) < here);
    });

    [Fact]
    public void A_base_without_dose_changes_nothing() => Assert.Equal(6.6, Carbonate.PhAfterBase(6.6, 40, 0, 0, 22), 1e-9);

    [Theory]
    [InlineData("Ca(OH")]
    [InlineData("CaOH)2")]
    [InlineData("Xx2")]
    [InlineData("k2")]
    public void A_formula_that_cannot_be_read_says_where(string formula) => Assert.Throws<FormatException>(() => ChemicalFormula.MolarMass(formula));

    [Fact]
    public void What_is_out_of_range_is_refused()
    {
        Assert.Throws<ArgumentOutOfRangeException>("ph", () => Ammonia.UnionisedFraction(15, 20));
        Assert.Throws<ArgumentOutOfRangeException>("waterTempC", () => Ammonia.UnionisedFraction(7, double.NaN));
        Assert.Throws<ArgumentOutOfRangeException>("waterTempC", () => OxygenSaturation.MgPerL(60));
        Assert.Throws<ArgumentOutOfRangeException>("chlorineMgPerL", () => Dechlorination.ThiosulfateG(1000, -1));
        Assert.Null(AlkalinityDose.Find("vinegar"));
    }
}
