using System.Globalization;
using System.Net;
using System.Text;

namespace Runnel.Web.Charts;

/// <summary>Writes SVG text. All looks come from style classes, so that one drawing serves light, dark, contrast and print.</summary>
public sealed class SvgWriter
{
    private readonly StringBuilder _text = new();

    /// <summary>A coordinate to a tenth of a pixel.</summary>
    public static string N(double px) => Math.Round(px, 1).ToString("0.#", CultureInfo.InvariantCulture) is "-0" ? "0"
        : Math.Round(px, 1).ToString("0.#", CultureInfo.InvariantCulture);

    public void Raw(string markup) => _text.Append(markup);

    public void Line(string style, double x1, double y1, double x2, double y2) =>
        Path(style, new PathText().Move(x1, y1).Line(x2, y2));

    public void Path(string style, PathText path) =>
        _text.Append("<path class=\"").Append(style).Append("\" d=\"").Append(path).Append("\"/>");

    public void Rect(string style, double x, double y, double width, double height) =>
        _text.Append("<rect class=\"").Append(style).Append("\" x=\"").Append(N(x)).Append("\" y=\"").Append(N(y))
            .Append("\" width=\"").Append(N(Math.Max(0, width))).Append("\" height=\"").Append(N(Math.Max(0, height))).Append("\"/>");

    public void Circle(string style, double x, double y, double radius) =>
        _text.Append("<circle class=\"").Append(style).Append("\" cx=\"").Append(N(x)).Append("\" cy=\"").Append(N(y))
            .Append("\" r=\"").Append(N(radius)).Append("\"/>");

    /// <param name="style">Style class.</param>
    /// <param name="x">Where the anchor lies.</param>
    /// <param name="y">Base line.</param>
    /// <param name="text">Escaped here.</param>
    /// <param name="anchor">start, middle or end.</param>
    public void Text(string style, double x, double y, string text, string anchor = "start")
    {
        _text.Append("<text class=\"").Append(style).Append("\" x=\"").Append(N(x)).Append("\" y=\"").Append(N(y)).Append('"');
        if (anchor != "start") _text.Append(" text-anchor=\"").Append(anchor).Append('"');
        _text.Append('>').Append(WebUtility.HtmlEncode(text)).Append("</text>");
    }

    /// <summary>Opens the drawing with its title and description for those who cannot see it.</summary>
    public void Open(string id, string style, double width, double height, string title, string description, string data = "") =>
        _text.Append(CultureInfo.InvariantCulture, $"<svg xmlns=\"http://www.w3.org/2000/svg\" class=\"{style}\" viewBox=\"0 0 {N(width)} {N(height)}\" ")
            .Append(CultureInfo.InvariantCulture, $"role=\"img\" aria-labelledby=\"{id}-t {id}-d\"{data}><title id=\"{id}-t\">{WebUtility.HtmlEncode(title)}</title>")
            .Append(CultureInfo.InvariantCulture, $"<desc id=\"{id}-d\">{WebUtility.HtmlEncode(description)}</desc>");

    public override string ToString() => _text.ToString();
}

/// <summary>Gathers the text of a path.</summary>
public sealed class PathText
{
    private readonly StringBuilder _text = new();

    public bool IsEmpty => _text.Length == 0;

    public PathText Move(double x, double y) => Add('M', x, y);

    public PathText Line(double x, double y) => Add('L', x, y);

    public PathText Close()
    {
        _text.Append('z');
        return this;
    }

    public override string ToString() => _text.ToString();

    private PathText Add(char command, double x, double y)
    {
        _text.Append(command).Append(SvgWriter.N(x)).Append(' ').Append(SvgWriter.N(y));
        return this;
    }
}
