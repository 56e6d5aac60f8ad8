using System.Text;
using Runnel.Exchange.Pulled;

namespace Runnel.Live.Tests.Pulled;

public sealed class GrowingFileTests : IDisposable
{
    private readonly TemporaryRecords _folder = new();
    private readonly GrowingFile _file;
    private readonly string _path;

    public GrowingFileTests()
    {
        _path = Path.Combine(_folder.Folder, "log.csv");
        _file = new GrowingFile(_path);
    }

    public void Dispose()
    {
        _file.Dispose();
        _folder.Dispose();
    }

    private string Next() => Encoding.UTF8.GetString(_file.Next(1 << 20).Lines);

    [Fact]
    public void Only_whole_lines_come_and_each_once()
    {
        Assert.Equal("", Next());
        File.WriteAllText(_path, "a\nb");
        Assert.Equal("a\n", Next());
        Assert.Equal("", Next());
        File.AppendAllText(_path, "c\nd\n");
        Assert.Equal("bc\nd\n", Next());
    }

    [Fact]
    public void A_rotated_file_is_read_to_its_end_before_the_new_one()
    {
        File.WriteAllText(_path, "head\na\n");
        Assert.Equal("head\na\n", Next());
        File.AppendAllText(_path, "b\n");
        File.Move(_path, _path + ".1");
        File.AppendAllText(_path + ".1", "last\n");
        File.WriteAllText(_path, "head\nnew\n");
        Assert.Equal("b\nlast\n", Next());
        var (lines, begins) = _file.Next(1 << 20);
        Assert.Equal(("head\nnew\n", true), (Encoding.UTF8.GetString(lines), begins));
    }

    [Fact]
    public void A_file_cut_to_nothing_and_written_anew_is_read_anew()
    {
        File.WriteAllText(_path, "head\na\nb\n");
        Assert.Equal("head\na\nb\n", Next());
        using (var cut = new FileStream(_path, FileMode.Truncate, FileAccess.Write, FileShare.ReadWrite)) cut.Write("head\nc\n"u8);
        Assert.Equal("head\nc\n", Next());

        // Longer than before already when it is looked at: its beginning tells.
        File.WriteAllText(_path, "head\nd\ne\nf\n");
        Assert.Equal("head\nd\ne\nf\n", Next());
    }
}
