// Signals, file modes and mounts are those of Linux, as the scripts are.
[assembly: System.Runtime.Versioning.SupportedOSPlatform("linux")]
