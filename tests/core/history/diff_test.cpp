#include "core/exchange/read_text.h"
#include "core/history/diff.h"
#include "core/spec/edit.h"
#include "tests/support/catch.h"

#include <fstream>
#include <nlohmann/json.hpp>
#include <random>

using namespace stillroom;
using history::difference;
using history::inWords;
using quantity::Amount;
using quantity::HouseMeasures;
using quantity::Measure;
using quantity::Rational;
using spec::Spec;

namespace {

const HouseMeasures& house() {
    return HouseMeasures::defaults();
}

spec::Line line(const char* name, Rational amount, Measure measure = Measure::Ml) {
    spec::Line l;
    l.name = name;
    l.poured = {Amount::exact(amount), measure, 1};
    return l;
}

Spec sour() {
    Spec s;
    s.lines = {line("bourbon", 50), line("lemon juice", *Rational::make(45, 2)), line("syrup", 15)};
    s.method.technique = spec::Technique::Shake;
    s.method.seconds = 12;
    return s;
}

std::string words(const Spec& a, const Spec& b) {
    return inWords(difference(a, b, house()), a, b);
}

Spec read(const nlohmann::json& lines) {
    Spec s;
    for (const auto& text : lines)
        s.lines.push_back(exchange::readLine(text.get<std::string>()).line);
    return s;
}

} // namespace

TEST_CASE("a spec does not differ from itself", "[diff]") {
    const Spec s = sour();
    CHECK(difference(s, s, house()).isEmpty());
    CHECK(words(s, s) == "no change");
    CHECK(difference(Spec{}, Spec{}, house()).isEmpty());
}

TEST_CASE("a trail mark says what changed in few words", "[diff]") {
    Spec b = sour();
    b.lines[1].poured.amount = Amount::exact(20);
    b.lines.push_back(line("orange bitters", 2, Measure::Dash));
    b.method.seconds = 10;
    CHECK(words(sour(), b) == "lemon juice 22.5 → 20 ml; + orange bitters 2 dashes; shaken 12 s → 10 s");
    CHECK(words(b, sour()) == "lemon juice 20 → 22.5 ml; − orange bitters 2 dashes; shaken 10 s → 12 s");
}

TEST_CASE("the same amount in another measure is no difference", "[diff]") {
    Spec b = sour();
    b.lines[0].poured = {Amount::exact(5), Measure::Cl, 1};
    b.lines[2].poured = {Amount::exact(*Rational::make(15, 2)), Measure::Ml, 2};
    b.lines[2].written = "2 × 7.5 ml";
    CHECK(difference(sour(), b, house()).isEmpty());
    b.lines[0].poured = {Amount::exact(*Rational::make(3, 2)), Measure::FlozUs, 1}; // 44.36 ml
    const auto d = difference(sour(), b, house());
    CHECK(d.lines[0].amount);
    CHECK(*d.lines[0].relative == Approx(44.36029434375 / 50 - 1));
}

TEST_CASE("an amount that was not stated is not a zero", "[diff]") {
    Spec b = sour();
    b.lines[2].poured = {};
    const auto d = difference(sour(), b, house());
    CHECK(d.lines[2].amount);
    CHECK_FALSE(d.lines[2].relative);
    CHECK(words(sour(), b) == "syrup 15 ml → no amount");
}

TEST_CASE("moving a line moves that line alone", "[diff]") {
    const Spec b = spec::withLineMoved(sour(), 0, 2);
    const auto d = difference(sour(), b, house());
    CHECK(std::count_if(d.lines.begin(), d.lines.end(), [](const auto& l) { return l.moved; }) == 1);
    CHECK(words(sour(), b) == "bourbon moved");
}

TEST_CASE("lemon is not lime and dark rum is still rum", "[diff]") {
    const auto like = [](const char* a, const char* b) { return history::likeness(line(a, 1), line(b, 1)); };
    CHECK(like("lemon juice", "lime juice") == 0);
    CHECK(like("lime juice", "fresh lime juice") == 1);
    CHECK(like("dark rum", "amber rum") > 0);
    CHECK(like("dark rum", "gin") == 0);
    CHECK(like("simple syrup", "sugar syrup") > 0.9);
    CHECK(like("agave nectar", "agave syrup") > 0.5);
    CHECK(like("orange bitters", "aromatic bitters") == 0);
    CHECK(like("coconut milk", "coconut cream") == 0);
    CHECK(like("maraschino liqueur", "marashino liqueur") > 0.5);
}

TEST_CASE("method glass garnish and serves have their own words", "[diff]") {
    Spec b = sour();
    b.method.technique = spec::Technique::Stir;
    b.method.dryShake = true;
    b.glass = "coupe";
    b.garnish = "cherry";
    b.serves = 2;
    CHECK(words(sour(), b) ==
          "shaken → stirred; + dry shake; glass none → coupe; garnish none → cherry; serves 1 → 2");
    b = sour();
    b.method.text = "Shake.";
    CHECK(words(sour(), b) == "method reworded");
    b = sour();
    b.lines[2].optional = true;
    CHECK(words(sour(), b) == "syrup now optional");
}

TEST_CASE("going back undoes every row of a difference", "[diff]") {
    std::mt19937 random(7);
    const char* names[] = {"gin", "lemon juice", "syrup", "orange bitters", "soda", "egg white", "dark rum"};
    const auto some = [&] {
        Spec s;
        const int n = static_cast<int>(random() % 6);
        for (int i = 0; i < n; ++i)
            s.lines.push_back(line(names[random() % 7], static_cast<std::int64_t>(random() % 5) * 5 + 5));
        return s;
    };
    for (int round = 0; round < 500; ++round) {
        const Spec a = some();
        const Spec b = some();
        const auto there = difference(a, b, house());
        const auto back = difference(b, a, house());
        CHECK(difference(a, a, house()).isEmpty());
        CHECK(there.isEmpty() == back.isEmpty());
        std::vector<int> seenA(a.lines.size()), seenB(b.lines.size());
        int added = 0, removed = 0;
        for (const auto& row : there.lines) {
            if (row.a >= 0) ++seenA[static_cast<std::size_t>(row.a)];
            if (row.b >= 0) ++seenB[static_cast<std::size_t>(row.b)];
            added += row.added ? 1 : 0;
            removed += row.removed ? 1 : 0;
        }
        // Every line of either side stands in exactly one row.
        CHECK(std::all_of(seenA.begin(), seenA.end(), [](int n) { return n == 1; }));
        CHECK(std::all_of(seenB.begin(), seenB.end(), [](int n) { return n == 1; }));
        for (const auto& row : back.lines) {
            added -= row.removed ? 1 : 0;
            removed -= row.added ? 1 : 0;
        }
        CHECK(added == 0);
        CHECK(removed == 0);
    }
}

// data/revision-pairs.json: two dated readings of one official list, with what a person sees as changed.
TEST_CASE("dated pairs of one list differ as a person sees it", "[diff][corpus]") {
    std::ifstream file(STILLROOM_SOURCE_DIR "/tests/core/history/data/revision-pairs.json");
    const auto pairs = nlohmann::json::parse(file).at("pairs");
    REQUIRE(pairs.size() == 14);
    for (const auto& pair : pairs) {
        const Spec a = read(pair.at("revision_a").at("lines"));
        const Spec b = read(pair.at("revision_b").at("lines"));
        const auto d = difference(a, b, house());
        INFO(pair.at("name").get<std::string>() + ": " + inWords(d, a, b));
        for (const auto& expected : pair.at("expected_changes")) {
            const auto name = expected.at("ingredient").get<std::string>();
            const auto change = expected.at("change").get<std::string>();
            INFO(name + " " + change);
            if (name == "rum (both)") { // two rums for two others: neither stays as it was
                CHECK(
                    std::none_of(d.lines.begin(), d.lines.begin() + 2, [](const auto& l) { return l.same; }));
                continue;
            }
            if (name == "everything else") { // no line but the rum is on both sides
                for (const auto& row : d.lines)
                    if (row.a > 0 || row.b > 0) CHECK((row.added || row.removed));
                continue;
            }
            const auto last = name.substr(name.rfind(' ') + 1);
            const history::LineDifference* row = nullptr;
            double best = 0;
            for (const auto& candidate : d.lines) {
                const auto& of = candidate.b >= 0 ? b.lines[static_cast<std::size_t>(candidate.b)]
                                                  : a.lines[static_cast<std::size_t>(candidate.a)];
                double like = history::likeness(line(name.c_str(), 1), of);
                if (of.name.find(last) != std::string::npos) like += 0.3;
                if (of.name.find(name) != std::string::npos) like += 0.3;
                if (of.name.rfind(name, 0) == 0) like += 0.3;
                if (like > best) {
                    best = like;
                    row = &candidate;
                }
            }
            REQUIRE(row != nullptr);
            const std::string flags = "+" + change + "+";
            const auto says = [&](const std::string& flag) {
                return flags.find("+" + flag + "+") != std::string::npos;
            };
            CHECK(row->same == says("same"));
            CHECK(row->amount == says("amount"));
            CHECK(row->renamed == says("renamed"));
            CHECK(row->moved == says("moved"));
            CHECK(row->added == says("added"));
            CHECK(row->removed == says("removed"));
            if (says("unit")) CHECK(row->unit);
            if (expected.contains("delta_percent")) {
                REQUIRE(row->relative);
                CHECK(*row->relative * 100 == Approx(expected["delta_percent"].get<double>()).margin(0.006));
            }
        }
    }
}
