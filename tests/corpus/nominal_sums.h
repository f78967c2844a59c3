#pragma once

#include "tests/corpus/corpus_files.h"
#include "tests/corpus/line_compare.h"

#include "core/exchange/read_text.h"

#include <optional>
#include <string>

// Plain additive sums of what was read, with the fixed strengths of nominal-constants.json: no contraction,
// ranges at their middle, dry sugar at its dissolved volume. An adapter of the tests; the product computes
// otherwise (core/spec).
namespace stillroom::corpus {

struct Sums {
    double volumeMl = 0;
    double ethanolMl = 0;
    double sugarG = 0;
    double acidG = 0;
    double strengthPercent() const { return volumeMl > 0 ? 100.0 * ethanolMl / volumeMl : 0; }
};

class NominalAdapter {
  public:
    explicit NominalAdapter(const Json& constants) : m_c(constants) {}

    void add(Sums& sums, const exchange::ReadLine& line, const std::string& constant) const {
        const double amount = (low(line.line.poured) + high(line.line.poured)) / 2.0;
        if (const auto grams = sugarGrams(line.unit, constant)) {
            sums.sugarG += amount * *grams;
            sums.volumeMl += amount * *grams * m_c.at("dry_sugar").at("dissolved_ml_per_g").get<double>();
            return;
        }
        std::string fields = constant;
        double ml = 0;
        if (const auto fruit = m_c.at("fruit_juice_ml").find(constant);
            fruit != m_c.at("fruit_juice_ml").end()) {
            ml = amount * fruit->at("ml").get<double>();
            fields = fruit->at("juice").get<std::string>();
        } else if (line.unit == "piece") {
            ml = amount * m_c.at("count_ml").at(constant).get<double>();
        } else {
            ml = amount * m_c.at("unit_ml").at(line.unit).get<double>();
        }
        const Json& facts = m_c.at("ingredients").at(fields);
        sums.volumeMl += ml;
        sums.ethanolMl += ml * facts[0].get<double>() / 100.0;
        sums.sugarG += ml * facts[1].get<double>() / 1000.0;
        sums.acidG += ml * facts[2].get<double>() / 1000.0;
    }

  private:
    std::optional<double> sugarGrams(const std::string& unit, const std::string& constant) const {
        const Json& dry = m_c.at("dry_sugar");
        if (constant != "sugar" && constant != "superfine" && constant != "cube") return std::nullopt;
        if (unit == "g") return 1.0;
        const auto found = dry.find("g_per_" + unit);
        if (found != dry.end()) return found->get<double>();
        return std::nullopt;
    }

    const Json& m_c;
};

} // namespace stillroom::corpus
