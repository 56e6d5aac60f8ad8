namespace Runnel.Web.Charts;

/// <summary>Maps values between <paramref name="Low"/> and <paramref name="High"/> to places between two ends of a drawing.</summary>
public readonly record struct LinearScale(double Low, double High, double AtLowPx, double AtHighPx)
{
    /// <summary>Where the value is drawn.</summary>
    public double Px(double value) => High == Low ? AtLowPx : AtLowPx + ((value - Low) / (High - Low) * (AtHighPx - AtLowPx));
}
