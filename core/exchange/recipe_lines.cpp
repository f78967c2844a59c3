// Lines without a label: ingredients, steps, what is laid on top, notes.
#include "core/exchange/recipe_structure.h"

#include "core/base/text.h"
#include "core/exchange/line_draft.h"
#include "core/exchange/method_words.h"
#include "core/exchange/recipe_text.h"

namespace stillroom::exchange {

bool hasLeadingAmount(const ReadLine& line) {
    return line.line.poured.amount.isStated() || (line.kind == ReadKind::Fused);
}

bool isMeasured(const ReadLine& line) {
    if (line.kind == ReadKind::Fused || line.kind == ReadKind::Refused) return true;
    const auto& measure = line.line.poured.measure;
    return line.kind == ReadKind::Ingredient && measure && *measure != quantity::Measure::Piece;
}

std::size_t wordCount(std::string_view text) {
    return base::foldedWords(text).size();
}

bool RecipeStructure::takeYieldLine() {
    const auto yield = readYield(m_text);
    if (!yield) return false;
    if (yield->unit != "drink" && !startsWithYieldWord()) return false;
    takeYield(current(), yield);
    record(plain(), ReadKind::Note);
    return true;
}

bool RecipeStructure::startsWithYieldWord() const {
    const std::string folded = base::fold(m_text);
    for (const std::string_view word :
         {"makes", "yield", "serves", "recovered", "gives", "produces", "ergibt", "about"})
        if (folded.substr(0, word.size()) == word) return true;
    return false;
}

void RecipeStructure::placeBySection(ReadLine read) {
    switch (m_section) {
    case Section::Method:
        if (read.kind == ReadKind::Garnish)
            addGarnish(read.line.name.empty() ? m_text : garnishWords(read));
        else
            addStep();
        return;
    case Section::Garnish:
        addGarnish(withoutStepNumber(m_text));
        return;
    case Section::Glass:
        main().glass = m_text;
        record(plain(), ReadKind::Note);
        return;
    case Section::Notes:
    case Section::Credit:
    case Section::Ice:
        addNote();
        return;
    case Section::Yield:
        takeYield(current(), readYieldOfLabel(m_text));
        record(plain(), ReadKind::Note);
        return;
    default:
        placeFreely(std::move(read));
    }
}

std::string RecipeStructure::garnishWords(const ReadLine& read) const {
    const std::size_t at = m_text.find(read.line.name);
    const bool prefixed =
        base::fold(m_text).substr(0, 4) == "garn" || base::fold(m_text).substr(0, 4) == "deco";
    if (!prefixed) return read.line.name;
    const std::string content = afterGarnishWord(m_text);
    return content.empty() ? (at == std::string::npos ? m_text : m_text.substr(at)) : content;
}

void RecipeStructure::placeFreely(ReadLine read) {
    const bool methodSeen = !current().method.empty();
    if (read.kind == ReadKind::Garnish) {
        addGarnish(garnishWords(read));
        return;
    }
    if (read.kind == ReadKind::Fused || read.kind == ReadKind::Refused || isMeasured(read)) {
        if (read.kind == ReadKind::Fused && methodSeen && startsWithVerb(m_text))
            addStep();
        else
            addIngredient(std::move(read));
        return;
    }
    if (isEntering(read, methodSeen)) {
        addIngredient(std::move(read));
        return;
    }
    const bool verbFirst = startsWithVerb(m_text);
    if (hasLeadingAmount(read) && !verbFirst) {
        // a count after the method is what is laid on top
        if (methodSeen && !current().lines.empty() && (m_text.back() == '.' || !m_lastWasIngredient))
            addGarnish(m_text);
        else
            addIngredient(std::move(read));
        return;
    }
    const bool carriesOn = m_lastWasIngredient && !m_blankBefore && !methodSeen && m_text.back() != '.';
    if (verbFirst || (isSentence() && !carriesOn)) {
        addStep();
        return;
    }
    if (belongsToList(read, methodSeen))
        addIngredient(std::move(read));
    else if (!current().lines.empty() && !methodSeen)
        addStep();
    else
        addNote();
}

bool RecipeStructure::isEntering(const ReadLine& read, bool methodSeen) const {
    if (methodSeen || (read.unit != "top" && read.unit != "rinse" && read.unit != "float")) return false;
    return wordCount(m_text) <= 7 && m_text.find(". ") == std::string::npos;
}

bool RecipeStructure::isSentence() const {
    const std::size_t words = wordCount(m_text);
    return soundsLikeMethod(m_text) && (words >= 5 || m_text.back() == '.');
}

bool RecipeStructure::belongsToList(const ReadLine& read, bool methodSeen) const {
    if (methodSeen && !m_inSub && m_section != Section::Ingredients) return m_lastWasIngredient;
    if (m_section == Section::Ingredients && !methodSeen) return true;
    if (read.kind == ReadKind::Unread) return true;
    if (m_lastWasIngredient && !m_blankBefore) return true;
    return current().lines.empty() && wordCount(m_text) <= 8;
}

void RecipeStructure::addIngredient(ReadLine read) {
    if (read.kind == ReadKind::Garnish) {
        addGarnish(garnishWords(read));
        return;
    }
    if (read.kind == ReadKind::Heading) {
        record(std::move(read), ReadKind::Heading);
        return;
    }
    if (read.kind == ReadKind::Note) {
        record(std::move(read), ReadKind::Note);
        return;
    }
    const ReadKind kind = read.kind;
    current().lines.push_back(record(std::move(read), kind));
    m_lastWasIngredient = true;
}

void RecipeStructure::addStep() {
    std::string step = withoutStepNumber(m_text);
    current().method.push_back(std::move(step));
    record(plain(), ReadKind::Method);
    m_lastWasIngredient = false;
}

void RecipeStructure::addGarnish(const std::string& words) {
    record(plain(), ReadKind::Garnish).line.name = words;
    if (base::fold(words) == "none" || base::fold(words) == "no garnish") return;
    for (std::string& one : splitGarnish(words))
        main().garnish.push_back(std::move(one));
}

void RecipeStructure::addNote() {
    main().notes.push_back(m_text);
    record(plain(), ReadKind::Note);
}

} // namespace stillroom::exchange
