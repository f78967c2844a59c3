#include "core/tasting/asks.h"

#include "core/base/text.h"
#include "core/history/what_changed.h"
#include "core/larder/ingredient.h"
#include "core/spec/edit.h"
#include "core/spec/jigger_step.h"
#include "core/tasting/note_words.h"
#include "core/tasting/wishes.h"

#include <algorithm>
#include <map>
#include <optional>
#include <set>

namespace stillroom::tasting {

using spec::Quantity;
using spec::Stage;

namespace {

bool startsAt(const std::vector<std::string>& words, std::size_t at, const std::vector<std::string>& name) {
    return at + name.size() <= words.size() &&
           std::equal(name.begin(), name.end(), words.begin() + static_cast<std::ptrdiff_t>(at));
}

bool holdsName(const std::vector<std::string>& words, const std::vector<std::string>& name) {
    for (std::size_t at = 0; !name.empty() && at < words.size(); ++at)
        if (startsAt(words, at, name)) return true;
    return false;
}

// What the wish is about, in figures.
enum class Subject : std::uint8_t { Sweet, Sour, Strong, Bitter, Line, None };

Subject subjectOf(const ScaleDefinition& scale, const spec::Spec& spec) {
    if (scale.id == scaleId(Scale::Sweet)) return Subject::Sweet;
    if (scale.id == scaleId(Scale::Sour)) return Subject::Sour;
    if (scale.id == scaleId(Scale::Strong)) return Subject::Strong;
    if (scale.id == scaleId(Scale::Bitter)) return Subject::Bitter;
    const auto name = noteWords(scale.name);
    for (const auto& line : spec.lines)
        if (holdsName(noteWords(line.name), name)) return Subject::Line;
    return Subject::None;
}

double known(const spec::Reading& reading) {
    const bool usable = reading.bound == spec::Bound::Exact || reading.bound == spec::Bound::AtLeast ||
                        reading.bound == spec::Bound::Between;
    return usable ? reading.value : 0;
}

// Trade words for what is bitter by its nature: no figure of bitterness is on record anywhere.
bool isBitterByName(std::string_view name) {
    static const std::set<std::string, std::less<>> kBitter{
        "bitter",   "bitters",   "amaro", "amari",     "gentian", "gentiane", "enzian",   "quinquina",
        "quinine",  "kina",      "china", "cinchona",  "fernet",  "tonic",    "chinotto", "aperitivo",
        "wormwood", "rabarbaro", "cocoa", "artichoke", "coffee",  "espresso"};
    for (const auto& word : noteWords(name))
        if (kBitter.count(word) > 0) return true;
    return false;
}

bool isBitter(const spec::Line& line, const larder::Ingredient* poured) {
    if (isBitterByName(line.name)) return true;
    if (poured == nullptr) return false;
    if (isBitterByName(poured->name)) return true;
    const auto& facts = poured->facts;
    return facts.group == "bitters" ||
           std::any_of(facts.tags.begin(), facts.tags.end(), [](const auto& tag) { return tag == "bitter"; });
}

struct Try {
    std::size_t line;
    Lever lever;
    int direction;
    double share; // how much of it the line brings
};

// Lines that bring a part of something worth the name.
constexpr double kLeastShare = 0.08;

class Levers {
  public:
    Levers(const spec::Spec& spec, const spec::Bindings& bindings)
        : m_spec(spec),
          m_bindings(bindings),
          m_brought(spec::contributions(spec, bindings)) {}

    std::vector<Try> of(const Ask& ask) const {
        std::vector<Try> tries;
        const int way = ask.wish == AskFor::Less ? -1 : 1;
        if (ask.line) {
            if (*ask.line < m_spec.lines.size()) tries.push_back({*ask.line, Lever::NamedLine, way, 1});
            return tries;
        }
        switch (subjectOf(ask.scale, m_spec)) {
        case Subject::Sweet:
            add(tries, &spec::Contribution::sugarG, Lever::Itself, way);
            add(tries, &spec::Contribution::acidG, Lever::Against, -way);
            break;
        case Subject::Sour:
            add(tries, &spec::Contribution::acidG, Lever::Itself, way);
            add(tries, &spec::Contribution::sugarG, Lever::Against, -way);
            break;
        case Subject::Strong:
            add(tries, &spec::Contribution::ethanolMl, Lever::Itself, way);
            break;
        case Subject::Bitter:
            for (std::size_t i = 0; i < m_spec.lines.size(); ++i)
                if (isBitter(m_spec.lines[i], m_bindings.poured(i)))
                    tries.push_back({i, Lever::Itself, way, 1});
            break;
        case Subject::Line:
            addNamed(tries, ask.scale, way);
            break;
        case Subject::None:
            break;
        }
        return tries;
    }

  private:
    void add(std::vector<Try>& tries, spec::Reading spec::Contribution::*what, Lever lever,
             int direction) const {
        double all = 0;
        for (const auto& line : m_brought)
            all += known(line.*what);
        std::vector<Try> found;
        for (std::size_t i = 0; all > 0 && i < m_brought.size(); ++i)
            if (const double share = known(m_brought[i].*what) / all; share >= kLeastShare)
                found.push_back({i, lever, direction, share});
        std::stable_sort(found.begin(), found.end(),
                         [](const Try& a, const Try& b) { return a.share > b.share; });
        tries.insert(tries.end(), found.begin(), found.end());
    }

    void addNamed(std::vector<Try>& tries, const ScaleDefinition& scale, int direction) const {
        const auto name = noteWords(scale.name);
        for (std::size_t i = 0; i < m_spec.lines.size(); ++i)
            if (holdsName(noteWords(m_spec.lines[i].name), name))
                tries.push_back({i, Lever::NamedLine, direction, 1});
    }

    const spec::Spec& m_spec;
    const spec::Bindings& m_bindings;
    std::vector<spec::Contribution> m_brought;
};

// Did the figure move the way that was asked for? No figure, no objection.
bool helps(const Ask& ask, const spec::Spec& spec, const spec::Readings& before,
           const spec::Readings& after) {
    const double way = ask.wish == AskFor::Less ? -1 : 1;
    const auto moved = [&](Quantity quantity, double towards) {
        const auto by =
            history::readingChange(before[Stage::Served][quantity], after[Stage::Served][quantity], quantity);
        return by && *by * towards > 0;
    };
    if (ask.line) return true;
    switch (subjectOf(ask.scale, spec)) {
    case Subject::Sweet:
        return moved(Quantity::Sugar, way) || moved(Quantity::SugarAcidRatio, way);
    case Subject::Sour:
        return moved(Quantity::Acid, way) || moved(Quantity::SugarAcidRatio, -way);
    case Subject::Strong:
        return moved(Quantity::Strength, way);
    case Subject::Bitter:
    case Subject::Line:
        return true;
    case Subject::None:
        break;
    }
    return false;
}

} // namespace

bool saysTooLittle(const Tasting& tasting, std::string_view id, std::string_view name) {
    const auto score = tasting.scores.of(id);
    if (score && score->kind == ScaleKind::JustAboutRight && score->value <= 2) return true;
    const auto words = noteWords(name);
    return wishes(NoteText(tasting.note), words, Wish::More) ||
           wishes(NoteText(tasting.tryNext, true), words, Wish::More);
}

namespace {

using Wishes = std::map<base::PersonId, AskFor>;

void addAsks(std::vector<Ask>& asks, const ScaleDefinition& scale, std::optional<std::size_t> line,
             const Wishes& wishes) {
    int less = 0;
    for (const auto& [taster, wish] : wishes)
        if (wish == AskFor::Less) ++less;
    const int more = static_cast<int>(wishes.size()) - less;
    if (less > 0) asks.push_back({scale, AskFor::Less, less, more, line});
    if (more > 0) asks.push_back({scale, AskFor::More, more, less, line});
}

std::vector<Ask> ordered(std::vector<Ask> asks) {
    std::stable_sort(asks.begin(), asks.end(),
                     [](const Ask& a, const Ask& b) { return a.tasters > b.tasters; });
    return asks;
}

// Says how a thing is and not which: never a line's name by itself.
bool isOnlyADescription(const std::string& word) {
    static const std::set<std::string, std::less<>> kDescriptions{
        "of",       "the",       "a",       "an",     "and",     "or",       "with",   "in",
        "from",     "dry",       "sweet",   "sour",   "bitter",  "strong",   "white",  "dark",
        "light",    "black",     "green",   "red",    "golden",  "aged",     "fresh",  "cold",
        "hot",      "warm",      "simple",  "rich",   "double",  "single",   "old",    "young",
        "heavy",    "plain",     "raw",     "spiced", "smoked",  "salted",   "soft",   "hard",
        "still",    "sparkling", "long",    "short",  "small",   "large",    "house",  "best",
        "bar",      "more",      "less",    "not",    "no",      "it",       "one",    "london",
        "jamaican", "cuban",     "italian", "french", "spanish", "american", "scotch", "irish"};
    return kDescriptions.count(word) > 0;
}

bool sameWord(std::string_view a, std::string_view b) {
    const auto stem = [](std::string_view word) {
        return word.size() > 3 && word.back() == 's' ? word.substr(0, word.size() - 1) : word;
    };
    return stem(a) == stem(b);
}

struct Mention {
    std::size_t begin, end, line;
};

// Where a note names lines: the longest run of words that is in one line's name alone.
std::vector<Mention> mentionsIn(const NoteText& note, const std::vector<std::vector<std::string>>& names) {
    std::vector<Mention> found;
    for (std::size_t at = 0; at < note.words.size();) {
        std::size_t longest = 0;
        std::size_t line = 0;
        bool alone = false;
        for (std::size_t i = 0; i < names.size(); ++i) {
            std::size_t best = 0;
            for (std::size_t from = 0; from < names[i].size(); ++from) {
                std::size_t run = 0;
                bool says = false;
                while (from + run < names[i].size() &&
                       sameWord(note.at(at, static_cast<std::ptrdiff_t>(run)), names[i][from + run])) {
                    says = says || !isOnlyADescription(names[i][from + run]);
                    ++run;
                }
                if (says) best = std::max(best, run);
            }
            if (best == 0 || best < longest) continue;
            alone = best > longest;
            longest = best;
            line = i;
        }
        if (longest > 0 && alone) found.push_back({at, at + longest, line});
        at += std::max<std::size_t>(1, longest);
    }
    return found;
}

// The wishes of one note, by line; what names one is then no word of a scale any more.
void readLines(NoteText& note, const std::vector<std::vector<std::string>>& names,
               std::map<std::size_t, std::set<Wish>>& wishes) {
    for (const Mention& mention : mentionsIn(note, names)) {
        const Wish wish = wishOfLine(note, mention.begin, mention.end);
        if (wish == Wish::None) continue;
        wishes[mention.line].insert(wish);
        for (std::size_t i = mention.begin; mention.end - mention.begin > 1 && i < mention.end; ++i)
            note.words[i].text = "…";
    }
}

std::optional<AskFor> wishOf(const Tasting& tasting, const NoteText& note, const NoteText& next,
                             const ScaleDefinition& scale) {
    const auto score = tasting.scores.of(scale.id);
    const bool centred = score && score->kind == ScaleKind::JustAboutRight;
    const auto name = noteWords(scale.name);
    const auto says = [&](Wish wish) { return wishes(note, name, wish) || wishes(next, name, wish); };
    const bool less = (centred && score->value >= 4) || says(Wish::Less);
    const bool more = (centred && score->value <= 2) || says(Wish::More);
    if (less == more) return std::nullopt;
    return less ? AskFor::Less : AskFor::More;
}

} // namespace

std::vector<Ask> asksOf(const std::vector<Tasting>& tastings, const std::vector<ScaleDefinition>& scales) {
    return asksOf(tastings, scales, spec::Spec{});
}

std::vector<Ask> asksOf(const std::vector<Tasting>& tastings, const std::vector<ScaleDefinition>& scales,
                        const spec::Spec& spec) {
    std::vector<std::vector<std::string>> names;
    for (const spec::Line& line : spec.lines)
        names.push_back(noteWords(line.name));
    std::vector<Wishes> ofScales(scales.size());
    std::map<std::size_t, Wishes> ofLines;
    for (const Tasting& tasting : tastings) {
        NoteText note(tasting.note);
        NoteText next(tasting.tryNext, true);
        std::map<std::size_t, std::set<Wish>> lines;
        readLines(note, names, lines);
        readLines(next, names, lines);
        for (std::size_t i = 0; i < scales.size(); ++i) {
            const auto wish = wishOf(tasting, note, next, scales[i]);
            if (!wish) continue;
            ofScales[i][tasting.taster] = *wish;
            // A scale that is called like a line turns it already.
            if (subjectOf(scales[i], spec) != Subject::Line) continue;
            for (std::size_t line = 0; line < names.size(); ++line)
                if (holdsName(names[line], noteWords(scales[i].name))) lines.erase(line);
        }
        for (const auto& [line, said] : lines)
            if (said.size() == 1)
                ofLines[line][tasting.taster] = *said.begin() == Wish::Less ? AskFor::Less : AskFor::More;
    }
    std::vector<Ask> asks;
    for (std::size_t i = 0; i < scales.size(); ++i)
        addAsks(asks, scales[i], {}, ofScales[i]);
    for (const auto& [line, wishes] : ofLines)
        addAsks(asks, {{}, spec.lines[line].name, ScaleKind::JustAboutRight}, line, wishes);
    return ordered(std::move(asks));
}

std::vector<NextChange> nextChanges(const std::vector<Tasting>& tastings) {
    std::vector<NextChange> changes;
    for (const Tasting& tasting : tastings)
        if (!base::trimmed(tasting.tryNext).empty()) changes.push_back({tasting.taster, tasting.tryNext});
    return changes;
}

std::vector<Candidate> candidatesFor(const Ask& ask, const spec::Spec& spec, const spec::Bindings& bindings) {
    const auto now = spec::evaluate(spec, bindings);
    std::vector<Candidate> found;
    for (const Try& one : Levers(spec, bindings).of(ask)) {
        if (found.size() == kMostCandidates) break;
        const auto& line = spec.lines[one.line];
        if (line.optional) continue;
        const auto stepped = spec::steppedOnJiggers(line.poured, one.direction);
        if (!stepped) continue;
        Candidate candidate{one.line,    one.lever, one.direction,
                            line.poured, *stepped,  spec::withAmount(spec, one.line, *stepped),
                            {}};
        candidate.readings = spec::evaluate(candidate.spec, bindings);
        if (helps(ask, spec, now, candidate.readings)) found.push_back(std::move(candidate));
    }
    return found;
}

} // namespace stillroom::tasting
