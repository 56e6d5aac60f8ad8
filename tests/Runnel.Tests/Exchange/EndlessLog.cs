using System.Text;

namespace Runnel.Tests.Exchange;

/// <summary>A log of a told length in bytes that is made up as it is read.</summary>
internal sealed class EndlessLog(long length) : Stream
{
    private byte[] _row = "time,channel,value\n"u8.ToArray();
    private int _at;
    private long _position;
    private long _second = 1_769_900_400;

    public override bool CanRead => true;

    public override bool CanSeek => true;

    public override bool CanWrite => false;

    public override long Length => length;

    public override long Position { get => _position; set => throw new NotSupportedException(); }

    public override int Read(byte[] buffer, int offset, int count)
    {
        int taken = 0;
        while (taken < count && _position < length)
        {
            if (_at == _row.Length) (_row, _at) = (Encoding.ASCII.GetBytes($"{_second++}.000000000000000000,air-temp,20.12\n"), 0);
            buffer[offset + taken++] = _row[_at++];
            _position++;
        }

        return taken;
    }

    public override void Flush()
    {
    }

    public override long Seek(long offset, SeekOrigin origin) => throw new NotSupportedException();

    public override void SetLength(long value) => throw new NotSupportedException();

    public override void Write(byte[] buffer, int offset, int count) => throw new NotSupportedException();
}
