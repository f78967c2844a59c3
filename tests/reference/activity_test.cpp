#include "core/physics/freezing.h"
#include "core/physics/refraction.h"
#include "core/physics/sucrose_activity.h"
#include "core/physics/sucrose_water.h"
#include "core/physics/sweetness.h"
#include "core/physics/water_activity.h"
#include "tests/reference/published.h"
#include "tests/support/catch.h"

#include <map>

using namespace stillroom;
using namespace stillroom::physics;
using quantity::MassFraction;
using quantity::Temperature;
using reference::Comparison;
using reference::dataset;

namespace {

Composition solution(Substance solute, double massPercent) {
    Composition c;
    c[solute] = massPercent;
    c[Substance::Water] = 100 - massPercent;
    return c;
}

double activity(const Composition& c) {
    const auto aw = waterActivity(c, Temperature::fromCelsius(25));
    REQUIRE(aw);
    return aw->value;
}

} // namespace

TEST_CASE("Water activity of sucrose agrees with the computed table", "[reference][activity]") {
    Comparison aw("water-activity", "sucrose_aw_25C_computed", "a_w of sucrose at 25 C", 5.1e-5);
    Comparison norrish("water-activity", "sucrose_aw_25C_computed", "a_w of sucrose against Norrish", 0.0016);
    for (const auto& row : dataset("water-activity", "sucrose_aw_25C_computed")["rows"]) {
        aw.add(activity(solution(Substance::Sucrose, row[0])), row[1], row.dump());
        norrish.add(activity(solution(Substance::Sucrose, row[0])), row[2], row.dump());
    }
    aw.check();
    norrish.check();
}

// Two routes to the same number: the equation at the freezing point, and the CRC freezing point itself.
TEST_CASE("Water activity of sugars agrees with their freezing points", "[reference][activity]") {
    Comparison sucrose("water-activity", "starzak_peacock", "a_w of sucrose against CRC to 42 mass %",
                       4.2e-4);
    for (const auto& row : dataset("thermal", "sucrose_freezing_crc")["rows"])
        sucrose.add(std::exp(SucroseActivity(row[0].get<double>() / 100).lnAt(273.15 + row[1].get<double>())),
                    std::exp(lnWaterActivityOverIce(Temperature::fromCelsius(row[1]))), row.dump());
    sucrose.check();
    Comparison simple("water-activity", "norrish", "a_w of glucose and fructose against CRC to 30 mass %",
                      0.002);
    for (const auto& row : dataset("water-activity", "aw_from_freezing_points")["rows"]) {
        const std::string name = row[0];
        if (name != "D-glucose" && name != "D-fructose") continue;
        const Substance sugar = name == "D-glucose" ? Substance::Glucose : Substance::Fructose;
        simple.add(activity(solution(sugar, row[1])), row[3], row.dump());
    }
    simple.check();
}

TEST_CASE("Textbook syrups have their textbook water activity", "[reference][activity]") {
    Comparison levels("water-activity", "food_levels", "a_w of 55 and 65 % sucrose", 0.0075);
    levels.add(activity(solution(Substance::Sucrose, 55)), 0.91, "55 %");
    levels.add(activity(solution(Substance::Sucrose, 65)), 0.87, "65 %");
    levels.check();
}

TEST_CASE("The product of activities stays within its stated error", "[reference][activity]") {
    // From memory: 0.01 to 0.02. Glucose and sucrose together against all of it as either one.
    Comparison ross("water-activity", "ross_product", "a_w of mixed sugars between the single ones", 0.01);
    Composition mixed = solution(Substance::Sucrose, 20);
    mixed[Substance::Glucose] = 20;
    mixed[Substance::Water] = 60;
    const double low = activity(solution(Substance::Glucose, 40));
    const double high = activity(solution(Substance::Sucrose, 40));
    ross.add(activity(mixed), std::clamp(activity(mixed), low, high));
    ross.check();
    // The constants of Norrish are from memory, and sucrose was checked up to 42 g/100 g.
    CHECK(waterActivity(mixed, Temperature::fromCelsius(25))->estimate);
    CHECK_FALSE(waterActivity(solution(Substance::Sucrose, 42), Temperature::fromCelsius(25))->estimate);
    CHECK(waterActivity(solution(Substance::Sucrose, 42.1), Temperature::fromCelsius(25))->estimate);
    mixed = solution(Substance::Sucrose, 20);
    CHECK_FALSE(waterActivity(mixed, Temperature::fromCelsius(25))->estimate);
    mixed[Substance::Ethanol] = 5;
    CHECK(waterActivity(mixed, Temperature::fromCelsius(25))->estimate);
}

TEST_CASE("Sugar dissolves up to the published solubility", "[reference][activity]") {
    Comparison limit("sucrose-water", "solubility", "saturated sucrose, g/100 g", 1e-9);
    for (const auto& row : dataset("sucrose-water", "solubility")["rows"])
        limit.add(sucroseSolubility(Temperature::fromCelsius(row[0]))->percent(), row[1], row.dump());
    limit.check();
    Comparison newer("sucrose-water", "solubility_equation", "saturated sucrose, newer scale, g/100 g", 0.55);
    for (double t = 0; t <= 100; t += 5)
        newer.add(sucroseSolubility(Temperature::fromCelsius(t))->percent(),
                  64.397 + 0.07251 * t + 0.0020569 * t * t - 9.035e-6 * t * t * t, std::to_string(t));
    newer.check();
}

TEST_CASE("Refractive index and Baume agree with the published scales", "[reference][refraction]") {
    Comparison icumsa("sucrose-water", "refractive_index_icumsa", "Brix by refractive index, ICUMSA scale",
                      0.022);
    for (const auto& row : dataset("sucrose-water", "refractive_index_icumsa")["rows"])
        icumsa.add(brixFromRefractiveIndex(row[1])->percent(), row[0], row.dump());
    icumsa.check();
    Comparison crc("sucrose-water", "crc_sucrose_20C", "Brix by refractive index, CRC, 5 to 80", 0.071);
    Comparison index("sucrose-water", "brix_from_refractive_index", "index and back, g/100 g", 1e-6);
    for (const auto& row : dataset("sucrose-water", "crc_sucrose_20C")["rows"]) {
        const double percent = row[0];
        if (row[2].is_null() || percent < 5 || percent > 80) continue;
        crc.add(brixFromRefractiveIndex(row[2])->percent(), percent, row.dump());
        const auto n = refractiveIndex(MassFraction::fromPercent(percent));
        REQUIRE(n);
        index.add(brixFromRefractiveIndex(*n)->percent(), percent, row.dump());
    }
    crc.check();
    index.check();
    Comparison degrees("sucrose-water", "baume", "degrees Baume by mass %", 0.0051);
    for (const auto& row : dataset("sucrose-water", "baume")["rows"]) {
        const auto density = sucroseWaterDensityAt20(MassFraction::fromPercent(row[0]));
        degrees.add(*baume(density), row[1], row.dump());
        CHECK(densityFromBaume(*baume(density))->kgPerM3() == Approx(density.kgPerM3()).epsilon(1e-12));
    }
    degrees.check();
}

TEST_CASE("Sweetness factors lie in their published ranges", "[reference][sweetness]") {
    const std::map<std::string, Substance> sugars = {{"sucrose", Substance::Sucrose},
                                                     {"glucose", Substance::Glucose},
                                                     {"dextrose (glucose)", Substance::Glucose},
                                                     {"fructose", Substance::Fructose},
                                                     {"lactose", Substance::Lactose},
                                                     {"maltose", Substance::OtherSugar}};
    const auto outside = [&sugars](const nlohmann::json& name, double value) {
        const auto found = sugars.find(name.get<std::string>());
        if (found == sugars.end()) return 0.0;
        const auto factor = relativeSweetness(found->second);
        return std::max({0.0, factor.low - value, value - factor.high});
    };
    Comparison working("sweetness", "usage_note", "working factors for drinks", 0.051);
    working.add(relativeSweetness(Substance::Glucose).typical, 0.74, "glucose");
    working.add(relativeSweetness(Substance::Fructose).typical, 1.25, "fructose, 1.2 to 1.3");
    working.add(relativeSweetness(Substance::OtherSugar).typical, 0.4, "maltose");
    working.add(relativeSweetness(Substance::Lactose).typical, 0.2, "lactose");
    working.check();
    for (const char* id : {"relative_sweetness_2022", "relative_sweetness_dictionary"}) {
        Comparison range("sweetness", id, "published factor outside our range", 1e-9);
        for (const auto& row : dataset("sweetness", id)["rows"])
            if (sugars.count(row[0].get<std::string>()) > 0)
                range.add(outside(row[0], row[1]), 0, row.dump());
        range.check();
    }
    Comparison wiebe("sweetness", "relative_sweetness_2011", "published range outside ours", 1e-9);
    for (const auto& row : dataset("sweetness", "relative_sweetness_2011")["rows"]) {
        if (sugars.count(row[0].get<std::string>()) == 0) continue;
        wiebe.add(outside(row[0], row[1]), 0, row.dump());
        wiebe.add(outside(row[0], row[2]), 0, row.dump());
    }
    wiebe.check();
}
