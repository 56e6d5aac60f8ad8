namespace Runnel.Exchange.Logs;

/// <summary>Readings as they stand in the file, in its order, packed by columns: a log may hold tens of millions.</summary>
internal sealed class RawReadings
{
    private const int Bits = 12;
    private const int ChunkLength = 1 << Bits;
    private const int Mask = ChunkLength - 1;
    private readonly List<Chunk> _chunks = [];

    private sealed class Chunk
    {
        public readonly long[] Ticks = new long[ChunkLength];
        public readonly double[] Values = new double[ChunkLength];
        public readonly ushort[] Channels = new ushort[ChunkLength];
        public uint[] Lines = new uint[ChunkLength];
        public (TimeKind Kind, DayMonth Order)[] Forms = new (TimeKind, DayMonth)[ChunkLength];
    }

    public int Count { get; private set; }

    public void Add(int channel, in WrittenTime time, double value, long line)
    {
        int at = Count & Mask;
        if (at == 0) _chunks.Add(new Chunk());
        var chunk = _chunks[^1];
        chunk.Ticks[at] = time.Ticks;
        chunk.Values[at] = value;
        chunk.Channels[at] = (ushort)channel;
        chunk.Lines[at] = (uint)line;
        chunk.Forms[at] = (time.Kind, time.DayMonth);
        Count++;
    }

    public ref long Ticks(int index) => ref _chunks[index >> Bits].Ticks[index & Mask];

    public double Value(int index) => _chunks[index >> Bits].Values[index & Mask];

    public int Channel(int index) => _chunks[index >> Bits].Channels[index & Mask];

    public long Line(int index) => _chunks[index >> Bits].Lines[index & Mask];

    public ref (TimeKind Kind, DayMonth Order) Form(int index) => ref _chunks[index >> Bits].Forms[index & Mask];

    /// <summary>Lets go of what only the sorting out needed: lines and forms of times cannot be asked for any more.</summary>
    public void ForgetLines()
    {
        foreach (var chunk in _chunks)
        {
            chunk.Lines = [];
            chunk.Forms = [];
        }
    }
}
