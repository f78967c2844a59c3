#include "core/preparation/acid_parts.h"

#include "core/larder/handbook.h"
#include "core/preparation/target_base.h"
#include "tests/support/catch.h"

using namespace stillroom;
using physics::Substance;
using preparation::Target;
using quantity::Volume;

namespace {

const larder::Larder& handbook() {
    static const larder::Larder larder;
    return larder;
}

base::IngredientId kind(std::string_view id) {
    return larder::Handbook::idOf(id);
}

std::vector<preparation::AcidPart> partsOf(std::string_view from, std::string_view to, double ml = 1000) {
    const preparation::BringAsk ask{
        preparation::baseOf(kind(from), Volume::fromMl(ml), handbook()), kind(to), {}};
    const auto found = preparation::bring(preparation::bringings().front(), {}, ask, handbook(), {});
    REQUIRE(found);
    return preparation::acidParts(ask, *found, handbook(), {});
}

double sum(const preparation::AcidPart& part) {
    return part.traded + part.byReference + part.byOwnFigures + part.byRoom + part.byPowder;
}

} // namespace

TEST_CASE("The trade's round figures and what they leave out come to the acid added",
          "[preparation][acid-parts]") {
    // g per litre, as the trade adds them (common practice, no source): orange to lime 32 citric and 20
    // malic, grapefruit to lime 27 and 13, pineapple to lime 32 and 20, orange to lemon 52 citric.
    struct Row {
        std::string_view from, to;
        double citric, malic;
    };
    for (const Row& row :
         {Row{"orange_juice", "lime_juice", 32, 20}, Row{"grapefruit_juice", "lime_juice", 27, 13},
          Row{"pineapple_juice", "lime_juice", 32, 20}, Row{"orange_juice", "lemon_juice", 52, 0}}) {
        INFO(row.from << " to " << row.to);
        const auto parts = partsOf(row.from, row.to);
        REQUIRE_FALSE(parts.empty());
        for (const auto& part : parts) {
            CHECK(part.traded ==
                  Approx(part.acid == Substance::Citric ? row.citric : row.malic).epsilon(1e-4));
            CHECK(sum(part) == Approx(part.added).margin(1e-9));
            // 0.6 ml a gram: up to 4 % of what the finished juice holds.
            CHECK(part.byRoom > 0);
            CHECK(part.byRoom < 0.05 * part.added);
        }
    }
}

TEST_CASE("Orange to lime differs by the reference acid and the juices and the room",
          "[preparation][acid-parts]") {
    const auto parts = partsOf("orange_juice", "lime_juice");
    REQUIRE(parts.size() == 2);
    // 1 g malic is 192.12/3 : 134.09/2 = 0.9552 g citric: 40 + 20 g are 59.10 g counted as citric, so 60 g
    // counted so weigh 60.91 g: 40.61 and 20.30.
    CHECK(parts[0].byReference == Approx(0.61).margin(0.01));
    CHECK(parts[1].byReference == Approx(0.30).margin(0.01));
    // The handbook's orange juice: 9 g/l as citric, 65 : 35: 5.94 g citric for the trade's 8, 3.20 malic for
    // 0.
    CHECK(parts[0].byOwnFigures == Approx(8 - 5.94).margin(0.03));
    CHECK(parts[1].byOwnFigures == Approx(-3.20).margin(0.03));
    const auto small = partsOf("orange_juice", "lime_juice", 100);
    CHECK(small[0].traded == Approx(3.2));
    CHECK(sum(small[1]) == Approx(small[1].added));
    // Of other juices the trade says nothing.
    CHECK(partsOf("apple_juice", "lime_juice").empty());
}

TEST_CASE("One begins with a juice for an acid and with something strong for a strength",
          "[preparation][target-base]") {
    const auto usual = [](Target target, std::string_view inHand, std::string_view like,
                          const larder::Larder& larder) {
        return preparation::usualBase(target, inHand.empty() ? std::nullopt : std::optional(kind(inHand)),
                                      like.empty() ? std::nullopt : std::optional(kind(like)), larder);
    };
    CHECK(usual(Target::Acid, "gin_london", "lime_juice", handbook()) == kind("orange_juice"));
    CHECK(usual(Target::Acid, "pineapple_juice", "lime_juice", handbook()) == kind("pineapple_juice"));
    CHECK(usual(Target::Acid, "lime_juice", "lime_juice", handbook()) == kind("orange_juice"));
    CHECK(usual(Target::Brix, "vodka", "", handbook()) == kind("simple_1_1_mass"));
    CHECK(usual(Target::Strength, "lime_juice", "", handbook()) == kind("vodka"));
    // A book's own juice before the handbook's, and one half as sour at most.
    larder::Larder own;
    auto sour = *handbook().find(kind("lemon_juice"));
    own.put(sour);
    CHECK(usual(Target::Acid, "", "lime_juice", own) == kind("orange_juice"));
    auto sweet = *handbook().find(kind("apple_juice"));
    sweet.id = base::IngredientId::random();
    own.put(sweet);
    CHECK(usual(Target::Acid, "", "lime_juice", own) == sweet.id);
    CHECK_FALSE(preparation::isBaseFor(Target::Acid, *handbook().find(kind("vodka"))));
    CHECK_FALSE(preparation::isBaseFor(Target::Brix, *handbook().find(kind("vodka"))));
}
