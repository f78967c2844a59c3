#include "core/tasting/tasting.h"

#include "core/base/text.h"
#include "core/tasting/note_words.h"

#include <algorithm>
#include <array>
#include <vector>

namespace stillroom::tasting {

namespace {

// In the order of the enumerations; these enter files.
constexpr std::array<std::string_view, 4> kVerdicts{"none", "keep", "change", "drop"};

// "too" or "less" straight before the words of a scale's name.
bool says(std::string_view text, const std::vector<std::string>& name) {
    if (name.empty()) return false;
    const auto words = noteWords(text);
    for (std::size_t at = 0; at + name.size() < words.size(); ++at)
        if ((words[at] == "too" || words[at] == "less") &&
            std::equal(name.begin(), name.end(), words.begin() + static_cast<std::ptrdiff_t>(at) + 1))
            return true;
    return false;
}

} // namespace

std::string_view verdictId(Verdict verdict) {
    return kVerdicts[static_cast<std::size_t>(verdict)];
}

std::optional<Verdict> verdictFromId(std::string_view id) {
    for (std::size_t i = 0; i < kVerdicts.size(); ++i)
        if (kVerdicts[i] == id) return static_cast<Verdict>(i);
    return std::nullopt;
}

bool saysTooMuch(const Tasting& tasting, std::string_view scaleId, std::string_view scaleName) {
    const auto score = tasting.scores.of(scaleId);
    if (score && score->kind == ScaleKind::JustAboutRight && score->value >= 4) return true;
    const auto name = base::foldedWords(scaleName);
    return says(tasting.note, name) || says(tasting.tryNext, name);
}

} // namespace stillroom::tasting
