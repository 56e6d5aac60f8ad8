using Runnel.Place;

namespace Runnel.Twin.Invented;

/// <summary>An invented place with its log, its daybook and the truth behind them. Nothing in it is a real household's.</summary>
/// <param name="Kind">Kind of place.</param>
/// <param name="StoryName">Name of the story.</param>
/// <param name="Seed">Seed that repeats it.</param>
/// <param name="PlaceToml">Text of the place file, with the figures as the keeper knows them.</param>
/// <param name="Place">The same as a description.</param>
/// <param name="Log">Readings as a reader of the CSV text gives them.</param>
/// <param name="Rows">Rows in the order in which the logger wrote them, wrong clock times included.</param>
/// <param name="Daybook">What people wrote down.</param>
/// <param name="Truth">What truly happened.</param>
public sealed record InventedLog(
    LoopKind Kind,
    string StoryName,
    int Seed,
    string PlaceToml,
    PlaceDescription Place,
    ReadingLog Log,
    IReadOnlyList<Reading> Rows,
    IReadOnlyList<DaybookEntry> Daybook,
    Truth Truth);
