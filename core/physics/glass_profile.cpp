#include "core/physics/glass_profile.h"

#include "core/base/check.h"
#include "core/base/embedded.h"
#include "core/base/text.h"

#include <algorithm>
#include <cmath>
#include <nlohmann/json.hpp>
#include <numbers>
#include <optional>

namespace stillroom::physics {

using Json = nlohmann::json;
using quantity::Volume;

namespace {

constexpr double kMm3PerMl = 1000;

double frustumMm3(const ProfilePoint& low, const ProfilePoint& high) {
    const double r = low.radiusMm;
    const double R = high.radiusMm;
    return std::numbers::pi / 3 * (high.heightMm - low.heightMm) * (r * r + r * R + R * R);
}

ProfilePoint between(const ProfilePoint& low, const ProfilePoint& high, double heightMm) {
    const double share = (heightMm - low.heightMm) / (high.heightMm - low.heightMm);
    return {heightMm, low.radiusMm + share * (high.radiusMm - low.radiusMm)};
}

// How high `mm3` stands in one frustum. With r + k h as the radius, the volume up to h is
// π/(3k) ((r + k h)³ − r³).
double rise(const ProfilePoint& low, const ProfilePoint& high, double mm3) {
    const double r = low.radiusMm;
    const double k = (high.radiusMm - r) / (high.heightMm - low.heightMm);
    constexpr double kNearlyStraight = 1e-9;
    if (std::abs(k) < kNearlyStraight) return mm3 / (std::numbers::pi * r * r);
    return std::max(0.0, (std::cbrt(r * r * r + 3 * k * mm3 / std::numbers::pi) - r) / k);
}

GlassFoot footFrom(const std::string& id) {
    if (id == "stem") return GlassFoot::Stem;
    if (id == "handle") return GlassFoot::Handle;
    return GlassFoot::Flat;
}

GlassProfile profileFrom(const Json& json) {
    GlassProfile glass;
    glass.id = json.at("id").get<std::string>();
    glass.name = json.at("name").get<std::string>();
    glass.aliases = json.at("aliases").get<std::vector<std::string>>();
    glass.foot = footFrom(json.at("foot").get<std::string>());
    glass.stemMm = json.at("stem_mm").get<double>();
    for (const Json& point : json.at("profile_mm"))
        glass.points.push_back({point.at(0).get<double>(), point.at(1).get<double>()});
    glass.serveLow = Volume::fromMl(json.at("serve_ml").at(0).get<double>());
    glass.serveHigh = Volume::fromMl(json.at("serve_ml").at(1).get<double>());
    glass.source = json.at("source").get<std::string>();
    return glass;
}

std::vector<GlassProfile> builtIn() {
    std::vector<GlassProfile> glasses;
    const Json json = Json::parse(base::embedded("handbook/glasses.json"), nullptr, false);
    STILLROOM_CHECK(json.is_object() && json.contains("glasses"), return glasses);
    try {
        for (const Json& entry : json["glasses"])
            glasses.push_back(profileFrom(entry));
    } catch (const Json::exception&) {
        STILLROOM_CHECK(false, return {});
    }
    return glasses;
}

// Words of a glass in the singular, so that "two low tumblers" is a low tumbler.
std::vector<std::string> glassWords(std::string_view text) {
    std::string plain(text);
    std::replace_if(
        plain.begin(), plain.end(),
        [](char c) { return c == ',' || c == ';' || c == '(' || c == ')' || c == '.'; }, ' ');
    auto words = base::foldedWords(plain);
    for (std::string& word : words) {
        const bool es = word == "glasses";
        if (es)
            word.resize(word.size() - 2);
        else if (word.size() > 3 && word.back() == 's' && word[word.size() - 2] != 's' && word != "rocks")
            word.pop_back();
    }
    return words;
}

struct Alias {
    std::vector<std::string> words;
    std::size_t glass = 0;
};

const std::vector<Alias>& aliases() {
    static const std::vector<Alias> all = [] {
        std::vector<Alias> made;
        const auto& glasses = glassProfiles();
        for (std::size_t i = 0; i < glasses.size(); ++i) {
            made.push_back({glassWords(glasses[i].name), i});
            for (const std::string& alias : glasses[i].aliases)
                made.push_back({glassWords(alias), i});
        }
        return made;
    }();
    return all;
}

} // namespace

double GlassProfile::rimHeightMm() const {
    return points.empty() ? 0 : points.back().heightMm;
}

Volume GlassProfile::brim() const {
    return volumeTo(rimHeightMm());
}

Volume GlassProfile::volumeTo(double heightMm) const {
    double mm3 = 0;
    for (std::size_t i = 1; i < points.size() && points[i - 1].heightMm < heightMm; ++i) {
        const bool whole = points[i].heightMm <= heightMm;
        mm3 += frustumMm3(points[i - 1], whole ? points[i] : between(points[i - 1], points[i], heightMm));
    }
    return Volume::fromMl(mm3 / kMm3PerMl);
}

double GlassProfile::heightOf(Volume volume) const {
    double left = volume.ml() * kMm3PerMl;
    if (points.empty() || !(left > 0)) return 0;
    for (std::size_t i = 1; i < points.size(); ++i) {
        const double whole = frustumMm3(points[i - 1], points[i]);
        if (left < whole) return points[i - 1].heightMm + rise(points[i - 1], points[i], left);
        left -= whole;
    }
    return rimHeightMm();
}

double GlassProfile::radiusAt(double heightMm) const {
    for (std::size_t i = 1; i < points.size(); ++i)
        if (heightMm >= points[i - 1].heightMm && heightMm <= points[i].heightMm)
            return between(points[i - 1], points[i], heightMm).radiusMm;
    return 0;
}

const std::vector<GlassProfile>& glassProfiles() {
    static const std::vector<GlassProfile> glasses = builtIn();
    return glasses;
}

const GlassProfile* glassProfile(std::string_view id) {
    const auto& all = glassProfiles();
    const auto found =
        std::find_if(all.begin(), all.end(), [id](const GlassProfile& glass) { return glass.id == id; });
    return found == all.end() ? nullptr : &*found;
}

const GlassProfile* glassProfileFor(std::string_view written) {
    const auto words = glassWords(written);
    const Alias* best = nullptr;
    auto bestAt = words.end();
    for (const Alias& alias : aliases()) {
        const auto at = std::search(words.begin(), words.end(), alias.words.begin(), alias.words.end());
        if (at == words.end() || alias.words.empty()) continue;
        const bool longer = best == nullptr || alias.words.size() > best->words.size();
        const bool earlier = best != nullptr && alias.words.size() == best->words.size() && at < bestAt;
        if (!longer && !earlier) continue;
        best = &alias;
        bestAt = at;
    }
    return best == nullptr ? nullptr : &glassProfiles()[best->glass];
}

Volume iceDisplacement(double iceGrams, double densityGPerMl) {
    if (!(iceGrams > 0) || !(densityGPerMl > 0)) return {};
    return Volume::fromMl(iceGrams / densityGPerMl);
}

} // namespace stillroom::physics
