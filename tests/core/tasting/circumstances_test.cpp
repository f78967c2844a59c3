#include "core/tasting/circumstances.h"

#include "tests/support/catch.h"

using namespace stillroom;
using namespace stillroom::tasting;

namespace {

Circumstances everything() {
    Circumstances all;
    all.glassAgeMinutes = 0;
    all.place = "the back bar, Tuesday";
    all.measured.volume = quantity::Volume::fromMl(112.5);
    all.measured.weight = quantity::Mass::fromGrams(109.3);
    all.measured.temperature = quantity::Temperature::fromCelsius(-4.2);
    all.measured.brixRead = quantity::MassFraction::fromPercent(12.3);
    return all;
}

} // namespace

TEST_CASE("Circumstances read back and what is not said is left out", "[tasting][scales]") {
    const auto all = everything();
    CHECK_FALSE(all.problem());
    CHECK(all.canonicalJson() == R"({"brix_read":"12.3","glass_age_min":0,"place":"the back bar, Tuesday",)"
                                 R"("temperature_c":"-4.2","volume_ml":"112.5","weight_g":"109.3"})");
    CHECK(Circumstances::fromCanonicalJson(all.canonicalJson()) == all);
    CHECK(Circumstances{}.canonicalJson() == "{}");
    CHECK(Circumstances::fromCanonicalJson("{}")->isEmpty());
    CHECK_FALSE(all.isEmpty()); // "at once" is not "not said"
    for (int tenths = 0; tenths <= 1000; ++tenths) {
        Circumstances one;
        one.measured.brixRead = quantity::MassFraction::fromPercent(tenths / 10.0);
        CHECK(Circumstances::fromCanonicalJson(one.canonicalJson()) == one);
    }
}

TEST_CASE("Circumstances that cannot be are named and never read", "[tasting][scales]") {
    const auto problemOf = [](auto change) {
        auto changed = everything();
        change(changed);
        CHECK_FALSE(Circumstances::fromCanonicalJson(changed.canonicalJson()));
        return changed.problem();
    };
    using C = Circumstances;
    CHECK(problemOf([](C& c) { c.glassAgeMinutes = -1; }) == CircumstanceError::GlassAge);
    CHECK(problemOf([](C& c) { c.glassAgeMinutes = 10081; }) == CircumstanceError::GlassAge);
    CHECK(problemOf([](C& c) { c.place = std::string(201, 'x'); }) == CircumstanceError::Place);
    CHECK(problemOf([](C& c) { c.measured.volume = quantity::Volume::fromMl(0); }) ==
          CircumstanceError::Volume);
    CHECK(problemOf([](C& c) { c.measured.weight = quantity::Mass::fromGrams(-5); }) ==
          CircumstanceError::Weight);
    CHECK(problemOf([](C& c) { c.measured.temperature = quantity::Temperature::fromCelsius(300); }) ==
          CircumstanceError::Temperature);
    CHECK(problemOf([](C& c) { c.measured.brixRead = quantity::MassFraction::fromPercent(101); }) ==
          CircumstanceError::Brix);
    for (const char* text :
         {"", "[]", R"({"mood":"good"})", R"({"volume_ml":112.5})", R"({"volume_ml":"nan"})",
          R"({"volume_ml":"1e9"})", R"({"volume_ml":"12,5"})", R"({"glass_age_min":"5"})",
          R"({"glass_age_min":1e300})", R"({"place":5})", R"({"place":{"x":{"y":1}}})"})
        CHECK_FALSE(Circumstances::fromCanonicalJson(text));
}
