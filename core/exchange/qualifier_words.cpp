#include "core/exchange/line_draft.h"

#include <unordered_map>

namespace stillroom::exchange {

namespace {

using spec::Qualifier;

const std::unordered_map<std::string_view, Qualifier>& table() {
    static const std::unordered_map<std::string_view, Qualifier> made = [] {
        std::unordered_map<std::string_view, Qualifier> t;
        const auto add = [&t](Qualifier q, std::initializer_list<std::string_view> words) {
            for (const std::string_view w : words)
                t.emplace(w, q);
        };
        add(Qualifier::Scant, {"scant", "bare", "barely", "short", "light", "knapp", "knapper", "knappe",
                               "knappes", "scarso", "scarsa", "escaso", "escasa", "skimpy", "shy", "stingy"});
        add(Qualifier::Heaping,
            {"heaping",  "heaped",    "generous",    "rounded",   "good",     "heavy",      "fat",
             "healthy",  "long",      "overflowing", "hefty",     "brimming", "gehauft",    "gehaufter",
             "gehaufte", "gehauftes", "gut",         "guter",     "gute",     "grosszugig", "bombee",
             "bombees",  "bonne",     "colmada",     "colmadas",  "colmado",  "generosa",   "generoso",
             "colmo",    "colmi",     "abbondante",  "abbondanti"});
        add(Qualifier::Level, {"level", "leveled", "levelled", "flat", "full", "gestrichen", "gestrichener",
                               "gestrichene", "rase", "rases", "rasa", "rasas", "raso", "rasi"});
        add(Qualifier::Small,
            {"small", "tiny", "little", "mini", "klein", "kleiner", "kleine", "kleines", "petit", "petite",
             "petits", "petites", "pequeno", "pequena", "piccolo", "piccola", "piccoli", "piccole"});
        add(Qualifier::Large, {"large", "big", "gross", "grosser", "grosse", "grosses", "grand", "grande",
                               "grosso", "grossa", "giant"});
        return t;
    }();
    return made;
}

} // namespace

Qualifier qualifierOf(std::string_view folded) {
    const auto found = table().find(folded);
    return found == table().end() ? Qualifier::None : found->second;
}

bool isQualifierWord(std::string_view folded) {
    return qualifierOf(folded) != Qualifier::None || folded == "thin" || folded == "thick" ||
           folded == "strong" || folded == "medium" || folded == "standard" || folded == "chilled" ||
           folded == "whole" || folded == "fresh" || folded == "quick" || folded == "fine" ||
           folded == "single" || folded == "extra" || folded == "very" || folded == "more" ||
           folded == "dunne";
}

} // namespace stillroom::exchange
