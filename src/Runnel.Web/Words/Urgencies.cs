using Runnel.Place.Findings;

namespace Runnel.Web.Words;

/// <summary>How an urgency is written and styled.</summary>
public static class Urgencies
{
    /// <summary>"Act now", "Today", "Soon", "For the record".</summary>
    public static string Word(Urgency urgency) => urgency switch
    {
        Urgency.ActNow => "Act now",
        Urgency.Today => "Today",
        Urgency.Soon => "Soon",
        _ => "For the record",
    };

    /// <summary>Name of the style class that draws its rule.</summary>
    public static string Rule(Urgency urgency) => urgency switch
    {
        Urgency.ActNow => "actnow",
        Urgency.Today => "today",
        Urgency.Soon => "soon",
        _ => "record",
    };
}
