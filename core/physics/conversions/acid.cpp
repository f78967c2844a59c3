#include "core/physics/acid_ph.h"
#include "core/physics/conversions/conversion_kit.h"
#include "core/physics/facts_to_masses.h"
#include "core/physics/mixture.h"
#include "core/physics/titratable_acid.h"

#include <array>

// Acids: how sour by weight, and their pH.
namespace stillroom::physics {

namespace {

struct NamedAcid {
    std::string_view key;
    std::string_view label;
    Substance substance;
};
constexpr std::array<NamedAcid, 8> kAcids{{{"citric", "Citric acid, anhydrous", Substance::Citric},
                                           {"malic", "Malic acid", Substance::Malic},
                                           {"tartaric", "Tartaric acid", Substance::Tartaric},
                                           {"lactic", "Lactic acid", Substance::Lactic},
                                           {"acetic", "Acetic acid", Substance::Acetic},
                                           {"phosphoric", "Phosphoric acid", Substance::Phosphoric},
                                           {"ascorbic", "Ascorbic acid", Substance::Ascorbic},
                                           {"succinic", "Succinic acid", Substance::Succinic}}};

Outcome acidPh(const GivenValues& given) {
    LiquidFacts facts;
    for (const NamedAcid& acid : kAcids)
        facts.gramsPerLitre[acid.substance] = given[acid.key];
    facts.gramsPerLitre[Substance::Sucrose] = given["sugar"];
    const auto masses = massesPerMl(facts);
    if (!masses || !(masses->perMl[Substance::Water] > 0))
        return impossible("sugar", "Acids and sugar leave no room for water in one litre.");
    const Composition& mixture = masses->perMl;
    if (const auto never = neverASolution(mixture, "sugar", "citric")) return tl::unexpected(*never);
    const auto ph = pH(mixture, given["alkali"]);
    if (!ph) return impossible("alkali", "So much alkali is more than the acids hold.");
    Answer answer;
    answer.put("ph", ph->value, ph->estimate);
    answer.put("as_citric", titratableAcidAsCitric(mixture).grams() / volumeAt20(mixture).litres());
    answer.remark(undissolvedRemark(mixture));
    if (given["alkali"] == 0) answer.remark("A juice is buffered and reads higher; measure it.");
    return answer;
}

Outcome sameSour(const GivenValues& given) {
    double citric = 0;
    for (const NamedAcid& acid : kAcids)
        if (given.has(acid.key)) citric = given[acid.key] / gramsPerGramCitric(acid.substance);
    Answer answer;
    for (const NamedAcid& acid : kAcids)
        answer.put(acid.key, citric * gramsPerGramCitric(acid.substance),
                   acid.substance == Substance::Phosphoric);
    return answer;
}

Outcome acidStock(const GivenValues& given) {
    PlainLiquid juice;
    juice.acidGPerL = given["juice_acid"];
    const auto juicePerMl = perMl(juice);
    if (!juicePerMl) return impossible("juice_acid", "So much acid does not fit into one litre.");
    Composition stock = times(*juicePerMl, given["juice"]);
    stock[Substance::Water] += given["water"] * waterGPerMl();
    stock[Substance::Citric] += given["citric"];
    stock[Substance::Malic] += given["malic"];
    const double ml = volumeAt20(stock).ml();
    const double poured = given["water"] + given["juice"];
    if (!(poured > 0)) return impossible("water", "Give some water or juice to dissolve the acid in.");
    // Malic acid dissolves no better than citric, and no table of it was found: both are held to that of
    // citric.
    Composition asCitric = stock;
    asCitric[Substance::Citric] += asCitric[Substance::Malic];
    asCitric[Substance::Malic] = 0;
    if (const auto never = neverASolution(asCitric, "citric", given["citric"] > 0 ? "citric" : "malic"))
        return tl::unexpected(*never);
    const double acid = stock[Substance::Citric] + stock[Substance::Malic];
    Answer answer;
    answer.put("as_citric", titratableAcidAsCitric(stock).grams() / ml * 100);
    answer.put("over_liquids", acid / poured * 100).put("total", ml);
    answer.remark(undissolvedRemark(asCitric));
    return answer;
}

} // namespace

std::vector<Conversion> acidConversions() {
    using N = InputNeed;
    std::vector<ConversionInput> perLitre;
    std::vector<ConversionInput> weights;
    std::vector<ConversionOutput> weightsOut;
    for (const NamedAcid& acid : kAcids) {
        perLitre.push_back({acid.key, acid.label, "g/l", N::Optional, 0, 300, false, 0});
        weights.push_back({acid.key, acid.label, "g", N::OneOf, 0, 1e6});
        weightsOut.push_back({acid.key, acid.label, "g", 2});
    }
    perLitre.push_back({"sugar", "Sugar", "g/l", N::Optional, 0, 1000, false, 0});
    perLitre.push_back({"alkali", "Buffering alkali", "mol/l", N::Optional, 0, 5, false, 0});
    return {
        {"acid_ph",
         "pH of acids in water, and as citric acid",
         perLitre,
         {{"ph", "pH at 25 °C", "", 2}, {"as_citric", "Titratable acid, as citric", "g/l", 2}},
         "Charge balance with pKa of Principles of General Chemistry and the aqion table; malic second "
         "constant "
         "and ascorbic from memory",
         "An estimate but for pure acid in water up to 0.2 mol/l: juices are buffered (0.02 to 0.04 mol/l of "
         "alkali in lemon and lime), measure. Alcohol is not counted.",
         acidPh},
        {"acid_swap", "Weights of acids that are equally sour by titration", weights, weightsOut,
         "Equivalent weights from standard atomic weights",
         "To pH 8.2: phosphoric gives two of its three protons, which is an estimate. They do not taste "
         "alike.",
         sameSour},
        {"acid_stock",
         "Acidity of acid, water and juice stirred together",
         {{"water", "Water", "ml", N::Required, 0, kMostMl},
          {"citric", "Citric acid", "g", N::Required, 0, 1e6},
          {"malic", "Malic acid", "g", N::Optional, 0, 1e6, false, 0},
          {"juice", "Juice", "ml", N::Optional, 0, kMostMl, false, 0},
          {"juice_acid", "Acid of the juice, as citric", "g/l", N::Optional, 0, 300, false, 60}},
         {{"as_citric", "Acid as citric, in the finished volume", "g/100 ml", 2},
          {"over_liquids", "Acid over the liquids poured, all kinds added", "g/100 ml", 2},
          {"total", "Makes", "ml", 0}},
         "Titratable acid by equivalent weights; volume of citric acid after the CRC Handbook, 102nd ed.",
         "A juice counts as its acid in water. 6 % is the trade's figure for lime; measured juice holds "
         "less.",
         acidStock},
    };
}

} // namespace stillroom::physics
