#include "core/exchange/recipe_reader.h"

#include "core/exchange/clean_text.h"
#include "core/exchange/headings.h"
#include "core/exchange/line_draft.h"
#include "core/exchange/method_words.h"
#include "core/exchange/recipe_structure.h"
#include "core/exchange/recipe_text.h"
#include "core/exchange/weighed_shake.h"
#include "core/exchange/whole_recipe.h"
#include "core/exchange/yield_words.h"

#include "core/base/text.h"

#include <algorithm>

namespace stillroom::exchange {

namespace {

// Whether the line begins with a number, figures or spelled.
bool startsWithNumber(std::string_view text) {
    const TokenLine line(cleanLine(text).text);
    std::size_t i = 0;
    while (line.at(i).kind == TokenKind::Mark && i < line.size())
        ++i;
    const auto number = readNumber(line, i);
    return number && !figureDescribes(line, number->next);
}

} // namespace

RecipeRead RecipeStructure::read() {
    for (m_at = 0; m_at < m_lines.size(); ++m_at) {
        const SourceLine& line = m_lines[m_at];
        if (base::trimmed(cleanLine(line.text.substr(0, 64)).text).empty()) {
            m_blankBefore = true;
            continue;
        }
        m_text = trimmedText(line.text);
        place(line);
        m_blankBefore = false;
    }
    settleWhole(m_out);
    return std::move(m_out);
}

std::string RecipeStructure::trimmedText(const std::string& raw) {
    return std::string(base::trimmed(base::withoutControls(raw)));
}

ReadLine& RecipeStructure::record(ReadLine line, ReadKind kind) {
    line.kind = kind;
    line.sourceLine = m_lines[m_at].number;
    if (m_lines[m_at].recovered) line.doubts.push_back({DoubtCode::EncodingRecovered, DoubtWeight::Warn, {}});
    m_out.every.push_back(std::move(line));
    return m_out.every.back();
}

ReadLine RecipeStructure::plain() const {
    ReadLine line;
    line.raw = m_lines[m_at].text;
    const CleanLine clean = cleanLine(line.raw);
    if (clean.hadControls) line.doubts.push_back({DoubtCode::ControlCharacters, DoubtWeight::Warn, {}});
    if (clean.hadBidiControls) line.doubts.push_back({DoubtCode::BidiControls, DoubtWeight::Warn, {}});
    return line;
}

void RecipeStructure::place(const SourceLine& source) {
    ReadLine read = readLineInText(source.text, m_options);
    const bool tooLong = std::any_of(read.doubts.begin(), read.doubts.end(),
                                     [](const Doubt& d) { return d.code == DoubtCode::LineTooLong; });
    if (tooLong) {
        current().lines.push_back(record(std::move(read), ReadKind::Unread));
        return;
    }
    if (source.hint == LineHint::Title || (!m_titleDone && source.hint == LineHint::None)) {
        m_titleDone = true;
        if (takeTitle(read)) return;
    }
    m_titleDone = true;
    if (source.hint == LineHint::Note) {
        addNote();
        return;
    }
    if (takeLabel()) return;
    if (takeYieldLine() || takeByline()) return;
    if (source.hint == LineHint::Ingredient) {
        addIngredient(std::move(read));
        return;
    }
    if (source.hint == LineHint::Method) {
        addStep();
        return;
    }
    if (!main().lines.empty() && weighedShake(m_text)) {
        m_inSub = false;
        addStep();
        return;
    }
    if (takeInlinePart()) return;
    if (takeTitledPart(read)) return;
    if (takeSecondName(read)) return;
    placeBySection(std::move(read));
}

bool RecipeStructure::takeTitle(const ReadLine& read) {
    const TokenLine line(cleanLine(m_text).text);
    std::size_t first = 0;
    while (line.at(first).isMark("#"))
        ++first;
    const Heading heading = headingAt(line, first, line.size());
    if (heading.section == Section::Title && heading.next < line.size()) {
        setTitle(line.slice(heading.next, line.size()));
        return true;
    }
    const bool known = heading.section != Section::None && heading.section != Section::Part;
    if (m_lines[m_at].hint != LineHint::Title && (known || (isMeasured(read) && startsWithNumber(m_text))))
        return false;
    std::string title = first > 0 ? line.slice(first, line.size()) : m_text;
    while (title.size() > 1 && title.back() == ':')
        title.pop_back();
    setTitle(title);
    return true;
}

void RecipeStructure::setTitle(const std::string& text) {
    const TitleParts parts = splitTitle(text);
    record(plain(), ReadKind::Title);
    main().name = parts.name;
    takeYield(main(), parts.yield);
    if (!parts.rest.empty()) {
        main().method.push_back(parts.rest);
    }
}

void RecipeStructure::takeYield(ReadRecipe& recipe, const std::optional<Yield>& yield) {
    if (!yield) return;
    recipe.yield = yield->amount;
    recipe.yieldUnit = yield->unit;
    recipe.yieldApprox = yield->approx;
}

bool RecipeStructure::takeLabel() {
    const TokenLine line(cleanLine(m_text).text);
    std::size_t first = 0;
    while (line.at(first).isMark("#") || line.at(first).isMark("*") || line.at(first).isMark("="))
        ++first;
    std::size_t last = line.size();
    while (last > first &&
           (line.at(last - 1).isMark("*") || line.at(last - 1).isMark("=") || line.at(last - 1).isMark("#")))
        --last;
    const Heading heading = headingAt(line, first, last);
    if (heading.section == Section::None) return false;
    const std::string content = heading.next < last ? line.slice(heading.next, last) : std::string();
    switch (heading.section) {
    case Section::Title:
        if (!main().name.empty() || content.empty()) return false;
        main().name = content;
        record(plain(), ReadKind::Title);
        return true;
    case Section::Drink:
        m_inSub = false;
        enter(Section::Ingredients);
        return true;
    case Section::Part:
        startPart(heading.name, line.slice(first, last));
        return true;
    default:
        return takeLabelled(heading.section, content);
    }
}

void RecipeStructure::enter(Section section) {
    record(plain(), ReadKind::Heading);
    m_section = section;
    m_lastWasIngredient = false;
}

bool RecipeStructure::takeLabelled(Section section, const std::string& content) {
    if (content.empty()) {
        if (section == Section::Garnish || section == Section::Glass) m_inSub = false;
        enter(section);
        return true;
    }
    switch (section) {
    case Section::Garnish:
        addGarnish(content);
        return true;
    case Section::Glass:
        main().glass = content;
        record(plain(), ReadKind::Note);
        return true;
    case Section::Technique:
        main().technique = base::toLower(content);
        record(plain(), ReadKind::Note);
        return true;
    case Section::Credit:
        main().credit = content;
        record(plain(), ReadKind::Note);
        return true;
    case Section::Yield:
        takeYield(current(), readYieldOfLabel(content));
        record(plain(), ReadKind::Note);
        return true;
    case Section::Method:
        m_section = Section::Method;
        current().method.push_back(content);
        record(plain(), ReadKind::Method);
        return true;
    case Section::Ingredients: {
        m_section = Section::Ingredients;
        ReadLine read = readLineInText(content, m_options);
        read.raw = m_lines[m_at].text;
        addIngredient(std::move(read));
        return true;
    }
    case Section::Notes:
        main().notes.push_back(content);
        record(plain(), ReadKind::Note);
        return true;
    default:
        addNote();
        return true;
    }
}

bool RecipeStructure::takeByline() {
    const TokenLine line(cleanLine(m_text).text);
    std::size_t first = 0;
    while (line.at(first).isMark("*") || line.at(first).isMark("(") || line.at(first).isMark("–") ||
           line.at(first).isMark("-"))
        ++first;
    const bool by =
        line.at(first).isWord("by") || line.at(first).isWord("von") || line.at(first).isWord("par");
    if (!by || !main().lines.empty() || !main().credit.empty() || line.size() > first + 8) return false;
    std::size_t last = line.size();
    while (last > first + 1 && (line.at(last - 1).isMark("*") || line.at(last - 1).isMark(")")))
        --last;
    main().credit = line.slice(first + 1, last);
    record(plain(), ReadKind::Note);
    return true;
}

void RecipeStructure::startPart(const std::string& name, const std::string& whole) {
    record(plain(), ReadKind::Heading);
    ReadRecipe part;
    part.name = name;
    if (const std::size_t open = whole.find('('); open != std::string::npos)
        takeYield(part, readYield(whole.substr(open + 1, whole.rfind(')') - open - 1)));
    main().subRecipes.push_back(std::move(part));
    m_inSub = true;
    m_section = Section::Ingredients;
    m_lastWasIngredient = false;
}

bool RecipeStructure::takeInlinePart() {
    const auto inlinePart = readInlinePart(m_text, m_options);
    if (!inlinePart) return false;
    ReadRecipe part;
    part.name = inlinePart->name;
    part.lines = inlinePart->lines;
    for (ReadLine& line : part.lines)
        line.sourceLine = m_lines[m_at].number;
    part.method = inlinePart->method;
    takeYield(part, inlinePart->yield);
    ReadLine whole = plain();
    whole.parts = part.lines;
    record(std::move(whole), ReadKind::Fused);
    main().subRecipes.push_back(std::move(part));
    return true;
}

bool RecipeStructure::takeTitledPart(const ReadLine& read) {
    const bool methodSeen = !current().method.empty();
    if (!methodSeen || (isMeasured(read) && startsWithNumber(m_text))) return false;
    if (!m_blankBefore && m_section == Section::Method) return false;
    if (hasLeadingAmount(read) && read.line.poured.measure == quantity::Measure::Piece && !m_blankBefore)
        return false;
    if (wordCount(m_text) > 8 || startsWithVerb(m_text) || m_text.back() == '.') return false;
    const SourceLine* next = nextLine();
    if (next == nullptr || !isMeasured(readLineInText(next->text, m_options))) return false;
    const TitleParts parts = splitTitle(m_text);
    if (isMeasured(readLineInText(parts.name, m_options))) return false;
    record(plain(), ReadKind::Heading);
    ReadRecipe part;
    part.name = parts.name;
    takeYield(part, parts.yield);
    main().subRecipes.push_back(std::move(part));
    m_inSub = true;
    m_section = Section::Ingredients;
    return true;
}

bool RecipeStructure::takeSecondName(const ReadLine& read) {
    if (m_inSub || !m_blankBefore || main().lines.empty() || !main().method.empty()) return false;
    if (read.kind != ReadKind::Ingredient || hasLeadingAmount(read) || !read.unit.empty()) return false;
    if (wordCount(m_text) > 6 || startsWithVerb(m_text) || m_text.back() == '.') return false;
    if (m_at + 1 >= m_lines.size() || base::trimmed(m_lines[m_at + 1].text).empty()) return false;
    const std::string& following = m_lines[m_at + 1].text;
    if (!startsWithNumber(following) || !isMeasured(readLineInText(following, m_options))) return false;
    if (splitTitle(m_text).yield || namesAPart(m_text)) return false;
    record(plain(), ReadKind::Heading);
    main().doubts.push_back({DoubtCode::SeveralDrinks, DoubtWeight::Ask, m_text});
    m_lastWasIngredient = false;
    return true;
}

bool RecipeStructure::namesAPart(const std::string& title) const {
    const std::string folded = base::fold(title);
    for (const std::string_view sort :
         {"syrup", "sirup", "orgeat", "grenadine", "cordial", "shrub", "infus", "tincture", "foam", "mix",
          "puree", "falernum", "oleo", "brine", "solution", "cream", "batter", "stock", "sauce"})
        if (folded.find(sort) != std::string::npos) return true;
    return std::any_of(m_out.recipe.lines.begin(), m_out.recipe.lines.end(), [&](const ReadLine& line) {
        const std::string name = base::fold(line.line.name);
        return name.size() > 2 &&
               (folded.find(name) != std::string::npos || name.find(folded) != std::string::npos);
    });
}

const SourceLine* RecipeStructure::nextLine() const {
    for (std::size_t i = m_at + 1; i < m_lines.size(); ++i)
        if (!base::trimmed(m_lines[i].text).empty()) return &m_lines[i];
    return nullptr;
}

RecipeRead readRecipe(const std::vector<SourceLine>& lines, const ReadOptions& options) {
    return RecipeStructure(lines, options).read();
}

} // namespace stillroom::exchange
