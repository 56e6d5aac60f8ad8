using Runnel.Benchmarks;

return args.FirstOrDefault() switch
{
    "detection" => Options.Parse(args.Skip(1)) is { Twin: true } twin ? TwinDetection.Run(twin) : DetectionCommand.Run(Options.Parse(args.Skip(1))),
    "write" => WriteCommand.Run(Options.Parse(args.Skip(1))),
    "speed" => await SpeedCommand.RunAsync(Options.Parse(args.Skip(1))),
    "intake" => await IntakeCommand.RunAsync([.. args.Skip(1)]),
    "describe" => DescribeCommand.Run(Options.Parse(args.Skip(1))),
    "solver" => SolverCommand.Run(),
    "relations" => RelationsCommand.Run(),
    _ => Usage(),
};

static int Usage()
{
    Console.Error.WriteLine("detection [--kind A|B|C|D|all] [--story NAME|all|faults|changes] [--seeds N] [--first-seed K] [--days D] [--verbose]");
    Console.Error.WriteLine("detection --twin [--seeds 200] [--first-seed K] [--days 32] [--out DIR] [--verbose]   (drawn places played by the twin; say --twin first)");
    Console.Error.WriteLine("write     --kind A --story NAME --seed K --days D --out DIR   (or --story demo)");
    Console.Error.WriteLine("speed     [--kind A] [--days 90]");
    Console.Error.WriteLine("intake    [--seconds 10] [--rate 5000] [--clients 8] [--kills N --runnel PATH] [--fuzz N]");
    Console.Error.WriteLine("describe  [--kind ...] [--seeds N] [--first-seed K] [--days D]");
    Console.Error.WriteLine("relations");
    Console.Error.WriteLine("solver    (beside lsoda and CVODE, where they are installed)");
    return 2;
}
