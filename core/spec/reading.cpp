#include "core/spec/reading.h"

namespace stillroom::spec {

namespace {

struct QuantityInfo {
    std::string_view id;
    std::string_view unit;
    int decimals;
    bool extensive;
};

// In the order of Quantity. Decimals are what the readings grid shows.
constexpr std::array<QuantityInfo, kQuantityCount> kQuantities{{
    {"poured_volume", "ml", 1, true},
    {"volume", "ml", 1, true},
    {"strength", "% vol", 1, false},
    {"ethanol", "g", 1, true},
    {"sugar", "g/100 ml", 1, false},
    {"brix", "g/100 g", 1, false},
    {"acid", "g/100 ml", 2, false},
    {"sugar_acid_ratio", "", 1, false},
    {"mass", "g", 1, true},
    {"density", "kg/m³", 0, false},
    {"dilution", "", 3, false},
    {"temperature", "°C", 1, false},
    {"cost", "", 2, true},
    {"energy_kj", "kJ", 0, true},
    {"energy_kcal", "kcal", 0, true},
    {"standard_drinks", "", 1, true},
}};

const QuantityInfo& infoOf(Quantity quantity) {
    return kQuantities[static_cast<std::size_t>(quantity)];
}

} // namespace

std::string_view stageId(Stage stage) {
    switch (stage) {
    case Stage::Measured:
        return "measured";
    case Stage::Mixed:
        return "mixed";
    case Stage::Served:
        return "served";
    }
    return {};
}

std::string_view quantityId(Quantity quantity) {
    return infoOf(quantity).id;
}
std::string_view quantityUnit(Quantity quantity) {
    return infoOf(quantity).unit;
}
int quantityDecimals(Quantity quantity) {
    return infoOf(quantity).decimals;
}
bool isExtensive(Quantity quantity) {
    return infoOf(quantity).extensive;
}

std::string_view boundId(Bound bound) {
    switch (bound) {
    case Bound::Exact:
        return "exact";
    case Bound::AtLeast:
        return "at_least";
    case Bound::AtMost:
        return "at_most";
    case Bound::Between:
        return "between";
    case Bound::Unknown:
        return "unknown";
    case Bound::NotApplicable:
        return "not_applicable";
    }
    return {};
}

std::string_view gapCodeId(GapCode code) {
    switch (code) {
    case GapCode::StrengthUnknown:
        return "strength_unknown";
    case GapCode::SugarUnknown:
        return "sugar_unknown";
    case GapCode::AcidUnknown:
        return "acid_unknown";
    case GapCode::DensityUnknown:
        return "density_unknown";
    case GapCode::PriceUnknown:
        return "price_unknown";
    case GapCode::PriceCurrency:
        return "price_currency";
    case GapCode::PriceUnit:
        return "price_unit";
    case GapCode::PriceYield:
        return "price_yield";
    case GapCode::PriceNegative:
        return "price_negative";
    case GapCode::PriceWrong:
        return "price_wrong";
    case GapCode::AmountNotStated:
        return "amount_not_stated";
    case GapCode::MeasureHasNoSize:
        return "measure_has_no_size";
    case GapCode::OptionalLeftOut:
        return "optional_left_out";
    case GapCode::ToTasteLeftOut:
        return "to_taste_left_out";
    case GapCode::IngredientUnknown:
        return "ingredient_unknown";
    case GapCode::DilutionUnknown:
        return "dilution_unknown";
    case GapCode::RinseByTheHouse:
        return "rinse_by_the_house";
    case GapCode::SolidShareUnknown:
        return "solid_share_unknown";
    case GapCode::GlassUnknown:
        return "glass_unknown";
    case GapCode::PartTargetMissing:
        return "part_target_missing";
    case GapCode::FactsContradict:
        return "facts_contradict";
    }
    return {};
}

} // namespace stillroom::spec
