using System.Globalization;
using System.Text.Json;
using Runnel.Science.Reckoning;

namespace Runnel.Science.Tests.Reckoning;

// Source: networks written for these checks, solved with exact Colebrook factors and with the EPANET engine 2.3.5; named in each case. Those that a person
// can type in are reached by name.
public sealed class NetworkReckonerTests
{
    private static readonly Dictionary<string, JsonElement> Cases = PublishedSeries.Open("hydraulics-signals/networks.json");

    [Theory]
    [InlineData("net-res-tank-dw", 0.002)]
    [InlineData("net-res-tank-dw-minor", 0.002)]
    [InlineData("net-res-tank-hw150", 0.002)]
    [InlineData("net-laminar-microtube", 0.002)]
    [InlineData("net-transition-zone", 0.1)]
    public void One_pipe_between_two_levels(string name, double relative)
    {
        var c = Cases[name];
        var pipe = c.At("pipes")[0];
        double from = c.At("reservoirs")[0].Number("head_m");
        double to = c.TryGetProperty("tanks", out var tanks) ? tanks[0].Number("elevation_m") + tanks[0].Number("initial_level_m") : c.At("reservoirs")[1].Number("head_m");
        bool darcy = c.At("headloss").GetString() == "D-W";
        var given = new Dictionary<string, string>
        {
            ["hf_m"] = Text(from - to),
            ["length_m"] = Text(pipe.Number("length_m")),
            ["diameter_m"] = Text(pipe.Number("diameter_mm")) + " mm",
            [darcy ? "roughness_mm" : "c"] = Text(pipe.Number("roughness")),
        };
        if (darcy)
        {
            given["minor_k"] = Text(pipe.Number("minor_loss_K"));
            given["nu_m2_s"] = Text(c.Number("nu_m2_s"));
        }

        var answer = Solved(darcy ? "pipe" : "hazen-williams", given);
        c.Near(c.Number("expected_colebrook", "flow_L_min", "P1"), answer["flow_l_min"], relative);
    }

    [Fact]
    public void Pipes_side_by_side()
    {
        var c = Cases["net-parallel-pipes"];
        var pipes = c.At("pipes").EnumerateArray().ToArray();
        string Of(string field) => string.Join(' ', pipes.Select(p => Text(p.Number(field))));
        var answer = Solved("parallel-pipes", new()
        {
            ["head_m"] = Text(c.At("reservoirs")[0].Number("head_m")),
            ["outlets_m"] = Text(c.At("reservoirs")[1].Number("head_m")),
            ["lengths_m"] = Of("length_m"),
            ["diameters_mm"] = Of("diameter_mm"),
            ["minor_ks"] = Of("minor_loss_K"),
            ["roughness_mm"] = Text(pipes[0].Number("roughness")),
            ["nu_m2_s"] = Text(c.Number("nu_m2_s")),
        });
        double[] flows = Numbers(answer.Say("branches_l_min"));
        for (int i = 0; i < pipes.Length; i++) c.Near(c.Number("expected_colebrook", "flow_L_min", pipes[i].At("id").GetString()!), flows[i], 0.002);
    }

    [Theory, InlineData("net-sprinkler-lateral-16mm"), InlineData("net-drip-lateral")]
    public void A_line_of_emitters(string name)
    {
        var c = Cases[name];
        var pipes = c.At("pipes").EnumerateArray().ToArray();
        var answer = Solved("emitter-line", new()
        {
            ["head_m"] = Text(c.At("reservoirs")[0].Number("head_m")),
            ["count"] = Text(pipes.Length),
            ["spacing_m"] = Text(pipes[0].Number("length_m")),
            ["diameter_mm"] = Text(pipes[0].Number("diameter_mm")),
            ["roughness_mm"] = Text(pipes[0].Number("roughness")),
            ["coeff_L_min_per_m_pow"] = Text(c.At("emitters")[0].Number("coeff_L_min_per_m_pow")),
            ["emitter_exponent"] = Text(c.Number("emitter_exponent")),
            ["nu_m2_s"] = Text(c.Number("nu_m2_s")),
        });
        double[] each = Numbers(answer.Say("emitters_l_min"));
        double left = answer["total_l_min"];
        for (int i = 0; i < pipes.Length; i++)
        {
            c.Near(c.Number("expected_colebrook", "flow_L_min", pipes[i].At("id").GetString()!), left, 0.002);
            left -= each[i];
        }

        // The last pipe of the drip line runs between laminar and turbulent flow.
        c.Near(c.Number("expected_colebrook", "head_m", $"E{pipes.Length}"), answer["last_head_m"], 0, 0.01);
    }

    [Fact]
    public void A_tank_that_empties_through_a_pipe()
    {
        var c = Cases["net-tank-empties-dt60"];
        var (tank, pipe) = (c.At("tanks")[0], c.At("pipes")[0]);
        var given = new Dictionary<string, string>
        {
            ["tank_diameter_m"] = Text(tank.Number("diameter_m")),
            ["h1_m"] = Text(tank.Number("initial_level_m")),
            ["fall_m"] = Text(tank.Number("elevation_m")),
            ["length_m"] = Text(pipe.Number("length_m")),
            ["diameter_m"] = Text(pipe.Number("diameter_mm")) + " mm",
            ["roughness_mm"] = Text(pipe.Number("roughness")),
            ["minor_k"] = Text(pipe.Number("minor_loss_K")),
            ["nu_m2_s"] = Text(c.Number("nu_m2_s")),
        };
        c.Near(c.Number("expected_continuous", "colebrook", "empty_s"), Solved("drain-down-pipe", given)["time_s"], 0.001);
        foreach (var level in c.At("expected_continuous", "colebrook", "level_m").EnumerateObject().Where(l => l.Name != "0"))
        {
            given["h2_m"] = Text(level.Value.GetDouble());
            c.Near(double.Parse(level.Name, CultureInfo.InvariantCulture), Solved("drain-down-pipe", given)["time_s"], 0.002);
        }
    }

    [Fact]
    public void A_pump_and_its_branches_keep_the_balance_of_head_and_flow()
    {
        var given = new Dictionary<string, string>
        {
            ["shutoff_head_m"] = "5",
            ["flow1_l_min"] = "80",
            ["head1_m"] = "3.5",
            ["flow2_l_min"] = "160",
            ["head2_m"] = "0",
            ["riser_length_m"] = "3",
            ["riser_diameter_mm"] = "40",
            ["riser_k"] = "2.5",
            ["outlets_m"] = "1.1 1.25 1 6",
            ["lengths_m"] = "1 2 3 4",
            ["diameters_mm"] = "25",
            ["minor_ks"] = "6",
            ["roughness_mm"] = "0.0015",
            ["nu_m2_s"] = "1.004e-6",
        };
        var answer = Solved("pump-branches", given);
        double[] flows = Numbers(answer.Say("branches_l_min"));
        Assert.Equal(answer["total_l_min"], flows.Sum(), 1e-3);
        Assert.Equal(0, flows[3], 1e-3); // 6 m is more than the pump can lift
        double Loss(double flow, string length, string bore, string k) => Solved("pipe", new()
        {
            ["flow_m3_s"] = Text(flow) + " L/min",
            ["length_m"] = length,
            ["diameter_m"] = bore,
            ["roughness_mm"] = "0.0015",
            ["minor_k"] = k,
            ["nu_m2_s"] = "1.004e-6",
        })["head_loss_m"];
        double pump = Solved("pump-curve", new() { ["h0_m"] = "5", ["q1_l_min"] = "80", ["h1_m"] = "3.5", ["q2_l_min"] = "160", ["h2_m"] = "0", ["flow_l_min"] = Text(answer["total_l_min"]) })["head_m"];
        Assert.Equal(answer["manifold_head_m"], pump - Loss(answer["total_l_min"], "3", "0.04", "2.5"), 1e-4);
        (double Outlet, string Length)[] branches = [(1.1, "1"), (1.25, "2"), (1, "3")];
        foreach (var (branch, flow) in branches.Zip(flows)) Assert.Equal(answer["manifold_head_m"], branch.Outlet + Loss(flow, branch.Length, "0.025", "6"), 1e-4);

        // A fouled branch gives less, and the others more.
        given["minor_ks"] = "60 6 6 6";
        double[] fouled = Numbers(Solved("pump-branches", given).Say("branches_l_min"));
        Assert.True(fouled[0] < 0.6 * flows[0] && fouled[1] > flows[1] && fouled[2] > flows[2]);
        given["lengths_m"] = "1 2";
        Assert.Contains("one for each branch", Assert.Single(Catalogue.Find("pump-branches")!.Solve(given).Problems).Line, StringComparison.Ordinal);
    }

    private static Answer Solved(string relation, Dictionary<string, string> given)
    {
        var (answer, problems) = Catalogue.Find(relation)!.Solve(given);
        return answer ?? throw new InvalidOperationException($"{relation}: {string.Join(" ", problems.Select(p => p.Line))}");
    }

    private static double[] Numbers(string list) => [.. list.Split(' ').Select(v => double.Parse(v, CultureInfo.InvariantCulture))];

    private static string Text(double value) => value.ToString("R", CultureInfo.InvariantCulture);
}
