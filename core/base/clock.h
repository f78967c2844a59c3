#pragma once

#include <compare>
#include <cstdint>
#include <string>

namespace stillroom::base {

// A moment: UTC milliseconds, and the offset from UTC of the place where it was entered.
struct Instant {
    std::int64_t utcMs = 0;
    std::int32_t offsetMinutes = 0;
    friend auto operator<=>(const Instant&, const Instant&) = default;
};

// Where "now" comes from, so that tests can say when it is.
class Clock {
  public:
    virtual ~Clock() = default;
    virtual Instant now() const = 0;
};

class SystemClock final : public Clock {
  public:
    Instant now() const override;
};

class FixedClock final : public Clock {
  public:
    explicit FixedClock(Instant start) : m_now(start) {}
    Instant now() const override { return m_now; }
    void advanceMs(std::int64_t ms) { m_now.utcMs += ms; }

  private:
    Instant m_now;
};

// "2026-11-21T21:14:07+01:00", and back. An unreadable text gives 0 at offset 0.
std::string isoText(const Instant& instant);
Instant instantFromIso(const std::string& text);

} // namespace stillroom::base
