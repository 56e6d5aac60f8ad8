using Runnel.Science.Fish;
using static Runnel.Science.Reckoning.Ask;

namespace Runnel.Science.Reckoning;

/// <summary>What air pumps and surfaces give.</summary>
internal static class Aerating
{
    private static readonly Input Air = Number("airflow_l_min", "L/min", "air", 0, 1e6, "30");
    private static readonly Input Depth = Number("depth_m", "m", "depth of the air stone", 0, 20, "0.8");
    private static readonly Input Theta = Number("theta", "1", "factor a degree", 1, 1.1, "1.024").Or("1.024");

    public static readonly Relation[] All =
    [
        new("otr-field", "How much oxygen does my aerator really give?")
        {
            Explanation = "Oxygen that a rated aerator gives in your water: warmer, dirtier, higher up, and already holding oxygen.",
            Inputs =
            [
                Number("sotr_g_h", "g/h", "rated transfer in clean water at 20 degC", 0, 1e7, "100"), Number("alpha", "1", "transfer in this water over clean water: 0.8 to 0.95", 0.1, 1.2, "0.9").Or("0.9"),
                Number("beta", "1", "saturation in this water over clean water", 0.5, 1.1, "0.98").Or("0.98"), Theta, WaterTemp.Within(0, 40),
                Number("altitude_m", "m", "height above sea level", -450, 5000, "0").Or("0"), Oxygen.Named("do_mg_l", "oxygen kept in the water").Say("5"),
            ],
            Outputs = [new("otr_g_h", "g/h", "oxygen given")],
            Along = "do_mg_l", Shown = (0, 9),
            Formula = "OTR = SOTR alpha theta^(T - 20) (beta Cs - C)/Cs20",
            Source = "ASCE 2-06, field correction; saturation by Benson and Krause (1984).",
            Cautions = [Caution.Electric],
            Reckon = g => [Aeration.FieldGPerH(g["sotr_g_h"], g["temp_c"], g["do_mg_l"], g["altitude_m"], g["alpha"], g["beta"], g["theta"])],
            Meaning = a => $"{a.Say("otr_g_h")}, enough for about {Figure.Say(Math.Max(0, a["otr_g_h"]) / 0.3, "kg")} of fish at 300 mg/(kg h).",
        },
        new("kla-temperature", "How does gas transfer change with warmth?")
        {
            Explanation = "A transfer coefficient carried from 20 degC to another temperature.",
            Inputs = [WaterTemp.Within(0, 40), Number("kla20_per_h", "1/h", "coefficient at 20 degC", 0, 100, "1"), Theta],
            Outputs = [new("kla_per_h", "1/h", "coefficient at that temperature")],
            Along = "temp_c",
            Formula = "kLa = kLa20 theta^(T - 20)",
            Source = "ASCE 2-06.",
            Reckon = g => [Aeration.TransferPerH(g["kla20_per_h"], g["temp_c"], g["theta"])],
            Meaning = a => $"{a.Say("kla_per_h")}.",
        },
        new("air-to-oxygen", "How much oxygen is in my air?")
        {
            Explanation = "Oxygen that an air flow hands over to the water: a litre a minute carries 16.7 g an hour, and 2 to 7 % of it dissolves for each metre of depth.",
            Inputs = [Air, Number("sote_percent", "%", "share that dissolves", 0, 100, "4")],
            Outputs = [new("o2_supplied_g_h", "g/h", "oxygen given")],
            Along = "airflow_l_min", Shown = (0, 120),
            Formula = "g/h = L/min x 60 x 1.2041 x 0.2314 x share",
            Source = "Air of 1.2041 kg/m3 with 23.14 % oxygen by mass.",
            Reckon = g => [Aeration.OxygenFromAirGPerH(g["airflow_l_min"], g["sote_percent"] / 100)],
            Meaning = a => $"{a.Say("o2_supplied_g_h")}, enough for about {Figure.Say(a["o2_supplied_g_h"] / 0.3, "kg")} of fish at 300 mg/(kg h).",
        },
        new("diffuser-pressure", "What pressure must my air pump push?")
        {
            Explanation = "Pressure of the water over an air stone; stone and hose add a third and more.",
            Inputs = [Depth],
            Outputs = [new("gauge_kpa", "kPa", "pressure above that of the air"), new("gauge_mbar", "mbar", "the same in millibar, as on pumps")],
            Along = "depth_m", Shown = (0, 2),
            Formula = "p = 997 x 9.80665 x depth",
            Source = "Hydrostatics.",
            Cautions = ["Hang the pump above the water or fit a check valve: else water siphons into it when power fails.", Caution.Electric],
            Reckon = g => [Aeration.DiffuserKPa(g["depth_m"]), 10 * Aeration.DiffuserKPa(g["depth_m"])],
            Meaning = a => $"{a.Say("gauge_kpa")} ({a.Say("gauge_mbar")}) from depth alone: choose a pump that gives its air at half as much again.",
        },
        new("air-compression-power", "What is the least power for my air?")
        {
            Explanation = "Least power that presses air to a depth; pumps of this size use three to ten times as much.",
            Inputs = [Depth, Air],
            Outputs = [new("power_w", "W", "least power")],
            Along = "airflow_l_min", Shown = (0, 120),
            Formula = "P = Q p k/(k - 1) ((p2/p1)^((k - 1)/k) - 1), k = 1.4",
            Source = "Adiabatic compression.",
            Cautions = [Caution.Electric],
            Reckon = g => [Aeration.CompressionW(g["airflow_l_min"], g["depth_m"])],
            Meaning = a => $"{a.Say("power_w")} at the very least; expect {Figure.Brief(3 * a["power_w"])} to {Figure.Say(10 * a["power_w"], "W")} at the plug.",
        },
        new("airlift-bound", "How much water could an air-lift raise?")
        {
            Explanation = "The most that an air-lift could raise if nothing were lost; real ones reach a fifth to a half.",
            Inputs = [Air, Number("submergence_m", "m", "depth at which air is let in", 0, 20, "0.8"), Number("lift_m", "m", "lift above the surface", 0.001, 20, "0.15")],
            Outputs = [new("flow_l_min", "L/min", "most water"), new("power_w", "W", "power of the rising air")],
            Along = "lift_m", Shown = (0.02, 0.6),
            Formula = "P = p Q ln(1 + depth/10.3); water = P / (997 g lift)",
            Source = "Isothermal expansion of the air.",
            Reckon = g => [Aeration.AirLiftBoundLPerMin(g["airflow_l_min"], g["submergence_m"], g["lift_m"]), Aeration.RisingAirW(g["airflow_l_min"], g["submergence_m"])],
            Meaning = a => $"At most {a.Say("flow_l_min")}; plan for {Figure.Brief(0.2 * a["flow_l_min"])} to {Figure.Say(0.5 * a["flow_l_min"], "L/min")}.",
        },
        new("surface-exchange", "How fast does a still surface breathe?")
        {
            Explanation = "Exchange velocity of an open surface by wind and water temperature; over the depth it is a transfer coefficient.",
            Inputs = [Number("wind_m_s", "m/s", "wind at 10 m", 0, 30, "1"), WaterTemp.Within(0, 35).Or("20"), Number("k600_cm_h", "cm/h", "exchange velocity at a Schmidt number of 600", 0, 1000, "2.5")],
            Choices = [new([["wind_m_s"], ["k600_cm_h"]])],
            Outputs = [new("k_cm_h", "cm/h", "exchange velocity for oxygen"), new("k600_cm_h", "cm/h", "exchange velocity at a Schmidt number of 600"), new("schmidt", "1", "Schmidt number of oxygen")],
            Along = "wind_m_s", Shown = (0, 8),
            Formula = "k600 = 2.07 + 0.215 u^1.7; k = k600 (Sc/600)^-0.5",
            Source = "Cole and Caraco (1998), Limnol. Oceanogr. 43:647-656; Wanninkhof (1992), J. Geophys. Res. 97:7373-7382.",
            Reckon = g =>
            {
                double k600 = g.Has("k600_cm_h") ? g["k600_cm_h"] : Aeration.SurfaceK600CmPerH(g["wind_m_s"]);
                return [Aeration.SurfaceExchangeCmPerH(k600, g["temp_c"]), k600, Aeration.SchmidtNumber(g["temp_c"])];
            },
            Meaning = a => $"{a.Say("k_cm_h")}: in a tank 1 m deep that is {Figure.Say(a["k_cm_h"] / 100, "1/h")}.",
        },
    ];
}
