namespace Runnel.Science.Reckoning;

/// <summary>What can hurt, in the words that every page, command and answer uses.</summary>
internal static class Caution
{
    public const string Dose = "Weigh doses, dissolve them first, and give them in parts with a test between. A wrong test or a wrong litre figure kills as surely as no dose. The label, a vet who knows fish and local rules have the last word.";

    public const string Caustic = "Hydroxides and oxides burn skin and eyes and raise pH sharply: gloves, goggles, powder into water and never water onto powder, small steps.";

    public const string Vet = "Sick fish belong before a vet who knows fish. Treating fish that people will eat is regulated in most places: local rules come first.";

    public const string Plants = "Salt that is in the loop stays in it: strawberries, beans and lettuce suffer from little sodium.";

    public const string TimeLeft = "Treat the time as the most there is: warm water, feeding and fright shorten it. Act first, reckon afterwards. What spare air and alarms the law asks for is a local matter: local rules come first.";

    public const string StillDrains = "Treat the time as the most there is: tanks, troughs and pipes above keep draining into it. Act first, reckon afterwards.";

    public const string Electric = "Mains electricity near water kills. Wiring is work for a licensed electrician, behind a residual-current device; switch off before hands go in.";

    public const string Battery = "Batteries need a fuse at the terminal, the right charger and air. Their maker, your local code and a licensed trade have the last word.";

    public const string Discharge = "Taking and discharging water, tank overflow and drains are regulated in most places: local codes come first.";

    public const string Drowning = "Open tanks drown children and animals: cover or fence them.";

    public const string Food = "Whether dried food keeps is decided by your food-safety authority's rules, not by a sum: follow a tested method for times, temperatures and storage.";

    public const string Drinking = "Rain from a roof is not drinking water unless your health authority's rules for it are kept.";

    public const string FishLaw = "Keeping, moving and selling fish is regulated, and so is how densely they may be kept: local law comes first.";

    public const string TestKit = "A sum from test kits is no better than the kit: most read to a third of a step. Test again before acting on a surprise.";
}
