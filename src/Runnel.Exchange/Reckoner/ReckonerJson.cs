using System.Globalization;
using System.Text;
using System.Text.Encodings.Web;
using System.Text.Json;
using Runnel.Science.Reckoning;

namespace Runnel.Exchange.Reckoner;

/// <summary>Writes answers, and the list of relations, as the JSON that scripts rely on.</summary>
public static class ReckonerJson
{
    // Units hold degree signs and sources hold quotes, which the default encoder would spell out.
    private static readonly JsonWriterOptions Form = new() { Indented = true, Encoder = JavaScriptEncoder.UnsafeRelaxedJsonEscaping };

    /// <summary>One answer: relation, results, units, meaning, cautions, source.</summary>
    public static string Write(Answer answer)
    {
        ArgumentNullException.ThrowIfNull(answer);
        var relation = answer.Relation;
        return Written(json =>
        {
            json.WriteStartObject();
            json.WriteString("relation", relation.Name);
            json.WriteStartObject("results");
            for (int i = 0; i < relation.Outputs.Count; i++)
            {
                json.WritePropertyName(relation.Outputs[i].Name);
                WriteValue(json, answer.Values[i]);
            }

            json.WriteEndObject();
            json.WriteStartObject("units");
            foreach (var output in relation.Outputs) json.WriteString(output.Name, output.Unit);
            json.WriteEndObject();
            json.WriteString("meaning", answer.Meaning);
            WriteTexts(json, "cautions", relation.Cautions);
            json.WriteString("source", relation.Source);
            json.WriteEndObject();
        });
    }

    /// <summary>All relations with their inputs, results and sources.</summary>
    public static string WriteList(IEnumerable<Relation> relations) => Written(json =>
    {
        json.WriteStartArray();
        foreach (var relation in relations) WriteRelation(json, relation);
        json.WriteEndArray();
    });

    /// <summary>One relation as it stands in the list.</summary>
    public static string WriteRelation(Relation relation) => Written(json => WriteRelation(json, relation));

    private static void WriteRelation(Utf8JsonWriter json, Relation relation)
    {
        json.WriteStartObject();
        json.WriteString("relation", relation.Name);
        json.WriteString("subject", relation.Subject.Name);
        json.WriteString("question", relation.Question);
        json.WriteString("explanation", relation.Explanation);
        json.WriteStartArray("inputs");
        foreach (var input in relation.Inputs) WriteInput(json, relation, input);
        json.WriteEndArray();
        json.WriteStartArray("one_of");
        foreach (var choice in relation.Choices)
        {
            json.WriteStartObject();
            json.WriteStartArray("groups");
            foreach (var group in choice.Groups)
            {
                json.WriteStartArray();
                foreach (string name in group) json.WriteStringValue(name);
                json.WriteEndArray();
            }

            json.WriteEndArray();
            json.WriteBoolean("optional", choice.MayBeNone);
            json.WriteEndObject();
        }

        json.WriteEndArray();
        json.WriteStartArray("results");
        foreach (var output in relation.Outputs)
        {
            json.WriteStartObject();
            json.WriteString("name", output.Name);
            json.WriteString("unit", output.Unit);
            json.WriteString("words", output.Words);
            json.WriteEndObject();
        }

        json.WriteEndArray();
        json.WriteString("formula", relation.Formula);
        WriteTexts(json, "cautions", relation.Cautions);
        json.WriteString("source", relation.Source);
        json.WriteEndObject();
    }

    private static void WriteInput(Utf8JsonWriter json, Relation relation, Input input)
    {
        json.WriteStartObject();
        json.WriteString("name", input.Name);
        json.WriteString("unit", input.Unit);
        json.WriteString("words", input.Words);
        json.WriteString("kind", input.Kind.ToString().ToLowerInvariant());
        WriteBound(json, "least", input.Least);
        WriteBound(json, "greatest", input.Greatest);
        if (input.Default is { } text && double.TryParse(text, NumberStyles.Float, CultureInfo.InvariantCulture, out double number)) json.WriteNumber("default", number);
        else json.WriteString("default", input.Default);
        json.WriteBoolean("optional", relation.IsOptional(input));
        if (input.Choices.Count > 0) WriteTexts(json, "choices", input.Choices);
        if (input.AlsoNamed.Count + input.InOtherUnits.Count > 0)
        {
            json.WriteStartArray("also");
            foreach (var (name, unit) in input.AlsoNamed.Select(n => (n, input.Unit)).Concat(input.InOtherUnits))
            {
                json.WriteStartObject();
                json.WriteString("name", name);
                json.WriteString("unit", unit);
                json.WriteEndObject();
            }

            json.WriteEndArray();
        }

        json.WriteString("example", input.Example);
        json.WriteEndObject();
    }

    private static void WriteBound(Utf8JsonWriter json, string name, double bound)
    {
        if (double.IsFinite(bound)) json.WriteNumber(name, bound);
        else json.WriteNull(name);
    }

    private static void WriteValue(Utf8JsonWriter json, Value value)
    {
        if (value.IsNone) json.WriteNullValue();
        else if (value.Text is { } text) json.WriteStringValue(text);
        else json.WriteNumberValue(value.Number);
    }

    private static void WriteTexts(Utf8JsonWriter json, string name, IEnumerable<string> texts)
    {
        json.WriteStartArray(name);
        foreach (string text in texts) json.WriteStringValue(text);
        json.WriteEndArray();
    }

    private static string Written(Action<Utf8JsonWriter> write)
    {
        using var stream = new MemoryStream();
        using (var json = new Utf8JsonWriter(stream, Form)) write(json);
        return Encoding.UTF8.GetString(stream.GetBuffer(), 0, (int)stream.Length);
    }
}
