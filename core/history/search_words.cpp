#include "core/history/search_words.h"

#include "core/base/words.h"

#include <algorithm>
#include <array>
#include <bit>
#include <set>
#include <tuple>

namespace stillroom::history {

namespace {

constexpr std::size_t kMostWords = 12;
constexpr std::size_t kLongestWord = 40; // letters: beyond, a slip more or less tells nothing

std::size_t letterCount(std::string_view text) {
    return static_cast<std::size_t>(std::count_if(
        text.begin(), text.end(), [](char c) { return (static_cast<unsigned char>(c) & 0xC0U) != 0x80U; }));
}

// The text is folded, and so well formed; a broken byte becomes a letter of its own.
std::u32string lettersOf(std::string_view text) {
    std::u32string letters;
    for (std::size_t at = 0; at < text.size();) {
        const auto byte = static_cast<unsigned char>(text[at++]);
        char32_t letter = byte;
        if (byte >= 0xC0U) {
            letter = byte >= 0xF0U ? byte & 0x07U : (byte >= 0xE0U ? byte & 0x0FU : byte & 0x1FU);
            while (at < text.size() && (static_cast<unsigned char>(text[at]) & 0xC0U) == 0x80U)
                letter = letter << 6U | (static_cast<unsigned char>(text[at++]) & 0x3FU);
        }
        letters += letter;
    }
    return letters;
}

std::uint64_t maskOf(std::u32string_view letters) {
    std::uint64_t mask = 0;
    for (const char32_t letter : letters)
        mask |= std::uint64_t{1} << (letter % 64U);
    return mask;
}

std::size_t bytesOfCodePoints(std::string_view text, std::size_t from, std::size_t codePoints) {
    std::size_t at = from;
    for (; codePoints > 0 && at < text.size(); --codePoints) {
        ++at;
        while (at < text.size() && (static_cast<unsigned char>(text[at]) & 0xC0U) == 0x80U)
            ++at;
    }
    return at;
}

std::size_t codePointsBack(std::string_view text, std::size_t from, std::size_t codePoints) {
    std::size_t at = from;
    for (; codePoints > 0 && at > 0; --codePoints) {
        --at;
        while (at > 0 && (static_cast<unsigned char>(text[at]) & 0xC0U) == 0x80U)
            --at;
    }
    return at;
}

} // namespace

std::size_t slipsAllowed(std::string_view typed) {
    const std::size_t letters = letterCount(typed);
    if (letters < 4 || letters > kLongestWord) return 0;
    return letters < 8 ? 1 : 2;
}

std::size_t slipsToBeginning(std::u32string_view typed, std::u32string_view word, std::size_t limit) {
    const std::size_t rows = typed.size();
    const std::size_t columns =
        std::min(word.size(), rows + limit); // a longer beginning has too many letters
    if (rows > kLongestWord || rows > columns + limit) return limit + 1;
    std::array<std::size_t, kLongestWord + 4> before{}, last{}, now{};
    const std::size_t width = std::min(columns, now.size() - 1);
    for (std::size_t j = 0; j <= width; ++j)
        last[j] = j;
    for (std::size_t i = 1; i <= rows; ++i) {
        now[0] = i;
        std::size_t least = now[0];
        for (std::size_t j = 1; j <= width; ++j) {
            const std::size_t wrong = typed[i - 1] == word[j - 1] ? 0 : 1;
            now[j] = std::min({last[j] + 1, now[j - 1] + 1, last[j - 1] + wrong});
            if (i > 1 && j > 1 && typed[i - 1] == word[j - 2] && typed[i - 2] == word[j - 1])
                now[j] = std::min(now[j], before[j - 2] + 1);
            least = std::min(least, now[j]);
        }
        if (least > limit) return limit + 1;
        before = last;
        last = now;
    }
    const std::size_t fewest =
        *std::min_element(last.begin(), last.begin() + static_cast<std::ptrdiff_t>(width) + 1);
    return std::min(fewest, limit + 1);
}

Vocabulary::Entry Vocabulary::entryOf(std::string text, int drinks) {
    std::u32string letters = lettersOf(text);
    const std::uint64_t mask = maskOf(letters);
    return {std::move(text), std::move(letters), mask, drinks};
}

Vocabulary::Vocabulary(std::vector<Word> words) {
    std::sort(words.begin(), words.end(), [](const Word& a, const Word& b) { return a.text < b.text; });
    m_words.reserve(words.size());
    for (Word& word : words)
        m_words.push_back(entryOf(std::move(word.text), word.drinks));
}

std::size_t Vocabulary::placeOf(std::string_view text) const {
    const auto at =
        std::lower_bound(m_words.begin(), m_words.end(), text,
                         [](const Entry& entry, std::string_view other) { return entry.text < other; });
    return static_cast<std::size_t>(at - m_words.begin());
}

void Vocabulary::add(const std::vector<std::string>& words) {
    for (const std::string& word : words) {
        const std::size_t place = placeOf(word);
        if (place < m_words.size() && m_words[place].text == word) continue;
        m_words.insert(m_words.begin() + static_cast<std::ptrdiff_t>(place), entryOf(word, 1));
    }
}

void Vocabulary::append(std::vector<Word> words) {
    const auto before = static_cast<std::ptrdiff_t>(m_words.size());
    for (Word& word : words) {
        // Below `before` they stand in order; what was added there alone is told how common it is.
        const auto end = m_words.begin() + before;
        const auto known =
            std::lower_bound(m_words.begin(), end, word.text,
                             [](const Entry& e, const std::string& text) { return e.text < text; });
        if (known != end && known->text == word.text)
            known->drinks = word.drinks;
        else
            m_words.push_back(entryOf(std::move(word.text), word.drinks));
    }
    std::inplace_merge(m_words.begin(), m_words.begin() + before, m_words.end(),
                       [](const Entry& a, const Entry& b) { return a.text < b.text; });
}

bool Vocabulary::hasBeginning(std::string_view typed) const {
    const std::size_t place = placeOf(typed);
    return place < m_words.size() && std::string_view(m_words[place].text).substr(0, typed.size()) == typed;
}

std::vector<std::string> Vocabulary::near(std::string_view typed, std::size_t atMost) const {
    const std::size_t limit = slipsAllowed(typed);
    if (limit == 0) return {};
    const std::u32string letters = lettersOf(typed);
    const std::uint64_t mask = maskOf(letters);
    using Candidate = std::tuple<std::size_t, bool, int, std::size_t>;
    std::vector<Candidate> found;
    for (std::size_t i = 0; i < m_words.size(); ++i) {
        const Entry& word = m_words[i];
        // Each slip can bring in one letter that the word has not.
        if (static_cast<std::size_t>(std::popcount(mask & ~word.mask)) > limit) continue;
        const std::size_t slips = slipsToBeginning(letters, word.letters, limit);
        if (slips > limit) continue;
        found.emplace_back(slips, word.letters.front() != letters.front(), -word.drinks, i);
    }
    const auto end = found.begin() + static_cast<std::ptrdiff_t>(std::min(atMost, found.size()));
    std::partial_sort(found.begin(), end, found.end());
    std::vector<std::string> words;
    for (auto at = found.begin(); at != end; ++at)
        words.push_back(m_words[std::get<3>(*at)].text);
    return words;
}

std::vector<WantedWord> wantedWords(std::string_view typed, const Vocabulary& vocabulary) {
    std::vector<WantedWord> words;
    std::set<std::string> seen;
    for (base::WordSpan& span : base::wordSpans(typed)) {
        if (words.size() == kMostWords) break;
        if (!seen.insert(span.folded).second) continue;
        WantedWord word{std::move(span.folded), {}};
        if (!vocabulary.hasBeginning(word.typed)) word.read = vocabulary.near(word.typed);
        words.push_back(std::move(word));
    }
    return words;
}

bool hasWords(std::string_view typed) {
    return !base::wordSpans(typed).empty();
}

bool answers(std::string_view foldedWord, const WantedWord& wanted) {
    if (wanted.read.empty()) return foldedWord.substr(0, wanted.typed.size()) == wanted.typed;
    return std::find(wanted.read.begin(), wanted.read.end(), foldedWord) != wanted.read.end();
}

bool isRanked(const std::vector<WantedWord>& words) {
    return std::any_of(words.begin(), words.end(), [](const WantedWord& word) {
        return letterCount(word.typed) >= kFewestRankedLetters;
    });
}

Excerpt excerpt(std::string_view text, const std::vector<WantedWord>& words, std::size_t codePoints) {
    std::vector<Excerpt::Mark> marks;
    std::vector<std::size_t> wordOf; // of each mark
    std::set<std::size_t> found;
    for (const base::WordSpan& span : base::wordSpans(text))
        for (std::size_t i = 0; i < words.size(); ++i)
            if (answers(span.folded, words[i])) {
                marks.push_back({span.start, span.length});
                wordOf.push_back(i);
                found.insert(i);
                break;
            }
    std::size_t begin = 0;
    if (!marks.empty()) {
        // A third of the room before the first word found; a cut falls between words where it can.
        begin = codePointsBack(text, marks.front().start, codePoints / 3);
        if (begin > 0) {
            const std::size_t space = text.find(' ', begin);
            if (space != std::string_view::npos && space < marks.front().start) begin = space + 1;
        }
    }
    const std::size_t end = bytesOfCodePoints(text, begin, codePoints);
    Excerpt cut;
    cut.found = found.size();
    if (begin > 0) cut.text = "…";
    const std::size_t shift = cut.text.size();
    cut.text += text.substr(begin, end - begin);
    if (end < text.size()) cut.text += "…";
    std::set<std::size_t> shown;
    for (std::size_t i = 0; i < marks.size(); ++i)
        if (marks[i].start >= begin && marks[i].start + marks[i].length <= end) {
            cut.marks.push_back({marks[i].start - begin + shift, marks[i].length});
            shown.insert(wordOf[i]);
        }
    cut.shown.assign(shown.begin(), shown.end());
    return cut;
}

} // namespace stillroom::history
