#include "core/exchange/conversion_entry.h"
#include "tests/support/catch.h"

#include <cmath>
#include <cstdint>

using namespace stillroom;
using exchange::convertTyped;
using exchange::readConversionEntry;
using physics::ConversionFault;

namespace {

const physics::ConversionInput& inputOf(const char* id, const char* key) {
    const auto* conversion = physics::conversion(id);
    REQUIRE(conversion);
    const auto* input = conversion->input(key);
    REQUIRE(input);
    return *input;
}

double number(const char* id, const char* key, const char* text) {
    INFO(id << " " << key << "=" << text);
    const auto value = readConversionEntry(inputOf(id, key), text);
    REQUIRE(value);
    return std::get<double>(*value);
}

ConversionFault fault(const char* id, const char* key, const char* text) {
    INFO(id << " " << key << "=" << text);
    const auto value = readConversionEntry(inputOf(id, key), text);
    REQUIRE_FALSE(value);
    CHECK(value.error().key == key);
    return value.error().fault;
}

} // namespace

TEST_CASE("conversion values are read as people write them", "[conversions][entry]") {
    CHECK(number("dilute", "volume", "22,5") == 22.5);
    CHECK(number("dilute", "volume", "22.5") == 22.5);
    CHECK(number("dilute", "volume", "1/2") == 0.5);
    CHECK(number("dilute", "volume", "6/8") == 0.75);
    CHECK(number("dilute", "volume", "1 1/2") == 1.5);
    CHECK(number("dilute", "volume", "¾") == 0.75);
    CHECK(number("dilute", "volume", " 45 ml ") == 45);
    CHECK(number("dilute", "volume", "45ml") == 45);
    CHECK(number("dilute", "volume", "2 l") == 2000);
    CHECK(number("dilute", "volume", "2 floz") == Approx(59.147).margin(0.001));
    CHECK(number("sugar_to_brix", "mass", "1,5 kg") == 1500);
    CHECK(number("sugar_to_brix", "mass", "1 lb") == Approx(453.592).margin(0.001));
    CHECK(number("hydrometer", "t", "-18") == -18);
    CHECK(number("hydrometer", "t", "−18 °C") == -18);
    CHECK(number("hydrometer", "t", "68 F") == Approx(20));
    CHECK(number("hydrometer", "t", "68 °F") == Approx(20));
    CHECK(number("temperature", "fahrenheit", "20 °C") == Approx(68));
    CHECK(number("strength", "abv", "40 %") == 40);
    CHECK(number("strength", "abv", "40 % vol") == 40);
    CHECK(number("strength", "us_proof", "80 proof") == 80);
    CHECK(number("strength", "density", "0,948 g/ml") == Approx(948));
    CHECK(number("carbonation", "bar", "14.5 psi") == Approx(0.99974).margin(0.0001));
    CHECK(number("syrup", "brix", "2:1") == Approx(66.667).margin(0.001));
    CHECK(number("syrup", "parts_weight", "3:2") == 1.5);
    CHECK(number("syrup", "refractive_index", "1,34782") == 1.34782);
}

TEST_CASE("a comma that could group thousands is settled by the range or refused", "[conversions][entry]") {
    CHECK(number("syrup", "refractive_index", "1,347") == 1.347); // 1347 is no index
    CHECK(number("syrup", "density", "1,229") == 1229);           // 1.229 kg/m³ is no syrup
    CHECK(number("dilute", "volume", "1.750") == 1.75);
    CHECK(fault("dilute", "volume", "1,750") == ConversionFault::NotANumber);
    CHECK(number("dilute", "volume", "1750") == 1750);
}

TEST_CASE("what is no value is refused by its key", "[conversions][entry]") {
    for (const char* text : {"abc", "nan", "inf", "2-3", "1/0", "--4", "=1", "1,2.3.4", "some", "1,000.5",
                             "1.000,5 ml", "1,000.5 l"})
        CHECK(fault("dilute", "volume", text) == ConversionFault::NotANumber);
    CHECK(fault("dilute", "volume", std::string(5000, '9').c_str()) == ConversionFault::NotANumber);
    for (const char* text : {"ten-ish", "45 g", "45 parsecs", "45 °C", "2 dashes"})
        CHECK(fault("dilute", "volume", text) == ConversionFault::OtherUnit);
    CHECK(fault("hydrometer", "t", "20 ml") == ConversionFault::OtherUnit);
    CHECK(fault("measures", "from", "thimble") == ConversionFault::NotAChoice);
}

TEST_CASE("an amount may bring its measure along", "[conversions][entry]") {
    const auto result =
        convertTyped(*physics::conversion("measures"), {{"amount", "1 1/2 floz"}, {"to", "cl"}});
    REQUIRE(result);
    CHECK(result->values.front().key == "result");
    CHECK(result->values.front().value == Approx(4.43603).margin(1e-4));
    CHECK(result->values.front().unit == "cl");
    const auto dashes = convertTyped(*physics::conversion("measures"), {{"amount", "2"}, {"from", "dashes"}});
    REQUIRE(dashes);
    CHECK(dashes->values.front().value == Approx(1.84).margin(0.01));
}

TEST_CASE("an empty entry is one not given", "[conversions][entry]") {
    const auto& strength = *physics::conversion("strength");
    REQUIRE(convertTyped(strength, {{"abv", "40"}, {"us_proof", " "}, {"t", ""}}));
    const auto none = convertTyped(strength, {{"abv", ""}});
    REQUIRE_FALSE(none);
    CHECK(none.error().fault == ConversionFault::Missing);
    CHECK(convertTyped(strength, {{"colour", "1"}}).error().fault == ConversionFault::UnknownInput);
}

TEST_CASE("whatever bytes are typed each entry is a finite value or a refusal", "[conversions][entry]") {
    const std::string alphabet = "0123456789.,/:-+ %gmlFCK°½¾²³\xE2\x88\x92\xFF\xC3\x1B\t\"x×eE";
    std::uint32_t state = 20251121;
    const auto next = [&state] {
        state = state * 1664525U + 1013904223U;
        return state >> 16U;
    };
    int values = 0;
    for (int round = 0; round < 4000; ++round) {
        std::string text;
        for (std::uint32_t length = next() % 9; length > 0; --length)
            text += alphabet[next() % alphabet.size()];
        for (const auto& [id, key] :
             {std::pair{"dilute", "volume"}, {"hydrometer", "t"}, {"syrup", "brix"}, {"measures", "from"}}) {
            const auto value = readConversionEntry(inputOf(id, key), text);
            if (!value) {
                CHECK(value.error().key == key);
                CHECK_FALSE(physics::problemText(*physics::conversion(id), value.error()).empty());
            } else if (const auto* number = std::get_if<double>(&*value)) {
                CHECK(std::isfinite(*number));
                ++values;
            }
        }
    }
    CHECK(values > 100); // not everything is refused
}
