#include "tests/support/catch.h"

#include "tests/corpus/corpus_files.h"
#include "tests/corpus/line_compare.h"

#include <chrono>
#include <functional>
#include <iostream>
#include <map>
#include <set>

using namespace stillroom;
using namespace stillroom::corpus;
using exchange::DoubtCode;
using exchange::ReadKind;
using exchange::ReadProblem;
using exchange::ReadResult;

namespace {

using Failures = std::vector<std::string>;

bool has(const std::vector<exchange::Doubt>& doubts, DoubtCode code) {
    return std::any_of(doubts.begin(), doubts.end(),
                       [&](const exchange::Doubt& d) { return d.code == code; });
}

bool anywhere(const ReadResult& result, DoubtCode code) {
    if (has(result.doubts, code)) return true;
    for (const exchange::ReadLine& line : result.every)
        if (has(line.doubts, code)) return true;
    for (const exchange::ReadRecipe& drink : result.drinks)
        if (has(drink.doubts, code)) return true;
    return false;
}

std::vector<std::string> allWords(const ReadResult& result) {
    std::vector<std::string> words;
    for (const exchange::ReadLine& line : result.every) {
        words.push_back(line.raw);
        words.push_back(line.line.name);
        words.push_back(line.line.note);
    }
    for (const exchange::ReadRecipe& drink : result.drinks) {
        words.push_back(drink.name);
        words.insert(words.end(), drink.method.begin(), drink.method.end());
        words.insert(words.end(), drink.notes.begin(), drink.notes.end());
        words.insert(words.end(), drink.garnish.begin(), drink.garnish.end());
    }
    return words;
}

bool contains(const ReadResult& result, const std::string& words) {
    const auto all = allWords(result);
    return std::any_of(all.begin(), all.end(),
                       [&](const std::string& text) { return text.find(words) != std::string::npos; });
}

// What the manifest states in figures and names for one case.
void checkExpected(Failures& out, const Json& expect, const ReadResult& result) {
    const Json& drinks = expect.at("drinks");
    if (drinks.is_number() && drinks.get<std::size_t>() != result.drinks.size())
        out.push_back("drinks: " + std::to_string(result.drinks.size()));
    if (result.drinks.empty()) return;
    const exchange::ReadRecipe& drink = result.drinks.front();
    if (expect.contains("name") && expect.at("name") != drink.name)
        out.push_back("name '" + drink.name + "'");
    if (expect.contains("yield") &&
        (!drink.yield || drink.yield->toDouble() != expect.at("yield").get<double>()))
        out.push_back("yield");
    if (expect.contains("lines_count") && expect.at("lines_count").get<std::size_t>() != drink.lines.size())
        out.push_back("lines: " + std::to_string(drink.lines.size()));
    if (expect.contains("lines_count_ingredients")) {
        const auto count = std::count_if(drink.lines.begin(), drink.lines.end(),
                                         [](const auto& l) { return l.kind == ReadKind::Ingredient; });
        if (expect.at("lines_count_ingredients").get<long>() != count)
            out.push_back("ingredients: " + std::to_string(count));
    }
    if (expect.contains("min_lines") && drink.lines.size() < expect.at("min_lines").get<std::size_t>())
        out.push_back("lines: " + std::to_string(drink.lines.size()));
    if (expect.contains("lines")) {
        const Json& lines = expect.at("lines");
        for (std::size_t i = 0; i < lines.size(); ++i)
            if (i >= drink.lines.size() || !matchesOne(lines[i], drink.lines[i]))
                out.push_back("line " + std::to_string(i + 1) + " expected " + lines[i].dump() + " read " +
                              (i < drink.lines.size() ? shown(drink.lines[i]) : "nothing"));
    }
    if (expect.contains("method") && expect.at("method").get<std::vector<std::string>>() != drink.method)
        out.push_back("method");
    if (expect.contains("sections") &&
        expect.at("sections").get<std::vector<std::string>>() != drink.sections)
        out.push_back("sections");
    if (expect.contains("must_not_contain"))
        for (const Json& words : expect.at("must_not_contain"))
            if (contains(result, words.get<std::string>())) out.push_back("contains " + words.dump());
}

// What must hold of every input.
void checkAlways(Failures& out, const ReadResult& result) {
    for (const exchange::ReadLine& line : result.every) {
        const double a = low(line.line.poured);
        const double b = high(line.line.poured);
        if (!std::isfinite(a) || !std::isfinite(b) || a < 0 || b < a) out.push_back("amount of " + line.raw);
        for (const std::string* text : {&line.line.name, &line.line.note})
            if (base::withoutControls(*text) != *text) out.push_back("controls in " + *text);
    }
    for (const exchange::ReadRecipe& drink : result.drinks) {
        if (base::withoutControls(drink.name) != drink.name) out.push_back("controls in the name");
        for (const std::string& step : drink.method)
            if (base::withoutControls(step) != step) out.push_back("controls in the method");
    }
}

using Check = std::function<void(Failures&, const ReadResult&)>;

void require(Failures& out, bool holds, const std::string& what) {
    if (!holds) out.push_back(what);
}

// Each file's "must", as far as reading can meet it.
const std::map<std::string, Check>& ownChecks() {
    static const std::map<std::string, Check> checks = {
        {"h01-empty.txt",
         [](Failures& f, const ReadResult& r) {
             require(f, r.problem == ReadProblem::NothingToRead, "problem");
         }},
        {"h02-blank.txt",
         [](Failures& f, const ReadResult& r) {
             require(f, r.problem == ReadProblem::NothingToRead, "problem");
         }},
        {"h03-binary.bin",
         [](Failures& f, const ReadResult& r) {
             require(f, r.problem == ReadProblem::NotText, "problem");
             require(f, r.every.empty(), "shown as text");
         }},
        {"h04-two-megabyte-line.txt",
         [](Failures& f, const ReadResult& r) {
             require(f, anywhere(r, DoubtCode::LineTooLong), "long line not reported");
             require(f, r.every.size() == 2 && r.every.back().raw.size() < 2000, "not truncated");
             const auto& doubts = r.every.back().doubts;
             require(f, !doubts.empty() && std::stol(doubts.front().detail) > 2'000'000, "length not stated");
         }},
        {"h06-mixed-encodings.txt",
         [](Failures& f, const ReadResult& r) {
             require(f, anywhere(r, DoubtCode::EncodingRecovered), "no mark");
             require(f, contains(r, "curaçao à l’orange"), "not recovered");
             require(f, r.every.size() == 5 && !has(r.every[1].doubts, DoubtCode::EncodingRecovered),
                     "marked too much");
         }},
        {"h07-duplicated-lines.txt",
         [](Failures& f, const ReadResult& r) {
             require(f, anywhere(r, DoubtCode::Duplicate), "no duplicate warning");
         }},
        {"h08-impossible-amounts.txt",
         [](Failures& f, const ReadResult& r) {
             const std::set<std::size_t> refused{1, 2, 4, 5, 6, 7, 8, 12, 13, 14};
             const auto& lines = r.drinks.front().lines;
             for (std::size_t i = 0; i < lines.size(); ++i) {
                 const bool is = lines[i].kind == ReadKind::Refused || lines[i].kind == ReadKind::Unread;
                 require(f, is == (refused.count(i + 1) != 0),
                         "line " + std::to_string(i + 1) + " " + shown(lines[i]));
                 require(f, !lines[i].doubts.empty(), "no reason at line " + std::to_string(i + 1));
             }
             require(f, has(lines[13].doubts, DoubtCode::StrengthAbove100), "strength");
             require(f, has(lines[0].doubts, DoubtCode::NegativeAmount), "negative");
             require(f, has(lines[3].doubts, DoubtCode::ZeroDenominator), "zero denominator");
             require(f, has(lines[8].doubts, DoubtCode::TooLarge), "too large");
             require(f, has(lines[10].doubts, DoubtCode::TooSmall), "too small");
         }},
        {"h09-rtl-emoji.txt",
         [](Failures& f, const ReadResult& r) {
             require(f, anywhere(r, DoubtCode::BidiControls), "direction not marked");
             require(f, contains(r, "\U0001F469\u200D\U0001F373"), "joined picture lost");
         }},
        {"h12-jsonld-broken-then-odd.html",
         [](Failures& f, const ReadResult& r) {
             require(f, anywhere(r, DoubtCode::MarkupBlockInvalid), "broken block not reported");
         }},
        {"h13-deep-nesting.html",
         [](Failures& f, const ReadResult& r) {
             require(f, r.drinks.size() <= 1, "drinks");
             require(f, !r.drinks.empty() || anywhere(r, DoubtCode::NestingTooDeep), "no message");
         }},
        {"h15-injection.txt",
         [](Failures& f, const ReadResult& r) {
             require(f, r.drinks.front().name == "../../Robert'); DROP TABLE drinks;--", "name not literal");
             require(f, contains(r, "=HYPERLINK(\"http://127.0.0.1:9\",\"gin\")"), "cell not literal");
             require(f, contains(r, "<b onmouseover=alert(1)>lime</b>"), "markup not literal");
         }},
        {"h16-control-characters.txt",
         [](Failures& f, const ReadResult& r) {
             require(f, anywhere(r, DoubtCode::ControlCharacters), "controls not marked");
             require(f, r.drinks.front().garnish == std::vector<std::string>{"peel"}, "garnish");
         }},
    };
    return checks;
}

} // namespace

TEST_CASE("Hostile files meet their manifest", "[read][corpus]") {
    const Json manifest = Json::parse(bytesOf("recipes/hostile/manifest.json"));
    int met = 0;
    for (const Json& entry : manifest.at("cases")) {
        const std::string file = entry.at("file").get<std::string>();
        const std::string bytes = bytesOf("recipes/hostile/" + file);
        CHECK(bytes.size() == entry.at("bytes").get<std::size_t>());
        const auto begin = std::chrono::steady_clock::now();
        const ReadResult result = exchange::readText(bytes);
        const std::chrono::duration<double> took = std::chrono::steady_clock::now() - begin;
        Failures failures;
        checkExpected(failures, entry.at("expect"), result);
        checkAlways(failures, result);
        if (const auto own = ownChecks().find(file); own != ownChecks().end()) {
            if (entry.at("expect").at("drinks") == 1 && result.drinks.empty())
                failures.push_back("nothing read");
            else
                own->second(failures, result);
        }
        if (took.count() > 2.0) failures.push_back("took " + std::to_string(took.count()) + " s");
        met += failures.empty() ? 1 : 0;
        for (const std::string& failure : failures)
            std::cout << "  " << file << ": " << failure << "\n";
    }
    std::cout << "hostile: " << met << "/" << manifest.at("cases").size() << "\n";
    CHECK(met == 16);
}
