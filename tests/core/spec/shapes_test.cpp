// The shapes of drink that must work, each from a written text to numbers worked by hand. Names and amounts
// are our own; facts are the handbook's (resources/handbook/ingredients.json), quoted beside the sums.
#include "core/exchange/read_text.h"
#include "core/physics/glass_profile.h"
#include "core/preparation/preparation.h"
#include "tests/core/spec/builder.h"
#include "tests/support/catch.h"

#include <algorithm>

using namespace stillroom;
using spec::Bound;
using spec::GapCode;
using spec::Quantity;
using spec::Role;
using spec::Stage;
using spec::Technique;

namespace {

constexpr double kEthanolGPerMl = 0.78924; // OIML R 22 at 20 °C

struct Served {
    spec::Spec spec;
    spec::Readings readings;
    std::vector<spec::Gap> gaps;

    const spec::Reading& at(Stage stage, Quantity q) const { return readings[stage][q]; }
    double exact(Stage stage, Quantity q) const {
        INFO(spec::quantityId(q));
        CHECK(at(stage, q).bound == Bound::Exact);
        return at(stage, q).value;
    }
    double ethanolMl(Stage stage) const { return exact(stage, Quantity::Ethanol) / kEthanolGPerMl; }
    double sugarG(Stage stage) const {
        return exact(stage, Quantity::Sugar) * exact(stage, Quantity::Volume) / 100;
    }
    bool hasGap(GapCode code, int line) const {
        return std::any_of(gaps.begin(), gaps.end(),
                           [&](const spec::Gap& g) { return g.code == code && g.line == line; });
    }
    Role role(std::size_t line) const { return spec.lines.at(line).role; }
};

Served serve(const char* text, const larder::Larder& larder = larder::Larder()) {
    const auto read = exchange::readText(text);
    REQUIRE(read.drinks.size() == 1);
    Served made;
    made.spec = exchange::toSpec(read.drinks[0], larder);
    const spec::Bindings bindings(made.spec, larder, {});
    made.readings = spec::evaluate(made.spec, bindings);
    made.gaps = spec::gaps(made.spec, bindings);
    for (std::size_t i = 0; i < made.spec.lines.size(); ++i) {
        INFO(made.spec.lines[i].name);
        CHECK(bindings.facts(i) != nullptr);
    }
    return made;
}

double shaken(double a) {
    return -1.567 * a * a + 1.742 * a + 0.203;
}
double stirred(double a) {
    return -1.21 * a * a + 1.246 * a + 0.145;
}

} // namespace

TEST_CASE("shape: equal parts with whipped cream on top", "[spec][shape]") {
    const auto d =
        serve("Breakwater\n25 ml London dry gin\n25 ml bitter red aperitif\n25 ml sweet red vermouth\n"
              "15 ml whipped cream, floated\n\nMethod: Stir with ice for 20 s, strain.\nGlass: coupe\n");
    CHECK(d.role(3) == Role::Floated);
    CHECK(d.exact(Stage::Mixed, Quantity::PouredVolume) == Approx(75));
    CHECK(d.exact(Stage::Served, Quantity::PouredVolume) == Approx(90));
    // 25 × (43 + 24 + 16.5) %.
    CHECK(d.ethanolMl(Stage::Served) == Approx(20.875));
    // 25 × (0 + 240 + 160) g/l; the cream adds 15 × 28 g/l.
    CHECK(d.sugarG(Stage::Mixed) == Approx(10.0));
    CHECK(d.sugarG(Stage::Served) == Approx(10.42));
    const double a = d.exact(Stage::Measured, Quantity::Strength) / 100;
    CHECK(a == Approx(20.875 / 75).margin(0.001));
    CHECK(d.exact(Stage::Served, Quantity::Dilution) == Approx(stirred(a)));
}

TEST_CASE("shape: five liquids stirred with a barspoon and a pinch of decoration", "[spec][shape]") {
    const auto d =
        serve("Lamp Room\n45 ml rye whiskey\n15 ml cognac\n20 ml sweet vermouth\n10 ml dry curaçao\n"
              "1 barspoon maraschino liqueur\n1 pinch edible gold flakes, to decorate\n\n"
              "Method: Stir with ice 25 seconds, strain.\nGlass: small stemmed glass\n");
    // A barspoon is 5 ml here; gold is garnish and in no sum.
    CHECK(d.exact(Stage::Measured, Quantity::PouredVolume) == Approx(95));
    // 45 × 0.45 + 15 × 0.40 + 20 × 0.165 + 10 × 0.40 + 5 × 0.32 = 35.15 ml.
    CHECK(d.ethanolMl(Stage::Measured) == Approx(35.15));
    // 15 × 5 + 20 × 160 + 10 × 220 + 5 × 350 mg = 7.225 g.
    CHECK(d.sugarG(Stage::Measured) == Approx(7.225));
    CHECK(d.at(Stage::Measured, Quantity::Acid).bound == Bound::AtLeast); // two liqueurs state none
    CHECK(d.spec.method.seconds == quantity::Rational(25));
}

TEST_CASE("shape: hot spirit with raw sugar and near-boiling water", "[spec][shape]") {
    const auto d = serve("Night Watch\n50 ml dark rum\n10 g demerara sugar\n120 ml hot water, near boiling\n"
                         "Garnish: orange twist\n\nMethod: Build in a warmed mug, stir to dissolve.\n"
                         "Glass: heatproof mug\n");
    CHECK(d.exact(Stage::Mixed, Quantity::Dilution) == 0); // the water is a line
    CHECK(d.ethanolMl(Stage::Served) == Approx(20));       // 50 × 0.40
    CHECK(d.sugarG(Stage::Served) == Approx(0.25 + 9.8));  // 50 × 5 g/l + 10 g of 98 %
    // 47.5 g of rum (949.9 kg/m³) + 10 g + 120 × 0.9982 g.
    CHECK(d.exact(Stage::Served, Quantity::Mass) == Approx(47.495 + 10 + 119.784).margin(0.01));
    CHECK(d.at(Stage::Served, Quantity::SugarAcidRatio).bound == Bound::NotApplicable);
    const auto* mug = physics::glassProfileFor(d.spec.glass);
    REQUIRE(mug != nullptr);
    CHECK(d.exact(Stage::Served, Quantity::Volume) < mug->brim().ml());
}

TEST_CASE("shape: a home-infused spirit as base", "[spec][shape]") {
    larder::Larder larder;
    // 700 ml of bourbon at 45 % on tea leaves, of which 640 ml come out: as strong, and no sweeter.
    const auto infusion =
        exchange::readText("Smoked tea bourbon\n700 ml bourbon\n\nMethod: Steep, strain.\n");
    const auto recipe = exchange::toSpec(infusion.drinks.at(0), larder);
    const auto made = preparation::make(recipe, spec::Bindings(recipe, larder, {}),
                                        {quantity::Volume::fromMl(640), preparation::Loss::Strained});
    REQUIRE(made);
    larder::Ingredient own;
    own.id = base::IngredientId::derivedFrom("smoked tea bourbon");
    own.sort = larder::IngredientSort::Preparation;
    own.name = "smoked tea bourbon";
    own.facts = made->facts;
    larder.put(own);
    const auto d =
        serve("Tide Table\n60 ml smoked tea bourbon\n10 ml maple syrup\n2 dashes aromatic bitters\n\n"
              "Method: Stir with ice, strain over one large cube.\nGlass: low tumbler\n",
              larder);
    CHECK(d.spec.lines[0].ingredient == own.id);
    // 60 × 0.45 + 2 × 0.92 × 0.447 = 27.822 ml; 10 × 904 + 1.84 × 42 mg = 9.117 g.
    CHECK(d.ethanolMl(Stage::Measured) == Approx(27.8225));
    CHECK(d.sugarG(Stage::Measured) == Approx(9.11728));
}

TEST_CASE("shape: a sour with a nut syrup and a split base", "[spec][shape]") {
    const auto d =
        serve("Signal Flag\n30 ml aged rum\n15 ml overproof rum\n22.5 ml lime juice\n15 ml orgeat\n"
              "10 ml dry orange curaçao\n\nMethod: Shake with ice 12 s, strain over crushed ice.\n"
              "Glass: double rocks\n");
    // 30 × 0.40 + 15 × 0.63 + 10 × 0.40 = 25.45 ml in 92.5 ml poured.
    CHECK(d.ethanolMl(Stage::Measured) == Approx(25.45));
    CHECK(d.exact(Stage::Measured, Quantity::PouredVolume) == Approx(92.5));
    // 30 × 5 + 22.5 × 17.5 + 15 × 682 + 10 × 220 mg = 12.974 g.
    CHECK(d.sugarG(Stage::Mixed) == Approx(12.97375));
    const double a = d.exact(Stage::Measured, Quantity::Strength) / 100;
    CHECK(d.exact(Stage::Mixed, Quantity::Dilution) == Approx(shaken(a)));
    // Lime alone brings 22.5 × 60 mg = 1.35 g; orgeat and curaçao state no acid.
    const auto& acid = d.at(Stage::Measured, Quantity::Acid);
    CHECK(acid.bound == Bound::AtLeast);
    CHECK(acid.value == Approx(135 / d.exact(Stage::Measured, Quantity::Volume)).epsilon(0.01));
}

TEST_CASE("shape: ten lines with three rums two juices a teaspoon and dashes", "[spec][shape]") {
    const auto d =
        serve("Long Pier\n30 ml white rum\n20 ml aged rum\n15 ml overproof rum\n20 ml pineapple juice\n"
              "20 ml orange juice\n22.5 ml lime juice\n10 ml pomegranate grenadine\n"
              "1 tsp falernum liqueur\n2 dashes aromatic bitters\n2 dashes absinthe\n\n"
              "Method: Shake with ice, pour unstrained.\nGlass: tiki mug\n");
    REQUIRE(d.spec.lines.size() == 10);
    CHECK_FALSE(d.spec.method.strained);
    // 30 + 20 + 15 + 20 + 20 + 22.5 + 10 + 4.92892 + 2 × 0.92 + 2 × 0.92.
    CHECK(d.exact(Stage::Measured, Quantity::PouredVolume) == Approx(146.10892).epsilon(1e-6));
    // 50 × 0.40 + 15 × 0.63 + 4.92892 × 0.11 + 1.84 × (0.447 + 0.62) = 31.9555 ml.
    CHECK(d.ethanolMl(Stage::Measured) == Approx(31.9555).epsilon(1e-5));
}

TEST_CASE("shape: spirits warmed in a water bath over ice cream", "[spec][shape]") {
    const auto d =
        serve("Winter Stair\n30 ml brandy\n20 ml hazelnut liqueur\n2 scoops vanilla ice cream\n\n"
              "Method: Warm the spirits in a water bath and pour over the ice cream.\nGlass: coupe\n");
    CHECK(d.spec.method.technique == Technique::WaterBath);
    CHECK(d.exact(Stage::Mixed, Quantity::Dilution) == 0);
    CHECK(d.ethanolMl(Stage::Served) == Approx(15.4)); // 30 × 0.38 + 20 × 0.20
    // A scoop is 65 g: 28.536 g of brandy (951.2) + 21.616 g of liqueur (1080.8) + 130 g.
    CHECK(d.exact(Stage::Served, Quantity::Mass) == Approx(28.536 + 21.616 + 130).margin(0.1));
    // 30 × 5 + 20 × 280 mg + 130 × 0.2122 g = 33.336 g.
    CHECK(d.sugarG(Stage::Served) == Approx(33.336));
}

TEST_CASE("shape: hot chocolate with a sweet liqueur and a dry strong spirit", "[spec][shape]") {
    const auto d =
        serve("Coal Store\n150 ml hot chocolate\n20 ml Irish cream liqueur\n15 ml overproof rum\n\n"
              "Method: Build in a mug.\nGlass: mug\n");
    CHECK(d.exact(Stage::Mixed, Quantity::Dilution) == 0);
    CHECK(d.ethanolMl(Stage::Served) == Approx(12.85));      // 20 × 0.17 + 15 × 0.63
    CHECK(d.sugarG(Stage::Served) == Approx(15.285 + 4.16)); // 150 × 101.9 + 20 × 208 mg
    CHECK(d.exact(Stage::Served, Quantity::PouredVolume) == 185);
}

TEST_CASE("shape: coffee with sugar cubes and cream floated in thirds of an ounce", "[spec][shape]") {
    const auto d = serve("Third Bell\n4 oz hot coffee\n2 sugar cubes\n1 1/3 oz Irish whiskey\n"
                         "2/3 oz heavy cream, floated\n\nMethod: Build in a warmed glass, float the cream.\n"
                         "Glass: heatproof mug\n");
    CHECK(d.role(3) == Role::Floated);
    CHECK(d.spec.lines[2].poured.amount == quantity::Amount::exact(*quantity::Rational::make(4, 3)));
    // 4/3 × 29.5735 ml at 40 %.
    CHECK(d.ethanolMl(Stage::Served) == Approx(29.5735295625 * 4 / 3 * 0.40));
    // Two cubes of 2.3 g at 99.8 %; the cream adds 19.7157 × 27.6 mg.
    CHECK(d.sugarG(Stage::Mixed) == Approx(4.5908));
    CHECK(d.sugarG(Stage::Served) == Approx(4.5908 + 0.544153).epsilon(1e-4));
}

TEST_CASE("shape: spirit topped with fermented cider and dashes", "[spec][shape]") {
    const auto d =
        serve("Orchard Buoy\n45 ml apple brandy\n120 ml dry cider, to top\n3 dashes orange bitters\n\n"
              "Method: Build over ice, top with the cider.\nGlass: highball\n");
    CHECK(d.role(1) == Role::Topped);
    // Mixed: 45 × 0.42 + 2.76 × 0.39 = 19.9764 ml; the cider adds 120 × 0.06.
    CHECK(d.ethanolMl(Stage::Mixed) == Approx(19.9764));
    CHECK(d.ethanolMl(Stage::Served) == Approx(27.1764));
    // Water over what was mixed, not over the cider: 0.24 × 47.76 ml.
    CHECK(d.exact(Stage::Served, Quantity::Dilution) == Approx(0.24));
    CHECK(d.exact(Stage::Served, Quantity::Volume) == Approx(167.76 + 0.24 * 47.76).margin(0.5));
}

TEST_CASE("shape: parts with and without a target", "[spec][shape]") {
    const char* text =
        "Ratio\n2 parts gin\n1 part lemon juice\n1 part 1:1 simple syrup\n\nMethod: Shake with ice.\n";
    auto d = serve(text);
    CHECK(d.hasGap(GapCode::PartTargetMissing, -1));
    // Half of it gin at 43 %: 21.5 % and a little for contraction; 641 g/l in one quarter, 26 + 615.
    CHECK(d.exact(Stage::Measured, Quantity::Strength) == Approx(21.5).margin(0.1));
    CHECK(d.exact(Stage::Measured, Quantity::SugarAcidRatio) == Approx(641.0 / 60));
    CHECK(d.at(Stage::Measured, Quantity::Ethanol).bound == Bound::Unknown);
    d.spec.partTargetMl = 100;
    const larder::Larder larder;
    d.readings = spec::evaluate(d.spec, larder, {});
    CHECK(d.exact(Stage::Measured, Quantity::PouredVolume) == Approx(100));
    CHECK(d.ethanolMl(Stage::Measured) == Approx(21.5));
}

TEST_CASE("shape: egg white with a dry shake", "[spec][shape]") {
    const auto d =
        serve("White Cap\n50 ml bourbon\n25 ml lemon juice\n20 ml 1:1 simple syrup\n1 egg white\n\n"
              "Method: Dry shake, then shake with ice, strain.\nGlass: coupe\n");
    CHECK(d.spec.method.dryShake);
    CHECK(d.spec.method.technique == Technique::Shake);
    // 50 + 25 + 20 + 32.1 ml; 22.5 ml of ethanol.
    CHECK(d.exact(Stage::Measured, Quantity::PouredVolume) == Approx(127.1));
    CHECK(d.ethanolMl(Stage::Measured) == Approx(22.5));
    // 25 × 26 + 20 × 615 + 32.1 × 7.3 mg = 13.184 g over 25 × 60 mg = 1.5 g of acid.
    CHECK(d.sugarG(Stage::Mixed) == Approx(13.18433));
    CHECK(d.exact(Stage::Mixed, Quantity::SugarAcidRatio) == Approx(13.18433 / 1.5));
    CHECK(d.exact(Stage::Mixed, Quantity::Dilution) ==
          Approx(shaken(d.exact(Stage::Measured, Quantity::Strength) / 100)));
}

TEST_CASE("shape: a rinse of which no amount is said", "[spec][shape]") {
    const auto d = serve("Ghost Ship\n60 ml rye whiskey\n1 tsp rich syrup\n3 dashes aromatic bitters\n"
                         "absinthe, to rinse\n\nMethod: Stir with ice, strain into a rinsed glass.\n"
                         "Glass: low tumbler\n");
    CHECK(d.role(3) == Role::Rinse);
    // 60 × 0.45 + 2.76 × 0.447 = 28.2337 ml; of the rinse 2 ml at 62 % stay.
    CHECK(d.ethanolMl(Stage::Mixed) == Approx(28.23372));
    CHECK(d.ethanolMl(Stage::Served) == Approx(29.47372));
    // What stays is the house's figure, so the readings with it are estimates and nothing is left out.
    CHECK(d.at(Stage::Served, Quantity::Ethanol).estimate);
    CHECK_FALSE(d.at(Stage::Mixed, Quantity::Ethanol).estimate);
    CHECK(d.hasGap(GapCode::RinseByTheHouse, 3));
    CHECK_FALSE(d.hasGap(GapCode::AmountNotStated, 3));
    // And 2 ml of the rinse.
    CHECK(d.exact(Stage::Served, Quantity::PouredVolume) ==
          Approx(d.exact(Stage::Mixed, Quantity::PouredVolume) + 2));
}

TEST_CASE("shape: a punch scaled for ten", "[spec][shape]") {
    const auto d = serve("Harbour Bowl\nServes 10\n750 ml aged rum\n250 ml cognac\n300 ml lemon juice\n"
                         "250 g sugar\n1 l black tea\n\nMethod: Dissolve the sugar in the tea, add the rest, "
                         "chill without ice.\nGlass: punch cup\n");
    CHECK(d.spec.serves == 10);
    CHECK(d.exact(Stage::Mixed, Quantity::Dilution) == 0);
    CHECK(d.ethanolMl(Stage::Served) == Approx(40)); // 1000 ml at 40 % among ten
    // 1000 × 5 + 300 × 26 mg + 250 × 0.998 g = 262.3 g among ten.
    CHECK(d.sugarG(Stage::Served) == Approx(26.23));
    CHECK(d.exact(Stage::Served, Quantity::StandardDrinks) == Approx(40 * kEthanolGPerMl / 10));
}

TEST_CASE("shape: a vague drink says what it leaves out", "[spec][shape]") {
    const auto d =
        serve("Loose Ends\n50 ml gin\n20 ml lime juice\nsugar to taste\n2-3 dashes orange bitters\n"
              "soda water to top\n\nMethod: Build over ice.\nGlass: collins\n");
    CHECK(d.hasGap(GapCode::ToTasteLeftOut, 2));
    CHECK(d.hasGap(GapCode::AmountNotStated, 4));
    CHECK(d.role(4) == Role::Topped);
    // 70 ml and two or three dashes of 0.92 ml.
    const auto& poured = d.at(Stage::Measured, Quantity::PouredVolume);
    CHECK(poured.bound == Bound::Between);
    CHECK(poured.value == Approx(71.84));
    CHECK(poured.upper == Approx(72.76));
    CHECK(d.at(Stage::Served, Quantity::Volume).bound == Bound::AtLeast);
    // More soda can only make it weaker.
    CHECK(d.at(Stage::Served, Quantity::Strength).bound == Bound::AtMost);
    CHECK(d.at(Stage::Served, Quantity::Strength).value ==
          Approx(d.at(Stage::Mixed, Quantity::Strength).upper));
    // 50 × 0.43 ml, and the bitters' 39 %.
    const auto& ethanol = d.at(Stage::Served, Quantity::Ethanol);
    CHECK(ethanol.bound == Bound::Between);
    CHECK(ethanol.value == Approx((21.5 + 1.84 * 0.39) * kEthanolGPerMl));
}

TEST_CASE("shape: a citrus fruit by volume is its juice", "[spec][shape]") {
    for (const char* fruit : {"lemon", "Zitrone"}) {
        const auto d = serve((std::string("Plain Sour\n60 ml gin\n20 ml ") + fruit +
                              "\n20 ml simple syrup\n\nMethod: Shake with ice.\n")
                                 .c_str());
        CHECK(d.exact(Stage::Measured, Quantity::PouredVolume) == Approx(100));
        // 20 ml at 60 g/l of acid.
        CHECK(d.exact(Stage::Measured, Quantity::Acid) * d.exact(Stage::Measured, Quantity::Volume) / 100 ==
              Approx(1.2));
    }
}

TEST_CASE("shape: fruit by weight or volume or count is a gap and never nothing", "[spec][shape]") {
    for (const char* fruit : {"150 g strawberries", "1 banana", "1 cup raspberries", "1 handful blueberries",
                              "2 tbsp grated ginger", "20 g mint"}) {
        const auto d = serve(
            (std::string("Orchard\n60 ml white rum\n") + fruit + "\n\nMethod: Blend with ice.\n").c_str());
        INFO(fruit);
        CHECK(d.hasGap(GapCode::SolidShareUnknown, 1));
        const auto& volume = d.at(Stage::Measured, Quantity::Volume);
        CHECK(volume.bound == Bound::AtLeast);
        CHECK(volume.value == Approx(60));
        CHECK(d.at(Stage::Measured, Quantity::PouredVolume).bound == Bound::AtLeast);
        CHECK(d.at(Stage::Measured, Quantity::Sugar).bound == Bound::AtLeast);
        CHECK(d.at(Stage::Measured, Quantity::Acid).bound == Bound::AtLeast);
        CHECK(d.at(Stage::Measured, Quantity::Strength).bound == Bound::AtMost);
        CHECK(d.at(Stage::Measured, Quantity::Sugar).gapLines == 2);
        CHECK(d.ethanolMl(Stage::Served) == Approx(24)); // 60 ml at 40 %: fruit brings none
    }
}

TEST_CASE("shape: leaves and pinches and cut pieces stay negligible", "[spec][shape]") {
    const auto d = serve("Small Things\n60 ml white rum\n8 mint leaves\n1 sprig rosemary\n1 pinch nutmeg\n"
                         "1 lime wedge\n1 orange twist\n3 slices cucumber\n2 cloves\n\n"
                         "Method: Stir with ice.\n");
    CHECK(d.exact(Stage::Measured, Quantity::Volume) == Approx(60));
    CHECK(d.exact(Stage::Measured, Quantity::Sugar) == 0);
    CHECK(std::none_of(d.gaps.begin(), d.gaps.end(), [](const spec::Gap& gap) {
        return gap.code == GapCode::SolidShareUnknown || gap.code == GapCode::AmountNotStated;
    }));
}

TEST_CASE("shape: ice among the lines belongs to the method", "[spec][shape]") {
    for (const char* ice : {"1 cup ice", "200 g ice", "handful of ice", "crushed ice", "2 cups crushed ice",
                            "6 ice cubes", "100 ml ice"}) {
        const auto d = serve(
            (std::string("Cold Sour\n60 ml white rum\n") + ice + "\n\nMethod: Shake with ice, strain.\n")
                .c_str());
        INFO(ice);
        CHECK(d.exact(Stage::Measured, Quantity::PouredVolume) == Approx(60));
        CHECK(d.exact(Stage::Measured, Quantity::Strength) == Approx(40));
        CHECK(d.exact(Stage::Served, Quantity::Dilution) == Approx(shaken(0.40)));
        CHECK(std::none_of(d.gaps.begin(), d.gaps.end(), [](const spec::Gap& g) { return g.line == 1; }));
    }
}
