using System.Runtime.InteropServices;

namespace Runnel.Benchmarks;

/// <summary>
/// A peer for the solar position: ERFA, the astronomers' general library of C routines, where the system has it (Debian: liberfa1). The same task by its
/// routines: place of the earth, aberration, nutation and sidereal time, turned to the horizon of a place.
/// </summary>
internal static unsafe class AstronomersLibrary
{
    private const double DayS = 86_400;
    private static readonly nint Handle = NativeLibrary.TryLoad("liberfa.so.1", out nint handle) ? handle : 0;

    public static bool IsHere => Handle != 0;

    public static double Positions(int count)
    {
        var epv00 = (delegate* unmanaged<double, double, double*, double*, int>)NativeLibrary.GetExport(Handle, "eraEpv00");
        var pnm06a = (delegate* unmanaged<double, double, double*, void>)NativeLibrary.GetExport(Handle, "eraPnm06a");
        var gst06 = (delegate* unmanaged<double, double, double, double, double*, double>)NativeLibrary.GetExport(Handle, "eraGst06");
        var ab = (delegate* unmanaged<double*, double*, double, double, double*, void>)NativeLibrary.GetExport(Handle, "eraAb");
        double* earth = stackalloc double[6], toCentre = stackalloc double[6], turn = stackalloc double[9], way = stackalloc double[3], speed = stackalloc double[3], seen = stackalloc double[3];
        double sum = 0, latitude = -27.5 * Math.PI / 180, longitude = 153 * Math.PI / 180;
        var (sinLatitude, cosLatitude) = Math.SinCos(latitude);
        for (int i = 0; i < count; i++)
        {
            double day = 2_460_000 + (i * 0.01), terrestrial = 69.2 / DayS;
            epv00(day, terrestrial, earth, toCentre);
            double distance = Math.Sqrt((earth[0] * earth[0]) + (earth[1] * earth[1]) + (earth[2] * earth[2]));
            double square = 0;
            for (int k = 0; k < 3; k++)
            {
                (way[k], speed[k]) = (-earth[k] / distance, toCentre[3 + k] / 173.1446326846693);
                square += speed[k] * speed[k];
            }

            ab(way, speed, distance, Math.Sqrt(1 - square), seen);
            pnm06a(day, terrestrial, turn);
            double sidereal = gst06(day, 0, day, terrestrial, turn);
            double x = (turn[0] * seen[0]) + (turn[1] * seen[1]) + (turn[2] * seen[2]), y = (turn[3] * seen[0]) + (turn[4] * seen[1]) + (turn[5] * seen[2]);
            double z = (turn[6] * seen[0]) + (turn[7] * seen[1]) + (turn[8] * seen[2]);
            double hour = sidereal + longitude - Math.Atan2(y, x), across = Math.Sqrt((x * x) + (y * y));
            sum += Math.Asin((sinLatitude * z) + (cosLatitude * across * Math.Cos(hour))) * 180 / Math.PI;
        }

        return sum;
    }
}
