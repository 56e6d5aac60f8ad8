using Microsoft.Data.Sqlite;

namespace Runnel.Records.Writing;

/// <summary>A statement that is compiled once; its parameters are set by place.</summary>
internal sealed class PreparedStatement : IDisposable
{
    private readonly SqliteCommand _command;

    public PreparedStatement(SqliteConnection connection, string sql, params ReadOnlySpan<string> parameters)
    {
        _command = connection.CreateCommand();
        _command.CommandText = sql;
        foreach (string name in parameters) _command.Parameters.Add(new SqliteParameter { ParameterName = name });
    }

    /// <summary>Runs it and tells how many rows it touched.</summary>
    public int Run(params ReadOnlySpan<object> values)
    {
        Set(values);
        return _command.ExecuteNonQuery();
    }

    public object? Value(params ReadOnlySpan<object> values)
    {
        Set(values);
        return _command.ExecuteScalar();
    }

    public SqliteDataReader Rows(params ReadOnlySpan<object> values)
    {
        Set(values);
        return _command.ExecuteReader();
    }

    public void Dispose() => _command.Dispose();

    private void Set(ReadOnlySpan<object> values)
    {
        for (int i = 0; i < values.Length; i++) _command.Parameters[i].Value = values[i];
    }
}
