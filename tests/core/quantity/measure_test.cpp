#include "core/quantity/measure.h"

#include "tests/support/catch.h"

#include <set>
#include <string>

using namespace stillroom::quantity;

namespace {

double ml(std::string_view id) {
    return measureInfo(*measureFromId(id)).exactMicrolitres->toDouble() / 1e3;
}

} // namespace

TEST_CASE("Every measure stands in the table at its own place with an id of its own", "[quantity][measure]") {
    std::set<std::string_view> ids;
    std::set<std::string_view> shown;
    for (std::size_t i = 0; i < measures().size(); ++i) {
        const MeasureInfo& info = measures()[i];
        CHECK(info.measure == static_cast<Measure>(i));
        CHECK(measureFromId(info.id) == info.measure);
        CHECK(ids.insert(info.id).second);
        CHECK(shown.insert(info.shown).second); // fluid ounce and mass ounce never share a symbol
    }
}

TEST_CASE("A measure has an exact size or is a setting of the house or is a count", "[quantity][measure]") {
    for (const MeasureInfo& info : measures()) {
        CAPTURE(info.id);
        CHECK(info.exactMicrolitres.has_value() == (info.dimension == Dimension::Volume && !info.house));
        CHECK(info.exactMicrograms.has_value() == (info.dimension == Dimension::Mass && !info.house));
    }
}

// NIST Handbook 44 Appendix C; UK Weights and Measures Act 1985 Schedule 1; values by arithmetic.
TEST_CASE("Legal measures have their legal sizes", "[quantity][measure][reference]") {
    const std::pair<const char*, double> expected[] = {
        {"ml", 1},
        {"cl", 10},
        {"dl", 100},
        {"l", 1000},
        {"floz_us", 29.5735295625},
        {"floz_imp", 28.4130625},
        {"tsp", 4.92892159375},
        {"tbsp", 14.78676478125},
        {"tsp_metric", 5},
        {"tbsp_metric", 15},
        {"tbsp_au", 20},
        {"cup", 236.5882365},
        {"cup_metric", 250},
        {"gill", 118.29411825},
        {"gill_imp", 142.0653125},
        {"pint", 473.176473},
        {"pint_imp", 568.26125},
        {"quart", 946.352946},
        {"quart_imp", 1136.5225},
        {"gallon", 3785.411784},
        {"gallon_imp", 4546.09},
    };
    std::size_t exact = 0;
    for (const auto& [id, size] : expected) {
        CAPTURE(id);
        CHECK(ml(id) == Approx(size).epsilon(1e-15));
    }
    for (const MeasureInfo& info : measures())
        exact += info.exactMicrolitres ? 1 : 0;
    CHECK(exact == std::size(expected));
    CHECK(ml("floz_imp") / ml("floz_us") == Approx(0.960759940404).epsilon(1e-12));

    const auto grams = [](std::string_view id) {
        return measureInfo(*measureFromId(id)).exactMicrograms->toDouble() / 1e6;
    };
    CHECK(grams("mg") == 0.001);
    CHECK(grams("g") == 1);
    CHECK(grams("kg") == 1000);
    CHECK(grams("oz_mass") == 28.349523125);
    CHECK(grams("lb") == 453.59237);
}

TEST_CASE("Liquid measures nest exactly", "[quantity][measure]") {
    const auto times = [](std::string_view id, std::int64_t n) {
        return measureInfo(*measureFromId(id)).exactMicrolitres->times(n);
    };
    CHECK(times("tsp", 3) == times("tbsp", 1));
    CHECK(times("floz_us", 8) == times("cup", 1));
    CHECK(times("gill", 32) == times("gallon", 1));
    CHECK(times("floz_imp", 5) == times("gill_imp", 1));
    CHECK(times("pint_imp", 8) == times("gallon_imp", 1));
    CHECK(times("quart", 4) == times("gallon", 1));
}

TEST_CASE("An unknown measure id is refused", "[quantity][measure]") {
    const char* ids[] = {"", "oz", "floz", "ML", "ml ", "tbsp_uk", "top", "rinse", "float"};
    for (const char* id : ids) {
        CAPTURE(id);
        CHECK_FALSE(measureFromId(id));
    }
}

// The ids that the reading corpus uses for amounts; "top", "rinse" and "float" are roles of a line.
TEST_CASE("Every unit of the reading corpus has a measure", "[quantity][measure]") {
    const char* ids[] = {"ml",     "cl",     "dl",        "l",     "floz_us",  "floz_imp", "oz_mass",
                         "tsp",    "tbsp",   "drop",      "dash",  "barspoon", "dropper",  "dessertspoon",
                         "spray",  "splash", "part",      "leaf",  "piece",    "slice",    "wedge",
                         "sprig",  "cube",   "sheet",     "pinch", "shot",     "scoop",    "handful",
                         "bottle", "can",    "cup",       "pint",  "quart",    "gill",     "pony",
                         "gallon", "jigger", "wineglass", "mg",    "g",        "kg",       "lb"};
    for (const char* id : ids) {
        CAPTURE(id);
        CHECK(measureFromId(id));
    }
}
