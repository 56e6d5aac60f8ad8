using Runnel.Science.Pipes;
using Runnel.Science.Water;

namespace Runnel.Science.Tests.Pipes;

// Source: Stokes (1851), Rushton and others (1996), Clift, Grace and Weber (1978), Hazen (1904), Davidson and Summerfelt (2005); named in each row.
public sealed class PublishedSolidsTests
{
    private static readonly PublishedTable Table = PublishedTable.Open("hydraulics-signals/solids.csv");

    public static IEnumerable<TheoryDataRow<string, string>> Rows => Table.Rows;

    [Theory, MemberData(nameof(Rows))]
    public void Settling_relations_agree_with_print(string row, string source)
    {
        var c = Table[row];
        Assert.Equal(source, c.Source);
        double N(string name) => c.Number(name);
        switch (row)
        {
            case var r when r.StartsWith("stokes", StringComparison.Ordinal) || r == "fluids-laminar-settling":
                double velocity = Settling.StokesMPerS(N("diameter_m"), N("rho_p_kg_m3"), N("rho_kg_m3"), N("mu_Pa_s"));
                c.Compare("velocity_m_s", velocity);
                c.Compare("Re", velocity * N("diameter_m") * N("rho_kg_m3") / N("mu_Pa_s"));
                break;
            case var r when r.StartsWith("settling", StringComparison.Ordinal):
                c.Compare("velocity_m_s", Settling.SphereMPerS(N("diameter_m"), N("rho_p_kg_m3"), N("rho_kg_m3"), N("mu_Pa_s")));
                c.Compare("stokes_velocity_m_s", Settling.StokesMPerS(N("diameter_m"), N("rho_p_kg_m3"), N("rho_kg_m3"), N("mu_Pa_s")));
                break;
            case "drag-stokes-0.1":
                c.Compare("Cd", Settling.DragStokes(N("Re")));
                break;
            case var r when r.StartsWith("drag-haider", StringComparison.Ordinal):
                c.Compare("Cd", Settling.DragHaiderLevenspiel(N("Re")));
                break;
            case var r when r.StartsWith("drag-clift", StringComparison.Ordinal):
                c.Compare("Cd", Settling.DragCliftGauvin(N("Re")));
                break;
            case "radial-flow-settler-loading":
                double area = N("flow_L_min") / 60_000 / N("surface_loading_m3_s_m2");
                c.Compare("area_m2", area);
                c.Compare("surface_loading_m_h", Settling.SurfaceLoadingMPerH(N("flow_L_min"), area));
                c.Compare("surface_loading_gpm_ft2", N("surface_loading_m3_s_m2") * 60_000 / Conversions.LPerUsGallon * Conversions.M2PerSquareFoot);
                break;
            case var r when r.StartsWith("overflow-rate", StringComparison.Ordinal):
                double loading = Settling.SurfaceLoadingMPerH(N("flow_L_min"), Math.PI * N("tank_diameter_m") * N("tank_diameter_m") / 4);
                c.Compare("overflow_rate_m_h", loading);
                c.Compare("overflow_rate_cm_s", loading / 36);
                c.Compare("ideal_removal_fraction", Settling.IdealRemoval(10 * N("particle_velocity_cm_s"), loading));
                break;
            case var r when r.StartsWith("fish-solids", StringComparison.Ordinal) || r.EndsWith("-removal", StringComparison.Ordinal):
                return; // reference data
            default:
                throw c.Unknown();
        }

        c.AssertAllCompared();
    }
}
