#pragma once

#include "core/base/clock.h"
#include "core/base/id.h"

#include <array>
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>

namespace stillroom::tasting {

enum class Verdict : std::uint8_t { None, Keep, Change, Drop };
enum class Scale : std::uint8_t { Sweet, Sour, Strong, Bitter, Length };
inline constexpr std::size_t kScaleCount = 5;
inline constexpr int kScaleTop = 15; // 0…15, in the order of the line scale

struct Person {
    base::PersonId id;
    std::string name;     // empty once removed
    std::string initials; // what stands under a revision
    friend bool operator==(const Person&, const Person&) = default;
};

// One person's word on one revision. Never changed: corrected by another that amends it.
struct Tasting {
    base::TastingId id;
    base::RevisionId revision;
    base::PersonId taster;
    base::Instant when;
    std::array<std::optional<int>, kScaleCount> scores{};
    std::string note;
    Verdict verdict = Verdict::None;
    std::string tryNext;
    std::optional<base::TastingId> amends;
    friend bool operator==(const Tasting&, const Tasting&) = default;
};

std::string_view verdictId(Verdict verdict);
std::optional<Verdict> verdictFromId(std::string_view id);
std::string_view scaleId(Scale scale);

} // namespace stillroom::tasting
