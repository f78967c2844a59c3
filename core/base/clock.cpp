#include "core/base/clock.h"

#include "core/base/exact_time.h"

#include <date/date.h>
#include <fmt/format.h>

#include <chrono>
#include <cstdlib>
#include <ctime>
#include <string_view>

namespace stillroom::base {

Instant SystemClock::now() const {
    using namespace std::chrono;
    const auto sinceEpoch = system_clock::now().time_since_epoch();
    const std::time_t seconds = std::chrono::duration_cast<std::chrono::seconds>(sinceEpoch).count();
    std::tm local{};
    localtime_r(&seconds, &local);
    return {duration_cast<milliseconds>(sinceEpoch).count(), static_cast<std::int32_t>(local.tm_gmtoff / 60)};
}

namespace {

std::string iso(const Instant& instant, bool withMs) {
    const date::sys_time<std::chrono::milliseconds> local{
        std::chrono::milliseconds(instant.utcMs + std::int64_t{instant.offsetMinutes} * 60000)};
    const auto day = date::floor<date::days>(local);
    const date::year_month_day ymd{day};
    const date::hh_mm_ss<std::chrono::milliseconds> time{local - day};
    const int offset = std::abs(instant.offsetMinutes);
    const std::string part = withMs && time.subseconds().count() != 0
                                 ? fmt::format(".{:03}", time.subseconds().count())
                                 : std::string();
    return fmt::format("{:04}-{:02}-{:02}T{:02}:{:02}:{:02}{}{}{:02}:{:02}", static_cast<int>(ymd.year()),
                       static_cast<unsigned>(ymd.month()), static_cast<unsigned>(ymd.day()),
                       time.hours().count(), time.minutes().count(), time.seconds().count(), part,
                       instant.offsetMinutes < 0 ? '-' : '+', offset / 60, offset % 60);
}

} // namespace

std::string isoText(const Instant& instant) {
    return iso(instant, false);
}

std::string exactIsoText(const Instant& instant) {
    return iso(instant, true);
}

// "2026-11-21T21:14:07", then a fraction of which three digits count, then "+01:00". Read digit by digit:
// what a stream takes for a number of seconds may be none.
Instant instantFromIso(const std::string& text) {
    std::size_t at = 0;
    bool fits = true;
    const auto digits = [&](std::size_t count) {
        int value = 0;
        for (std::size_t end = at + count; fits && at < end; ++at) {
            fits = at < text.size() && text[at] >= '0' && text[at] <= '9';
            if (fits) value = value * 10 + (text[at] - '0');
        }
        return value;
    };
    const auto mark = [&](const char* allowed) {
        const char found = at < text.size() ? text[at] : '\0';
        fits = fits && found != '\0' && std::string_view(allowed).find(found) != std::string_view::npos;
        ++at;
        return found;
    };
    const date::year year{digits(4)};
    mark("-");
    const date::month month{static_cast<unsigned>(digits(2))};
    mark("-");
    const date::day day{static_cast<unsigned>(digits(2))};
    mark("T");
    const int hour = digits(2);
    mark(":");
    const int minute = digits(2);
    mark(":");
    const int second = digits(2);
    int ms = 0;
    if (fits && at < text.size() && text[at] == '.') {
        ++at;
        const std::size_t first = at;
        for (int weight = 100; at < text.size() && text[at] >= '0' && text[at] <= '9'; ++at, weight /= 10)
            ms += weight * (text[at] - '0');
        fits = at > first;
    }
    const char sign = mark("+-");
    const int offsetHours = digits(2);
    mark(":");
    const int offsetMinutes = digits(2);
    const date::year_month_day civil = year / month / day;
    if (!fits || at != text.size() || !civil.ok() || hour > 23 || minute > 59 || second > 59 ||
        offsetHours > 23 || offsetMinutes > 59)
        return {};
    const int offset = (sign == '-' ? -1 : 1) * (offsetHours * 60 + offsetMinutes);
    const std::int64_t days = date::sys_days(civil).time_since_epoch().count();
    const std::int64_t seconds = ((days * 24 + hour) * 60 + minute - offset) * 60 + second;
    return {seconds * 1000 + ms, static_cast<std::int32_t>(offset)};
}

} // namespace stillroom::base
