namespace Runnel.Cli;

/// <summary>What every command tells the shell; scripts rely on these.</summary>
public static class ExitCodes
{
    public const int Done = 0;

    /// <summary>The work could not be done: a bad file, refused rows, a taken port.</summary>
    public const int CouldNot = 1;
    public const int WrongUsage = 2;

    /// <summary>Stopped by the user before it was done.</summary>
    public const int Stopped = 3;
}
