#include "core/base/clock.h"

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

std::string isoText(const Instant& instant) {
    const date::sys_time<std::chrono::milliseconds> local{
        std::chrono::milliseconds(instant.utcMs + std::int64_t{instant.offsetMinutes} * 60000)};
    const auto day = date::floor<date::days>(local);
    const date::year_month_day ymd{day};
    const date::hh_mm_ss<std::chrono::milliseconds> time{local - day};
    const int offset = std::abs(instant.offsetMinutes);
    return fmt::format("{:04}-{:02}-{:02}T{:02}:{:02}:{:02}{}{:02}:{:02}", static_cast<int>(ymd.year()),
                       static_cast<unsigned>(ymd.month()), static_cast<unsigned>(ymd.day()),
                       time.hours().count(), time.minutes().count(), time.seconds().count(),
                       instant.offsetMinutes < 0 ? '-' : '+', offset / 60, offset % 60);
}

Instant instantFromIso(const std::string& text) {
    std::istringstream in(text);
    date::sys_seconds utc;
    std::chrono::minutes offset{0};
    in >> date::parse("%FT%T%Ez", utc, offset);
    if (in.fail()) return {};
    return {std::chrono::milliseconds(utc.time_since_epoch()).count(),
            static_cast<std::int32_t>(offset.count())};
}

} // namespace stillroom::base
