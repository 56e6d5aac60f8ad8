using Runnel.Place.PlaceFiles;
using Runnel.Place.Water;

namespace Runnel.Tests.Place;

public class HydraulicsTests
{
    private static readonly string Example = File.ReadAllText(Path.Combine(AppContext.BaseDirectory, "places", "low-wall-yard.toml"));

    [Fact]
    public void The_example_tells_its_water_pipe_by_pipe()
    {
        var water = PlaceFile.Read(Example, "p", PlaceNeeds.Forecast).Place!.Hydraulics!;
        var tank = water.Vessels.Single(v => v.Id == "trout-tank");
        var pump = Assert.Single(water.Pumps);

        Assert.Equal(0.63 * 0.1, tank.Outlet!.DiameterM, 12);
        Assert.Equal(0.82 + 0.75 - 0.25, tank.Outlet.Drain!.EndM!.Value, 12);
        Assert.Equal(1.6, tank.Outlet.Drain.MinorK, 12);
        Assert.Equal(0.118, water.Vessels.Single(v => v.Id == "swirl").Shape.VolumeM3(0.8), 12);
        Assert.Equal(0.55, water.Vessels.Single(v => v.Id == "swirl").Shape.LevelM(0.068), 12);
        Assert.Equal([new PumpPoint(0, 3.6), new PumpPoint(60, 2.5), new PumpPoint(95, 1.2)], pump.Curve);
        Assert.Equal((0.3, 0.15, 1.75), (pump.OnM!.Value, pump.OffM!.Value, pump.Ends[0].EndM!.Value));
        Assert.Equal((86_400, 360), (water.Valves[0].EveryS, water.Valves[0].RunS));
    }

    // Files that were good for reading logs stay so, however the keys that were kept for later commands are written.
    [Fact]
    public void What_does_not_tell_enough_of_the_water_is_no_problem_but_where_it_is_needed()
    {
        string odd = Sample.Least.Replace("band = ", "floor-height = 3\noutlet = { kind = \"standpipe\", colour = \"red\" }\nlevel-volume = \"deep\"\nband = ", StringComparison.Ordinal);
        var read = PlaceFile.Read(odd, "p");
        Assert.Empty(read.Problems);
        Assert.Null(read.Place!.Hydraulics);
        Assert.NotEmpty(read.HydraulicProblems);

        Assert.NotEmpty(PlaceFile.Read(odd, "p", PlaceNeeds.Forecast).Problems);
        Assert.Contains(PlaceFile.Read(Sample.Least, "p", PlaceNeeds.Forecast).Problems, p => p.What.Contains("how the water moves", StringComparison.Ordinal));
    }

    [Fact]
    public void All_that_is_wrong_with_the_water_is_told_at_once_with_its_line_and_a_remedy()
    {
        string wrong = Example
            .Replace("to = \"swirl\"", "to = \"swrl\"", StringComparison.Ordinal)
            .Replace("fittings = [\"elbow-medium-radius\", \"elbow-medium-radius\"]\nfall", "fittings = [\"elbow-medium-radus\"]\nfall", StringComparison.Ordinal)
            .Replace("diameter = \"40 mm\"", "diametr = \"40 mm\"", StringComparison.Ordinal)
            .Replace("[\"60 L/min\", \"2.5 m\"], ", "[\"60 L/min\", \"3.9 m\"], ", StringComparison.Ordinal)
            .Replace("footprint    = \"0.24 m2\"\n", "", StringComparison.Ordinal)
            .Replace("run   = \"6 min\"", "run   = \"2 d\"", StringComparison.Ordinal);
        var problems = PlaceFile.Read(wrong, "place.toml", PlaceNeeds.Forecast).Problems;

        string[] keys = ["swirl", "elbow-medium-radius", "diameter"];
        Assert.All(keys, nearest => Assert.Contains(problems, p => p.Nearest == nearest));
        Assert.Contains(problems, p => p.KeyPath == "equipment.lift-pump.curve");
        Assert.Contains(problems, p => p.What.Contains("shape of [[vessel]] filter", StringComparison.Ordinal));
        Assert.Contains(problems, p => p.KeyPath == "equipment.top-up.run");
        Assert.All(problems, p => Assert.True(p.Line > 1 && p.Remedy.Length > 0, p.ToString()));
        Assert.Equal(problems.OrderBy(p => p.Line), problems);
    }

    [Fact]
    public void An_id_given_twice_is_a_problem_and_no_more()
    {
        string twice = Example.Replace("id           = \"swirl\"", "id           = \"filter\"", StringComparison.Ordinal);
        Assert.Contains(PlaceFile.Read(twice, "p").Problems, p => p.What.Contains("not used yet", StringComparison.Ordinal));
    }

    [Fact]
    public void Levels_and_volumes_are_each_others_inverse_and_upside_down_tables_are_refused()
    {
        var shape = new LevelVolume([0, 0.2, 0.5], [0, 0.01, 0.11]);
        foreach (double level in (double[])[-0.1, 0, 0.1, 0.2, 0.37, 0.5, 0.9]) Assert.Equal(level, shape.LevelM(shape.VolumeM3(level)), 12);
        Assert.Equal(1.0 / 3, shape.AreaM2(0.3), 12);
        Assert.Throws<ArgumentException>(() => new LevelVolume([0, 0.2, 0.1], [0, 0.01, 0.11]));
        Assert.Throws<ArgumentException>(() => new LevelVolume([0.1, 0.2], [0, 0.01]));
    }
}
