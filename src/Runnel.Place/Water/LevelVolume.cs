namespace Runnel.Place.Water;

/// <summary>How much water stands in a vessel at a level: points joined by straight lines, the first at the floor, both rising.</summary>
/// <remarks>Above the last point it goes on as between the last two.</remarks>
public sealed class LevelVolume
{
    private readonly double[] levels, volumes;

    /// <param name="levelM">Heights above the floor, m; the first is 0.</param>
    /// <param name="volumeM3">Water at each, m3; the first is 0.</param>
    /// <exception cref="ArgumentException">There are fewer than two points, or one of both does not rise from 0.</exception>
    public LevelVolume(IReadOnlyList<double> levelM, IReadOnlyList<double> volumeM3)
    {
        ArgumentNullException.ThrowIfNull(levelM);
        ArgumentNullException.ThrowIfNull(volumeM3);
        bool good = levelM.Count == volumeM3.Count && levelM.Count >= 2 && levelM[0] == 0 && volumeM3[0] == 0;
        for (int i = 1; good && i < levelM.Count; i++) good = levelM[i] > levelM[i - 1] && volumeM3[i] > volumeM3[i - 1] && double.IsFinite(levelM[i] + volumeM3[i]);
        if (!good) throw new ArgumentException("levels and volumes must both rise from 0, in two points or more", nameof(levelM));
        (levels, volumes) = ([.. levelM], [.. volumeM3]);
    }

    /// <summary>Upright walls.</summary>
    public static LevelVolume Upright(double footprintM2) => new([0, 1], [0, footprintM2]);

    /// <summary>Heights of the points, m.</summary>
    public IReadOnlyList<double> Levels => levels;

    /// <summary>Level at a volume, m; below 0 for less than nothing.</summary>
    public double LevelM(double volumeM3)
    {
        int i = Piece(volumes, volumeM3);
        return levels[i] + ((volumeM3 - volumes[i]) * (levels[i + 1] - levels[i]) / (volumes[i + 1] - volumes[i]));
    }

    /// <summary>Water at a level, m3.</summary>
    public double VolumeM3(double levelM)
    {
        int i = Piece(levels, levelM);
        return volumes[i] + ((levelM - levels[i]) * (volumes[i + 1] - volumes[i]) / (levels[i + 1] - levels[i]));
    }

    /// <summary>Area of the water's surface at a level, m2.</summary>
    public double AreaM2(double levelM)
    {
        int i = Piece(levels, levelM);
        return (volumes[i + 1] - volumes[i]) / (levels[i + 1] - levels[i]);
    }

    private static int Piece(double[] points, double value)
    {
        int i = 0;
        while (i < points.Length - 2 && value >= points[i + 1]) i++;
        return i;
    }
}
