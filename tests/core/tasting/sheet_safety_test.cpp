#include "core/tasting/sheet_safety.h"

#include "core/tasting/panel_texts.h"
#include "tests/core/spec/builder.h"
#include "tests/core/tasting/panel_support.h"
#include "tests/support/catch.h"

#include <algorithm>

using namespace stillroom;
using namespace stillroom::tasting;
using namespace stillroom::tasting::test;

namespace {

bool holds(const std::string& text, const std::string& part) {
    return text.find(part) != std::string::npos;
}

std::string joined(const std::vector<std::string>& all) {
    std::string text;
    for (const std::string& each : all)
        text += each + "\n";
    return text;
}

const SampleSafety kCreamy{{"milk", "nuts"}, true, 30.0};
const SampleSafety kPlain{{"sulphites"}, true, 10.0};

} // namespace

TEST_CASE("A session tells the allergens of all its drinks together and the most alcohol of any taster",
          "[tasting][panel][safety]") {
    // Two orders of three in four are AAB and ABB: whoever has the stronger one twice is given
    // 20 ml x (30 + 30 + 10) % x 0.78924 g/ml = 11.05 g.
    const Panel panel = designPanel(designOf(PanelKind::Triangle, 6)).value();
    const SampleSafety samples[] = {kCreamy, kPlain};
    const PanelSafety safety = panelSafety(panel, samples);
    CHECK(safety.allergens == std::vector<std::string>{"milk", "nuts", "sulphites"});
    CHECK(safety.complete);
    CHECK(safety.cups == 3);
    REQUIRE(safety.mostAlcoholG);
    CHECK(*safety.mostAlcoholG == Approx(11.0494).margin(0.0001));
    const std::string words = joined(inWords(safety));
    CHECK(holds(words, "Allergens in the drinks, taken together: milk; nuts (almond"));
    CHECK(holds(words, "up to 11.0 g a taster, if 3 cups of 20 ml are swallowed whole"));
    CHECK(holds(words, "Local food, licensing"));
    CHECK_FALSE(holds(words, "there may be others"));

    // A reference is drunk too: 20 ml x (30 + 30 + 10) % again.
    const Panel duo = designPanel(designOf(PanelKind::DuoTrio, 4)).value();
    CHECK(panelSafety(duo, samples).cups == 3);
    CHECK(*panelSafety(duo, samples).mostAlcoholG == Approx(11.0494).margin(0.0001));
}

TEST_CASE("What is not stated is said and never taken for none", "[tasting][panel][safety]") {
    const Panel panel = designPanel(designOf(PanelKind::PairedPreference, 2)).value();
    SampleSafety silent;
    silent.strength = 20;
    const SampleSafety some[] = {kPlain, silent};
    CHECK_FALSE(panelSafety(panel, some).complete);
    CHECK(holds(joined(inWords(panelSafety(panel, some))), "there may be others. Ask whoever pours"));
    silent.strength.reset();
    const SampleSafety unknown[] = {kPlain, silent};
    CHECK_FALSE(panelSafety(panel, unknown).mostAlcoholG);
    CHECK(holds(joined(inWords(panelSafety(panel, unknown))), "how much is not known of all of them"));
    const SampleSafety dry[] = {{{}, true, 0.0}, {{}, true, 0.0}};
    const std::string words = joined(inWords(panelSafety(panel, dry)));
    CHECK(holds(words, "No allergen is stated for any of the drinks."));
    CHECK(holds(words, "No alcohol is on record in what you are given, up to 2 cups."));
}

TEST_CASE("Every sheet carries the same cautions so that none tells a cup", "[tasting][panel][safety]") {
    const Panel panel = designPanel(designOf(PanelKind::Triangle, 12)).value();
    const SampleSafety samples[] = {kCreamy, kPlain};
    PanelNames names;
    names.session = "cream or none";
    names.products = {"Ox Skerry r4", "Tern r1"};
    names.cautions = inWords(panelSafety(panel, samples));
    const std::string sheets = sheetsText(panel, names);
    for (const std::string& caution : names.cautions) {
        std::size_t times = 0;
        for (std::size_t at = sheets.find(caution); at != std::string::npos;
             at = sheets.find(caution, at + 1))
            ++times;
        CHECK(times == 12);
    }
    for (const char* secret : {"Ox Skerry", "Tern", "r4", "r1"})
        CHECK_FALSE(holds(sheets, secret));
    CHECK(holds(keyText(panel, names), "milk; nuts"));
}

TEST_CASE("A sample is as safe as its lines say", "[tasting][panel][safety]") {
    stillroom::test::Shelf shelf;
    shelf.put("gin", {40.0, 0.0, 0.0}).put("cream liqueur", {17.0, 200.0, 0.0});
    auto stated = *shelf.larder.find(shelf.larder.match("gin").ingredient);
    stated.facts.allergens = std::vector<std::string>{};
    shelf.larder.put(stated);
    auto cream = *shelf.larder.find(shelf.larder.match("cream liqueur").ingredient);
    cream.facts.allergens = std::vector<std::string>{"milk"};
    shelf.larder.put(cream);
    const auto drink = [&](const std::string& second) {
        spec::Spec spec;
        for (const std::string& name : {std::string("gin"), second}) {
            spec::Line line;
            line.name = line.written = name;
            line.ingredient = shelf.larder.match(name).ingredient;
            line.poured = {quantity::Amount::exact(30), quantity::Measure::Ml};
            spec.lines.push_back(line);
        }
        return spec;
    };
    const auto safetyOf = [&](const spec::Spec& spec) {
        return sampleSafety(spec, spec::Bindings(spec, shelf.larder, {}));
    };
    const SampleSafety whole = safetyOf(drink("cream liqueur"));
    CHECK(whole.allergens == std::vector<std::string>{"milk"});
    CHECK(whole.complete);
    REQUIRE(whole.strength);
    CHECK(*whole.strength == Approx(28.5).margin(0.6)); // half and half; mixing contracts a little
    spec::Spec garnished = drink("cream liqueur");
    garnished.garnish = "a wafer";
    CHECK_FALSE(safetyOf(garnished).complete);
    shelf.put("something", {});
    CHECK_FALSE(safetyOf(drink("something")).complete);
    CHECK_FALSE(safetyOf(drink("something")).strength);
}
