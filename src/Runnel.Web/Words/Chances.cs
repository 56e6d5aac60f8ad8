namespace Runnel.Web.Words;

/// <summary>Probabilities as odds that people can picture.</summary>
public static class Chances
{
    /// <summary>"9 in 10", "2 in 3", "less than 1 in 20".</summary>
    public static string InWords(double probability) => probability switch
    {
        < 0.05 => "less than 1 in 20",
        < 0.075 => "1 in 20",
        < 0.14 => "1 in 10",
        < 0.225 => "1 in 5",
        < 0.29 => "1 in 4",
        < 0.37 => "1 in 3",
        < 0.45 => "2 in 5",
        < 0.56 => "1 in 2",
        < 0.64 => "3 in 5",
        < 0.71 => "2 in 3",
        < 0.78 => "3 in 4",
        < 0.86 => "4 in 5",
        < 0.925 => "9 in 10",
        < 0.975 => "19 in 20",
        _ => "more than 19 in 20",
    };
}
