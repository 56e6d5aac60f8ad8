using NodaTime;
using NodaTime.Text;

namespace Runnel.Web.Api;

/// <summary>Times as requests write them: RFC 3339, or civil time of the place.</summary>
internal static class Moments
{
    public static Instant? Read(string text, DateTimeZone zone)
    {
        // A plus sign that was not escaped comes as a blank.
        if (OffsetDateTimePattern.Rfc3339.Parse(text.Replace(' ', '+')) is { Success: true } moment) return moment.Value.ToInstant();
        return LocalDateTimePattern.ExtendedIso.Parse(text.Replace(' ', 'T')) is { Success: true } local ? local.Value.InZoneLeniently(zone).ToInstant() : null;
    }
}
