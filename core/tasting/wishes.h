#pragma once

#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

// Internal to core/tasting: what a note wishes of something that it names. A negation ("not too sweet") is no
// wish, a comparison ("less sweet than r3") tells what is and asks for nothing.
namespace stillroom::tasting {

enum class Wish { None, Less, More };

// Folded words without marks; clauses end at marks, dashes and line ends.
struct NoteText {
    struct Word {
        std::string text;
        std::size_t clause = 0;
    };
    std::vector<Word> words;
    bool isRequest = false; // a next change to try: "less sweet than r3" is wished there
    explicit NoteText(std::string_view text, bool request = false);
    // Neighbours in the same clause; empty beyond its ends.
    std::string_view at(std::size_t index, std::ptrdiff_t offset) const;
    bool startsAt(std::size_t index, const std::vector<std::string>& name) const; // within one clause
};

// Of something named by [begin, end): "too sweet", "less sweet" ask for less; "more sweet", "not sweet
// enough", "too little sweet" for more.
Wish wishOfQuality(const NoteText& note, std::size_t begin, std::size_t end);
// Is it wished anywhere of what has this name (noteWords)?
bool wishes(const NoteText& note, const std::vector<std::string>& name, Wish wish);
// Of a line of the drink: those, and "lemon down", "up the honey", "needs lemon", "too much gin", "add gin".
Wish wishOfLine(const NoteText& note, std::size_t begin, std::size_t end);

} // namespace stillroom::tasting
