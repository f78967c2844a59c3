#include "tests/support/catch.h"

#include "tests/corpus/corpus_files.h"
#include "tests/fuzz/read_invariants.h"

#include <nlohmann/json.hpp>

#include <filesystem>
#include <random>

using namespace stillroom;

namespace {

constexpr std::size_t kLargestSeed = 60'000; // the two-megabyte file has its own test
constexpr int kMutationsPerSeed = 12;

std::vector<std::string> seeds() {
    std::vector<std::string> out;
    for (const char* folder : {"recipes", "recipes/hostile"})
        for (const auto& entry : std::filesystem::directory_iterator(corpus::dataPath(folder))) {
            if (!entry.is_regular_file() || entry.path().extension() == ".json") continue;
            std::string bytes = corpus::bytesOf(std::string(folder) + "/" + entry.path().filename().string());
            if (bytes.size() <= kLargestSeed) out.push_back(std::move(bytes));
        }
    for (const char* file : {"ingredient-lines.json", "own-lines.json"}) {
        const auto corpus = nlohmann::json::parse(corpus::bytesOf(file));
        for (const auto& line : corpus.at("lines"))
            out.push_back(line.at("text").get<std::string>());
    }
    std::sort(out.begin(), out.end());
    return out;
}

// Pieces that have broken readers before.
const std::vector<std::string>& pieces() {
    static const std::vector<std::string> list = {"1/0",
                                                  "-",
                                                  "--",
                                                  "½",
                                                  "1e999",
                                                  "∞",
                                                  "(",
                                                  "((((",
                                                  ")",
                                                  "or",
                                                  "plus",
                                                  "x",
                                                  "/",
                                                  "%",
                                                  "999999999999999999999",
                                                  "0.0000000000000000001",
                                                  "\xFF",
                                                  "\xC3",
                                                  "\xE2\x80",
                                                  std::string(1, '\0'),
                                                  "\r",
                                                  "\n\n",
                                                  "\t",
                                                  "\xE2\x80\xAE",
                                                  "\xEF\xBB\xBF",
                                                  "<li>",
                                                  "</script>",
                                                  "<!--",
                                                  "&#x110000;",
                                                  "{\"@type\":\"Recipe\"",
                                                  "[[[[",
                                                  "oz",
                                                  "ml",
                                                  " of ",
                                                  "juice of",
                                                  "top with",
                                                  "garnish:",
                                                  "2 x",
                                                  "half",
                                                  "a",
                                                  ",",
                                                  ";",
                                                  "1 000",
                                                  "1,000",
                                                  "1.000"};
    return list;
}

class Mutator {
  public:
    explicit Mutator(std::uint32_t seed) : m_random(seed) {}

    std::string mutate(const std::string& seed, const std::vector<std::string>& all) {
        std::string text = seed;
        const std::size_t times = 1 + below(4);
        for (std::size_t i = 0; i < times; ++i)
            change(text, all);
        return text;
    }

  private:
    std::size_t below(std::size_t n) { return n == 0 ? 0 : m_random() % n; }

    void change(std::string& text, const std::vector<std::string>& all) {
        const std::size_t at = below(text.size() + 1);
        switch (below(6)) {
        case 0:
            text.insert(at, pieces()[below(pieces().size())]);
            break;
        case 1:
            if (at < text.size()) text.erase(at, 1 + below(8));
            break;
        case 2:
            if (at < text.size()) text[at] = static_cast<char>(below(256));
            break;
        case 3: {
            const std::string& other = all[below(all.size())];
            const std::size_t from = below(other.size() + 1);
            text.insert(at, other.substr(from, below(60)));
            break;
        }
        case 4:
            if (at < text.size()) text.insert(at, text.substr(at, below(40)));
            break;
        default:
            text.resize(at);
        }
    }

    std::mt19937 m_random;
};

} // namespace

TEST_CASE("Mutated corpus texts are read without breaking an invariant", "[read][fuzz]") {
    const std::vector<std::string> all = seeds();
    REQUIRE(all.size() > 300);
    Mutator mutator(20261125);
    int read = 0;
    for (const std::string& seed : all)
        for (int i = 0; i < kMutationsPerSeed; ++i) {
            const std::string text = mutator.mutate(seed, all);
            const std::string broken = fuzz::brokenReading(text);
            if (!broken.empty()) {
                CAPTURE(text);
                FAIL_CHECK(broken);
            }
            ++read;
        }
    CHECK(read > 4000);
}

TEST_CASE("Every line of a plain recipe stands in the preview in order", "[read][fuzz]") {
    for (const auto& entry : std::filesystem::directory_iterator(corpus::dataPath("recipes"))) {
        if (entry.path().extension() != ".txt") continue;
        const std::string text = corpus::bytesOf("recipes/" + entry.path().filename().string());
        CAPTURE(entry.path().filename().string());
        CHECK(fuzz::lostLines(text, exchange::readText(text)).empty());
    }
    // and when lines are dropped, doubled and swapped
    std::mt19937 random(7);
    for (const auto& entry : std::filesystem::directory_iterator(corpus::dataPath("recipes"))) {
        if (entry.path().extension() != ".txt") continue;
        const std::string text = corpus::bytesOf("recipes/" + entry.path().filename().string());
        std::vector<std::string> lines;
        for (std::size_t begin = 0; begin < text.size();) {
            const std::size_t end = std::min(text.find('\n', begin), text.size());
            lines.push_back(text.substr(begin, end - begin));
            begin = end + 1;
        }
        for (int round = 0; round < 20; ++round) {
            std::shuffle(lines.begin(), lines.end(), random);
            std::string mixed;
            for (const std::string& line : lines)
                mixed += line + "\n";
            const std::string lost = fuzz::lostLines(mixed, exchange::readText(mixed));
            CAPTURE(mixed);
            CHECK(lost.empty());
        }
    }
}
