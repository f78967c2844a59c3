#include "core/larder/handbook.h"

#include "core/base/embedded.h"
#include "core/larder/larder.h"
#include "tests/support/catch.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <set>
#include <thread>

using namespace stillroom;
using namespace stillroom::larder;

namespace {

const Ingredient& kind(std::string_view id) {
    const Ingredient* found = Handbook::builtIn().find(id);
    INFO("kind " << id);
    REQUIRE(found != nullptr);
    return *found;
}

} // namespace

TEST_CASE("The built-in handbook is read and every fact in it is whole", "[larder][handbook]") {
    const Handbook& book = Handbook::builtIn();
    REQUIRE(book.kinds().size() >= 200);
    std::set<std::string> ids;
    const std::set<std::string> euList{"gluten",   "crustaceans", "eggs",  "fish",    "peanuts",
                                       "soybeans", "milk",        "nuts",  "celery",  "mustard",
                                       "sesame",   "sulphites",   "lupin", "molluscs"};
    for (const Ingredient& each : book.kinds()) {
        CAPTURE(each.handbookId);
        CHECK(ids.insert(each.handbookId).second);
        CHECK(each.id == Handbook::idOf(each.handbookId));
        CHECK(each.sort == IngredientSort::Kind);
        CHECK_FALSE(each.name.empty());
        CHECK_FALSE(each.facts.group.empty());
        CHECK(std::is_sorted(each.facts.tags.begin(), each.facts.tags.end()));
        CHECK(FactState::fromCanonicalJson(each.facts.canonicalJson()) == each.facts);
        for (const FactKey& key : factKeys())
            if (const auto& fact = each.facts.*key.member) {
                CHECK_FALSE(fact->source.empty());
                CHECK(fact->low >= 0);
            }
        for (const Shares* shares : {&each.facts.sugarShares, &each.facts.acidShares}) {
            double sum = 0;
            for (const auto& [substance, share] : shares->parts)
                sum += share;
            if (!shares->parts.empty()) CHECK(std::abs(sum - 1) < 1e-9);
        }
        if (each.facts.allergens)
            for (const std::string& allergen : *each.facts.allergens)
                CHECK(euList.contains(allergen));
        if (each.facts.dry) CHECK_FALSE(each.facts.abvPercent.has_value());
        // What is dissolved and the alcohol must fit into the mass of a litre (a kilogram, when dry).
        double grams = 0;
        for (const auto& fact :
             {each.facts.sugarGPerL, each.facts.acidGPerL, each.facts.fatGPerL, each.facts.proteinGPerL,
              each.facts.carbohydrateGPerL, each.facts.otherSolidsGPerL, each.facts.saltGPerL})
            if (fact) grams += fact->typical;
        if (each.facts.abvPercent) grams += each.facts.abvPercent->typical * 7.8924;
        if (each.facts.dry)
            CHECK(grams <= 1001);
        else if (each.facts.densityKgPerM3)
            CHECK(grams <= each.facts.densityKgPerM3->typical * 1.001);
    }
}

// Values: the tables named in each fact's own source; USDA SR26 rows, EU and US law, ICUMSA SPS-4.
TEST_CASE("Facts stand as their sources give them", "[larder][handbook]") {
    CHECK(kind("gin_london").facts.abvPercent->low == 37.5);
    CHECK(kind("gin_london").facts.abvPercent->typical == 43);
    CHECK(kind("simple_1_1_mass").facts.sugarGPerL->typical == 615);
    CHECK(kind("simple_1_1_mass").facts.densityKgPerM3->typical == 1229.7);
    CHECK(kind("orange_juice").facts.sugarGPerL->typical == Approx(8.4 * 10.48).epsilon(0.001));
    // 212 mg per 100 g, FDC 171891
    CHECK(kind("espresso").facts.caffeineMgPerL->typical == 2120);
    // NDB 01053: 37.0 g fat and 2.79 g sugar per 100 g at 0.989 g/ml, all of it milk sugar
    CHECK(kind("cream_heavy").facts.fatGPerL->typical == Approx(365.9).margin(0.1));
    REQUIRE(kind("cream_heavy").facts.sugarShares.parts.size() == 1);
    CHECK(kind("cream_heavy").facts.sugarShares.parts.front().first == physics::Substance::Lactose);
    // NDB 19335: 99.8 g sugars per 100 g; 200 g a cup
    CHECK(kind("sugar_granulated").facts.dry);
    CHECK(kind("sugar_granulated").facts.sugarGPerL->typical == 998);
    CHECK(kind("sugar_granulated").facts.densityKgPerM3->typical == 845);
    // NDB 19296: glucose 35.75, fructose 40.94 of 82.12 g sugars
    for (const auto& [substance, share] : kind("honey").facts.sugarShares.parts)
        if (substance == physics::Substance::Fructose) CHECK(share == Approx(40.94 / 82.12).margin(1e-4));
    CHECK(kind("salt").facts.saltGPerL->typical == Approx(998));
}

TEST_CASE("What nobody records is unknown and the two agreed stand-ins say that they are assumed",
          "[larder][handbook]") {
    const auto& gin = kind("gin_london").facts;
    REQUIRE(gin.acidGPerL);
    CHECK(gin.acidGPerL->typical == 0);
    CHECK(gin.acidGPerL->high == 0.5);
    CHECK(gin.acidGPerL->sourceKind == SourceKind::Assumed);
    CHECK_FALSE(kind("bitters_aromatic").facts.acidGPerL);
    CHECK_FALSE(kind("triple_sec").facts.acidGPerL);
    CHECK_FALSE(kind("milk_whole").facts.acidGPerL);
    CHECK_FALSE(kind("advocaat").facts.densityKgPerM3);

    // A distillate is exempt (Regulation (EU) 1169/2011 Annex II).
    REQUIRE(gin.allergens);
    CHECK(gin.allergens->empty());
    CHECK_FALSE(kind("rum_spiced").facts.allergens);
    CHECK_FALSE(kind("triple_sec").facts.allergens);
    CHECK(kind("orgeat").facts.allergens == std::vector<std::string>{"nuts"});
    CHECK(kind("worcester_sauce").facts.allergens ==
          std::vector<std::string>{"gluten", "fish", "soybeans", "celery", "mustard"});
}

TEST_CASE("Lime and lemon juice carry the trade figure and name the measured citric acid beside it",
          "[larder][handbook]") {
    for (const char* id : {"lime_juice", "lemon_juice"}) {
        const auto& acid = kind(id).facts.acidGPerL;
        REQUIRE(acid);
        CHECK(acid->typical == 60);
        CHECK(acid->low == 46);
        CHECK(acid->high == 70);
        CHECK(acid->source.find("Penniston") != std::string::npos);
    }
    CHECK(kind("lime_juice").facts.acidGPerL->source.find("45.9 ± 6.9 g/l") != std::string::npos);
}

TEST_CASE("A shared name lists its kinds with the house's first choice in front", "[larder][handbook]") {
    const auto& shared = Handbook::builtIn().sharedNames();
    const auto whiskey =
        std::find_if(shared.begin(), shared.end(), [](const SharedName& s) { return s.name == "whiskey"; });
    REQUIRE(whiskey != shared.end());
    CHECK(whiskey->hasDefault);
    CHECK(whiskey->kinds.front() == Handbook::idOf("whiskey_bourbon"));
    const auto rum =
        std::find_if(shared.begin(), shared.end(), [](const SharedName& s) { return s.name == "rum"; });
    REQUIRE(rum != shared.end());
    CHECK_FALSE(rum->hasDefault);
}

TEST_CASE("A handbook that is not whole is refused", "[larder][handbook]") {
    const std::string good(base::embedded("handbook/ingredients.json"));
    REQUIRE(Handbook::fromJson(good));
    CHECK_FALSE(Handbook::fromJson("{}"));
    CHECK_FALSE(Handbook::fromJson(good.substr(0, good.size() / 2)));
    const auto with = [&](const std::string& from, const std::string& to) {
        std::string text = good;
        const auto place = text.find(from);
        REQUIRE(place != std::string::npos);
        return text.replace(place, from.size(), to);
    };
    CHECK_FALSE(Handbook::fromJson(with("stillroom-handbook/1", "stillroom-handbook/9")));
    CHECK_FALSE(Handbook::fromJson(with("\"id\": \"vodka\"", "\"id\": \"gin_london\"")));
    CHECK_FALSE(Handbook::fromJson(with("\"typical\": 43,", "\"typical\": \"43\",")));
    CHECK_FALSE(Handbook::fromJson(with("\"basis\": \"handbook\"", "\"basis\": \"hearsay\"")));
}

TEST_CASE("The handbook may be met first by many threads at once", "[larder][handbook]") {
    std::vector<std::thread> threads;
    std::array<const Handbook*, 8> seen{};
    for (std::size_t i = 0; i < seen.size(); ++i)
        threads.emplace_back([&seen, i] { seen[i] = &Handbook::builtIn(); });
    for (std::thread& thread : threads)
        thread.join();
    for (const Handbook* book : seen)
        CHECK(book == &Handbook::builtIn());
}

// Regulation (EU) 1169/2011 Annex II, from memory of the law: what is one thing alone and not among its 14
// foods holds none of them. What a maker may have put something into states nothing.
TEST_CASE("A thing alone states that it holds none of the allergens and nothing else does", "[larder]") {
    int none = 0;
    int unstated = 0;
    for (const Ingredient& each : Handbook::builtIn().kinds()) {
        INFO(each.handbookId);
        const auto& facts = each.facts;
        unstated += facts.allergens ? 0 : 1;
        if (!facts.allergens || !facts.allergens->empty()) continue;
        ++none;
        for (const char* group : {"liqueur", "wine", "fortified wine", "aromatised wine", "sparkling", "beer",
                                  "cider", "bitters", "dairy", "egg", "nuts", "plant milk", "puree", "foamer",
                                  "zero proof", "savoury", "cocoa", "fat"})
            CHECK(facts.group != group);
    }
    CHECK(none == 141);
    CHECK(unstated == 251);
    for (const char* free : {"water", "ice", "salt", "sugar_granulated", "citric_acid", "lime_juice", "honey",
                             "simple_1_1_mass", "honey_syrup_3_1", "saline_20", "soda_water", "mint_fresh",
                             "coffee_brewed", "cinnamon_stick", "lemon_peel"}) {
        INFO(free);
        REQUIRE(kind(free).facts.allergens);
        CHECK(kind(free).facts.allergens->empty());
    }
    for (const char* unsaid :
         {"grenadine_bottled", "sugar_brown", "sugar_powdered", "cinnamon", "lime_cordial", "cola",
          "yuzu_juice", "lactic_acid_88", "vinegar_cider", "demerara_2_1"}) {
        INFO(unsaid);
        CHECK_FALSE(kind(unsaid).facts.allergens);
    }
    CHECK(kind("lime_juice_bottled").facts.allergens == std::vector<std::string>{"sulphites"});
}

TEST_CASE("A handbook that says none of an allergen names who says so", "[larder]") {
    const auto book = [](const std::string& more) {
        return Handbook::fromJson(
            R"({"schema": "stillroom-handbook/1", "sources": ["somebody"], "ambiguous_names": [], "kinds": [)"
            R"({"id": "salt", "name": "salt", "group": "salt", "allergens": [])" +
            more + "}]}");
    };
    CHECK_FALSE(book(""));
    CHECK_FALSE(book(R"(, "allergens_source": 1)"));
    CHECK(book(R"(, "allergens_source": 0)"));
}

TEST_CASE("what clears a drink and makes it foam has its facts and says where they come from",
          "[larder][handbook]") {
    const Handbook& book = Handbook::builtIn();
    for (const char* id : {"agar", "gelatine", "pectin", "gum_arabic", "xanthan_gum", "egg_white_powder",
                           "salt", "calcium_lactate", "methylcellulose", "lecithin_soy"}) {
        INFO(id);
        const Ingredient* kind = book.find(id);
        REQUIRE(kind != nullptr);
        CHECK(kind->facts.dry);
        REQUIRE(kind->facts.sugarGPerL);
        REQUIRE(kind->facts.acidGPerL);
        CHECK_FALSE(kind->facts.sugarGPerL->source.empty());
        // Of a kilogram no more than a kilogram.
        double grams = 0;
        for (const FactKey& key : factKeys())
            if (const auto& fact = kind->facts.*key.member;
                fact && key.id.ends_with("_g_per_l") && key.id != "density_kg_per_m3")
                grams += fact->typical;
        CHECK(grams <= 1000);
    }
    CHECK(book.find("egg_white_powder")->facts.allergens == std::vector<std::string>{"eggs"});
    // 2 g of it in a litre of lime juice leave everything known.
    const larder::Larder larder;
    for (const char* name : {"agar", "agar-agar", "agar agar powder", "egg white powder", "pectin"}) {
        INFO(name);
        CHECK_FALSE(larder.match(name).ingredient.isNull());
    }
}
