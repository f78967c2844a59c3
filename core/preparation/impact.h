#pragma once

#include "core/larder/larder.h"
#include "core/spec/caution.h"
#include "core/spec/evaluate.h"

#include <array>
#include <atomic>
#include <optional>
#include <string>
#include <vector>

// What an edit of the larder does to drinks, before it is accepted.
namespace stillroom::preparation {

// One larder and the rules it is read with.
struct Side {
    larder::Larder larder;
    spec::HouseRules rules;
};

struct ImpactSubject {
    const spec::Spec* spec = nullptr;       // the caller's; nullptr: it could not be read
    const spec::Readings* stored = nullptr; // of a kept revision: stands for what it read before
};

// The readings that are compared, as served and per serve.
inline constexpr std::array<spec::Quantity, 4> kCompared{spec::Quantity::Strength, spec::Quantity::Sugar,
                                                         spec::Quantity::Acid, spec::Quantity::Cost};

struct Impact {
    std::size_t subject = 0;           // index
    spec::StageReadings before, after; // as served
    // Of the compared readings, relative to the larger of both; 1 where one side is known and the other not.
    double size = 0;
    // Of the EU list. `unknown…`: how many of its lines state nothing of their allergens.
    std::vector<std::string> allergensGained, allergensLost;
    int unknownAllergensBefore = 0, unknownAllergensAfter = 0;
};

struct Impacts {
    std::vector<Impact> changed;   // allergens gained or lost first, then the largest change
    std::size_t tooSmallToSee = 0; // a reading moves by less than half its last shown digit, or a bound alone
    std::size_t unchanged = 0;     // every compared reading as before
    std::size_t untouched = 0;     // names nothing that differs
    std::size_t unread = 0;
    bool complete = true; // false: cancelled; the counts are of what was read until then
};

// Ingredients poured differently by the two larders: other facts, packs, yield, bottle or lot.
std::vector<base::IngredientId> differing(const larder::Larder& before, const larder::Larder& after);

// Reads every subject on both sides, on as many threads as there are cores. Both larders must have their
// preparations worked out (recompute.h). `cancel` may be set from another thread.
Impacts impact(const Side& before, const Side& after, const std::vector<ImpactSubject>& subjects,
               const std::atomic<bool>* cancel = nullptr);

// Cautions cost a hundred times what a reading does: asked of the few drinks somebody looks at.
struct CautionChange {
    std::vector<spec::Caution> gained, lost;
};
CautionChange cautionChange(const Side& before, const Side& after, const spec::Spec& spec);

// Many specs from their canonical JSON at once, on as many threads as there are cores, in their order.
std::vector<std::optional<spec::Spec>> readSpecs(const std::vector<std::string>& texts,
                                                 const std::atomic<bool>* cancel = nullptr);

} // namespace stillroom::preparation
