#pragma once

#include "core/physics/glass_profile.h"

namespace stillroom::physics {

inline constexpr double kIceGPerMl = 0.917; // at 0 °C, CRC Handbook, from memory

// Equal pieces of ice. `edgeMm` is the edge of a cube or the width of a sphere.
struct IceInGlass {
    double grams = 0; // of all pieces
    double edgeMm = 0;
    int count = 1;
    bool sphere = false;
    friend bool operator==(const IceInGlass&, const IceInGlass&) = default;
};

// The ice of a glass as a column: pieces side by side as far as there is room, the rest upon them. It
// floats with its own mass of liquid displaced, or stands on the floor where the liquid is too shallow.
class IcePile {
  public:
    IcePile(const GlassProfile& glass, const IceInGlass& ice, double liquidGPerMl);

    quantity::Volume iceVolume() const;
    quantity::Volume afloat() const; // what it displaces when it floats: its mass of liquid
    // Under a surface at this height. Never more than nine tenths of what the glass holds to there, so that
    // a drop of liquid always has somewhere to go: in the narrow bottom of a stemmed glass ice stands higher.
    quantity::Volume submerged(double heightMm) const;
    bool floatsAt(double heightMm) const;
    bool passesRim() const; // a single piece
    // Where the surface of this much liquid stands with the ice in it; the rim when it does not fit.
    double surfaceOf(quantity::Volume liquid) const;
    // How high this much of the liquid stands, from the bottom up, under a surface at `surfaceMm`: where one
    // layer ends. The ice hangs from the surface and takes no room below itself.
    double heightBelow(quantity::Volume liquid, double surfaceMm) const;
    double bottomMm(double surfaceMm) const; // of the ice
    // The liquid it takes to reach the rim.
    quantity::Volume liquidToRim() const;

    int across() const { return m_across; } // pieces side by side
    double draughtMm() const { return m_draughtMm; }

  private:
    const GlassProfile* m_glass;
    IceInGlass m_ice;
    double m_liquidGPerMl;
    double m_areaMm2 = 0;
    double m_draughtMm = 0; // how deep the pile hangs when it floats
    int m_across = 1;
};

// The glass drawn when nobody named one that is known: a plain cylinder of 70 mm across that holds this and
// a fifth more. A stand-in: nothing of it may be told as a share or a spill.
GlassProfile standInGlass(quantity::Volume contents);

} // namespace stillroom::physics
