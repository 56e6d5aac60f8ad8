namespace Runnel.Tests.Exchange;

/// <summary>A stream that gives few bytes at a time, as a slow line does.</summary>
internal sealed class PiecewiseStream(byte[] bytes, int piece) : Stream
{
    private int _at;

    public override bool CanRead => true;

    public override bool CanSeek => false;

    public override bool CanWrite => false;

    public override long Length => throw new NotSupportedException();

    public override long Position { get => _at; set => throw new NotSupportedException(); }

    public override int Read(byte[] buffer, int offset, int count)
    {
        int taken = Math.Min(Math.Min(piece, count), bytes.Length - _at);
        Array.Copy(bytes, _at, buffer, offset, taken);
        _at += taken;
        return taken;
    }

    public override void Flush()
    {
    }

    public override long Seek(long offset, SeekOrigin origin) => throw new NotSupportedException();

    public override void SetLength(long value) => throw new NotSupportedException();

    public override void Write(byte[] buffer, int offset, int count) => throw new NotSupportedException();
}
