using System.Globalization;
using System.Text;
using Runnel.Place;
using Runnel.Twin.Water;

namespace Runnel.Cli.Forecast;

/// <summary>Levels and flows by the hour: hours from the beginning, what, of what, value, unit.</summary>
internal static class ForecastCsv
{
    public static string Write(PlaceDescription place, WaterForecast forecast)
    {
        var text = new StringBuilder("hours,quantity,of,value,unit\n");
        var water = place.Hydraulics!;
        foreach (var sample in forecast.Samples)
        {
            for (int i = 0; i < water.Vessels.Count; i++)
            {
                Row(sample.TimeS, "level", water.Vessels[i].Id, sample.LevelM[i] * 1000, "mm");
                if (sample.TempC.Count > 0) Row(sample.TimeS, "water-temperature", water.Vessels[i].Id, sample.TempC[i], "degC");
                if (water.Vessels[i].Outlet is not null) Row(sample.TimeS, "outflow", water.Vessels[i].Id, sample.OutLPerMin[i], "L/min");
            }

            for (int i = 0; i < water.Pumps.Count; i++) Row(sample.TimeS, "delivered", water.Pumps[i].Id, sample.PumpedLPerMin[i], "L/min");
        }

        return text.ToString();

        void Row(double timeS, string quantity, string of, double value, string unit) =>
            text.Append(CultureInfo.InvariantCulture, $"{timeS / 3600:0.####},{quantity},{of},{value:0.###},{unit}\n");
    }
}
