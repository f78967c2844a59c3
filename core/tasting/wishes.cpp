#include "core/tasting/wishes.h"

#include "core/base/text.h"
#include "core/tasting/note_words.h"

#include <algorithm>
#include <initializer_list>
#include <set>

namespace stillroom::tasting {

namespace {

using Words = std::set<std::string_view>;

bool isDigit(char c) {
    return c >= '0' && c <= '9';
}

bool endsClause(std::string_view text, std::size_t at) {
    const char c = text[at];
    if (std::string_view(",;:!?()\n\r").find(c) != std::string_view::npos)
        return c != ',' || at == 0 || at + 1 >= text.size() || !isDigit(text[at - 1]) ||
               !isDigit(text[at + 1]);
    if (c == '.') return at + 1 >= text.size() || !isDigit(text[at + 1]);
    if (c == '-') return at > 0 && at + 1 < text.size() && text[at - 1] == ' ' && text[at + 1] == ' ';
    return text.substr(at, 3) == "–" || text.substr(at, 3) == "—" || text.substr(at, 3) == "…";
}

// "isn't" reads as isnt, however its apostrophe is written.
std::string withoutApostrophes(std::string_view text) {
    std::string plain;
    for (std::size_t at = 0; at < text.size();) {
        if (text[at] == '\'') {
            ++at;
        } else if (text.substr(at, 3) == "’") {
            at += 3;
        } else {
            plain += text[at++];
        }
    }
    return plain;
}

const Words kNegations{"not",      "never",  "no",      "nor",     "neither", "hardly", "barely",
                       "scarcely", "nobody", "none",    "nothing", "isnt",    "wasnt",  "arent",
                       "dont",     "doesnt", "didnt",   "wont",    "wouldnt", "cant",   "couldnt",
                       "aint",     "cannot", "nowhere", "rarely",  "seldom",  "without"};

// What may stand between a negation and what it denies.
const Words kBetween{
    "at",     "all",    "that",    "a",        "an",       "bit",          "touch",    "quite",    "really",
    "very",   "ever",   "even",    "it",       "is",       "its",          "be",       "been",     "feel",
    "feels",  "felt",   "taste",   "tastes",   "tasted",   "seem",         "seems",    "seemed",   "find",
    "finds",  "found",  "think",   "thought",  "say",      "said",         "call",     "called",   "come",
    "comes",  "came",   "across",  "in",       "the",      "least",        "any",      "anything", "anyone",
    "way",    "far",    "longer",  "now",      "us",       "me",           "this",     "drink",    "one",
    "make",   "go",     "get",     "gets",     "and",      "or",           "nor",      "too",      "much",
    "near",   "close",  "to",      "id",       "would",    "want",         "need",     "needs",    "as",
    "so",     "overly", "exactly", "terribly", "remotely", "particularly", "anywhere", "by",       "means",
    "little", "add",    "be"};

bool isNegated(const NoteText& note, std::size_t at) {
    for (std::ptrdiff_t back = -1;; --back) {
        const std::string_view word = note.at(at, back);
        if (word.empty()) return false;
        if (kNegations.count(word) > 0) return true;
        if (kBetween.count(word) > 0) continue;
        if (note.at(at, back - 1) != "too") return false; // "not too strong or too sweet"
    }
}

bool oneOf(std::string_view word, std::initializer_list<std::string_view> words) {
    return std::find(words.begin(), words.end(), word) != words.end();
}

// "is less sweet", "less sweet than r3", "less sweet now": how it is, and no wish. A request wishes it.
bool tellsHowItIs(const NoteText& note, std::size_t comparing, std::size_t end) {
    if (note.isRequest) return false;
    std::ptrdiff_t back = -1;
    while (oneOf(note.at(comparing, back),
                 {"a", "bit", "little", "touch", "much", "far", "still", "even", "now"}))
        --back;
    if (oneOf(note.at(comparing, back), {"is", "its", "was", "are", "tastes", "tasted", "feels", "felt",
                                         "seems", "seemed", "comes", "came", "turned", "became", "got"}))
        return true;
    const std::size_t last = end - 1;
    if (oneOf(note.at(last, 1), {"now", "already", "again"})) return true;
    if (note.at(last, 1) == "this" && note.at(last, 2) == "time") return true;
    for (std::ptrdiff_t on = 1; on <= 3; ++on)
        if (note.at(last, on) == "than") return true;
    return false;
}

} // namespace

NoteText::NoteText(std::string_view text, bool request) : isRequest(request) {
    const std::string plain = withoutApostrophes(text);
    std::size_t clause = 0;
    const auto take = [&](std::string_view part) {
        for (std::string& word : noteWords(part))
            if (!word.empty()) words.push_back({std::move(word), clause});
        ++clause;
    };
    std::size_t begin = 0;
    for (std::size_t at = 0; at < plain.size(); ++at)
        if (endsClause(plain, at)) {
            take(std::string_view(plain).substr(begin, at - begin));
            begin = at + (static_cast<unsigned char>(plain[at]) < 0x80 ? 1 : 3);
            at = begin - 1;
        }
    take(std::string_view(plain).substr(begin));
}

std::string_view NoteText::at(std::size_t index, std::ptrdiff_t offset) const {
    const auto place = static_cast<std::ptrdiff_t>(index) + offset;
    if (place < 0 || static_cast<std::size_t>(place) >= words.size() || index >= words.size()) return {};
    const Word& word = words[static_cast<std::size_t>(place)];
    return word.clause == words[index].clause ? std::string_view(word.text) : std::string_view();
}

bool NoteText::startsAt(std::size_t index, const std::vector<std::string>& name) const {
    for (std::size_t i = 0; i < name.size(); ++i)
        if (at(index, static_cast<std::ptrdiff_t>(i)) != name[i]) return false;
    return !name.empty();
}

Wish wishOfQuality(const NoteText& note, std::size_t begin, std::size_t end) {
    const std::string_view before = note.at(begin, -1);
    if (before == "too") return isNegated(note, begin - 1) ? Wish::None : Wish::Less;
    if (before == "less" || before == "more") {
        if (isNegated(note, begin - 1) || tellsHowItIs(note, begin - 1, end)) return Wish::None;
        return before == "less" ? Wish::Less : Wish::More;
    }
    const bool tooMuch = oneOf(before, {"much", "many", "little"}) && note.at(begin, -2) == "too";
    if (tooMuch && isNegated(note, begin - 2)) return Wish::None;
    if (tooMuch) return before == "little" ? Wish::More : Wish::Less;
    if (note.at(end - 1, 1) == "enough" && isNegated(note, begin)) return Wish::More;
    return Wish::None;
}

bool wishes(const NoteText& note, const std::vector<std::string>& name, Wish wish) {
    for (std::size_t at = 0; at < note.words.size(); ++at)
        if (note.startsAt(at, name) && wishOfQuality(note, at, at + name.size()) == wish) return true;
    return false;
}

Wish wishOfLine(const NoteText& note, std::size_t begin, std::size_t end) {
    // "the lemon", "a little more of the honey"
    std::size_t named = begin;
    while (oneOf(note.at(named, -1), {"the", "of", "our", "this", "that"}))
        --named;
    if (const Wish wish = wishOfQuality(note, named, end); wish != Wish::None) return wish;
    std::size_t anchor = named;
    while (oneOf(note.at(anchor, -1), {"a", "an", "bit", "touch", "dash", "drop", "little", "some", "splash",
                                       "hint", "tad", "of", "the"}))
        --anchor;
    const std::string_view before = note.at(anchor, -1);
    const auto unlessNegated = [&](std::size_t at, Wish wish) {
        return isNegated(note, at) ? Wish::None : wish;
    };
    // "lemon down", "honey a little up"
    std::ptrdiff_t on = 1;
    while (oneOf(note.at(end - 1, on), {"a", "bit", "touch", "little", "slightly", "right", "way"}))
        ++on;
    const std::string_view after = note.at(end - 1, on);
    if (oneOf(after, {"down", "lower"})) return unlessNegated(begin, Wish::Less);
    if (oneOf(after, {"up", "higher"})) return unlessNegated(begin, Wish::More);
    if (oneOf(before, {"add", "adding", "extra", "increase", "raise", "up", "boost", "push", "bump", "needs",
                       "need", "lacks", "lacking", "missing", "double"}))
        return unlessNegated(anchor - 1, Wish::More);
    if (oneOf(before, {"reduce", "cut", "lower", "drop", "decrease", "ease", "fewer", "trim", "down", "half",
                       "halve"}))
        return unlessNegated(anchor - 1, Wish::Less);
    if (before == "enough" && isNegated(note, anchor - 1)) return Wish::More;
    return Wish::None;
}

} // namespace stillroom::tasting
