#include "core/larder/larder.h"

#include "core/larder/handbook.h"
#include "tests/support/catch.h"

#include <algorithm>
#include <array>
#include <random>

using namespace stillroom;
using namespace stillroom::larder;

namespace {

std::string label(const Larder& larder, base::IngredientId id) {
    const Ingredient* ingredient = larder.find(id);
    if (ingredient == nullptr) return "-";
    return ingredient->handbookId.empty() ? ingredient->name : ingredient->handbookId;
}

struct Row {
    const char* written;
    MatchQuality quality;
    const char* id; // the handbook's; of the first choice when ambiguous; "-" when there is none
};

constexpr auto E = MatchQuality::Exact;
constexpr auto C = MatchQuality::Close;
constexpr auto A = MatchQuality::Ambiguous;
constexpr auto N = MatchQuality::None;

Ingredient bottle(std::string name, double abv) {
    Ingredient own;
    own.id = base::IngredientId::random();
    own.sort = IngredientSort::Bottle;
    own.name = std::move(name);
    own.facts.abvPercent = Fact::single(abv, SourceKind::Label, "label");
    return own;
}

} // namespace

// What each name must find is ours to say (a barkeeper's reading, no source); the names of the first block
// are those of the reading corpus and its recipes.
TEST_CASE("Written names find the handbook's kinds", "[larder][match]") {
    const std::vector<Row> rows{
        {"Brandy", E, "brandy_grape"},
        {"Champagne", E, "sparkling_brut"},
        {"London dry gin", E, "gin_london"},
        {"Old Tom gin", E, "gin_old_tom"},
        {"RYE WHISKEY", E, "whiskey_rye"},
        {"100% agave tequila", E, "tequila_blanco"},
        {"2:1 demerara syrup", E, "demerara_2_1"},
        {"8-year-old rum", C, "rum_gold"},
        {"Orangenbitter", E, "bitters_orange"},
        {"Wodka", E, "vodka"},
        {"ジン", E, "gin_london"},
        {"amers aromatiques", E, "bitters_aromatic"},
        {"brauner Zucker", E, "sugar_brown"},
        {"vermut rosso", E, "vermouth_sweet"},
        {"ron blanco", E, "rum_white"},
        {"jus de citron", E, "lemon_juice"},
        {"jus de citron vert", E, "lime_juice"},
        {"Eiweiß", E, "egg_white"},
        {"Zitronensaft", E, "lemon_juice"},
        {"sel", E, "salt"},
        {"kümmel", E, "kummel"},
        {"cachaça", E, "cachaca"},
        {"crème de violette", E, "creme_violette"},
        {"orange curaçao", E, "curacao_dry"},
        {"amber Jamaican-style rum", E, "rum_jamaican_aged"},
        {"peated Scotch whisky", E, "whisky_malt_peated"},
        {"blended Scotch", E, "whisky_scotch_blend"},
        {"aromatised white wine", E, "americano_wine"},
        {"claret", E, "wine_red_dry"},
        {"molasses rum", E, "rum_gold"},
        {"loaf sugar", E, "sugar_cube"},
        {"large nutmegs", E, "nutmeg"},
        {"ripe white peaches", E, "peach_fruit"},
        {"white peach purée", E, "puree_peach"},
        {"pink grapefruit soda", E, "grapefruit_soda"},
        {"honey-ginger syrup", E, "honey_ginger_syrup"},
        {"sugar cane juice", E, "cane_juice"},
        {"short strong espresso", E, "espresso"},
        {"house orgeat", E, "orgeat"},
        {"sliced pineapple", E, "pineapple_fruit"},
        {"raw egg white", E, "egg_white"},
        {"boiling water", E, "water"},
        {"lemon twist", E, "lemon_peel"},
        {"bourbon or rye", A, "whiskey_bourbon"},
        {"rye or bourbon whiskey", A, "whiskey_rye"},
        {"rum or gin", A, "-"},
        {"gin or rum", A, "gin_london"},
        {"simple syrup", A, "simple_1_1_mass"},
        {"sugar syrup", A, "simple_1_1_mass"},
        {"coconut cream", A, "cream_of_coconut"},
        {"cranberry juice", A, "cranberry_cocktail"},
        {"maraschino", A, "maraschino"},
        {"whiskey", A, "whiskey_bourbon"},
        {"rum", A, "-"},
        {"vermouth", A, "-"},
        {"chilli tequila", N, "-"},
        {"gin and sweet vermouth", N, "-"},

        {"Fresh Lime-Juice", E, "lime_juice"},
        {"freshly squeezed lemon juice", E, "lemon_juice"},
        {"lime juice, freshly squeezed", E, "lime_juice"},
        {"juice of lime", E, "lime_juice"},
        {"eggwhite", E, "egg_white"},
        {"pasteurized egg whites", E, "egg_white"},
        {"gin, London dry", E, "gin_london"},
        {"rye whisky", E, "whiskey_rye"},
        {"Creme de Cacao", E, "creme_cacao"},
        {"cream of coconut", E, "cream_of_coconut"},
        {"cardamom pods", E, "cardamom"},
        {"liqeur coffee", C, "coffee_liqueur"},
        {"Northwick gin", C, "gin_london"},
        {"Hartwell No. 4 bourbon", C, "whiskey_bourbon"},
        {"Northwick tonic water", C, "tonic"},
        {"10-year tawny port", C, "port_tawny"},
        {"hot black coffee", C, "coffee_brewed"},
        {"warm milk", C, "milk_whole"},
        {"thyme sprig", C, "thyme_fresh"},
        {"salt rim", C, "salt"},
        {"bitter", A, "aperitivo_red"},
        {"bitters", E, "bitters_aromatic"},
        {"cider", A, "cider_dry"},
        {"gasoline", N, "-"},
        {"", N, "-"},
        {"12", N, "-"},
        // What a thing is called by its last word does not make it that thing.
        {"cherry gin", N, "-"},
        {"pine syrup", N, "-"},
        {"fig leaf syrup", N, "-"},
        {"papaya juice", N, "-"},
        {"butterscotch schnapps", N, "-"},
        {"lime leaf syrup", N, "-"},
        {"gin and tonic", N, "-"},
        // Never taken for something harmless beside it.
        {"dry ice", N, "-"},
        {"bitter almonds", N, "-"},
        {"edible glitter", N, "-"},
    };
    const Larder larder;
    for (const Row& row : rows) {
        CAPTURE(row.written);
        const NameMatch match = larder.match(row.written);
        CHECK(match.quality == row.quality);
        CHECK(label(larder, match.ingredient) == row.id);
        if (row.quality == A) {
            REQUIRE(match.alternatives.size() >= 2);
            if (!match.ingredient.isNull()) CHECK(match.alternatives.front() == match.ingredient);
        }
    }
}

TEST_CASE("Every name and alias in the handbook finds its kind or says that it is shared",
          "[larder][match]") {
    const Larder larder;
    for (const Ingredient& kind : Handbook::builtIn().kinds()) {
        std::vector<std::string> names = kind.aliases;
        names.push_back(kind.name);
        for (const std::string& name : names) {
            CAPTURE(kind.handbookId, name);
            const NameMatch match = larder.match(name);
            if (match.quality == MatchQuality::Exact) {
                CHECK(label(larder, match.ingredient) == kind.handbookId);
            } else {
                REQUIRE(match.quality == MatchQuality::Ambiguous);
                CHECK(std::find(match.alternatives.begin(), match.alternatives.end(), kind.id) !=
                      match.alternatives.end());
            }
        }
    }
    for (const SharedName& shared : Handbook::builtIn().sharedNames()) {
        CAPTURE(shared.name);
        const NameMatch match = larder.match(shared.name);
        CHECK(match.quality == MatchQuality::Ambiguous);
        CHECK(match.alternatives.front() == shared.kinds.front());
        CHECK(match.ingredient == (shared.hasDefault ? shared.kinds.front() : base::IngredientId()));
    }
}

TEST_CASE("A strength in the name is noted and chooses among kinds of that name", "[larder][match]") {
    const Larder larder;
    const auto rum = larder.match("rum, 63 %");
    CHECK(rum.quality == MatchQuality::Close);
    CHECK(label(larder, rum.ingredient) == "rum_overproof");
    CHECK(rum.statedAbv == 63.0);

    const auto gin = larder.match("London dry gin (47 %)");
    CHECK(gin.quality == MatchQuality::Close);
    CHECK(label(larder, gin.ingredient) == "gin_london");
    CHECK(gin.statedAbv == 47.0);

    CHECK(larder.match("bourbon, 100 proof").quality == MatchQuality::Exact); // a kind of its own
    CHECK(larder.match("London dry gin, 94 proof").statedAbv == 47.0);
    CHECK(larder.match("vodka 37,5 % vol").statedAbv == 37.5);

    // Percentages of something else are no strength.
    CHECK_FALSE(larder.match("100% agave tequila").statedAbv);
    CHECK_FALSE(larder.match("20% saline").statedAbv);
    CHECK(label(larder, larder.match("20% saline").ingredient) == "saline_20");
    CHECK(label(larder, larder.match("2% milk").ingredient) == "milk_semi");
}

TEST_CASE("Any bytes are a name that is found or not", "[larder][match]") {
    const Larder larder;
    std::mt19937_64 random(7);
    const std::array<std::string, 18> pieces{"gin",      "rum", " ",    ",",  "(",     ")",
                                             "%",        "63",  " or ", "of", "juice", "\xff",
                                             "\xe2\x82", "é",   "ジン", "-",  "proof", "year old"};
    for (int i = 0; i < 3000; ++i) {
        std::string name;
        for (std::size_t n = random() % 9; n > 0; --n)
            name += random() % 5 == 0 ? std::string(1, static_cast<char>(random() % 256))
                                      : pieces[random() % pieces.size()];
        const NameMatch match = larder.match(name);
        const bool found = larder.find(match.ingredient) != nullptr;
        const bool offered = found || !match.alternatives.empty();
        if (offered != (match.quality != MatchQuality::None)) FAIL("\"" << name << "\"");
        for (const base::IngredientId id : match.alternatives)
            REQUIRE(larder.find(id) != nullptr);
        larder.search(name, 5);
    }
    CHECK(larder.match(std::string(2'000'000, 'a')).quality == MatchQuality::None);
    CHECK(larder.match(std::string(1'000'000, '(')).quality == MatchQuality::None);
    CHECK(larder.search(std::string(2'000'000, 'a'), 5).empty());
}

TEST_CASE("Own ingredients come before the handbook's", "[larder]") {
    Larder larder;
    const Ingredient own = bottle("London dry gin", 47);
    larder.put(own);
    const auto match = larder.match("london dry GIN");
    CHECK(match.quality == MatchQuality::Exact);
    CHECK(match.ingredient == own.id);

    // A shared name is settled by an own ingredient of exactly that name.
    const Ingredient rum = bottle("rum", 40);
    larder.put(rum);
    CHECK(larder.match("Rum").quality == MatchQuality::Exact);
    CHECK(larder.match("Rum").ingredient == rum.id);
    REQUIRE(larder.all().size() == Handbook::builtIn().kinds().size() + 2);
    CHECK(larder.all()[0]->id == own.id);
}

TEST_CASE("The house pours its bottle for a kind", "[larder]") {
    Larder larder;
    const auto kindId = Handbook::idOf("gin_london");
    CHECK(larder.poured(kindId)->id == kindId);
    Ingredient own = bottle("Northwick dry gin, 47 %", 47);
    own.kind = kindId;
    larder.put(own);
    Ingredient kind = *larder.find(kindId);
    kind.houseBottle = own.id;
    larder.put(kind);
    CHECK(larder.poured(kindId)->id == own.id);
    CHECK(larder.poured(own.id)->id == own.id);
    // The handbook's kind is replaced, not doubled.
    CHECK(larder.all().size() == Handbook::builtIn().kinds().size() + 1);
    kind.houseBottle = base::IngredientId::random();
    larder.put(kind);
    CHECK(larder.poured(kindId)->id == kindId); // a bottle that is gone is not poured
    CHECK(larder.poured(base::IngredientId::random()) == nullptr);
}

TEST_CASE("A lot in use lends its measured figures to what is poured", "[larder]") {
    Larder larder;
    Ingredient own = bottle("House orgeat", 0);
    own.facts.sugarGPerL = Fact::single(600, SourceKind::Label, "label");
    own.facts.densityKgPerM3 = Fact::single(1220, SourceKind::Label, "label");
    Lot lot;
    lot.id = base::LotId::random();
    lot.ingredient = own.id;
    lot.on = "2026-11-20";
    lot.sugarGPerL = Fact::single(640, SourceKind::Measured, "refractometer");
    own.lotInUse = lot.id;
    larder.put(own);
    CHECK(larder.poured(own.id)->facts.sugarGPerL->typical == 600); // the lot is not there yet
    larder.put(lot);
    CHECK(larder.poured(own.id)->facts.sugarGPerL->typical == 640);
    CHECK_FALSE(larder.poured(own.id)->facts.densityKgPerM3); // it was that of the usual sugar
    CHECK(larder.find(own.id)->facts.sugarGPerL->typical == 600);
    Lot older = lot;
    older.id = base::LotId::random();
    older.on = "2026-11-01";
    larder.put(older);
    REQUIRE(larder.lots(own.id).size() == 2);
    CHECK(larder.lots(own.id)[0].id == lot.id);
    own.lotInUse.reset();
    larder.put(own);
    CHECK(larder.poured(own.id)->facts.sugarGPerL->typical == 600);
}

TEST_CASE("A larder is a value", "[larder]") {
    Larder larder;
    const Larder before = larder;
    const Ingredient own = bottle("harbour special", 38);
    larder.put(own);
    larder.remember("the usual", own.id);
    CHECK(before.find(own.id) == nullptr);
    CHECK(before.match("harbour special").quality == MatchQuality::None);
    CHECK(before.remembered().empty());
    CHECK(larder.match("harbour special").ingredient == own.id);

    Ingredient renamed = own;
    renamed.name = "lantern special";
    larder.put(renamed);
    CHECK(larder.match("harbour special").quality == MatchQuality::None);
    CHECK(larder.match("lantern special").ingredient == own.id);
    CHECK(larder.search("harbour", 5).empty());
    CHECK(larder.search("lantern", 5) == std::vector{own.id});
    CHECK(larder.all().size() == Handbook::builtIn().kinds().size() + 1);
}

TEST_CASE("A choice once made for a name is remembered", "[larder][match]") {
    Larder larder;
    larder.remember("Sugar  Syrup", Handbook::idOf("rich_2_1_mass"));
    const auto match = larder.match("sugar-syrup");
    CHECK(match.quality == MatchQuality::Remembered);
    CHECK(label(larder, match.ingredient) == "rich_2_1_mass");
    // A choice that leads nowhere is as if it had not been made.
    larder.remember("sugar syrup", base::IngredientId::random());
    CHECK(larder.match("sugar syrup").quality == MatchQuality::Ambiguous);
}

TEST_CASE("A larder without the handbook knows only its own", "[larder]") {
    Larder larder = Larder::withoutHandbook();
    CHECK(larder.all().empty());
    CHECK(larder.match("gin").quality == MatchQuality::None);
    CHECK(larder.search("gin", 10).empty());
    const Ingredient own = bottle("gin", 40);
    larder.put(own);
    CHECK(larder.match("Gin").ingredient == own.id);
    CHECK(larder.search("gi", 10) == std::vector{own.id});
}

TEST_CASE("Search answers while a name is typed", "[larder][search]") {
    Larder larder;
    const auto first = [&](const char* typed) {
        const auto found = larder.search(typed, 10);
        return found.empty() ? std::string("-") : label(larder, found.front());
    };
    CHECK(first("lime ju") == "lime_juice");
    CHECK(first("ju li") != "-");
    CHECK(first("crème de ca") == "creme_cacao");
    CHECK(first("marashino li") == "maraschino"); // misspelt
    CHECK(first("xyzzy") == "-");
    CHECK(first("") == "-");
    CHECK(larder.search("s", 7).size() == 7);
    CHECK(larder.search("s", 0).empty());

    const Ingredient own = bottle("Lime cordial of the house", 0);
    larder.put(own);
    CHECK(larder.search("lime", 10).front() == own.id);
    // Under three letters in the order of people's lists.
    const auto ab = larder.search("ab", 10);
    REQUIRE_FALSE(ab.empty());
    CHECK(label(larder, ab.front()) == "absinthe");
}
