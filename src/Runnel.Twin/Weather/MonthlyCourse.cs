namespace Runnel.Twin.Weather;

/// <summary>Twelve monthly means as a course over the year: straight between knots in mid-month that are set so that each month keeps its mean.</summary>
internal sealed class MonthlyCourse
{
    private const double MonthDays = 365.25 / 12;
    private readonly double[] _knots = new double[12];

    public MonthlyCourse(IReadOnlyList<double> means)
    {
        for (int m = 0; m < 12; m++) _knots[m] = means[m];
        // The mean over a month of straight lines is 6/8 of its knot and 1/8 of each neighbour's.
        for (int sweep = 0; sweep < 60; sweep++)
        {
            for (int m = 0; m < 12; m++) _knots[m] = (means[m] - ((_knots[(m + 11) % 12] + _knots[(m + 1) % 12]) / 8)) * 8 / 6;
        }
    }

    public double At(double dayOfYear)
    {
        double at = ((dayOfYear - 0.5) / MonthDays) + 11.5;
        int m = (int)at;
        double share = at - m;
        return (_knots[m % 12] * (1 - share)) + (_knots[(m + 1) % 12] * share);
    }
}
