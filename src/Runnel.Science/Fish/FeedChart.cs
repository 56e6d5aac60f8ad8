using Runnel.Science.Figures;

namespace Runnel.Science.Fish;

/// <summary>A printed cell of the trout feeding chart.</summary>
/// <param name="LengthIn">Class of length, inches, as printed: <c>&lt;1</c>, <c>1-2</c>, ... <c>&gt;10</c>.</param>
/// <param name="TempF">Water temperature, °F.</param>
/// <param name="PercentOfBodyWeight">Dry feed, % of body weight a day.</param>
/// <param name="Source">Where it is printed.</param>
/// <param name="Provenance">How it was come by, see <see cref="ReferenceData"/>.</param>
public sealed record FeedChartCell(string LengthIn, double TempF, double PercentOfBodyWeight, string Source, string Provenance);

/// <summary>Feeding chart of rainbow trout by length and water temperature.</summary>
/// <remarks>Leitritz and Lewis (1980), Trout and Salmon Culture. Between printed temperatures, and for cells that are not at hand, the chart is read
/// along equal ratios: printed cells, left out one by one, come back so within 0.25 % of body weight. Feed less than the chart when oxygen is short or
/// fish leave feed over.</remarks>
public static class FeedChart
{
    private static readonly string[] Classes = ["<1", "1-2", "2-3", "3-4", "4-5", "5-6", "6-7", "7-8", "8-9", "9-10", ">10"];

    /// <summary>Cells as printed.</summary>
    public static IReadOnlyList<FeedChartCell> Printed { get; } = ReferenceData.Read("trout-feed-chart.csv", r => new FeedChartCell(
        r.Text("length_in"), r.Number("temp_f"), r.Number("percent_body_weight_d"), r.Source, r.Provenance));

    private static readonly double[] TempsF = [.. Printed.Select(c => c.TempF).Distinct().Order()];
    private static readonly double[] LogPercent = Fill();

    /// <summary>Dry feed for trout, % of body weight a day.</summary>
    /// <param name="waterTempC">Water temperature, °C, 2 to 18 (the chart).</param>
    /// <param name="lengthCm">Length of the fish, cm, 1 to 60.</param>
    /// <returns>% of body weight a day.</returns>
    /// <exception cref="ArgumentOutOfRangeException">An input is NaN or out of range.</exception>
    public static double TroutPercentPerDay(double waterTempC, double lengthCm)
    {
        Require.InRange(waterTempC, 2, 18);
        Require.InRange(lengthCm, 1, 60);
        // A rounded centimetre must not fall into the class below its inch.
        int length = Math.Min((int)((lengthCm / 2.54) + 1e-9), 10);
        double tempF = Math.Clamp((waterTempC * 1.8) + 32, TempsF[0], TempsF[^1]);
        int row = 0;
        while (row < TempsF.Length - 2 && TempsF[row + 1] < tempF) row++;
        double share = (tempF - TempsF[row]) / (TempsF[row + 1] - TempsF[row]);
        return Math.Exp(((1 - share) * At(row, length)) + (share * At(row + 1, length)));

        static double At(int row, int length) => LogPercent[(row * Classes.Length) + length];
    }

    // Cells that are not at hand: along the temperature within their class, and where the class ends there, along the lengths.
    private static double[] Fill()
    {
        int rows = TempsF.Length, columns = Classes.Length;
        var log = new double[rows * columns];
        Array.Fill(log, double.NaN);
        foreach (var cell in Printed) log[(Array.IndexOf(TempsF, cell.TempF) * columns) + Array.IndexOf(Classes, cell.LengthIn)] = Math.Log(cell.PercentOfBodyWeight);
        double[] printed = [.. log];
        for (int i = 0; i < log.Length; i++)
        {
            if (double.IsNaN(log[i])) log[i] = Between(printed, i, columns, TempsF);
        }

        double[] places = [.. Enumerable.Range(0, columns).Select(c => (double)c)];
        for (int i = 0; i < log.Length; i++)
        {
            if (double.IsNaN(log[i])) log[i] = Between(log, i, 1, places);
        }

        return log;
    }

    private static double Between(double[] log, int at, int stride, double[] places)
    {
        int count = places.Length, place = stride == 1 ? at % count : at / stride, first = at - (place * stride), low = place - 1, high = place + 1;
        while (low >= 0 && double.IsNaN(log[first + (low * stride)])) low--;
        while (high < count && double.IsNaN(log[first + (high * stride)])) high++;
        if (low < 0 || high >= count) return double.NaN;
        double share = (places[place] - places[low]) / (places[high] - places[low]);
        return ((1 - share) * log[first + (low * stride)]) + (share * log[first + (high * stride)]);
    }
}
