#include "core/tasting/circumstances.h"

#include "core/base/text.h"
#include "core/tasting/guarded_json.h"

#include <charconv>
#include <cmath>

namespace stillroom::tasting {

namespace {

using Json = nlohmann::json;
using quantity::Mass;
using quantity::MassFraction;
using quantity::Temperature;
using quantity::Volume;

constexpr int kDeepest = 2;
constexpr std::size_t kLongestPlace = 200;

bool isAmount(double value) {
    return value > 0 && value <= 100'000; // ml or g
}

// To a millionth: a percentage kept as a fraction must come back as it was typed.
std::string decimal(double value) {
    return base::shortestDecimal(std::round(value * 1e6) / 1e6);
}

double decimalFrom(const Json& json) {
    const auto& text = json.get_ref<const std::string&>();
    double value = 0;
    const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), value);
    if (error != std::errc{} || end != text.data() + text.size() || !std::isfinite(value))
        throw Malformed(text);
    return value;
}

Circumstances circumstancesFrom(const Json& json) {
    if (!json.is_object()) throw Malformed("no object");
    Circumstances read;
    for (const auto& [key, value] : json.items()) {
        if (key == "glass_age_min")
            read.glassAgeMinutes = wholeFrom(value, kOldestGlassMinutes);
        else if (key == "place")
            read.place = value.get<std::string>();
        else if (key == "volume_ml")
            read.measured.volume = Volume::fromMl(decimalFrom(value));
        else if (key == "weight_g")
            read.measured.weight = Mass::fromGrams(decimalFrom(value));
        else if (key == "temperature_c")
            read.measured.temperature = Temperature::fromCelsius(decimalFrom(value));
        else if (key == "brix_read")
            read.measured.brixRead = MassFraction::fromPercent(decimalFrom(value));
        else
            throw Malformed(key);
    }
    return read;
}

} // namespace

std::optional<CircumstanceError> Circumstances::problem() const {
    if (glassAgeMinutes && (*glassAgeMinutes < 0 || *glassAgeMinutes > kOldestGlassMinutes))
        return CircumstanceError::GlassAge;
    if (base::elided(place, kLongestPlace) != place) return CircumstanceError::Place;
    if (measured.volume && !isAmount(measured.volume->ml())) return CircumstanceError::Volume;
    if (measured.weight && !isAmount(measured.weight->grams())) return CircumstanceError::Weight;
    if (const auto& t = measured.temperature; t && !(t->celsius() >= -60 && t->celsius() <= 110))
        return CircumstanceError::Temperature;
    if (const auto& b = measured.brixRead; b && !(b->percent() >= 0 && b->fraction() <= 1))
        return CircumstanceError::Brix;
    return std::nullopt;
}

std::string Circumstances::canonicalJson() const {
    Json json = Json::object();
    if (glassAgeMinutes) json["glass_age_min"] = *glassAgeMinutes;
    if (!place.empty()) json["place"] = place;
    if (measured.volume) json["volume_ml"] = decimal(measured.volume->ml());
    if (measured.weight) json["weight_g"] = decimal(measured.weight->grams());
    if (measured.temperature) json["temperature_c"] = decimal(measured.temperature->celsius());
    if (measured.brixRead) json["brix_read"] = decimal(measured.brixRead->percent());
    return canonicalText(json);
}

std::optional<Circumstances> Circumstances::fromCanonicalJson(std::string_view text) {
    const auto read = readGuarded<Circumstances>(text, kDeepest, circumstancesFrom);
    if (!read || read->problem()) return std::nullopt;
    return read;
}

} // namespace stillroom::tasting
