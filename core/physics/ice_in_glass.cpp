#include "core/physics/ice_in_glass.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace stillroom::physics {

using quantity::Volume;

namespace {

constexpr double kMm3PerMl = 1000;
constexpr double kMostOfTheFloor = 0.8; // of the area: round glasses, square cubes
constexpr double kLeastLiquidShare = 0.1;
// Ice whose pieces nobody measured: cubes of a usual tray. Common practice, no source.
constexpr double kUsualEdgeMm = 30;

// The narrowest inside from the first widest place up: what the pile has to stand in.
double narrowestRadius(const GlassProfile& glass) {
    if (glass.points.empty()) return 0;
    std::size_t i = 0;
    while (i + 1 < glass.points.size() && glass.points[i + 1].radiusMm >= glass.points[i].radiusMm)
        ++i;
    double narrowest = glass.points[i].radiusMm;
    for (; i < glass.points.size(); ++i)
        narrowest = std::min(narrowest, glass.points[i].radiusMm);
    return narrowest;
}

// Square pieces in a round glass: two lie in a circle of sqrt(5) edges across, four of sqrt(8).
int sideBySide(double edgeMm, double radiusMm) {
    const double across = 2 * radiusMm / edgeMm;
    if (across < std::sqrt(5.0)) return 1;
    if (across < std::sqrt(8.0)) return 2;
    const double byArea = kMostOfTheFloor * std::numbers::pi * across * across / 4;
    return std::max(4, static_cast<int>(byArea));
}

} // namespace

IcePile::IcePile(const GlassProfile& glass, const IceInGlass& ice, double liquidGPerMl)
    : m_glass(&glass),
      m_ice(ice),
      m_liquidGPerMl(liquidGPerMl > 0 ? liquidGPerMl : 1) {
    if (!(m_ice.grams > 0)) {
        m_ice.grams = 0;
        return;
    }
    const double edge = m_ice.edgeMm > 0 ? m_ice.edgeMm : kUsualEdgeMm;
    const double radius = narrowestRadius(glass);
    const double floor = kMostOfTheFloor * std::numbers::pi * radius * radius;
    m_across = std::clamp(sideBySide(edge, radius), 1, std::max(1, m_ice.count));
    // As tall as its pieces upon each other; their volume over that height is what it stands on.
    const int rows = (std::max(1, m_ice.count) + m_across - 1) / m_across;
    const double pileMm = rows * edge;
    const double volume = iceVolume().ml() * kMm3PerMl;
    m_areaMm2 = std::min(volume / pileMm, floor);
    if (m_areaMm2 > 0) m_draughtMm = afloat().ml() * kMm3PerMl / m_areaMm2;
}

Volume IcePile::iceVolume() const {
    return Volume::fromMl(m_ice.grams / kIceGPerMl);
}

Volume IcePile::afloat() const {
    // Liquid lighter than ice lets it sink: then all of it is under.
    return std::min(iceDisplacement(m_ice.grams, m_liquidGPerMl), iceVolume());
}

Volume IcePile::submerged(double heightMm) const {
    if (!(heightMm > 0) || m_areaMm2 <= 0) return {};
    const double under = m_areaMm2 * std::min(heightMm, m_draughtMm) / kMm3PerMl;
    return Volume::fromMl(std::min(under, (1 - kLeastLiquidShare) * m_glass->volumeTo(heightMm).ml()));
}

bool IcePile::floatsAt(double heightMm) const {
    return heightMm >= m_draughtMm;
}

bool IcePile::passesRim() const {
    if (m_ice.edgeMm <= 0 || m_glass->points.empty()) return true;
    const double across = m_ice.sphere ? m_ice.edgeMm : m_ice.edgeMm * std::numbers::sqrt2;
    return across <= 2 * m_glass->points.back().radiusMm;
}

Volume IcePile::liquidToRim() const {
    return m_glass->brim() - submerged(m_glass->rimHeightMm());
}

double IcePile::surfaceOf(Volume liquid) const {
    if (m_ice.grams <= 0) return m_glass->heightOf(liquid);
    double low = 0;
    double high = m_glass->rimHeightMm();
    if (liquidToRim().ml() <= liquid.ml()) return high;
    if (!(liquid.ml() > 0)) return 0;
    // Liquid and ice under the surface fill the glass up to there; halving finds it.
    for (int i = 0; i < 60; ++i) {
        const double middle = (low + high) / 2;
        const double fits = m_glass->volumeTo(middle).ml() - submerged(middle).ml();
        (fits < liquid.ml() ? low : high) = middle;
    }
    return (low + high) / 2;
}

double IcePile::bottomMm(double surfaceMm) const {
    // Down to where the glass has room for it beside a little liquid.
    const double under = submerged(surfaceMm).ml() / (1 - kLeastLiquidShare);
    const double room = m_glass->heightOf(Volume::fromMl(m_glass->volumeTo(surfaceMm).ml() - under));
    return std::max(0.0, std::min(surfaceMm - m_draughtMm, room));
}

double IcePile::heightBelow(Volume liquid, double surfaceMm) const {
    const double all = m_glass->volumeTo(surfaceMm).ml();
    const double below = m_glass->volumeTo(bottomMm(surfaceMm)).ml();
    // Beside the ice the liquid has its share of the glass, the same at every height.
    const double share = all > below ? 1 - submerged(surfaceMm).ml() / (all - below) : 1;
    const double beside = std::max(0.0, liquid.ml() - below);
    const double reached = beside > 0 && share > 0 ? below + beside / share : std::min(liquid.ml(), below);
    return std::min(m_glass->heightOf(Volume::fromMl(reached)), surfaceMm);
}

GlassProfile standInGlass(Volume contents) {
    constexpr double kRadiusMm = 35;
    const double holds = std::max(150.0, contents.ml() * 1.2);
    GlassProfile cylinder;
    cylinder.points = {{0, kRadiusMm},
                       {holds * kMm3PerMl / (std::numbers::pi * kRadiusMm * kRadiusMm), kRadiusMm}};
    return cylinder;
}

} // namespace stillroom::physics
