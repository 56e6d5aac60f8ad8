namespace Runnel.Twin.Water;

/// <summary>What is kept of a vessel while a forecast runs.</summary>
internal sealed class VesselRecord(double startM)
{
    private double overSince = double.NaN;

    public double StartM { get; } = startM;

    public double LowM { get; private set; } = startM;

    public double HighM { get; private set; } = startM;

    public double HighAtS { get; private set; }

    public double? FirstSpillS { get; private set; }

    public double SpillS { get; private set; }

    public void See(double levelM, double timeS)
    {
        if (levelM < LowM) LowM = levelM;
        if (levelM > HighM) (HighM, HighAtS) = (levelM, timeS);
    }

    public void Over(double timeS)
    {
        FirstSpillS ??= timeS;
        if (double.IsNaN(overSince)) overSince = timeS;
    }

    public void Close(double timeS)
    {
        if (double.IsNaN(overSince)) return;
        SpillS += timeS - overSince;
        overSince = double.NaN;
    }
}

/// <summary>What is kept of a vessel's temperature while a forecast runs.</summary>
internal sealed class TempRecord(double startC)
{
    private readonly double _start = startC;
    private double _low = startC, _high = startC, _end = startC, _sum;
    private long _count;

    public void See(double tempC)
    {
        (_low, _high, _end) = (Math.Min(_low, tempC), Math.Max(_high, tempC), tempC);
        _sum += tempC;
        _count++;
    }

    public VesselTemperatures Told() => new(_start, _low, _high, _count > 0 ? _sum / _count : _start, _end);
}

/// <summary>What is kept of a pump while a forecast runs.</summary>
internal sealed class PumpRecord(bool runs)
{
    private readonly Queue<double> startsOfTheHour = [];
    private double since;
    private bool runsNow = runs, whole;
    private long fills, wholeRuns;
    private double fillS, wholeRunS, runS;
    private long starts;
    private int most;

    public void Start(double timeS)
    {
        if (runsNow) return;
        if (starts > 0)
        {
            fills++;
            fillS += timeS - since;
        }

        starts++;
        startsOfTheHour.Enqueue(timeS);
        while (startsOfTheHour.Peek() <= timeS - 3600) startsOfTheHour.Dequeue();
        most = Math.Max(most, startsOfTheHour.Count);
        (runsNow, since, whole) = (true, timeS, true);
    }

    public void Stop(double timeS)
    {
        if (!runsNow) return;
        runS += timeS - since;
        if (whole)
        {
            wholeRuns++;
            wholeRunS += timeS - since;
        }

        (runsNow, since) = (false, timeS);
    }

    /// <summary>How long it has run so far, s.</summary>
    public double RanS(double timeS) => runS + (runsNow ? timeS - since : 0);

    public void Close(double timeS)
    {
        if (runsNow) runS += timeS - since;
        since = timeS;
    }

    public PumpForecast Told(string id, double deliveredL) => new(
        id, starts, most, runS, deliveredL, runS > 0 ? deliveredL / runS * 60 : 0, fills > 0 ? fillS / fills : null, wholeRuns > 0 ? wholeRunS / wholeRuns : null);
}
