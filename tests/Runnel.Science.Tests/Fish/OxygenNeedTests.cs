using Runnel.Science.Fish;

namespace Runnel.Science.Tests.Fish;

// US EPA 1986, EPA 440/5-86-003: limit to avoid deaths 3 mg/L, moderate loss of production 4 (non-salmonids) and 5 mg/L (salmonids), from memory; FAO 589
// Table 7.1 and New Mexico State University Circular 680 for what should be kept.
public class OxygenNeedTests
{
    [Theory]
    [InlineData("rainbow trout", true, 6.5, 3)]
    [InlineData("trout", true, 6.5, 3)]
    [InlineData("Nile tilapia", false, 4, 3)]
    [InlineData("tilapia", false, 4, 3)]
    [InlineData("jade perch", false, 4, 3)]
    [InlineData("channel catfish", false, 4, 3)]
    public void The_strictest_source_counts(string species, bool cold, double stressMgPerL, double dangerMgPerL)
    {
        var need = OxygenNeed.Of(species);
        Assert.Equal((cold, true, stressMgPerL, dangerMgPerL), (need.ColdWater, need.Known, need.StressMgPerL, need.DangerMgPerL));
        Assert.NotEmpty(need.Stress.Source);
    }

    [Fact]
    public void An_unlisted_fish_is_held_to_the_limits_of_cold_water()
    {
        var need = OxygenNeed.Of("axolotl");
        Assert.False(need.Known);
        Assert.Equal((5, 3), (need.StressMgPerL, need.DangerMgPerL));
    }

    // Fish Bioenergetics 4.0 (Deslauriers and others 2017): tilapia of 100 g at 28 degC 142.9 mg/(kg h); adult rainbow trout of 250 g at 15 degC 156.6.
    [Theory]
    [InlineData("Nile tilapia", false, 100, 28, 142.9, false)]
    [InlineData("rainbow trout", true, 250, 15, 156.6, false)]
    public void A_species_with_a_model_of_its_own_uses_it(string species, bool cold, double weightG, double tempC, double mgPerKgH, bool standsIn)
    {
        var uptake = RestingUptake.Of(species, cold, weightG, tempC);
        Assert.Equal(mgPerKgH, uptake.MgPerKgH, 0.01 * mgPerKgH);
        Assert.Equal(standsIn, uptake.StandsIn);
    }

    [Fact]
    public void A_species_without_one_is_given_the_thirstiest_of_its_group()
    {
        var uptake = RestingUptake.Of("jade perch", false, 150, 25);
        Assert.True(uptake.StandsIn);
        foreach (string name in (string[])["tilapia", "bluegill adult", "largemouth bass"])
        {
            Assert.True(uptake.MgPerKgH >= Respiration.StandardMgPerKgH(Respiration.Find(name)!, 150, 25));
        }
    }
}
