#include "core/tasting/asks.h"

#include "core/history/what_changed.h"
#include "core/larder/ingredient.h"
#include "core/spec/edit.h"
#include "core/spec/jigger_step.h"
#include "core/tasting/note_words.h"

#include <algorithm>
#include <map>
#include <optional>

namespace stillroom::tasting {

using spec::Quantity;
using spec::Stage;

namespace {

bool startsAt(const std::vector<std::string>& words, std::size_t at, const std::vector<std::string>& name) {
    return at + name.size() <= words.size() &&
           std::equal(name.begin(), name.end(), words.begin() + static_cast<std::ptrdiff_t>(at));
}

bool asksForMore(std::string_view text, const std::vector<std::string>& name) {
    const auto words = noteWords(text);
    for (std::size_t at = 1; !name.empty() && at < words.size(); ++at) {
        if (!startsAt(words, at, name)) continue;
        const std::string& before = words[at - 1];
        const std::size_t after = at + name.size();
        if (before == "more") return true;
        if (before == "little" && at > 1 && words[at - 2] == "too") return true;
        if (before == "not" && after < words.size() && words[after] == "enough") return true;
    }
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
    for (const auto& line : spec.lines) {
        const auto words = noteWords(line.name);
        for (std::size_t at = 0; at < words.size(); ++at)
            if (!name.empty() && startsAt(words, at, name)) return Subject::Line;
    }
    return Subject::None;
}

double known(const spec::Reading& reading) {
    const bool usable = reading.bound == spec::Bound::Exact || reading.bound == spec::Bound::AtLeast ||
                        reading.bound == spec::Bound::Between;
    return usable ? reading.value : 0;
}

bool isBitter(const larder::Ingredient* poured) {
    if (poured == nullptr) return false;
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
                if (isBitter(m_bindings.poured(i))) tries.push_back({i, Lever::Itself, way, 1});
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
        for (std::size_t i = 0; i < m_spec.lines.size(); ++i) {
            const auto words = noteWords(m_spec.lines[i].name);
            for (std::size_t at = 0; at < words.size(); ++at)
                if (startsAt(words, at, name)) {
                    tries.push_back({i, Lever::NamedLine, direction, 1});
                    break;
                }
        }
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
    return asksForMore(tasting.note, words) || asksForMore(tasting.tryNext, words);
}

std::vector<Ask> asksOf(const std::vector<Tasting>& tastings, const std::vector<ScaleDefinition>& scales) {
    std::vector<Ask> asks;
    for (const ScaleDefinition& scale : scales) {
        std::map<base::PersonId, AskFor> wishes;
        for (const Tasting& tasting : tastings) {
            const bool less = saysTooMuch(tasting, scale.id, scale.name);
            const bool more = saysTooLittle(tasting, scale.id, scale.name);
            if (less != more) wishes[tasting.taster] = less ? AskFor::Less : AskFor::More;
        }
        int less = 0;
        for (const auto& [taster, wish] : wishes)
            if (wish == AskFor::Less) ++less;
        const int more = static_cast<int>(wishes.size()) - less;
        if (less > 0) asks.push_back({scale, AskFor::Less, less, more});
        if (more > 0) asks.push_back({scale, AskFor::More, more, less});
    }
    std::stable_sort(asks.begin(), asks.end(),
                     [](const Ask& a, const Ask& b) { return a.tasters > b.tasters; });
    return asks;
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
