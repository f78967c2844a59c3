#include "core/tasting/tasting.h"

#include "core/tasting/note_words.h"
#include "core/tasting/wishes.h"

#include <algorithm>
#include <array>
#include <vector>

namespace stillroom::tasting {

namespace {

// In the order of the enumerations; these enter files.
constexpr std::array<std::string_view, 4> kVerdicts{"none", "keep", "change", "drop"};

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
    const auto name = noteWords(scaleName);
    return wishes(NoteText(tasting.note), name, Wish::Less) ||
           wishes(NoteText(tasting.tryNext, true), name, Wish::Less);
}

} // namespace stillroom::tasting
