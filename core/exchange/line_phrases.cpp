#include "core/exchange/line_phrases.h"

#include <algorithm>
#include <array>
#include <initializer_list>
#include <string>
#include <unordered_map>
#include <vector>

namespace stillroom::exchange {

namespace {

using Words = std::vector<std::string>;

// Phrases by their first word, longest first.
class PhraseSet {
  public:
    PhraseSet(std::initializer_list<std::string_view> phrases) {
        for (const std::string_view phrase : phrases) {
            Words words;
            for (std::size_t begin = 0; begin < phrase.size();) {
                const std::size_t end = std::min(phrase.find(' ', begin), phrase.size());
                words.emplace_back(phrase.substr(begin, end - begin));
                begin = end + 1;
            }
            m_longest = std::max(m_longest, words.size());
            m_byFirst[words.front()].push_back(std::move(words));
        }
        for (auto& [first, list] : m_byFirst)
            std::sort(list.begin(), list.end(),
                      [](const Words& a, const Words& b) { return a.size() > b.size(); });
    }

    std::size_t match(const TokenLine& line, std::size_t at) const {
        if (line.at(at).kind != TokenKind::Word) return 0;
        const auto found = m_byFirst.find(line.at(at).folded);
        if (found == m_byFirst.end()) return 0;
        for (const Words& words : found->second)
            if (const std::size_t next = matchWords(line, at, words)) return next;
        return 0;
    }

    std::size_t longest() const { return m_longest; }

  private:
    static std::size_t matchWords(const TokenLine& line, std::size_t at, const Words& words) {
        std::size_t i = at;
        for (std::size_t w = 0; w < words.size(); ++w) {
            if (w > 0)
                while (line.at(i).isMark("-") || line.at(i).isMark("'") ||
                       (line.at(i).isMark(".") && line.at(i).isTight()))
                    ++i;
            if (!line.at(i).isWord(words[w])) return 0;
            ++i;
        }
        return i;
    }

    std::unordered_map<std::string, std::vector<Words>> m_byFirst;
    std::size_t m_longest = 0;
};

const PhraseSet& setOf(Phrase phrase) {
    static const std::array<PhraseSet, 19> sets{{
        {"top with",
         "top up with",
         "top off with",
         "top it with",
         "top it up with",
         "topped with",
         "topped up with",
         "topped off with",
         "fill with",
         "fill up with",
         "filled with",
         "fill to the top with",
         "top glass with",
         "top the glass with",
         "fill glass with",
         "fill the glass with",
         "lengthen with",
         "finish with",
         "top up",
         "top off",
         "top",
         "auffullen mit",
         "auffuellen mit",
         "aufgiessen mit",
         "toppen mit",
         "completer avec",
         "completer de",
         "completez avec",
         "allonger avec",
         "allonger de",
         "allongez avec",
         "remplir de",
         "remplir avec",
         "completar con",
         "rellenar con",
         "llenar con",
         "terminar con",
         "colmare con",
         "completare con",
         "riempire con",
         "top di",
         "top de",
         "top mit",
         "top avec",
         "top con"},
        {"to top",         "to top up",         "to top off",
         "to top it off",  "to fill",           "to fill up",
         "to fill glass",  "to fill the glass", "to top the glass",
         "for topping",    "for topping up",    "for the top",
         "top up",         "top off",           "top",
         "topped",         "topped up",         "zum auffullen",
         "zum aufgiessen", "zum toppen",        "auffullen",
         "aufgiessen",     "pour completer",    "pour allonger",
         "pour remplir",   "a completer",       "para completar",
         "para rellenar",  "para llenar",       "para terminar",
         "per completare", "per colmare",       "a colmare",
         "a completare",   "om af te toppen"},
        {"rinse of", "rinse with", "rinse glass with", "rinse the glass with", "rinse", "rinsed with",
         "glass rinse of", "glass rinsed with", "a rinse of"},
        {"rinse",
         "rinsed",
         "to rinse",
         "to rinse the glass",
         "to rinse glass",
         "for rinsing",
         "for rinsing the glass",
         "for rinsing glass",
         "for rinse",
         "for the rinse",
         "for a rinse",
         "as a rinse",
         "glass rinse",
         "to coat the glass",
         "pour rincer le verre",
         "pour rincer",
         "zum ausspulen",
         "zum ausspulen des glases",
         "zum ausschwenken",
         "para enjuagar",
         "para enjuagar el vaso",
         "para enjuagar la copa",
         "per sciacquare",
         "per sciacquare il bicchiere"},
        {"float of", "a float of", "float with", "float", "floated with"},
        {"float", "floated", "floated on top", "to float", "to float on top", "for float", "for the float",
         "for a float", "for floating", "as a float", "as float", "float on top", "floater", "floating",
         "floating on top"},
        {"garnish with",    "garnish",       "garnished with", "garnish of",   "to garnish",  "for garnish",
         "for the garnish", "decorate with", "decoration",     "deko",         "dekoration",  "garnitur",
         "garnieren mit",   "zum garnieren", "garniture",      "garni",        "garnir de",   "garnir avec",
         "decorer avec",    "decorer de",    "pour decorer",   "pour la deco", "adorno",      "adornar con",
         "decorar con",     "decoracion",    "para decorar",   "para adornar", "guarnizione", "decorazione",
         "guarnire con",    "decorare con",  "per guarnire",   "per decorare", "garnering",   "decoracao"},
        {"to garnish",         "for garnish",        "for garnishing", "for the garnish",
         "as garnish",         "as a garnish",       "garnish",        "for decoration",
         "to decorate",        "zum garnieren",      "zur garnitur",   "zur deko",
         "zur dekoration",     "als garnitur",       "als deko",       "pour decorer",
         "pour la decoration", "pour garnir",        "en garniture",   "para decorar",
         "para adornar",       "para la decoracion", "per guarnire",   "per decorare",
         "per la guarnizione", "ter garnering"},
        {"to taste", "to your taste", "nach geschmack", "nach belieben", "au gout", "selon gout",
         "selon le gout", "selon votre gout", "al gusto", "a gusto", "a piacere", "naar smaak", "a gosto"},
        {"as needed", "as required", "if needed", "as desired", "q b", "qb", "q s", "quanto basta", "c n",
         "if desired", "nach bedarf"},
        {"optional", "optionally", "optionnel", "optionnelle", "facultatif", "opcional", "facoltativo",
         "facoltativa", "wahlweise", "nach wunsch", "if you like", "if using", "optioneel"},
        {"for the",
         "for rim",
         "for rimming",
         "for serving",
         "for a rim",
         "to serve",
         "to finish",
         "such as",
         "e g",
         "eg",
         "i e",
         "ie",
         "for example",
         "z b",
         "zum beispiel",
         "par exemple",
         "por ejemplo",
         "ad esempio",
         "preferably",
         "ideally",
         "pour le",
         "pour la",
         "pour les",
         "pour l",
         "fur den",
         "fur das",
         "fur die",
         "fur einen",
         "para el",
         "para la",
         "per il",
         "per la",
         "per lo",
         "at room temperature",
         "plus more",
         "plus extra",
         "cut into",
         "cut in",
         "about the size",
         "from a",
         "voor de",
         "voor het"},
        {"juice of",
         "juices of",
         "juice from",
         "the juice of",
         "the juice from",
         "fresh juice of",
         "fresh juice from",
         "freshly squeezed juice of",
         "freshly pressed juice of",
         "strained juice of",
         "expressed juice of",
         "saft von",
         "saft",
         "frischer saft von",
         "der saft von",
         "der saft",
         "jus de",
         "le jus de",
         "jus d",
         "le jus d",
         "zumo de",
         "el zumo de",
         "jugo de",
         "el jugo de",
         "succo di",
         "il succo di",
         "sumo de",
         "suco de",
         "sap van"},
        {"zest of",      "the zest of",    "zests of",
         "zest from",    "peel of",        "the peel of",
         "peels of",     "peel from",      "rind of",
         "the rind of",  "rinds of",       "the rinds of",
         "pulp of",      "the pulp of",    "flesh of",
         "seeds of",     "skin of",        "skins of",
         "thin peel of", "grated zest of", "finely grated zest of",
         "schale von",   "abrieb von",     "schale",
         "abrieb",       "zeste de",       "zeste d",
         "le zeste de",  "le zeste d",     "les zestes de",
         "zestes de",    "scorza di",      "la scorza di",
         "cascara de",   "la cascara de",  "ralladura de",
         "piel de",      "la piel de",     "pulpe de"},
        {"equal parts", "equal part", "equal parts of", "equal measures", "equal measures of",
         "equal amounts", "equal amounts of", "gleiche teile", "zu gleichen teilen", "parts egales",
         "parts egales de", "partes iguales", "partes iguales de", "parti uguali", "parti uguali di"},
        {"about",
         "approx",
         "approximately",
         "around",
         "roughly",
         "circa",
         "ca",
         "nearly",
         "almost",
         "just under",
         "just over",
         "a little over",
         "a little under",
         "slightly over",
         "slightly under",
         "just shy of",
         "shy of",
         "etwa",
         "ungefahr",
         "rund",
         "gut",
         "environ",
         "aproximadamente",
         "alrededor de",
         "cerca de",
         "more or less"},
        {"up to", "at most", "no more than", "not more than", "max", "maximum", "bis zu", "hochstens",
         "jusqu'a", "jusqua", "hasta", "fino a"},
        {"at least", "minimum", "min", "mindestens", "au moins", "al menos", "almeno"},
        {"add", "and", "plus", "then", "also", "take", "with", "und", "et", "dazu", "mit", "avec", "con"},
    }};
    return sets[static_cast<std::size_t>(phrase)];
}

} // namespace

std::size_t phraseAt(Phrase phrase, const TokenLine& line, std::size_t at) {
    return setOf(phrase).match(line, at);
}

std::size_t phraseBefore(Phrase phrase, const TokenLine& line, std::size_t first, std::size_t last) {
    const PhraseSet& set = setOf(phrase);
    const std::size_t reach = std::min(last - first, set.longest() + 2);
    for (std::size_t back = reach; back > 0; --back)
        if (set.match(line, last - back) == last) return last - back;
    return last;
}

} // namespace stillroom::exchange
