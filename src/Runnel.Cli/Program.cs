using Runnel.Cli;

return await RunnelCommand.RunAsync(args, Terminal.OfThisProcess(), CancellationToken.None);
