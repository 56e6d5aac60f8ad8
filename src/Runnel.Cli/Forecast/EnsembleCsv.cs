using System.Globalization;
using System.Text;
using Runnel.Twin.Ensembles;

namespace Runnel.Cli.Forecast;

/// <summary>Quantiles of levels and temperatures by the hour: hours from the beginning, what, of what, three quantiles, unit.</summary>
internal static class EnsembleCsv
{
    public static string Write(EnsembleForecast forecast)
    {
        var text = new StringBuilder("hours,quantity,of,p10,p50,p90,unit\n");
        for (int s = 0; s < forecast.TimesS.Count; s++)
        {
            foreach (var vessel in forecast.Vessels)
            {
                Row(s, "level", vessel.Id, vessel.LevelM[s], 1000, "mm");
                if (vessel.TempC.Count > 0) Row(s, "water-temperature", vessel.Id, vessel.TempC[s], 1, "degC");
            }
        }

        return text.ToString();

        void Row(int sample, string quantity, string of, Quantiles q, double by, string unit) => text.Append(
            CultureInfo.InvariantCulture, $"{forecast.TimesS[sample] / 3600:0.####},{quantity},{of},{q.Low * by:0.###},{q.Middle * by:0.###},{q.High * by:0.###},{unit}\n");
    }
}
