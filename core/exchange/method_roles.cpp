#include "core/exchange/method_roles.h"

#include "core/base/text.h"

#include <algorithm>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace stillroom::exchange {

namespace {

using spec::Role;
using Words = std::vector<std::string>;

bool isOneOf(const std::string& word, std::initializer_list<std::string_view> list) {
    return std::find(list.begin(), list.end(), word) != list.end();
}

// Sentences and the parts between commas, each as its words.
std::vector<Words> clausesOf(const std::string& text) {
    std::vector<Words> clauses;
    std::size_t from = 0;
    while (from <= text.size()) {
        const std::size_t end = std::min(text.find_first_of(".,;:\n", from), text.size());
        Words words = base::foldedWords(std::string_view(text).substr(from, end - from));
        if (!words.empty()) clauses.push_back(std::move(words));
        from = end + 1;
    }
    return clauses;
}

struct Said {
    Role role = Role::Mixed;
    Words things;
};

Words from(const Words& clause, std::size_t first) {
    return first < clause.size() ? Words(clause.begin() + static_cast<std::ptrdiff_t>(first), clause.end())
                                 : Words();
}

// What stands after "with"; empty without one.
Words afterWith(const Words& clause, std::size_t verb) {
    for (std::size_t i = verb + 1; i < clause.size() && i <= verb + 5; ++i)
        if (clause[i] == "with") return from(clause, i + 1);
    return {};
}

std::optional<Said> saidIn(const Words& clause) {
    // Part of a line that is poured twice: no role holds for the whole of it.
    for (const std::string& word : clause)
        if (isOneOf(word, {"half", "rest", "remaining", "remainder", "garnish"})) return std::nullopt;
    for (std::size_t i = 0; i < clause.size(); ++i) {
        const std::string& word = clause[i];
        if (isOneOf(word, {"top", "topped", "lengthen", "lengthened"})) {
            if (Words things = afterWith(clause, i); !things.empty()) return Said{Role::Topped, things};
        } else if (isOneOf(word, {"float", "floated", "floating"})) {
            return Said{Role::Floated, from(clause, i + 1)};
        } else if (isOneOf(word, {"rinse", "rinsed"})) {
            if (Words things = afterWith(clause, i); !things.empty()) return Said{Role::Rinse, things};
        } else if (isOneOf(word, {"all", "everything"}) && i + 2 < clause.size() &&
                   isOneOf(clause[i + 1], {"but", "except"})) {
            return Said{Role::Topped, from(clause, i + 2)};
        }
    }
    return std::nullopt;
}

// How many words of a line's name are among these. "water" alone names no soda water.
int shared(const Words& name, const Words& things) {
    int count = 0;
    for (const std::string& word : name)
        if (!isOneOf(word, {"of", "the", "a", "fresh", "water", "with", "and"}) &&
            std::find(things.begin(), things.end(), word) != things.end())
            ++count;
    if (count == 0 && name.size() == 1 && name[0] == "water" &&
        std::find(things.begin(), things.end(), "water") != things.end())
        count = 1;
    return count;
}

std::vector<std::size_t> linesMeant(const spec::Spec& spec, const Words& things) {
    std::vector<std::size_t> best;
    int most = 0;
    for (std::size_t i = 0; i < spec.lines.size(); ++i) {
        const int count = shared(base::foldedWords(spec.lines[i].name), things);
        if (count == 0 || count < most) continue;
        if (count > most) best.clear();
        most = count;
        best.push_back(i);
    }
    return best;
}

} // namespace

void applyMethodRoles(spec::Spec& spec) {
    for (const Words& clause : clausesOf(spec.method.text)) {
        const auto said = saidIn(clause);
        if (!said) continue;
        const auto meant = linesMeant(spec, said->things);
        if (meant.size() != 1 || spec.lines[meant[0]].role != Role::Mixed) continue;
        const auto mixed = std::count_if(spec.lines.begin(), spec.lines.end(),
                                         [](const spec::Line& line) { return line.role == Role::Mixed; });
        if (mixed > 1) spec.lines[meant[0]].role = said->role;
    }
}

} // namespace stillroom::exchange
