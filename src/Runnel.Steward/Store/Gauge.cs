using Runnel.Science.Statistics;

namespace Runnel.Steward.Store;

/// <summary>Litres of water in the loop for one unit of the store's reading, learnt from known pulses: each top-up or bleed is a
/// calibration experiment with known litres and a seen change, read from the pulse's own before and after.</summary>
/// <remarks>The change is regressed on the litres, through zero. The litres are known and the change is what scatters, so nothing is
/// lost to attenuation, as it would be the other way round (errors in the regressor).</remarks>
internal sealed class Gauge(double? toldLitresPerUnit)
{
    private const double GoodSpread = 0.12, WorstSpread = 0.7;

    /// <summary>A told footprint is believed to within this share.</summary>
    private const double ToldSpread = 0.08;

    private readonly List<(double Litres, double Change, double Weight)> _pulses = [];
    private double _litresPerUnit = toldLitresPerUnit ?? double.NaN;
    private double _relativeSpread = toldLitresPerUnit is null ? double.NaN : ToldSpread;
    private double _balanceValue = double.NaN, _balanceSpread = double.NaN;

    /// <summary>Litres for one unit of g, or NaN while nothing is known.</summary>
    public double LitresPerUnit => ByBalance ? _balanceValue : _litresPerUnit;

    /// <summary>Standard error of <see cref="LitresPerUnit"/> as a share of it.</summary>
    public double RelativeSpread => ByBalance ? _balanceSpread : _relativeSpread;

    /// <summary>Known well enough to weigh litres.</summary>
    public bool Known => LitresPerUnit <= GreatestLitresPerUnit && RelativeSpread < WorstSpread;

    /// <summary>More than this no loop can hold above its sills: what was learnt then is chance.</summary>
    public double GreatestLitresPerUnit { get; set; } = double.PositiveInfinity;

    /// <summary>Single pulses tell it well: the balance need not be asked.</summary>
    public bool PulsesTellWell => _relativeSpread <= GoodSpread;

    /// <summary>The whole balance tells it better than single pulses do: pulses are small against the scatter of the fills.</summary>
    private bool ByBalance => !PulsesTellWell && !double.IsNaN(_balanceValue) && !(_relativeSpread <= _balanceSpread);

    /// <summary>Takes one pulse: net litres that stayed in the loop, the change of g, and the variance of that change.</summary>
    public void Take(double litres, double change, double changeVariance)
    {
        if (Math.Abs(litres) < 1 || !double.IsFinite(change) || changeVariance <= 0) return;
        _pulses.Add((litres, change, 1 / changeVariance));
        if (_pulses.Count > 80) _pulses.RemoveAt(0);
        if (toldLitresPerUnit is null) Fit();
    }

    /// <summary>A value learnt from the balance as a whole, with its relative standard error.</summary>
    public void Offer(double litresPerUnit, double relativeSpread) => (_balanceValue, _balanceSpread) = (litresPerUnit, relativeSpread);

    private void Fit()
    {
        if (_pulses.Count < 3) return;
        double slope = double.NaN, scale = double.NaN, sumLl = 0;
        for (int pass = 0; pass < 4; pass++)
        {
            double sumLc = 0;
            sumLl = 0;
            foreach (var (litres, change, weight) in _pulses)
            {
                double w = weight;
                if (pass > 0)
                {
                    // Huber's weights: one pulse that met a storm must not bend the gauge.
                    double off = Math.Abs(change - (slope * litres)) / scale;
                    if (off > 1.5) w *= 1.5 / off;
                }

                sumLc += w * litres * change;
                sumLl += w * litres * litres;
            }

            slope = sumLc / sumLl;
            double[] off2 = [.. _pulses.Select(p => Math.Abs(p.Change - (slope * p.Litres))).Order()];
            scale = Math.Max(1e-9, Robust.MadToSd * off2[off2.Length / 2]);
        }

        if (slope <= 0) return;
        double meanWeight = _pulses.Average(p => p.Weight);
        double slopeError = scale * Math.Sqrt(meanWeight / sumLl);
        double spread = Math.Max(slopeError / slope, 0.02);

        // A slope that its own error can turn over says nothing yet.
        if (spread > 0.5) return;
        (_litresPerUnit, _relativeSpread) = (1 / slope, spread);
    }
}
