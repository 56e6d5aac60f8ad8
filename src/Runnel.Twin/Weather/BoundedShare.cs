namespace Runnel.Twin.Weather;

/// <summary>A share between two bounds that follows a normal number: its mean over all such numbers is met exactly, whatever the bounds cut off.</summary>
internal sealed class BoundedShare
{
    private readonly double _least, _most, _slope, _at;

    /// <param name="mean">Mean share to be met.</param>
    /// <param name="least">Least share.</param>
    /// <param name="most">Greatest share.</param>
    /// <param name="slope">How strongly it follows the number.</param>
    public BoundedShare(double mean, double least, double most, double slope)
    {
        (_least, _most, _slope) = (least, most, slope);
        double wanted = Math.Clamp(mean, least + (0.03 * (most - least)), most - (0.03 * (most - least))), low = -30, high = 30;
        for (int i = 0; i < 60; i++)
        {
            _at = (low + high) / 2;
            if (Mean() < wanted) low = _at;
            else high = _at;
        }
    }

    public double Of(double normal) => _least + ((_most - _least) / (1 + Math.Exp(-_at - (_slope * normal))));

    private double Mean()
    {
        double sum = 0, weights = 0;
        for (int i = -25; i <= 25; i++)
        {
            double z = i * 0.2, weight = Math.Exp(-z * z / 2);
            sum += weight * Of(z);
            weights += weight;
        }

        return sum / weights;
    }
}
