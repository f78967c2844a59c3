#include "core/spec/glass_filling.h"

#include "core/base/text.h"
#include "core/physics/dilution.h"
#include "core/physics/mixture.h"
#include "core/spec/glass_pours.h"
#include "core/spec/held_readings.h"
#include "core/spec/scenario.h"
#include "core/spec/temperature.h"
#include "core/spec/thermal_words.h"

#include <algorithm>

namespace stillroom::spec {

using quantity::Volume;

namespace {

// Below this a layer does not hold: common practice, no source.
constexpr double kLeastStep = 2; // kg/m³

enum class Order : std::uint8_t { Lighter, NotLighter, Unknown };

Order orderOf(const GlassLayer& above, const GlassLayer& below) {
    if (above.densityKgPerM3 && below.densityKgPerM3)
        return *above.densityKgPerM3 <= *below.densityKgPerM3 - kLeastStep ? Order::Lighter
                                                                           : Order::NotLighter;
    if (above.highKgPerM3 <= below.lowKgPerM3 - kLeastStep) return Order::Lighter;
    if (above.lowKgPerM3 > below.highKgPerM3 - kLeastStep) return Order::NotLighter;
    return Order::Unknown;
}

// Pours come to rest one after the other; each layer beside what it is of.
class Settling {
  public:
    Settling(const Bindings::Data& data, std::vector<FillDoubt>& doubts) : m_data(data), m_doubts(doubts) {}

    void pour(const Pour& next) {
        if (next.isEmpty()) return;
        const GlassLayer layer = layerOf(next, m_data);
        const int line = next.parts.empty() ? -1 : static_cast<int>(next.parts.front().line);
        if (m_layers.empty() || layer.standsMl <= 0) {
            if (layer.standsMl > 0) put(m_layers.size(), next, layer);
            return;
        }
        switch (orderOf(layer, m_layers.back())) {
        case Order::Unknown:
            m_doubts.push_back({FillDoubtCode::OrderUnknown, line});
            put(m_layers.size(), next, layer);
            break;
        case Order::Lighter:
            put(m_layers.size(), next, layer);
            break;
        case Order::NotLighter:
            sink(next, layer, line);
            break;
        }
    }
    std::vector<GlassLayer> take() { return std::move(m_layers); }

  private:
    void put(std::size_t at, const Pour& pour, const GlassLayer& layer) {
        m_pours.insert(m_pours.begin() + static_cast<std::ptrdiff_t>(at), pour);
        m_layers.insert(m_layers.begin() + static_cast<std::ptrdiff_t>(at), layer);
    }
    void mixInto(std::size_t at, const Pour& pour) {
        m_pours[at].add(pour);
        m_layers[at] = layerOf(m_pours[at], m_data);
        settleAgain();
    }
    // What was mixed into a layer may have made it as heavy as the one below: then those two mix as well.
    void settleAgain() {
        for (std::size_t i = 1; i < m_layers.size();) {
            if (orderOf(m_layers[i], m_layers[i - 1]) != Order::NotLighter) {
                ++i;
                continue;
            }
            m_pours[i - 1].add(m_pours[i]);
            m_layers[i - 1] = layerOf(m_pours[i - 1], m_data);
            m_pours.erase(m_pours.begin() + static_cast<std::ptrdiff_t>(i));
            m_layers.erase(m_layers.begin() + static_cast<std::ptrdiff_t>(i));
            i = 1;
        }
    }
    void sink(const Pour& pour, const GlassLayer& layer, int line) {
        if (pour.kind == GlassLayerKind::Float) {
            m_doubts.push_back({FillDoubtCode::FloatSinks, line});
            mixInto(m_layers.size() - 1, pour);
            return;
        }
        m_doubts.push_back({FillDoubtCode::PouredOutOfOrder, line});
        std::size_t at = m_layers.size();
        while (at > 0 && orderOf(layer, m_layers[at - 1]) == Order::NotLighter &&
               orderOf(m_layers[at - 1], layer) == Order::Lighter)
            --at;
        // As heavy as the one it meets: they mix.
        if (at > 0 && orderOf(layer, m_layers[at - 1]) == Order::NotLighter)
            mixInto(at - 1, pour);
        else
            put(at, pour, layer);
    }

    const Bindings::Data& m_data;
    std::vector<FillDoubt>& m_doubts;
    std::vector<Pour> m_pours;
    std::vector<GlassLayer> m_layers;
};

bool isOpen(const Questions& questions, std::size_t line) {
    return line < 63 && ((questions.all.amount >> line) & 1U) != 0;
}

std::optional<physics::IceInGlass> iceIn(const Spec& spec) {
    const auto named = iceOfWords(spec.glass);
    if (!spec.iceInGlassG) return named;
    if (!(*spec.iceInGlassG > 0)) return std::nullopt;
    auto ice = named.value_or(physics::IceInGlass{});
    ice.grams = *spec.iceInGlassG; // weighed: counts before the size of its pieces
    return ice;
}

// Poured over ice that nobody sized: named for the glass, or built in it with ice.
bool hasIceUncounted(const Spec& spec, const Pass& read) {
    if (spec.iceInGlassG) return false;
    return standsOnIce(spec) || (spec.method.technique == Technique::Build && read.dilution > 0);
}

} // namespace

const physics::GlassProfile* glassOf(const Spec& spec) {
    return spec.glassProfile.empty() ? physics::glassProfileFor(spec.glass)
                                     : physics::glassProfile(spec.glassProfile);
}

GlassFilling glassFilling(const Spec& spec, const Bindings& bindings) {
    return glassFilling(spec, bindings, glassOf(spec));
}

GlassFilling glassFilling(const Spec& spec, const Bindings& bindings, const physics::GlassProfile* glass) {
    const Bindings::Data& data = bindings.data();
    std::vector<FillDoubt> doubts;
    const Poured poured = pouredInto(spec, data);
    const Pass& read = poured.read;
    if (read.questions.partsWithoutTarget) {
        auto empty = stand({}, {}, std::nullopt, glass);
        empty.doubts.insert(empty.doubts.begin(), {FillDoubtCode::VolumeUnknown, -1});
        return empty;
    }
    Settling settling(data, doubts);
    for (const Pour& pour : poured.pours)
        settling.pour(pour);
    auto layers = settling.take();

    const bool waterOpen = read.waterBasis == WaterBasis::UnknownIce;
    bool atLeast = waterOpen || read.questions.ranged > 0;
    for (std::size_t i = 0; i < spec.lines.size(); ++i) {
        if (!isOpen(read.questions, i) || spec.lines[i].role == Role::Rinse) continue;
        doubts.push_back({FillDoubtCode::AmountOpen, static_cast<int>(i)});
        atLeast = true;
        const bool apart = spec.lines[i].role == Role::Floated;
        for (GlassLayer& layer : layers)
            layer.atLeast |= !apart && layer.kind == GlassLayerKind::Drink;
    }
    if (waterOpen || read.questions.ranged > 0)
        for (GlassLayer& layer : layers)
            layer.atLeast = true;

    const auto ice = iceIn(spec);
    const bool iceOpen = !ice && !layers.empty() && hasIceUncounted(spec, read);
    if (iceOpen) doubts.push_back({FillDoubtCode::IceNotCounted, -1});
    if (!poured.heads.empty()) {
        const auto& lines = poured.heads.front().lines;
        doubts.push_back({FillDoubtCode::HeadAssumed, lines.empty() ? -1 : static_cast<int>(lines.front())});
    }
    auto filling = stand(std::move(layers), poured.heads, ice, glass);
    filling.atLeast = atLeast;
    // What is not counted could only raise the line.
    const bool raisedUnknown = atLeast || iceOpen;
    if (raisedUnknown && filling.wash != WashLine::Spills) filling.wash = WashLine::Unknown;
    filling.doubts.insert(filling.doubts.begin(), doubts.begin(), doubts.end());
    return filling;
}

namespace {

// A glass whose usual pour leaves it far from full (a snifter, a wine glass, a tumbler without ice).
bool isPouredToTheBrim(const GlassFilling& filling) {
    constexpr double kUsuallyFull = 0.7; // of the brim: no source
    return filling.ice.has_value() || filling.glass.serveHigh.ml() >= kUsuallyFull * filling.brimMl;
}

WashLine washLineOf(const GlassFilling& filling) {
    if (!filling.glassKnown || filling.layers.empty() || !filling.shareOfBrim) return WashLine::Unknown;
    if (filling.overMl > 0.05) return WashLine::Spills;
    if (*filling.shareOfBrim > kWashHigh) return WashLine::High;
    if (*filling.shareOfBrim >= kWashLow) return WashLine::Within;
    // A head that reaches the band stands for the drink.
    const double top = filling.topMm;
    if (top >= filling.washLowMm) return WashLine::Within;
    return isPouredToTheBrim(filling) ? WashLine::Short : WashLine::NotPoured;
}

double meanDensityGPerMl(const std::vector<GlassLayer>& layers) {
    double grams = 0;
    double ml = 0;
    for (const GlassLayer& layer : layers) {
        const double rho = layer.densityKgPerM3.value_or((layer.lowKgPerM3 + layer.highKgPerM3) / 2);
        grams += layer.standsMl * (rho > 0 ? rho / 1000 : 1);
        ml += layer.standsMl;
    }
    return ml > 0 ? grams / ml : 1;
}

void placeHeads(GlassFilling& filling) {
    const auto& glass = filling.glass;
    double at = filling.fillMm;
    for (GlassHead& head : filling.heads) {
        head.fromMm = at;
        const double below = at < filling.brimMm ? glass.volumeTo(at).ml() : filling.brimMl;
        const double inside = std::min(head.volumeMl, filling.brimMl - below);
        if (inside > 0) at = glass.heightOf(Volume::fromMl(below + inside));
        const double rim = glass.radiusAt(filling.brimMm);
        const double area = 3.14159265358979 * rim * rim;
        if (head.volumeMl > inside && area > 0) at += (head.volumeMl - std::max(0.0, inside)) * 1000 / area;
        head.toMm = at;
    }
    filling.topMm = at;
}

} // namespace

GlassFilling stand(std::vector<GlassLayer> layers, std::vector<GlassHead> heads,
                   const std::optional<physics::IceInGlass>& ice, const physics::GlassProfile* glass) {
    GlassFilling filling;
    filling.layers = std::move(layers);
    filling.heads = std::move(heads);
    for (const GlassLayer& layer : filling.layers)
        filling.liquidMl += layer.standsMl;
    filling.glassKnown = glass != nullptr;
    const double iceMl = ice ? ice->grams / physics::kIceGPerMl : 0;
    double headMl = 0;
    for (const GlassHead& head : filling.heads)
        headMl += head.volumeMl;
    filling.glass =
        glass != nullptr ? *glass : physics::standInGlass(Volume::fromMl(filling.liquidMl + iceMl + headMl));
    filling.brimMl = filling.glass.brim().ml();
    filling.brimMm = filling.glass.rimHeightMm();
    filling.washLowMm = filling.glass.heightOf(Volume::fromMl(kWashLow * filling.brimMl));
    filling.washHighMm = filling.glass.heightOf(Volume::fromMl(kWashHigh * filling.brimMl));
    if (glass == nullptr) filling.doubts.push_back({FillDoubtCode::GlassUnknown, -1});

    const physics::IcePile pile(filling.glass, ice.value_or(physics::IceInGlass{}),
                                meanDensityGPerMl(filling.layers));
    const double most = pile.liquidToRim().ml();
    filling.overMl = std::max(0.0, filling.liquidMl - most);
    filling.fillMm = pile.surfaceOf(Volume::fromMl(std::min(filling.liquidMl, most)));
    double below = 0;
    double from = 0;
    for (GlassLayer& layer : filling.layers) {
        below += layer.standsMl;
        layer.fromMm = from;
        const bool last = &layer == &filling.layers.back();
        layer.toMm = last ? filling.fillMm : pile.heightBelow(Volume::fromMl(below), filling.fillMm);
        from = layer.toMm;
    }
    if (ice && ice->grams > 0) {
        filling.ice = GlassIce{*ice,
                               pile.iceVolume().ml(),
                               pile.submerged(filling.fillMm).ml(),
                               pile.floatsAt(filling.fillMm),
                               pile.across(),
                               pile.bottomMm(filling.fillMm)};
        if (glass != nullptr && !pile.passesRim())
            filling.doubts.push_back({FillDoubtCode::IceDoesNotPass, -1});
    }
    if (glass != nullptr && filling.brimMl > 0)
        filling.shareOfBrim = std::min(1.0, filling.glass.volumeTo(filling.fillMm).ml() / filling.brimMl);
    placeHeads(filling);
    constexpr double kSeenMm = 0.5;
    if (glass != nullptr && !filling.heads.empty() && filling.topMm > filling.brimMm + kSeenMm)
        filling.doubts.push_back({FillDoubtCode::HeadOverBrim, -1});
    filling.wash = washLineOf(filling);
    return filling;
}

std::string_view glassLayerKindId(GlassLayerKind kind) {
    switch (kind) {
    case GlassLayerKind::Drink:
        return "drink";
    case GlassLayerKind::Poured:
        return "poured";
    case GlassLayerKind::Float:
        return "float";
    }
    return "";
}

std::string_view glassHeadKindId(GlassHeadKind kind) {
    return kind == GlassHeadKind::Foam ? "foam" : "cream";
}

std::string_view washLineId(WashLine wash) {
    switch (wash) {
    case WashLine::Unknown:
        return "unknown";
    case WashLine::Short:
        return "short";
    case WashLine::Within:
        return "within";
    case WashLine::High:
        return "high";
    case WashLine::Spills:
        return "spills";
    case WashLine::NotPoured:
        return "not_poured";
    }
    return "";
}

std::string_view fillDoubtId(FillDoubtCode code) {
    switch (code) {
    case FillDoubtCode::FloatSinks:
        return "float_sinks";
    case FillDoubtCode::PouredOutOfOrder:
        return "poured_out_of_order";
    case FillDoubtCode::OrderUnknown:
        return "order_unknown";
    case FillDoubtCode::AmountOpen:
        return "amount_open";
    case FillDoubtCode::VolumeUnknown:
        return "volume_unknown";
    case FillDoubtCode::IceNotCounted:
        return "ice_not_counted";
    case FillDoubtCode::IceDoesNotPass:
        return "ice_does_not_pass";
    case FillDoubtCode::HeadAssumed:
        return "head_assumed";
    case FillDoubtCode::HeadOverBrim:
        return "head_over_brim";
    case FillDoubtCode::GlassUnknown:
        return "glass_unknown";
    }
    return "";
}

} // namespace stillroom::spec
