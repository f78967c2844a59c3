#include "core/base/clock.h"

#include "core/base/exact_time.h"

#include <date/date.h>
#include <fmt/format.h>

#include <chrono>
#include <cstdlib>
#include <ctime>
#include <sstream>

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

Instant instantFromIso(const std::string& text) {
    // The fraction of a second is taken out first: three digits of it count.
    std::string whole = text;
    int ms = 0;
    if (const std::size_t point = text.find('.'); point != std::string::npos) {
        std::size_t end = point + 1;
        for (int weight = 100; end < text.size() && text[end] >= '0' && text[end] <= '9'; ++end, weight /= 10)
            ms += weight * (text[end] - '0');
        if (end == point + 1) return {};
        whole.erase(point, end - point);
    }
    std::istringstream in(whole);
    date::sys_seconds utc;
    std::chrono::minutes offset{0};
    in >> date::parse("%FT%T%Ez", utc, offset);
    if (in.fail()) return {};
    return {std::chrono::milliseconds(utc.time_since_epoch()).count() + ms,
            static_cast<std::int32_t>(offset.count())};
}

} // namespace stillroom::base
