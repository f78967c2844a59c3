#include "core/history/search_words.h"

#include "core/base/words.h"
#include "tests/support/catch.h"

#include <random>

using namespace stillroom;
using namespace stillroom::history;

namespace {

std::vector<std::string> foldedOf(std::string_view text) {
    std::vector<std::string> words;
    for (const auto& span : base::wordSpans(text))
        words.push_back(span.folded);
    return words;
}

Vocabulary someWords() {
    return Vocabulary({{"lemon", 40},
                       {"lime", 30},
                       {"cardamom", 3},
                       {"lemonade", 1},
                       {"demerara", 9},
                       {"creme", 4},
                       {"gin", 50},
                       {"ginger", 12},
                       {"fenouil", 1},
                       {"лимон", 2}});
}

std::size_t slips(std::u32string_view typed, std::u32string_view word) {
    return slipsToBeginning(typed, word, 2);
}

// By the definition, without any of the shortcuts: the fewest slips to each beginning of the word.
std::size_t slipsPlainly(std::u32string_view a, std::u32string_view b) {
    std::vector<std::vector<std::size_t>> d(a.size() + 1, std::vector<std::size_t>(b.size() + 1));
    for (std::size_t i = 0; i <= a.size(); ++i)
        for (std::size_t j = 0; j <= b.size(); ++j) {
            if (i == 0 || j == 0) {
                d[i][j] = i + j;
                continue;
            }
            d[i][j] = std::min({d[i - 1][j] + 1, d[i][j - 1] + 1, d[i - 1][j - 1] + (a[i - 1] != b[j - 1])});
            if (i > 1 && j > 1 && a[i - 1] == b[j - 2] && a[i - 2] == b[j - 1])
                d[i][j] = std::min(d[i][j], d[i - 2][j - 2] + 1);
        }
    return *std::min_element(d[a.size()].begin(), d[a.size()].end());
}

} // namespace

TEST_CASE("a text falls into folded words that know where they stand", "[search]") {
    const std::string text = "Crème-de Violette, 22.5 ml — “don't”";
    CHECK(foldedOf(text) == std::vector<std::string>{"creme", "de", "violette", "22", "5", "ml", "don", "t"});
    for (const auto& span : base::wordSpans(text))
        CHECK(foldedOf(std::string_view(text).substr(span.start, span.length)) ==
              std::vector<std::string>{span.folded});
    CHECK(foldedOf("🍋 ☂️").empty());
    CHECK(foldedOf("").empty());
    CHECK(foldedOf("ЛИМОН Straße") == std::vector<std::string>{"лимон", "strasse"});
    CHECK(foldedOf("\xFF\xFEgin\xC3").front() == "gin"); // broken bytes end a word and break nothing
}

TEST_CASE("slips are counted to the nearest beginning of a word", "[search]") {
    CHECK(slips(U"lem", U"lemon") == 0);
    CHECK(slips(U"lemno", U"lemon") == 1); // two letters swapped
    CHECK(slips(U"lenon", U"lemon") == 1);
    CHECK(slips(U"leemon", U"lemonade") == 1);
    CHECK(slips(U"cardomon", U"cardamom") == 2);
    CHECK(slips(U"gin", U"lemon") == 3); // above the limit
    CHECK(slips(U"lemonade", U"lem") == 3);
    CHECK(slips(U"", U"lemon") == 0);
}

TEST_CASE("slips come out as the plain definition has them", "[search]") {
    std::mt19937 random(11);
    const auto word = [&](std::size_t most) {
        std::u32string text;
        for (std::size_t i = random() % (most + 1); i > 0; --i)
            text += static_cast<char32_t>(U'a' + random() % 3);
        return text;
    };
    for (int i = 0; i < 20000; ++i) {
        const auto typed = word(7), whole = word(9);
        const std::size_t limit = random() % 3;
        CHECK(slipsToBeginning(typed, whole, limit) == std::min(slipsPlainly(typed, whole), limit + 1));
    }
}

TEST_CASE("a misspelt word is read as the nearest words of the book", "[search]") {
    const auto words = someWords();
    CHECK(words.near("lemno") == std::vector<std::string>{"lemon", "lemonade"});
    CHECK(words.near("cardomon") == std::vector<std::string>{"cardamom"});
    CHECK(words.near("demarera") == std::vector<std::string>{"demerara"});
    CHECK(words.near("лиман") == std::vector<std::string>{"лимон"});
    CHECK(words.near("gni").empty()); // under four letters nothing is guessed
    CHECK(words.near("xylophone").empty());
    CHECK(words.near(std::string(5000, 'a')).empty());
    CHECK(words.hasBeginning("car"));
    CHECK_FALSE(words.hasBeginning("carx"));
}

TEST_CASE("words can be added to what a book holds", "[search]") {
    auto words = someWords();
    words.add({"juniper", "gin", "aloe"});
    CHECK(words.size() == someWords().size() + 2);
    CHECK(words.hasBeginning("alo"));
    CHECK(words.near("junipre") == std::vector<std::string>{"juniper"});
}

TEST_CASE("what is typed becomes few and different words", "[search]") {
    const auto words = wantedWords("Lemon lemon  CRÈME lemno", someWords());
    REQUIRE(words.size() == 3);
    CHECK(words[0] == WantedWord{"lemon", {}});
    CHECK(words[1] == WantedWord{"creme", {}});
    CHECK(words[2].read.front() == "lemon");
    CHECK(isRanked(words));
    CHECK_FALSE(isRanked(wantedWords("le", someWords())));
    CHECK(wantedWords(std::string(100000, '-'), someWords()).empty());
    std::string many;
    for (int i = 0; i < 50; ++i)
        many += std::to_string(i) + ' ';
    CHECK(wantedWords(many, someWords()).size() == 12);
}

TEST_CASE("an excerpt shows the words where they stand", "[search]") {
    const auto words = wantedWords("lem", someWords());
    const auto shown = excerpt("fresh Lemon, and more lémon", words);
    REQUIRE(shown.marks.size() == 2);
    CHECK(shown.text.substr(shown.marks[0].start, shown.marks[0].length) == "Lemon");
    CHECK(shown.text.substr(shown.marks[1].start, shown.marks[1].length) == "lémon");
    CHECK(shown.found == 1);
    CHECK(excerpt("nothing of it", words).marks.empty());

    std::string note;
    for (int i = 0; i < 200; ++i)
        note += "ünd so wëiter ";
    const auto cut = excerpt(note + "lemon " + note, words);
    REQUIRE(cut.marks.size() == 1);
    CHECK(cut.text.substr(cut.marks[0].start, cut.marks[0].length) == "lemon");
    CHECK(cut.text.size() < 200);
    CHECK(cut.text.substr(0, 3) == "…");
}
