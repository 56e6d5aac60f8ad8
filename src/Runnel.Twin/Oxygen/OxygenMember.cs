namespace Runnel.Twin.Oxygen;

/// <summary>One likely loop: every figure drawn within its spread.</summary>
internal sealed class OxygenMember(int tanks)
{
    public double SaturationMgPerL { get; set; }
    public double RestVolumeL { get; set; }

    /// <summary>Transfer of oxygen from the air to the rest of the loop, 1/h.</summary>
    public double RestTransferPerH { get; set; }
    public double RestDemandMgPerH { get; set; }
    public double RestStartMgPerL { get; set; }

    /// <summary>Share of its want of oxygen that water makes good as it falls into a tank.</summary>
    public double FallShare { get; set; }

    /// <summary>Share of the still surface that goes on mixing when neither air nor flow stirs the tank.</summary>
    public double StillShare { get; set; }

    /// <summary>Hours that backup air lasts without mains; infinite where it hangs on no battery.</summary>
    public double BackupH { get; set; }
    public double[] VolumeL { get; } = new double[tanks];
    public double[] FlowLPerH { get; } = new double[tanks];
    public double[] SurfacePerH { get; } = new double[tanks];
    public double[] MainAirPerH { get; } = new double[tanks];
    public double[] BackupAirPerH { get; } = new double[tanks];
    public double[] DemandMgPerLH { get; } = new double[tanks];
    public double[] StartMgPerL { get; } = new double[tanks];
    public int Tanks => VolumeL.Length;
}
