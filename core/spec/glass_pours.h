#pragma once

#include "core/spec/glass_filling.h"
#include "core/spec/scenario.h"

#include <vector>

// What a spec pours into one glass, in the order of pouring, before it comes to rest. For glass_filling.
namespace stillroom::spec {

struct PouredPart {
    std::size_t line = 0;
    double units = 0; // of its facts, one serve
    double celsius = 20;
};

struct Pour {
    GlassLayerKind kind = GlassLayerKind::Drink;
    std::vector<PouredPart> parts;
    double waterG = 0; // of the method
    double waterC = 0;

    bool isEmpty() const { return parts.empty() && !(waterG > 0); }
    void add(const Pour& other); // mixed in
};

struct Poured {
    Pass read;
    std::vector<Pour> pours;
    std::vector<GlassHead> heads;
};

Poured pouredInto(const Spec& spec, const Bindings::Data& data);
// Volume, temperature and density of a pour; no heights yet.
GlassLayer layerOf(const Pour& pour, const Bindings::Data& data);

} // namespace stillroom::spec
