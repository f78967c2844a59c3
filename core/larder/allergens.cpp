#include "core/larder/allergens.h"

#include <algorithm>

namespace stillroom::larder {

namespace {

constexpr std::array<AllergenClass, 14> kEu{
    {{"gluten", "cereals containing gluten"},
     {"crustaceans", "crustaceans"},
     {"eggs", "eggs"},
     {"fish", "fish"},
     {"peanuts", "peanuts"},
     {"soybeans", "soybeans"},
     {"milk", "milk"},
     {"nuts", "nuts (almond, hazelnut, walnut, cashew, pecan, Brazil nut, pistachio, macadamia)"},
     {"celery", "celery"},
     {"mustard", "mustard"},
     {"sesame", "sesame seeds"},
     {"sulphites", "sulphur dioxide and sulphites above 10 mg/kg or 10 mg/L"},
     {"lupin", "lupin"},
     {"molluscs", "molluscs"}}};

constexpr std::array<AllergenClass, 9> kUs{{{"milk", "milk"},
                                            {"eggs", "eggs"},
                                            {"fish", "fish"},
                                            {"crustacean_shellfish", "crustacean shellfish"},
                                            {"tree_nuts", "tree nuts"},
                                            {"peanuts", "peanuts"},
                                            {"wheat", "wheat"},
                                            {"soybeans", "soybeans"},
                                            {"sesame", "sesame"}}};

constexpr std::array<std::string_view, 5> kExemptions{
    "cereals used for making alcoholic distillates", "whey used for making alcoholic distillates",
    "nuts used for making alcoholic distillates",
    "fish gelatine or isinglass used as fining agent in beer and wine",
    "glucose syrups and maltodextrins from wheat or barley"};

bool contains(const std::vector<std::string>& all, std::string_view id) {
    return std::find(all.begin(), all.end(), id) != all.end();
}

void put(std::vector<std::string>& all, std::string_view id) {
    if (!contains(all, id)) all.emplace_back(id);
}

// Named in the order of a list.
template <std::size_t N>
void sortBy(const std::array<AllergenClass, N>& list, std::vector<std::string>& ids) {
    std::vector<std::string> sorted;
    for (const AllergenClass& each : list)
        if (contains(ids, each.id)) sorted.emplace_back(each.id);
    ids = std::move(sorted);
}

AllergenReading sorted(AllergenReading reading) {
    sortBy(kEu, reading.eu);
    sortBy(kUs, reading.us);
    // What is sure is no longer a maybe.
    std::erase_if(reading.usMayBe, [&](const std::string& id) { return contains(reading.us, id); });
    sortBy(kUs, reading.usMayBe);
    return reading;
}

} // namespace

const std::array<AllergenClass, 14>& euAllergenClasses() {
    return kEu;
}
const std::array<AllergenClass, 9>& usAllergenClasses() {
    return kUs;
}
const std::array<std::string_view, 5>& euExemptions() {
    return kExemptions;
}

std::optional<UsClass> usClassOf(std::string_view euId) {
    if (euId == "gluten") return UsClass{"wheat", false};
    if (euId == "crustaceans") return UsClass{"crustacean_shellfish", true};
    if (euId == "nuts") return UsClass{"tree_nuts", true};
    for (const AllergenClass& each : kUs)
        if (each.id == euId) return UsClass{each.id, true};
    return std::nullopt;
}

AllergenReading allergensOf(const FactState& facts) {
    AllergenReading reading;
    reading.complete = facts.allergens.has_value() && !contains(facts.tags, kAllergensIncomplete);
    if (!facts.allergens) return reading;
    for (const std::string& id : *facts.allergens) {
        const bool listed =
            std::any_of(kEu.begin(), kEu.end(), [&](const AllergenClass& each) { return each.id == id; });
        put(listed ? reading.eu : reading.other, id);
        const auto us = usClassOf(id);
        if (us) put(us->certain ? reading.us : reading.usMayBe, us->id);
    }
    return sorted(std::move(reading));
}

AllergenReading together(const std::vector<AllergenReading>& parts) {
    AllergenReading all;
    for (const AllergenReading& part : parts) {
        for (const std::string& id : part.eu)
            put(all.eu, id);
        for (const std::string& id : part.us)
            put(all.us, id);
        for (const std::string& id : part.usMayBe)
            put(all.usMayBe, id);
        for (const std::string& id : part.other)
            put(all.other, id);
        all.complete &= part.complete;
    }
    return sorted(std::move(all));
}

std::optional<std::string_view> exemptionOf(const FactState& facts) {
    const bool statesNone = facts.allergens && facts.allergens->empty();
    if (!statesNone || contains(facts.tags, kAllergensIncomplete)) return std::nullopt;
    if (facts.group == "spirit") return kExemptions[0];
    return std::nullopt;
}

} // namespace stillroom::larder
