#include "core/exchange/headings.h"

#include <initializer_list>
#include <string_view>
#include <unordered_map>
#include <vector>

namespace stillroom::exchange {

namespace {

const std::unordered_map<std::string_view, Section>& labels() {
    static const std::unordered_map<std::string_view, Section> made = [] {
        std::unordered_map<std::string_view, Section> t;
        const auto add = [&t](Section section, std::initializer_list<std::string_view> words) {
            for (const std::string_view w : words)
                t.emplace(w, section);
        };
        add(Section::Title, {"recipe", "name", "drink", "cocktail", "title", "rezept", "recette", "receta",
                             "ricetta", "nom", "nombre", "nome"});
        add(Section::Ingredients,
            {"ingredients", "ingredient list", "what you need", "you will need", "you'll need", "zutaten",
             "ingredientes", "ingredienti", "ingredienten", "spec", "specs", "build sheet", "shopping list"});
        add(Section::Method,
            {"method",      "directions",  "direction",     "instructions",    "instruction",
             "preparation", "procedure",   "steps",         "how to",          "how to make it",
             "to make",     "zubereitung", "anleitung",     "methode",         "methode de preparation",
             "preparacion", "elaboracion", "instrucciones", "preparazione",    "procedimento",
             "istruzioni",  "bereiding",   "preparo",       "modo de preparo", "making"});
        add(Section::Garnish,
            {"garnish", "garnishes", "garnitur", "dekoration", "deko", "garniture", "decoration", "adorno",
             "decoracion", "guarnizione", "decorazione", "garnering"});
        add(Section::Glass, {"glass", "glassware", "glas", "verre", "copa", "vaso", "bicchiere", "serve in",
                             "served in", "vessel"});
        add(Section::Ice, {"ice", "eis", "glacons", "hielo", "ghiaccio"});
        add(Section::Yield, {"yield", "yields", "serves", "servings", "makes", "portions", "portionen",
                             "ergibt", "personen", "pour", "raciones", "porciones", "porzioni", "dosi",
                             "rendement", "quantity", "batch", "batch size"});
        add(Section::Notes, {"note", "notes", "tip", "tips", "hinweis", "notiz", "remarque", "nota", "notas",
                             "variation", "variations", "storage"});
        add(Section::Credit, {"source", "credit", "credits", "author", "created by", "adapted from", "quelle",
                              "autor", "origin"});
        add(Section::Technique, {"technique", "technik", "tecnica"});
        return t;
    }();
    return made;
}

std::size_t forThe(const TokenLine& line, std::size_t i) {
    static const std::vector<std::vector<std::string_view>> kStarts = {
        {"for", "the"}, {"for", "a"},   {"for"},        {"fur", "den"},  {"fur", "das"},  {"fur", "die"},
        {"fur"},        {"pour", "le"}, {"pour", "la"}, {"pour", "les"}, {"pour", "l"},   {"pour", "un"},
        {"pour"},       {"para", "el"}, {"para", "la"}, {"para", "los"}, {"para", "las"}, {"para"},
        {"per", "lo"},  {"per", "la"},  {"per", "il"},  {"per", "l"},    {"per"}};
    for (const auto& words : kStarts) {
        std::size_t at = i;
        bool all = true;
        for (const std::string_view word : words)
            all = all && line.at(at++).isWord(word);
        if (!all) continue;
        if (line.at(at).isMark("'")) ++at;
        return at;
    }
    return i;
}

bool namesTheDrink(const TokenLine& line, std::size_t i) {
    static constexpr std::string_view kWords[] = {
        "drink",     "cocktail", "serving", "verre",  "glass",  "glas", "copa",  "vaso",
        "bicchiere", "person",   "persons", "people", "drinks", "one",  "punch", "bowl"};
    for (const std::string_view word : kWords)
        if (line.at(i).isWord(word)) return true;
    return line.at(i).kind == TokenKind::Digits;
}

// "Ice" on a line of its own is an ingredient as often as a label; these need their colon.
bool standsWithoutColon(Section section) {
    return section == Section::Ingredients || section == Section::Method || section == Section::Garnish ||
           section == Section::Notes || section == Section::Glass || section == Section::Technique;
}

bool isEnd(const Token& t) {
    return t.isMark(":") || t.isMark("–") || t.isMark("-");
}

// The name of a part ends before a bracket, a colon or a comma.
std::size_t endOfName(const TokenLine& line, std::size_t i, std::size_t last) {
    while (i < last && !line.at(i).isMark("(") && !line.at(i).isMark(":") && !line.at(i).isMark(","))
        ++i;
    return i;
}

bool closesWithColon(const TokenLine& line, std::size_t last) {
    return line.at(last - 1).isMark(":");
}

} // namespace

Heading headingAt(const TokenLine& line, std::size_t first, std::size_t last) {
    if (first >= last) return {};
    // the longest label of up to four words, alone or before a colon
    std::string key;
    Heading best;
    for (std::size_t i = first; i < last && i < first + 4 && line.at(i).kind == TokenKind::Word; ++i) {
        if (!key.empty()) key.push_back(' ');
        key += line.at(i).folded;
        const auto found = labels().find(key);
        if (found == labels().end()) continue;
        const std::size_t after = i + 1;
        const bool alone = after == last;
        const bool colon = after < last && line.at(after).isMark(":");
        const bool dash = after < last && isEnd(line.at(after)) && line.at(after).gap != Gap::None;
        if (colon || dash) best = {found->second, after + 1, {}};
        if (alone && standsWithoutColon(found->second)) best = {found->second, after, {}};
    }
    if (best.section != Section::None) return best;
    const std::size_t name = forThe(line, first);
    const std::size_t end = endOfName(line, name, last);
    const bool colon = closesWithColon(line, last);
    const std::size_t words = end - name;
    if (name != first && name < last &&
        (colon || (end == last && words <= 4 && line.at(name - 1).isWord("the")))) {
        if (namesTheDrink(line, name)) return {Section::Drink, last, {}};
        return {Section::Part, last, line.slice(name, end)};
    }
    if (colon && last - first <= 8 && line.at(first).kind == TokenKind::Word)
        return {Section::Part, last, line.slice(first, endOfName(line, first, last))};
    return {};
}

} // namespace stillroom::exchange
