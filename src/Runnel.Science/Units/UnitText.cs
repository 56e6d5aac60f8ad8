namespace Runnel.Science.Units;

/// <summary>Reads one unit expression: factors parted by <c>.</c> and <c>/</c>, read from left to right, each with a power.</summary>
/// <remarks>UCUM section 2.2 without annotations. Within parentheses a blank multiplies too, as in <c>W/(m2 K)</c>.</remarks>
internal ref struct UnitText(string text)
{
    // Deeper nesting is no unit that anyone writes, and an endless row of brackets must not exhaust the stack.
    private const int DeepestNesting = 4;
    private const int GreatestPower = 9;

    private int _at;

    internal Unit? Read()
    {
        if (text.Length is 0 or > 60) return null;
        var product = ReadProduct(0);
        if (product is null || _at != text.Length) return null;
        // A temperature counted from the freezing point keeps its zero only where it stands alone.
        double offset = UnitAtoms.Find(text)?.Offset ?? 0;
        return double.IsFinite(product.Factor) && product.Factor > 0 ? new Unit(text, product.Dimension, product.Factor, offset) : null;
    }

    private UnitAtoms.Atom? ReadProduct(int depth)
    {
        UnitAtoms.Atom product = new(default, 1);
        bool divides = depth == 0 && Take('/');
        while (true)
        {
            var factor = ReadFactor(depth);
            if (factor is null) return null;
            int sign = divides ? -1 : 1;
            product = new(product.Dimension.Times(factor.Dimension.Power(sign)), product.Factor * Math.Pow(factor.Factor, sign));
            if (Take('.') || Take('·') || (depth > 0 && Take(' '))) divides = false;
            else if (Take('/')) divides = true;
            else return product;
        }
    }

    private UnitAtoms.Atom? ReadFactor(int depth)
    {
        if (Take('('))
        {
            if (depth == DeepestNesting) return null;
            var inner = ReadProduct(depth + 1);
            return inner is not null && Take(')') ? Raise(inner) : null;
        }

        if (_at < text.Length && char.IsAsciiDigit(text[_at])) return ReadWholeNumber();

        int start = _at;
        bool inBrackets = false;
        while (_at < text.Length)
        {
            char c = text[_at];
            if (c == '[') inBrackets = true;
            if (!inBrackets && !(char.IsLetter(c) || c is '%' or '°' or '_' or '\u00b5')) break;
            if (c == ']') inBrackets = false;
            _at++;
        }

        return UnitAtoms.Find(text[start.._at]) is { } atom ? Raise(atom) : null;
    }

    // A number is a factor of its own: "4.s/m" is good, "12h" is not.
    private UnitAtoms.Atom? ReadWholeNumber()
    {
        int start = _at;
        while (_at < text.Length && char.IsAsciiDigit(text[_at])) _at++;
        bool ends = _at == text.Length || text[_at] is '.' or '/' or ')';
        return ends && int.TryParse(text.AsSpan(start, _at - start), out int number) && number > 0 ? new(default, number) : null;
    }

    private UnitAtoms.Atom? Raise(UnitAtoms.Atom atom)
    {
        int power = 1;
        if (Take('²')) power = 2;
        else if (Take('³')) power = 3;
        else
        {
            int sign = Take('-') ? -1 : 1;
            bool signed = sign < 0 || Take('+');
            if (_at < text.Length && char.IsAsciiDigit(text[_at])) power = sign * (text[_at++] - '0');
            else if (signed) return null;
            if (_at < text.Length && char.IsAsciiDigit(text[_at])) return null;
        }

        return Math.Abs(power) is >= 1 and <= GreatestPower
            ? new(atom.Dimension.Power(power), Math.Pow(atom.Factor, power)) : null;
    }

    private bool Take(char wanted)
    {
        if (_at >= text.Length || text[_at] != wanted) return false;
        _at++;
        return true;
    }
}
