#include "core/spec/glass_pours.h"

#include "core/base/text.h"
#include "core/physics/dilution.h"
#include "core/physics/mixture.h"
#include "core/spec/heat_parts.h"
#include "core/spec/temperature.h"

#include <algorithm>

namespace stillroom::spec {

using physics::Composition;
using physics::Substance;
using quantity::Temperature;

namespace {

// Air beaten in, as the foam's volume over its liquid. Cream whipped stiff comes to twice its volume (so
// textbooks of cookery); the others are common practice, no source.
constexpr double kWhippedCream = 2;
constexpr double kLightlyWhippedCream = 1.5;
constexpr double kPouredFoam = 3;
// Over the volume of the egg white in the drink.
constexpr double kShakenFoam = 1;
constexpr double kDryShakenFoam = 1.5;
constexpr double kDropsFoamMl = 20; // a serve, whatever the drops
constexpr double kWhippingFatGPerL = 180;

class Units : public LineListener {
  public:
    explicit Units(std::size_t lines) : of(lines, 0.0) {}
    void stays(std::size_t line, double units) override {
        if (line < of.size()) of[line] += units;
    }
    std::vector<double> of;
};

using Words = std::vector<std::string>;

bool has(const Words& words, std::string_view word) {
    return std::find(words.begin(), words.end(), word) != words.end();
}

// "layer the cream", "in layers", "over the back of a spoon"; not "a layer of foam".
bool saysLayered(const Words& words) {
    for (std::size_t i = 0; i < words.size(); ++i) {
        if (i > 0 && (words[i - 1] == "not" || words[i - 1] == "never")) continue;
        const bool of = i + 1 < words.size() && words[i + 1] == "of";
        if ((words[i] == "layer" && !of) || words[i] == "layers" || words[i] == "layered" ||
            words[i] == "layering")
            return true;
        if (words[i] == "back" && of && (has(words, "spoon") || has(words, "barspoon"))) return true;
    }
    return false;
}

Words wordsOf(const Line& line, const larder::Ingredient* poured) {
    auto words = base::foldedWords(line.written);
    const auto more = [&words](const std::string& text) {
        for (auto& word : base::foldedWords(text))
            words.push_back(std::move(word));
    };
    more(line.name);
    more(line.note);
    if (poured != nullptr) more(poured->name);
    std::erase_if(words, [](std::string& word) {
        while (!word.empty() && (word.back() == ',' || word.back() == '.' || word.back() == ')'))
            word.pop_back();
        return word.empty();
    });
    return words;
}

bool isCream(const Words& words, const larder::Ingredient* poured) {
    const auto& fat = poured != nullptr ? poured->facts.fatGPerL : std::nullopt;
    if (poured != nullptr && poured->facts.group == "dairy" && fat) return fat->typical >= kWhippingFatGPerL;
    return has(words, "cream") && !has(words, "liqueur") &&
           (poured == nullptr || !poured->facts.abvPercent || poured->facts.abvPercent->typical < 0.5);
}

std::optional<GlassHead> headOf(const Words& words, const Words& method, const larder::Ingredient* poured) {
    GlassHead head;
    if (isCream(words, poured)) {
        const bool whipped = has(words, "whipped") || has(words, "whip") || has(words, "beaten");
        const bool byMethod = (has(method, "whip") || has(method, "whipped")) && has(method, "cream");
        if (!whipped && !byMethod) return std::nullopt;
        const bool lightly = has(words, "lightly") || has(words, "softly") || has(words, "soft") ||
                             has(method, "lightly") || has(method, "softly");
        head.kind = GlassHeadKind::Cream;
        head.volumeMl = lightly ? kLightlyWhippedCream : kWhippedCream;
        return head;
    }
    if (!has(words, "foam") && !has(words, "espuma")) return std::nullopt;
    head.volumeMl = kPouredFoam;
    return head;
}

bool isShakenUp(Technique technique) {
    return technique == Technique::Shake || technique == Technique::Blend || technique == Technique::Whip;
}

bool foamsWhenShaken(const larder::FactState& facts) {
    const auto tagged = [&facts](std::string_view tag) {
        return std::find(facts.tags.begin(), facts.tags.end(), tag) != facts.tags.end();
    };
    return tagged("egg_white") || tagged("aquafaba");
}

double volumeOf(const PouredPart& part, const Bindings::Data& data) {
    Totals totals;
    totals.addScaled(data.lines[part.line].facts->totals[0], part.units);
    return volumeMl(totals);
}

class Pouring {
  public:
    Pouring(const Spec& spec, const Bindings::Data& data)
        : m_spec(spec),
          m_data(data),
          m_units(spec.lines.size()),
          m_method(base::foldedWords(spec.method.text)) {
        m_out.read = pass(spec, data, {}, &m_units);
        const auto trace = traceTemperatures(spec, data, {});
        m_mixedC = trace.stages[1].celsius;
    }

    Poured run() {
        const bool layered = saysLayered(m_method);
        const Technique technique = m_spec.method.technique;
        m_mixedApart = layered && (technique == Technique::None || technique == Technique::Build);
        pourMixed();
        for (std::size_t i = 0; i < m_spec.lines.size(); ++i)
            if (m_spec.lines[i].role == Role::Topped) pourTopped(i, layered);
        for (std::size_t i = 0; i < m_spec.lines.size(); ++i)
            if (m_spec.lines[i].role == Role::Floated && !crown(i)) pourApart(i, GlassLayerKind::Float);
        raiseFoam();
        return std::move(m_out);
    }

  private:
    Words words(std::size_t i) const { return wordsOf(m_spec.lines[i], m_data.lines[i].poured); }

    PouredPart part(std::size_t i) const {
        const double serves = std::max(m_spec.serves, 1);
        const bool mixed = m_spec.lines[i].role == Role::Mixed && !m_mixedApart;
        const double own = lineTemperature(m_spec.lines[i], m_spec.method, m_data.lines[i]).celsius;
        return {i, m_units.of[i] / serves, mixed ? m_mixedC.value_or(own) : own};
    }

    void pourMixed() {
        Pour all;
        double ml = 0;
        for (std::size_t i = 0; i < m_spec.lines.size(); ++i) {
            const Role role = m_spec.lines[i].role;
            if ((role != Role::Mixed && role != Role::Rinse) || !(m_units.of[i] > 0)) continue;
            if (m_mixedApart && role == Role::Mixed) {
                if (!crown(i)) pourApart(i, GlassLayerKind::Poured);
                continue;
            }
            all.parts.push_back(part(i));
        }
        const Pass& read = m_out.read;
        const double waterG =
            physics::waterFromDilution(read.dilution, quantity::Volume::fromMl(read.volumeMl[0])).grams() /
            std::max(m_spec.serves, 1);
        if (!m_mixedApart || m_out.pours.empty()) {
            all.waterG = waterG;
            all.waterC = m_mixedC.value_or(kAssumedRoomC);
            if (!all.isEmpty()) m_out.pours.insert(m_out.pours.begin(), std::move(all));
            return;
        }
        // What stays of a rinse lies under the first; the water of the method is shared by volume.
        m_out.pours.front().add(all);
        for (const Pour& pour : m_out.pours)
            for (const PouredPart& of : pour.parts)
                ml += volumeOf(of, m_data);
        for (Pour& pour : m_out.pours) {
            double own = 0;
            for (const PouredPart& of : pour.parts)
                own += volumeOf(of, m_data);
            if (ml > 0) pour.waterG = waterG * own / ml;
            pour.waterC = pour.parts.front().celsius;
        }
    }

    void pourTopped(std::size_t i, bool layered) {
        if (!(m_units.of[i] > 0)) return;
        if (crown(i)) return;
        const auto* poured = m_data.lines[i].poured;
        const bool fizzy = poured != nullptr && poured->facts.carbonated;
        const bool apart = (layered && !fizzy) || saysLayered(base::foldedWords(m_spec.lines[i].note));
        if (apart || m_out.pours.empty()) {
            pourApart(i, apart ? GlassLayerKind::Poured : GlassLayerKind::Drink);
            return;
        }
        m_out.pours.back().parts.push_back(part(i));
    }

    void pourApart(std::size_t i, GlassLayerKind kind) {
        if (!(m_units.of[i] > 0)) return;
        Pour pour;
        pour.kind = kind;
        pour.parts.push_back(part(i));
        m_out.pours.push_back(std::move(pour));
    }

    // Whether this line stands on top as a head.
    bool crown(std::size_t i) {
        if (!(m_units.of[i] > 0)) return false;
        auto head = headOf(words(i), m_method, m_data.lines[i].poured);
        if (!head) return false;
        head->liquidMl = volumeOf(part(i), m_data);
        head->volumeMl *= head->liquidMl;
        head->lines = {i};
        m_out.heads.push_back(std::move(*head));
        return true;
    }

    // Under any cream: it was in the drink when that was poured.
    void raiseFoam() {
        if (!isShakenUp(m_spec.method.technique)) return;
        GlassHead foam;
        for (std::size_t i = 0; i < m_spec.lines.size(); ++i) {
            const auto* poured = m_data.lines[i].poured;
            if (m_spec.lines[i].role != Role::Mixed || poured == nullptr || !(m_units.of[i] > 0)) continue;
            if (foamsWhenShaken(poured->facts))
                foam.volumeMl +=
                    volumeOf(part(i), m_data) * (m_spec.method.dryShake ? kDryShakenFoam : kShakenFoam);
            else if (poured->handbookId == "foamer_drops")
                foam.volumeMl = std::max(foam.volumeMl, kDropsFoamMl);
            else
                continue;
            foam.lines.push_back(i);
        }
        if (foam.volumeMl > 0) m_out.heads.insert(m_out.heads.begin(), std::move(foam));
    }

    const Spec& m_spec;
    const Bindings::Data& m_data;
    Units m_units;
    Words m_method;
    std::optional<double> m_mixedC;
    bool m_mixedApart = false;
    Poured m_out;
};

// Facts of a line that could move its density: none where the density itself is stated.
std::uint8_t openFacts(const BoundLine& line) {
    if (line.poured != nullptr && line.poured->facts.densityKgPerM3 && !line.facts->dry) return 0;
    return line.facts->unknown;
}

Composition massesOf(const Pour& pour, const Bindings::Data& data, std::uint8_t atLargest) {
    Composition masses;
    for (const PouredPart& part : pour.parts) {
        const BoundLine& line = data.lines[part.line];
        const auto open = static_cast<std::uint8_t>(openFacts(line) & atLargest);
        masses.addScaled(unitComposition(*line.facts, open), part.units);
    }
    masses[Substance::Water] += pour.waterG;
    return masses;
}

double densityOf(const Composition& masses, double celsius) {
    const double grams = masses.totalGrams();
    const auto at = physics::volumeAt(masses, Temperature::fromCelsius(celsius));
    const double ml = at ? at->value.ml() : physics::volumeAt20(masses).ml();
    return ml > 0 ? 1000 * grams / ml : 0;
}

double celsiusOf(const Pour& pour, const Bindings::Data& data) {
    double grams = pour.waterG;
    double sum = pour.waterG * pour.waterC;
    for (const PouredPart& part : pour.parts) {
        const double own = data.lines[part.line].facts->totals[0].massG * part.units;
        grams += own;
        sum += own * part.celsius;
    }
    return grams > 0 ? sum / grams : kAssumedRoomC;
}

} // namespace

void Pour::add(const Pour& other) {
    const double all = waterG + other.waterG;
    if (all > 0) waterC = (waterG * waterC + other.waterG * other.waterC) / all;
    waterG = all;
    parts.insert(parts.end(), other.parts.begin(), other.parts.end());
}

Poured pouredInto(const Spec& spec, const Bindings::Data& data) {
    return Pouring(spec, data).run();
}

GlassLayer layerOf(const Pour& pour, const Bindings::Data& data) {
    constexpr double kTold = 1; // kg/m³: closer than this a density is known
    GlassLayer layer;
    layer.kind = pour.kind;
    layer.celsius = celsiusOf(pour, data);
    for (const PouredPart& part : pour.parts)
        layer.lines.push_back(part.line);
    const Composition plain = massesOf(pour, data, 0);
    layer.volumeMl = physics::volumeAt20(plain).ml();
    const double density = densityOf(plain, layer.celsius);
    if (!(layer.volumeMl > 0) || !(density > 0)) return layer;
    layer.standsMl = 1000 * plain.totalGrams() / density;
    layer.lowKgPerM3 = layer.highKgPerM3 = density;
    for (std::uint8_t open = 1; open <= kAllFacts; ++open) {
        const double other = densityOf(massesOf(pour, data, open), layer.celsius);
        layer.lowKgPerM3 = std::min(layer.lowKgPerM3, other);
        layer.highKgPerM3 = std::max(layer.highKgPerM3, other);
    }
    if (layer.highKgPerM3 - layer.lowKgPerM3 < kTold) layer.densityKgPerM3 = density;
    return layer;
}

} // namespace stillroom::spec
