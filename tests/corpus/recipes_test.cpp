#include "tests/support/catch.h"

#include "tests/corpus/corpus_files.h"
#include "tests/corpus/line_compare.h"
#include "tests/corpus/nominal_sums.h"

#include <filesystem>
#include <iostream>

using namespace stillroom;
using namespace stillroom::corpus;

namespace {

std::vector<std::string> recipeNames() {
    std::vector<std::string> names;
    for (const auto& entry : std::filesystem::directory_iterator(dataPath("recipes")))
        if (entry.path().extension() == ".json") names.push_back(entry.path().stem().string());
    std::sort(names.begin(), names.end());
    return names;
}

// What differs from the expectation, in words; empty when nothing does.
using Differences = std::vector<std::string>;

void expectText(Differences& out, const std::string& what, const std::string& expected,
                const std::string& read) {
    if (comparable(expected) != comparable(read))
        out.push_back(what + ": expected '" + expected + "', read '" + read + "'");
}

std::string wordsOnly(const std::vector<std::string>& texts) {
    std::string all;
    for (const std::string& text : texts)
        for (const std::string& word : base::foldedWords(text))
            all += word + " ";
    return all;
}

std::vector<std::string> strings(const Json& list) {
    return list.is_null() ? std::vector<std::string>() : list.get<std::vector<std::string>>();
}

bool sameNote(const Json& expected, const exchange::ReadLine& read) {
    const auto sorted = [](const std::string& text) {
        std::vector<std::string> words = base::foldedWords(text);
        for (std::string& w : words)
            w.erase(std::remove(w.begin(), w.end(), ';'), w.end());
        std::sort(words.begin(), words.end());
        return words;
    };
    return sorted(textOf(expected, "note")) == sorted(read.line.note);
}

void compareLines(Differences& out, const std::string& where, const Json& expected,
                  const std::vector<exchange::ReadLine>& read) {
    if (expected.size() != read.size())
        out.push_back(where + ": expected " + std::to_string(expected.size()) + " lines, read " +
                      std::to_string(read.size()));
    for (std::size_t i = 0; i < std::min(expected.size(), read.size()); ++i) {
        if (!matchesOne(expected[i], read[i]))
            out.push_back(where + " line: expected " + expected[i].dump() + ", read " + shown(read[i]));
        if (!sameNote(expected[i], read[i]))
            out.push_back(where + " note: expected " + expected[i].dump() + ", read " + shown(read[i]));
    }
}

void compareYield(Differences& out, const std::string& where, const Json& expected,
                  const exchange::ReadRecipe& read) {
    if (expected.is_null() || expected.at("amount").is_null()) {
        if (read.yield) out.push_back(where + ": a yield was read that is not stated");
        return;
    }
    if (!read.yield || !near(read.yield->toDouble(), expected.at("amount").get<double>()) ||
        read.yieldUnit != textOf(expected, "unit"))
        out.push_back(where + " yield: expected " + expected.dump() + ", read " +
                      (read.yield ? read.yield->text() : "none") + " " + read.yieldUnit);
    if (expected.contains("approx") && expected.at("approx").get<bool>() != read.yieldApprox)
        out.push_back(where + ": about or not about");
}

void compareMethod(Differences& out, const std::string& where, const Json& expected,
                   const std::vector<std::string>& read) {
    const std::string wanted = wordsOnly(strings(expected));
    if (wanted != wordsOnly(read))
        out.push_back(where + " method: expected '" + wanted + "', read '" + wordsOnly(read) + "'");
}

Differences compareStructure(const Json& expected, const exchange::ReadRecipe& read) {
    Differences out;
    expectText(out, "name", textOf(expected, "name"), read.name);
    expectText(out, "glass", textOf(expected, "glass"), read.glass);
    expectText(out, "technique", textOf(expected, "technique"), read.technique);
    compareYield(out, "recipe", expected.at("yield"), read);
    compareLines(out, "recipe", expected.at("lines"), read.lines);
    compareMethod(out, "recipe", expected.at("method"), read.method);
    const std::vector<std::string> garnish = strings(expected.at("garnish"));
    if (garnish.size() != read.garnish.size() || wordsOnly(garnish) != wordsOnly(read.garnish))
        out.push_back("garnish: expected '" + wordsOnly(garnish) + "', read '" + wordsOnly(read.garnish) +
                      "'");
    const Json subs = expected.value("sub_recipes", Json::array());
    if (subs.size() != read.subRecipes.size())
        out.push_back("expected " + std::to_string(subs.size()) + " sub-recipes, read " +
                      std::to_string(read.subRecipes.size()));
    for (std::size_t i = 0; i < std::min(subs.size(), read.subRecipes.size()); ++i) {
        const exchange::ReadRecipe& part = read.subRecipes[i];
        expectText(out, "sub-recipe name", textOf(subs[i], "name"), part.name);
        compareYield(out, part.name, subs[i].value("yield", Json()), part);
        compareLines(out, part.name, subs[i].at("lines"), part.lines);
        compareMethod(out, part.name, subs[i].value("method", Json::array()), part.method);
    }
    return out;
}

bool within(double expected, double computed) {
    // the expectation is printed with two or three decimals
    return std::abs(expected - computed) <= std::max(0.001 * std::abs(expected), 0.0051);
}

// Which lines count, and as what, is the corpus' choice; the amounts are what was read.
Differences compareSums(const Json& whole, const exchange::ReadRecipe& read, const NominalAdapter& adapter) {
    Differences out;
    const Json& expected = whole.at("computed_with_nominal_constants");
    if (expected.is_null()) return out;
    const Json& lines = whole.at("expect").at("lines");
    if (lines.size() != read.lines.size()) return {"sums: other lines"};
    const std::vector<std::string> left = strings(expected.at("lines_not_counted"));
    Sums sums;
    for (std::size_t i = 0; i < lines.size(); ++i) {
        const std::string constant = textOf(lines[i], "constant");
        const bool counted = std::find(left.begin(), left.end(), textOf(lines[i], "text")) == left.end();
        if (counted && !constant.empty()) adapter.add(sums, read.lines[i], constant);
    }
    const auto check = [&](const char* key, double computed) {
        if (!within(expected.at(key).get<double>(), computed))
            out.push_back(std::string(key) + ": expected " + expected.at(key).dump() + ", computed " +
                          std::to_string(computed));
    };
    check("volume_ml", sums.volumeMl);
    check("ethanol_ml", sums.ethanolMl);
    check("abv_percent", sums.strengthPercent());
    check("sugar_g", sums.sugarG);
    check("acid_g", sums.acidG);
    return out;
}

} // namespace

TEST_CASE("Whole recipes of the corpus give their structure and their additive sums", "[read][corpus]") {
    const Json constants = Json::parse(bytesOf("nominal-constants.json"));
    const NominalAdapter adapter(constants);
    int right = 0;
    const std::vector<std::string> names = recipeNames();
    REQUIRE(names.size() == 32);
    for (const std::string& name : names) {
        const Json whole = Json::parse(bytesOf("recipes/" + name + ".json"));
        const exchange::ReadResult result = exchange::readText(bytesOf("recipes/" + name + ".txt"));
        Differences differences;
        if (result.drinks.size() != 1) {
            differences.push_back("no drink");
        } else {
            differences = compareStructure(whole.at("expect"), result.drinks.front());
            const Differences sums = compareSums(whole, result.drinks.front(), adapter);
            differences.insert(differences.end(), sums.begin(), sums.end());
        }
        right += differences.empty() ? 1 : 0;
        for (const std::string& one : differences)
            std::cout << "  " << name << ": " << one << "\n";
    }
    std::cout << "recipes: " << right << "/" << names.size() << "\n";
    CHECK(right == static_cast<int>(names.size()));
}
