#include "core/larder/handbook.h"
#include "tests/reference/published.h"
#include "tests/support/catch.h"

#include <map>
#include <memory>

// The handbook's sugars against the USDA records that it names as their source. It was made from Release 26
// (2013), the records here are Release 28 (2015): where the two differ the test says so.

using namespace stillroom;
using nlohmann::json;
using reference::Comparison;
using reference::dataset;

namespace {

constexpr const char* kFile = "sweetness";

// Release 26 against 28, g of sugar per 100 g: maple syrup 67.9 and 60.5 (its carbohydrate is 67.0 in both;
// the trade counts 66 Brix), bottled lemon juice 2.4 and 1.5, cream 2.79 and 2.92, half and half 4.3
// and 4.13.
const std::map<std::string, double> kReleasesDiffer{
    {"19353", 99.5}, {"09153", 9.5}, {"01053", 1.5}, {"01049", 1.8}};

const larder::Ingredient* madeFrom(const std::string& ndb) {
    for (const larder::Ingredient& kind : larder::Handbook::builtIn().kinds())
        if (kind.facts.sugarGPerL && kind.facts.sugarGPerL->source.find("NDB " + ndb) != std::string::npos)
            return &kind;
    return nullptr;
}

} // namespace

TEST_CASE("Sugars of the handbook are those of the USDA records it names", "[reference][handbook]") {
    std::size_t found = 0;
    for (const char* id : {"usda_syrups", "usda_sugars", "usda_juices", "usda_other"}) {
        Comparison sugar(kFile, id, "sugar of a food, g/l or g/kg", 0.6);
        std::unique_ptr<Comparison> differ;
        for (const json& record : dataset(kFile, id)["records"]) {
            if (!record.contains("sugars_total_g")) continue;
            const std::string ndb = record["ndb"];
            const larder::Ingredient* kind = madeFrom(ndb);
            if (kind == nullptr) continue;
            const auto& facts = kind->facts;
            REQUIRE(facts.densityKgPerM3);
            const double perKg = 10 * record["sugars_total_g"].get<double>();
            const double published = facts.dry ? perKg : perKg * facts.densityKgPerM3->typical / 1000;
            ++found;
            if (const auto known = kReleasesDiffer.find(ndb); known != kReleasesDiffer.end()) {
                if (!differ)
                    differ = std::make_unique<Comparison>(
                        kFile, id, "sugar where Releases 26 and 28 differ, in their difference", 1);
                differ->add(facts.sugarGPerL->typical / known->second, published / known->second, kind->name);
            } else {
                sugar.add(facts.sugarGPerL->typical, published, kind->name);
            }
        }
        sugar.check();
        if (differ) differ->check();
    }
    CHECK(found >= 20);
    const auto* honey = larder::Handbook::builtIn().find("honey");
    REQUIRE(honey != nullptr);
    Comparison density(kFile, "honey_density", "density of honey, g/ml", 0.0005);
    density.add(honey->facts.densityKgPerM3->typical / 1000, dataset(kFile, "honey_density")["density_g_mL"]);
    density.check();
}
