#include "core/spec/safety_match.h"

#include "core/base/embedded.h"
#include "core/larder/handbook.h"
#include "tests/support/catch.h"

#include <algorithm>
#include <limits>
#include <map>
#include <set>

using namespace stillroom;
using namespace stillroom::spec;

namespace {

// A view of a drink: lines by handbook kind ("egg_white") or, beginning with '=', as mere words.
struct View {
    SafetyView view;
    std::map<std::string, KnownRange, std::less<>> quantities;

    explicit View(const std::vector<std::string>& lines, std::string method = "") {
        for (const std::string& line : lines) {
            SafetyLine seen;
            if (line.front() == '=') {
                seen.words = line.substr(1);
            } else {
                const larder::Ingredient* kind = larder::Handbook::builtIn().find(line);
                INFO("kind " << line);
                REQUIRE(kind != nullptr);
                seen = {kind->name, &kind->facts, true};
            }
            view.lines.push_back(std::move(seen));
        }
        view.methodText = std::move(method);
    }
    View& with(const std::string& quantity, double low, double high) {
        quantities[quantity] = {low, high};
        return *this;
    }
    View& with(const std::string& quantity, double value) { return with(quantity, value, value); }
    std::vector<Caution> fired() {
        view.quantity = [this](std::string_view name) -> std::optional<KnownRange> {
            const auto found = quantities.find(name);
            return found == quantities.end() ? std::nullopt : std::optional(found->second);
        };
        return firedCautions(view, SafetyRules::builtIn());
    }
    const Caution* find(const std::string& id) {
        last = fired();
        const auto found =
            std::find_if(last.begin(), last.end(), [&](const Caution& c) { return c.id == id; });
        return found == last.end() ? nullptr : &*found;
    }
    bool fires(const std::string& id) { return find(id) != nullptr; }
    std::vector<Caution> last;
};

constexpr double kEndless = std::numeric_limits<double>::infinity();

} // namespace

TEST_CASE("The rules are read whole and every caution says its source", "[spec][caution]") {
    const SafetyRules& rules = SafetyRules::builtIn();
    CHECK(rules.rules.size() == 85);
    CHECK(rules.allergens.size() == 14);
    CHECK_FALSE(deferenceText().empty());
    std::set<std::string> ids;
    for (const SafetyRule& rule : rules.rules) {
        CAPTURE(rule.caution.id);
        CHECK(ids.insert(rule.caution.id).second);
        CHECK_FALSE(rule.caution.text.empty());
        CHECK_FALSE(rule.caution.source.empty());
    }
    CHECK_FALSE(SafetyRules::fromJson("{}"));
    std::string text(base::embedded("handbook/safety.json"));
    const auto place = text.find("\"op\": \">=\"");
    REQUIRE(place != std::string::npos);
    CHECK_FALSE(SafetyRules::fromJson(text.replace(place, 10, "\"op\": \"=>\"")));
}

TEST_CASE("An ingredient's tag sets a caution off on its own line", "[spec][caution]") {
    View sour({"gin_london", "lemon_juice", "egg_white"});
    const Caution* egg = sour.find("raw_egg");
    REQUIRE(egg);
    CHECK(egg->severity == Severity::Warn);
    CHECK(egg->lines == std::vector<int>{2});
    REQUIRE(sour.fires("egg_allergen"));
    CHECK(sour.fires("dairy_holding")); // by its group, egg
    CHECK_FALSE(View({"gin_london", "lemon_juice"}).fires("raw_egg"));
    CHECK(View({"tonic"}).fires("quinine"));
    CHECK(View({"orgeat"}).fires("nuts"));
    CHECK(View({"vermouth_sweet"}).fires("sulphites"));
}

TEST_CASE("Words speak where no tag does", "[spec][caution]") {
    CHECK(View({"=2 g dry ice"}).fires("dry_ice"));
    CHECK(View({"=a pinch of edible glitter"}).fires("luster_dust"));
    CHECK(View({"=tobacco, a pinch"}).fires("tobacco"));
    CHECK(View({"=pistachio syrup"}).fires("nuts"));
    CHECK(View({"=5 star anise"}).fires("garnish_contact"));
    // A word within a word is not the word.
    CHECK_FALSE(View({"=icebergs, dried"}).fires("dry_ice"));
    CHECK_FALSE(View({"=Spickernel cordial"}).fires("garnish_contact"));
    // The handbook speaks for its own kinds where it carries the tag: this is no flower to be picked.
    CHECK_FALSE(View({"orange_flower_water"}).fires("edible_flowers"));
    CHECK(View({"=flower petals from the garden"}).fires("edible_flowers"));
}

TEST_CASE("The method's words set cautions off, a denied one does not", "[spec][caution]") {
    CHECK(View({"rum_overproof"}, "Float the rum and set alight.").fires("flame_service"));
    CHECK(View({"=flamed orange peel"}).fires("flame_service"));
    CHECK_FALSE(View({"gin_london"}, "Keep away from any open flame.").fires("flame_service"));
    CHECK_FALSE(View({"gin_london"}, "Do not flame.").fires("flame_service"));
    CHECK(View({"rum_gold"}, "Simmer the rum with the spices.").fires("heating_spirit"));
    CHECK_FALSE(View({"rum_gold"}, "Simmer the cream. Off the heat add the rum.").fires("heating_spirit"));
    CHECK_FALSE(View({"water"}, "Top with distilled water; you can stir and go.").fires("home_distilling"));
    CHECK_FALSE(View({"water"}, "You can stir it, ready to go.").fires("canning"));
    CHECK(View({"water"}, "Distil the wash.").fires("home_distilling"));
    CHECK(View({"gin_london", "milk_whole"}, "Milk-washed, strained.").fires("milk"));
    // Garlic alone is no oil infusion.
    CHECK_FALSE(View({"=garlic"}, "Stir.").fires("oil_infusion"));
    CHECK(View({"=garlic"}, "Infuse for a day.").fires("oil_infusion"));
}

TEST_CASE("A value fires only where every value it may have would", "[spec][caution]") {
    const auto strong = [](double low, double high) {
        return View({"gin_london"}).with("serving_ethanol_g", low, high).fires("strong_total");
    };
    CHECK(strong(28, 28)); // NIAAA: two US standard drinks of 14 g
    CHECK_FALSE(strong(27.9, 27.9));
    CHECK(strong(28, kEndless));       // at least 28
    CHECK_FALSE(strong(20, kEndless)); // at least 20: not known to be 28
    CHECK_FALSE(strong(20, 40));
    CHECK_FALSE(strong(-kEndless, 40)); // at most 40
    CHECK_FALSE(View({"gin_london"}).fires("strong_total"));

    const auto trace = [](double low, double high) {
        return View({"water"}).with("abv_percent", low, high).fires("zero_proof_trace");
    };
    CHECK(trace(0.3, 0.3));
    CHECK_FALSE(trace(0, 0));
    CHECK_FALSE(trace(0.3, kEndless)); // might be a strong one
    CHECK_FALSE(trace(-kEndless, 0.3));
    CHECK(trace(0.1, 0.5));
}

TEST_CASE("Values of heat and caffeine fire at their published marks", "[spec][caution]") {
    CHECK(View({"water"}).with("serving_temp_C", 66).fires("scald_65"));
    CHECK_FALSE(View({"water"}).with("serving_temp_C", 65).fires("scald_65"));
    CHECK(View({"water"}).with("serving_temp_C", 60).fires("scald_time"));
    CHECK_FALSE(View({"water"}).fires("served_hot"));
    CHECK(View({"espresso"})
              .with("caffeine_mg", 64, kEndless)
              .with("serving_ethanol_g", 14)
              .fires("caffeine_alcohol"));
    CHECK_FALSE(View({"espresso"})
                    .with("caffeine_mg", 64, kEndless)
                    .with("serving_ethanol_g", 0)
                    .fires("caffeine_alcohol"));
    CHECK(View({"espresso"}).with("caffeine_mg", 200, kEndless).fires("caffeine_dose"));
}

TEST_CASE("A strong ingredient is named by its line", "[spec][caution]") {
    View view({"gin_london", "rum_overproof"});
    const Caution* proof = view.find("high_proof");
    REQUIRE(proof);
    CHECK(proof->lines == std::vector<int>{1});
}

TEST_CASE("What is kept or poured for guests or in copper has its own cautions", "[spec][caution]") {
    View pumpkin({"puree_pumpkin"});
    CHECK_FALSE(pumpkin.fires("pumpkin"));
    pumpkin.view.context.stored = true;
    CHECK(pumpkin.fires("pumpkin"));
    pumpkin.with("water_activity", 0.97).with("abv_percent", 0);
    CHECK(pumpkin.fires("low_acid"));

    View copper({"vodka"});
    copper.view.context.vessel = "bare_copper";
    CHECK_FALSE(copper.fires("copper")); // its pH is not known
    copper.with("ph", 3.2);
    CHECK(copper.fires("copper"));

    View free({"bitters_aromatic", "honey"});
    CHECK_FALSE(free.fires("bitters_zero_proof"));
    free.view.context.flags = {"alcohol_free"};
    CHECK(free.fires("bitters_zero_proof"));
    CHECK(free.fires("sprouts_honey_infants"));

    View guests({"gin_london"});
    guests.view.context.event = true;
    CHECK(guests.fires("max_service"));
}

TEST_CASE("The most dangerous comes first and standing ones last", "[spec][caution]") {
    View view({"gin_london", "cream_heavy", "=dry ice"}, "Flame the top.");
    view.with("serving_ethanol_g", 30).with("abv_percent", 42);
    const std::vector<Caution> fired = view.fired();
    REQUIRE(fired.size() > 5);
    CHECK(fired.front().severity == Severity::Danger);
    CHECK_FALSE(fired.front().lines.empty()); // the ice, before the flame
    CHECK(fired.back().standing);
    for (std::size_t i = 1; i < fired.size(); ++i) {
        CAPTURE(fired[i - 1].id, fired[i].id);
        CHECK(fired[i - 1].standing <= fired[i].standing);
        if (fired[i - 1].standing == fired[i].standing) {
            CHECK(fired[i - 1].severity <= fired[i].severity);
            if (fired[i - 1].severity == fired[i].severity)
                CHECK(fired[i - 1].lines.empty() <= fired[i].lines.empty());
        }
    }
    std::set<std::string> standing;
    for (const Caution& caution : fired)
        if (caution.standing) standing.insert(caution.id);
    CHECK(standing == std::set<std::string>{"driving", "glass_break", "medicines", "minors", "pregnancy"});
}

namespace {

std::vector<std::string> saidBy(const std::string& garnish, const std::string& method,
                                const std::string& line = "") {
    SafetyView view;
    view.garnish = garnish;
    view.methodText = method + "\n" + garnish;
    std::vector<int> unstated;
    if (!line.empty()) {
        view.lines.push_back({line, nullptr, false});
        unstated.push_back(0);
    }
    return allergensSaid(view, unstated, SafetyRules::builtIn());
}
using Classes = std::vector<std::string>;

} // namespace

// The classes are those of Regulation (EU) 1169/2011 Annex II; which words tell of them is this house's list.
TEST_CASE("words of a garnish tell of every class of allergen but sulphites", "[spec][caution]") {
    const std::pair<const char*, const char*> told[] = {
        {"toasted almonds", "nuts"},   {"marzipan", "nuts"},           {"cashews", "nuts"},
        {"a prawn", "crustaceans"},    {"cheese crisp", "milk"},       {"egg yolk, cured", "eggs"},
        {"peanut brittle", "peanuts"}, {"miso caramel", "soybeans"},   {"an oyster", "molluscs"},
        {"anchovy olive", "fish"},     {"celery stick", "celery"},     {"mustard seed", "mustard"},
        {"sesame tuile", "sesame"},    {"lupin flour tuile", "lupin"}, {"shortbread biscuit", "gluten"},
        {"whipped cream", "milk"},
    };
    std::set<std::string> classes;
    for (const auto& [garnish, allergen] : told) {
        CAPTURE(garnish);
        CHECK(saidBy(garnish, "") == Classes{allergen});
        classes.insert(allergen);
    }
    CHECK(classes.size() == 13); // the fourteenth is sulphites, which no word of a garnish tells of
}

TEST_CASE("words that only sound like an allergen tell of none", "[spec][caution]") {
    for (const char* garnish :
         {"lemon wheel", "nutmeg", "coconut milk foam", "cream of coconut", "crab apple", "oyster leaf",
          "butterfly pea", "no nuts", "without cream", "cream sherry mist"}) {
        CAPTURE(garnish);
        CHECK(saidBy(garnish, "").empty());
    }
    CHECK(saidBy("", "Pour into a chilled beer glass through a cheese cloth.").empty());
    CHECK(saidBy("oat milk and cream", "") == Classes{"milk"}); // beside an exception the word counts
}

TEST_CASE("a method and a line that states nothing tell of allergens", "[spec][caution]") {
    CHECK(saidBy("", "Fat-wash the bourbon with peanut butter overnight.") == Classes{"peanuts"});
    CHECK(saidBy("", "", "cashew syrup") == Classes{"nuts"});
    CHECK(saidBy("", "", "butter-washed rum") == Classes{"milk"});
    CHECK(saidBy("", "", "miso syrup") == Classes{"soybeans"});
    CHECK(saidBy("", "", "prawn powder") == Classes{"crustaceans"});
    CHECK(saidBy("", "", "marzipan liqueur") == Classes{"nuts"});
}

TEST_CASE("aquafaba is told to guests whom other pulses harm", "[spec][caution]") {
    CHECK(View({"aquafaba"}).fires("aquafaba"));
    CHECK(View({"=30 ml aquafaba"}).fires("aquafaba"));
    CHECK_FALSE(View({"aquafaba"}).fires("soy_lupin"));
    CHECK(View({"=lupin foam"}).fires("soy_lupin"));
}

TEST_CASE("what is kept at a strength nobody knows is warned of as if it were weak", "[spec][caution]") {
    const auto kept = [](double low, double high) {
        View view({"=squash puree"});
        view.view.context.stored = true;
        view.with("ph", 5).with("water_activity", 0.95).with("abv_percent", low, high);
        return view.fires("low_acid");
    };
    CHECK(kept(0, 0));
    CHECK(kept(0, kEndless)); // at least nothing
    CHECK(kept(5, kEndless));
    CHECK_FALSE(kept(20, kEndless));
    CHECK_FALSE(kept(40, 40));
    View unknown({"=squash puree"});
    unknown.view.context.stored = true;
    unknown.with("ph", 5).with("water_activity", 0.95);
    CHECK(unknown.fires("low_acid"));
    unknown.view.context.stored = false;
    CHECK_FALSE(unknown.fires("low_acid"));
}
