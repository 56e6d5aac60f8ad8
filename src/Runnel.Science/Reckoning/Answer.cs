namespace Runnel.Science.Reckoning;

/// <summary>The results of one sum, in the order of the relation's outputs.</summary>
public sealed class Answer
{
    internal Answer(Relation relation, Given given, Value[] values)
    {
        if (values.Length != relation.Outputs.Count) throw new InvalidOperationException($"{relation.Name} gave {values.Length} results and describes {relation.Outputs.Count}");
        Relation = relation;
        Given = given;
        Values = values;
    }

    /// <summary>The relation that was reckoned.</summary>
    public Relation Relation { get; }

    /// <summary>What it was reckoned from.</summary>
    public Given Given { get; }

    /// <summary>Results.</summary>
    public IReadOnlyList<Value> Values { get; }

    /// <summary>A number among the results.</summary>
    /// <param name="name">Name of the result.</param>
    /// <returns>The number; NaN where there is none.</returns>
    public double this[string name] => Values[IndexOf(name)].Number;

    /// <summary>A result as it stands in a sentence: three digits and the unit.</summary>
    /// <param name="name">Name of the result.</param>
    public string Say(string name)
    {
        int at = IndexOf(name);
        return Values[at].Text ?? Figure.Say(Values[at].Number, Relation.Outputs[at].Unit);
    }

    /// <summary>What the results mean, in words.</summary>
    public string Meaning => Relation.Meaning(this);

    private int IndexOf(string name)
    {
        for (int i = 0; i < Relation.Outputs.Count; i++)
        {
            if (Relation.Outputs[i].Name == name) return i;
        }

        throw new ArgumentException($"{Relation.Name} has no result {name}", nameof(name));
    }
}

/// <summary>What came of a sum: an answer, or why there is none.</summary>
/// <param name="Answer">The answer; null where it was refused.</param>
/// <param name="Problems">Everything that is wrong with the inputs; empty where there is an answer.</param>
public sealed record Reckoned(Answer? Answer, IReadOnlyList<Problem> Problems);
