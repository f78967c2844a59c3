#include "core/larder/allergens.h"

#include "core/base/embedded.h"
#include "core/larder/larder.h"
#include "tests/support/catch.h"

#include <nlohmann/json.hpp>

#include <algorithm>

using namespace stillroom;
using namespace stillroom::larder;

namespace {

using Ids = std::vector<std::string>;

FactState stating(std::optional<Ids> allergens) {
    FactState facts;
    facts.allergens = std::move(allergens);
    return facts;
}

} // namespace

TEST_CASE("The lists are those of the handbook's safety data", "[larder][allergens]") {
    const auto json = nlohmann::json::parse(base::embedded("handbook/safety.json"));
    REQUIRE(json.at("eu_allergens").size() == euAllergenClasses().size());
    for (std::size_t i = 0; i < euAllergenClasses().size(); ++i) {
        CHECK(json.at("eu_allergens")[i].at("id") == euAllergenClasses()[i].id);
        CHECK(json.at("eu_allergens")[i].at("name") == euAllergenClasses()[i].name);
    }
    REQUIRE(json.at("us_allergens").size() == usAllergenClasses().size());
    for (std::size_t i = 0; i < usAllergenClasses().size(); ++i)
        CHECK(json.at("us_allergens")[i] == usAllergenClasses()[i].name);
    REQUIRE(json.at("eu_exemptions").size() == euExemptions().size());
    for (std::size_t i = 0; i < euExemptions().size(); ++i)
        CHECK(json.at("eu_exemptions")[i] == euExemptions()[i]);
}

TEST_CASE("European classes are told in American ones where they are the same", "[larder][allergens]") {
    const auto reading =
        allergensOf(stating(Ids{"sulphites", "nuts", "milk", "gluten", "crustaceans", "celery", "kiwi"}));
    CHECK(reading.complete);
    CHECK(reading.eu == Ids{"gluten", "crustaceans", "milk", "nuts", "celery", "sulphites"});
    CHECK(reading.us == Ids{"milk", "crustacean_shellfish", "tree_nuts"});
    CHECK(reading.usMayBe == Ids{"wheat"}); // barley is gluten and not wheat
    CHECK(reading.other == Ids{"kiwi"});
    for (const char* onlyEuropean : {"celery", "mustard", "sulphites", "lupin", "molluscs"})
        CHECK_FALSE(usClassOf(onlyEuropean));
    std::size_t american = 0;
    for (const auto& each : euAllergenClasses())
        american += usClassOf(each.id).has_value() ? 1 : 0;
    CHECK(american == 9);
}

TEST_CASE("Unknown allergens stay unknown in a mixture", "[larder][allergens]") {
    const auto none = allergensOf(stating(Ids{}));
    const auto unknown = allergensOf(stating(std::nullopt));
    CHECK(none.complete);
    CHECK_FALSE(unknown.complete);
    CHECK(unknown.eu.empty());
    const auto mixed = together({none, allergensOf(stating(Ids{"milk"})), unknown});
    CHECK(mixed.eu == Ids{"milk"});
    CHECK_FALSE(mixed.complete);
    CHECK(together({none, none}).complete);
    auto partly = stating(Ids{"eggs"});
    partly.tags = {kAllergensIncomplete};
    CHECK_FALSE(allergensOf(partly).complete);
    // A wheat beer beside named wheat: sure once.
    auto wheat = stating(Ids{"gluten"});
    auto sure = allergensOf(wheat);
    sure.us = {"wheat"};
    CHECK(together({sure, allergensOf(wheat)}).usMayBe.empty());
}

TEST_CASE("A distillate is exempt and what is flavoured afterwards is not", "[larder][allergens]") {
    auto spirit = stating(Ids{});
    spirit.group = "spirit";
    CHECK(exemptionOf(spirit) == euExemptions()[0]);
    auto liqueur = spirit;
    liqueur.group = "liqueur";
    CHECK_FALSE(exemptionOf(liqueur));
    auto unstated = stating(std::nullopt);
    unstated.group = "spirit";
    CHECK_FALSE(exemptionOf(unstated)); // nobody said: unknown, not exempt
    auto nutty = spirit;
    nutty.allergens = Ids{"nuts"};
    CHECK_FALSE(exemptionOf(nutty));
    // Every spirit of the handbook that states none does so by that rule.
    std::size_t spirits = 0;
    for (const auto* kind : Larder().all())
        if (kind->facts.group == "spirit" && kind->facts.allergens && kind->facts.allergens->empty()) {
            ++spirits;
            CHECK(exemptionOf(kind->facts).has_value());
        }
    CHECK(spirits > 0);
}
