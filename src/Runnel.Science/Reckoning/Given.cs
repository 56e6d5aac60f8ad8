namespace Runnel.Science.Reckoning;

/// <summary>The inputs of one sum: read, checked, defaults filled in.</summary>
public sealed class Given
{
    private readonly Dictionary<string, object> values;

    internal Given(Dictionary<string, object> values) => this.values = values;

    /// <summary>A number that is known to be there.</summary>
    /// <param name="name">Name of the input.</param>
    /// <returns>Its value in the unit of the input.</returns>
    public double this[string name] => (double)values[name];

    /// <summary>Whether the input was given or has a default.</summary>
    /// <param name="name">Name of the input.</param>
    public bool Has(string name) => values.ContainsKey(name);

    /// <summary>A number, or what stands for it.</summary>
    /// <param name="name">Name of the input.</param>
    /// <param name="otherwise">Taken where it was not given.</param>
    public double Or(string name, double otherwise) => values.TryGetValue(name, out object? value) ? (double)value : otherwise;

    /// <summary>A word.</summary>
    /// <param name="name">Name of the input.</param>
    public string Word(string name) => (string)values[name];

    /// <summary>A row of numbers.</summary>
    /// <param name="name">Name of the input.</param>
    internal double[] Numbers(string name) => (double[])values[name];

    /// <summary>A date.</summary>
    /// <param name="name">Name of the input.</param>
    internal DateOnly Date(string name) => (DateOnly)values[name];

    /// <summary>A moment.</summary>
    /// <param name="name">Name of the input.</param>
    internal DateTimeOffset Time(string name) => (DateTimeOffset)values[name];

    /// <summary>A time of day.</summary>
    /// <param name="name">Name of the input.</param>
    internal TimeOnly Clock(string name) => (TimeOnly)values[name];

    /// <summary>The same inputs with one number changed.</summary>
    /// <param name="name">Name of the input.</param>
    /// <param name="value">Its new value.</param>
    public Given With(string name, double value) => new(new Dictionary<string, object>(values) { [name] = value });
}
