#include "core/exchange/line_draft.h"

#include "core/base/text.h"
#include "core/larder/ratio_syrup.h"

#include <algorithm>

namespace stillroom::exchange {

namespace {

bool saysSyrup(std::string_view text) {
    constexpr std::string_view kWords[] = {"syrup", "sirup", "sirop", "jarabe", "sciroppo", "zuckersirup"};
    const auto words = base::foldedWords(base::fold(text));
    return std::any_of(words.begin(), words.end(), [&](const std::string& word) {
        return std::find(std::begin(kWords), std::end(kWords), word) != std::end(kWords);
    });
}

} // namespace

void judgeRatio(ReadLine& out) {
    if (out.kind != ReadKind::Ingredient) return;
    const auto words = larder::ratioWords(out.line.name + " (" + out.line.note + ")");
    if (!words || words->basis != larder::SyrupBasis::Unsaid) return;
    static const larder::Larder handbook;
    const larder::Ingredient* syrup = handbook.find(handbook.match(words->rest).ingredient);
    const bool isKnown = syrup != nullptr && larder::ratioKinds(*words, *syrup);
    if (!isKnown && !saysSyrup(words->rest)) return;
    // Of another sweetener the parts are its own, and give other figures.
    std::string detail = words->ratio();
    if (!isKnown || !larder::isOfSugar(*syrup)) detail += " " + words->rest;
    out.doubts.push_back({DoubtCode::RatioBasisUnstated, DoubtWeight::Warn, std::move(detail)});
}

} // namespace stillroom::exchange
