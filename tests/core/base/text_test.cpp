#include "core/base/text.h"

#include "tests/support/catch.h"

using namespace stillroom::base;

TEST_CASE("Folding forgives case accents hyphens slashes and spaces", "[base][text]") {
    struct Row {
        const char* written;
        const char* folded;
    };
    const Row rows[] = {
        {"Crème-de  Violette ", "creme de violette"},
        {"CACHAÇA", "cachaca"},
        {"  lime/lemon ", "lime lemon"},
        {"Kümmel", "kummel"},
        {"Ｇｉｎ", "gin"},
        {"smørrebrød", "smorrebrod"},
        {"ﬁno", "fino"},
        {"", ""},
        {" - ", ""},
        {"d’amers", "d'amers"},
        {"ジン", "ジン"},
        {"Straße", "strasse"},
    };
    for (const Row& row : rows) {
        INFO(row.written);
        CHECK(fold(row.written) == fold(row.folded));
        CHECK(fold(fold(row.written)) == fold(row.written));
    }
    CHECK(fold("Crème-de  Violette ") == "creme de violette");
    CHECK(fold("Straße") == "strasse");
}

TEST_CASE("Folded words are the words of the folded text", "[base][text]") {
    CHECK(foldedWords("Fresh Lime-Juice") == std::vector<std::string>{"fresh", "lime", "juice"});
    CHECK(foldedWords("   ").empty());
}

TEST_CASE("Edit distance counts code points and stops at its limit", "[base][text]") {
    CHECK(editDistance("whisky", "whiskey", 3) == 1);
    CHECK(editDistance("gin", "gin", 3) == 0);
    CHECK(editDistance("é", "e", 3) == 1);
    CHECK(editDistance("", "abc", 5) == 3);
    CHECK(editDistance("abcdef", "uvwxyz", 2) == 3);
    CHECK(editDistance("campfire", "c", 2) == 3);
}

TEST_CASE("The shortest decimal reads back as the same double", "[base][text]") {
    CHECK(shortestDecimal(0.1) == "0.1");
    CHECK(shortestDecimal(-0.0) == "0");
    CHECK(shortestDecimal(45) == "45");
    CHECK(shortestDecimal(1e-6) == "0.000001");
    CHECK(shortestDecimal(123456789012345.0) == "123456789012345");
    std::uint64_t state = 88172645463325252ULL;
    for (int i = 0; i < 2000; ++i) {
        state ^= state << 13U;
        state ^= state >> 7U;
        state ^= state << 17U;
        const double value = static_cast<double>(state % 1000000007ULL) / 9973.0;
        CHECK(std::stod(shortestDecimal(value)) == value);
    }
}

TEST_CASE("Eliding never splits a letter", "[base][text]") {
    CHECK(elided("Crème", 3) == "Crè…");
    CHECK(elided("Crème", 5) == "Crème");
    CHECK(elided("", 2).empty());
}

TEST_CASE("Controls and bidirectional overrides are taken out and joiners stay", "[base][text]") {
    CHECK(withoutControls("gin\x1b[31m") == "gin[31m");
    CHECK(withoutControls("a\u202Eb\u200Fc") == "abc");
    CHECK(withoutControls("👩\u200D🍳") == "👩\u200D🍳");
    CHECK(withoutControls("a\tb\nc") == "a\tb\nc");
}

TEST_CASE("Only well-formed UTF-8 is valid", "[base][text]") {
    CHECK(isValidUtf8("Curaçao"));
    CHECK_FALSE(isValidUtf8("Cura\xE7"
                            "ao"));
    CHECK_FALSE(isValidUtf8("\xC0\x80"));
    CHECK(isValidUtf8(""));
}

TEST_CASE("Names sort as people sort them", "[base][text]") {
    CHECK(compareForPeople("épée", "eponym") < 0);
    CHECK(compareForPeople("Zebra", "apple") > 0);
    CHECK(compareForPeople("gin", "gin") == 0);
    CHECK(compareForPeople("Light 40", "Light 120") < 0);
    CHECK(sortKeyForPeople("Light 40") < sortKeyForPeople("Light 120"));
}
