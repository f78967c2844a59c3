#pragma once

#include <cstddef>
#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

// Finding as one types: words, their beginnings, and slips of the finger. Plain functions over text; where
// the words come from is core/store's business.
namespace stillroom::history {

// A word of fewer letters may begin too much to be worth putting in order.
inline constexpr std::size_t kFewestRankedLetters = 3;

// How many slips a typed word may hold: none under 4 letters, one under 8, else two. Common practice, no
// source.
std::size_t slipsAllowed(std::string_view typed);
// The fewest slips (a letter wrong, missing, too many, or two swapped) that turn `typed` into a beginning of
// `word`; stops early above `limit` and gives limit + 1. Both folded.
std::size_t slipsToBeginning(std::u32string_view typed, std::u32string_view word, std::size_t limit);

// The words a book holds, for telling what a misspelt one may have meant.
class Vocabulary {
  public:
    // Folded words, each with how many drinks have it.
    struct Word {
        std::string text;
        int drinks = 0;
    };
    Vocabulary() = default;
    explicit Vocabulary(std::vector<Word> words);

    void add(const std::vector<std::string>& words); // those it has already are left as they are
    void append(std::vector<Word> words);            // many, in order: quicker when they come after the rest
    std::size_t size() const { return m_words.size(); }
    bool hasBeginning(std::string_view typed) const;
    // What a word that begins none of them may have meant: fewest slips first, then the same first letter,
    // then the more common. At most `atMost`.
    std::vector<std::string> near(std::string_view typed, std::size_t atMost = 6) const;

  private:
    struct Entry {
        std::string text;
        std::u32string letters;
        std::uint64_t mask = 0; // which letters are in it
        int drinks = 0;
    };
    static Entry entryOf(std::string text, int drinks);
    std::size_t placeOf(std::string_view text) const; // of the first that is not before it
    std::vector<Entry> m_words;                       // sorted
};

// What was typed, as one word and what it was taken for.
struct WantedWord {
    std::string typed;             // folded
    std::vector<std::string> read; // whole words; empty: the word itself, as the beginning of one
    friend bool operator==(const WantedWord&, const WantedWord&) = default;
};
// The words of what was typed, without repetitions; at most 12, the others are left out.
std::vector<WantedWord> wantedWords(std::string_view typed, const Vocabulary& vocabulary);
// Is there any word in what was typed? Marks, signs and pictures are none, and nothing is found by them.
bool hasWords(std::string_view typed);
bool answers(std::string_view foldedWord, const WantedWord& wanted);
bool isRanked(const std::vector<WantedWord>& words); // one of them has letters enough

// Where in a text, as written, the wanted words stand.
struct Excerpt {
    struct Mark {
        std::size_t start = 0; // bytes of `text`
        std::size_t length = 0;
        friend bool operator==(const Mark&, const Mark&) = default;
    };
    std::string text;
    std::vector<Mark> marks;
    std::size_t found = 0;          // how many different wanted words
    std::vector<std::size_t> shown; // which of them stand in the part that is shown
};
// Cut to about `codePoints` around the first of them, "…" where something was left out. No marks: none of the
// words is in it, and the excerpt is its beginning.
Excerpt excerpt(std::string_view text, const std::vector<WantedWord>& words, std::size_t codePoints = 120);

} // namespace stillroom::history
