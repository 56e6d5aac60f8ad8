using System.Linq.Expressions;
using System.Reflection;

namespace Runnel.Science.Tests;

/// <summary>What every relation owes: numbers in, a number or a small struct out, no garbage, and a refusal of what is no number.</summary>
public sealed class EveryRelationTests
{
    // A missing dew point is written as NaN; distributions hand on the NaN of a statistic that does not exist.
    private static readonly HashSet<string> MayTakeNaN =
        ["ReferenceEvapotranspiration.DailyFromTemperatures", "NormalDistribution.Density", "NormalDistribution.Cdf", "NormalDistribution.TwoSided"];

    private static readonly MethodInfo[] Relations =
    [
        .. typeof(Conversions).Assembly.GetExportedTypes()
            .Where(t => t.IsAbstract && t.IsSealed)
            .SelectMany(t => t.GetMethods(BindingFlags.Public | BindingFlags.Static | BindingFlags.DeclaredOnly))
            .Where(m => m.ReturnType.IsValueType && m.GetParameters() is { Length: > 0 } p && p.All(q => q.ParameterType == typeof(double) || q.ParameterType == typeof(int)
                || q.ParameterType == typeof(bool) || q.ParameterType.IsEnum) && p.Any(q => q.ParameterType == typeof(double))),
    ];

    private static readonly Lazy<Dictionary<MethodInfo, object[]>> Fed = new(() => Relations.Select(m => (m, Arguments(m))).Where(f => f.Item2 is not null).ToDictionary(f => f.m, f => f.Item2!));

    [Fact]
    public void Nearly_every_relation_is_reached_by_these_tests()
    {
        Assert.InRange(Relations.Length, 250, 2000);
        Assert.Empty(Relations.Where(m => !Fed.Value.ContainsKey(m)).Select(Name));
    }

    [Fact]
    public void No_scalar_relation_allocates()
    {
        var wasteful = new List<string>();
        // Run lengths are integral equations solved on a grid, no scalar relations.
        foreach (var (method, arguments) in Fed.Value.Where(f => f.Key.DeclaringType!.Name != "RunLength"))
        {
            var call = Expression.Lambda<Action>(Expression.Call(method, arguments.Select(a => Expression.Constant(a)))).Compile();
            // The first calls are compiled and may allocate; so may statics.
            for (int i = 0; i < 3; i++) call();
            long before = GC.GetAllocatedBytesForCurrentThread();
            for (int i = 0; i < 10; i++) call();
            long bytes = GC.GetAllocatedBytesForCurrentThread() - before;
            if (bytes > 0) wasteful.Add($"{Name(method)}: {bytes / 10} bytes");
        }

        Assert.True(wasteful.Count == 0, string.Join('\n', wasteful));
    }

    [Fact]
    public void Every_relation_refuses_what_is_no_number()
    {
        var lax = new List<string>();
        foreach (var (method, arguments) in Fed.Value)
        {
            for (int i = 0; i < arguments.Length; i++)
            {
                if (arguments[i] is not double || MayTakeNaN.Contains(Name(method))) continue;
                object[] spoilt = [.. arguments];
                spoilt[i] = double.NaN;
                try
                {
                    method.Invoke(null, spoilt);
                    lax.Add($"{Name(method)}: {method.GetParameters()[i].Name}");
                }
                catch (TargetInvocationException e) when (e.InnerException is ArgumentException)
                {
                }
            }
        }

        Assert.True(lax.Count == 0, string.Join('\n', lax));
    }

    private static string Name(MethodInfo method) => $"{method.DeclaringType!.Name}.{method.Name}";

    // Defaults where there are some, else likely values by the name of the parameter, tried until the relation takes them.
    private static object[]? Arguments(MethodInfo method)
    {
        var random = new Random(1);
        var parameters = method.GetParameters();
        for (int attempt = 0; attempt < 4000; attempt++)
        {
            object[] arguments = [.. parameters.Select(p => p.HasDefaultValue && p.DefaultValue is { } given ? (p.ParameterType.IsEnum ? Enum.ToObject(p.ParameterType, given) : given) : Likely(p, random))];
            try
            {
                method.Invoke(null, arguments);
                return arguments;
            }
            catch (TargetInvocationException)
            {
            }
        }

        return null;
    }

    private static object Likely(ParameterInfo parameter, Random random)
    {
        string name = parameter.Name!;
        if (parameter.ParameterType == typeof(bool)) return random.Next(2) == 0;
        if (parameter.ParameterType.IsEnum) return Enum.GetValues(parameter.ParameterType).GetValue(0)!;
        if (parameter.ParameterType == typeof(int)) return name == "year" ? 2020 : random.Next(1, name == "month" ? 13 : 40);
        double[] pool = name.EndsWith("PressurePa", StringComparison.OrdinalIgnoreCase) && !name.Contains("vapour", StringComparison.OrdinalIgnoreCase) ? [101_325]
            : name.EndsWith("PressureKPa", StringComparison.OrdinalIgnoreCase) && !name.Contains("vapour", StringComparison.OrdinalIgnoreCase) ? [101.325]
            : name.Equals("ph", StringComparison.OrdinalIgnoreCase) || name.EndsWith("Ph", StringComparison.Ordinal) ? [7, 8, 6]
            : name.EndsWith("coefficientPerC", StringComparison.Ordinal) ? [-0.004]
            : name == "zenithDeg" || name.EndsWith("ZenithDeg", StringComparison.Ordinal) ? [40]
            : name.StartsWith("extraterrestrialNormal", StringComparison.Ordinal) ? [1367]
            : name.EndsWith('C') ? [20, 15, 25, 40, 10, 60]
            : [0.5, 1, 0.2, 2, 5, 0.05, 20, 0.8, 100, 0.01, 500, 1000, 5000, 1e-3, 1e4, 1e5, 0, -0.3];
        return pool[random.Next(pool.Length)];
    }
}
