#include "tests/support/catch.h"

#include "tests/corpus/corpus_files.h"
#include "tests/corpus/line_compare.h"

#include <iostream>

using namespace stillroom;
using namespace stillroom::corpus;

namespace {

struct Figures {
    int lines = 0;
    int right = 0;
    int notes = 0;
    int unsure = 0;
    double share() const { return lines == 0 ? 1.0 : static_cast<double>(right) / lines; }
};

bool sameNote(const Json& expected, const exchange::ReadLine& read) {
    std::vector<std::string> a = base::foldedWords(textOf(expected, "note"));
    std::vector<std::string> b = base::foldedWords(read.line.note);
    const auto clean = [](std::vector<std::string>& words) {
        for (std::string& w : words)
            w.erase(std::remove(w.begin(), w.end(), ';'), w.end());
        std::sort(words.begin(), words.end());
    };
    clean(a);
    clean(b);
    return a == b;
}

struct Outcome {
    std::array<Figures, 4> byLevel;
    std::vector<std::string> wrong;
    std::vector<std::string> silentlyWrong;
    std::vector<std::string> unsureAtLevelOne;
};

Outcome readAll(const std::string& file) {
    const Json corpus = Json::parse(bytesOf(file));
    Outcome out;
    for (const Json& entry : corpus.at("lines")) {
        const exchange::ReadLine read = exchange::readLine(entry.at("text").get<std::string>());
        const Json& expected = entry.at("expect");
        bool right = matchesOne(expected, read);
        bool numberWrong = numberDiffers(expected, read);
        if (const auto accept = entry.find("accept"); accept != entry.end())
            for (const Json& other : *accept) {
                right |= matchesOne(other, read);
                numberWrong &= numberDiffers(other, read);
            }
        Figures& figures = out.byLevel.at(entry.at("level").get<std::size_t>());
        ++figures.lines;
        figures.right += right ? 1 : 0;
        figures.notes += right && sameNote(expected, read) ? 1 : 0;
        figures.unsure += read.unsure ? 1 : 0;
        const std::string shownLine = entry.at("id").get<std::string>() + " '" +
                                      entry.at("text").get<std::string>() + "' -> " + shown(read);
        if (!right) out.wrong.push_back(shownLine);
        if (numberWrong && !read.unsure) out.silentlyWrong.push_back(shownLine);
        if (read.unsure && entry.at("level") == 1) out.unsureAtLevelOne.push_back(shownLine);
    }
    return out;
}

void print(const std::string& title, const Outcome& outcome) {
    std::cout << title << ":";
    for (std::size_t level = 1; level <= 3; ++level) {
        const Figures& f = outcome.byLevel.at(level);
        std::cout << " level " << level << " " << f.right << "/" << f.lines << " (notes " << f.notes
                  << ", asked " << f.unsure << ")";
    }
    std::cout << "; wrong without asking: " << outcome.silentlyWrong.size() << "\n";
    for (const std::string& line : outcome.wrong)
        std::cout << "  wrong   " << line << "\n";
    for (const std::string& line : outcome.silentlyWrong)
        std::cout << "  silent  " << line << "\n";
    for (const std::string& line : outcome.unsureAtLevelOne)
        std::cout << "  asks    " << line << "\n";
}

} // namespace

TEST_CASE("Ingredient lines of the corpus are read at every level and never wrong without asking",
          "[read][corpus]") {
    const Outcome outcome = readAll("ingredient-lines.json");
    print("ingredient-lines.json", outcome);
    CHECK(outcome.byLevel[1].share() == 1.0);
    CHECK(outcome.byLevel[2].share() >= 0.95);
    CHECK(outcome.byLevel[3].share() >= 0.70);
    CHECK(outcome.silentlyWrong.empty());
    CHECK(outcome.unsureAtLevelOne.empty());
}

// A second set of our own, written from the rules alone: other fractions, tongues, containers, orders of
// words.
TEST_CASE("Own variants of the corpus rules are read and never wrong without asking", "[read][corpus]") {
    const Outcome outcome = readAll("own-lines.json");
    print("own-lines.json", outcome);
    CHECK(outcome.wrong.empty());
    CHECK(outcome.silentlyWrong.empty());
    CHECK(outcome.unsureAtLevelOne.empty());
}
